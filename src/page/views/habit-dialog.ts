import { html, type TemplateResult } from 'lit-html';
import { readDate } from '../../units/dates.ts';
import { readNumber } from '../../units/numbers.ts';
import { dateText, numberText } from '../cell-text.ts';
import type { Desk, Dialog } from '../desk.ts';
import { enter } from '../editing.ts';
import { habitEdit } from '../habit-setting.ts';
import { dialog } from './dialog.ts';

/** Asks once how the book's people write numbers or dates, where a typed text may mean two things. */

type Asked = Extract<Dialog, { readonly kind: 'habit' }>;

interface Answer {
  readonly word: string;
  readonly says: string;
}

const number = (text: string, decimal: 'point' | 'comma'): string => {
  const value = readNumber(/[-+\d][\d.,'’ ]*/u.exec(text)?.[0].trim() ?? '', { decimal });
  return typeof value === 'number' ? numberText(value, undefined, true) : text;
};

const day = (text: string, order: 'day first' | 'month first'): string => {
  const read = readDate(text, order);
  return 'serial' in read ? dateText(read.serial) : text;
};

function answers({ asks, meant: [first] }: Asked): readonly Answer[] {
  const text = first?.text ?? '';
  return asks === 'decimal'
    ? [
        { word: 'point', says: `${number(text, 'point')} (decimal point)` },
        { word: 'comma', says: `${number(text, 'comma')} (decimal comma)` },
      ]
    : [
        { word: 'day first', says: `${day(text, 'day first')} (day first)` },
        { word: 'month first', says: `${day(text, 'month first')} (month first)` },
      ];
}

export function habitDialog(desk: Desk, asked: Asked): TemplateResult {
  const { asks, meant } = asked;
  const text = meant[0]?.text ?? '';
  const choose = (word: string): void => {
    desk.close();
    // The setting and what was typed are two steps: taking back the second leaves the book's habit.
    desk.book.edit([habitEdit(desk.book, asks, word)], asks === 'decimal' ? 'set decimal mark' : 'set date order');
    enter(desk, meant);
  };
  return dialog(
    desk,
    `What is ${text} ?`,
    'ask-dialog own-dialog',
    html`
    <div class="dialog-body">
      <p>${
        asks === 'decimal'
          ? 'The point or comma in it may mark decimals or part thousands.'
          : 'Its first figure may be the day or the month.'
      } The answer holds for this book; change it in Assumptions, ${asks === 'decimal' ? 'DecimalMark' : 'DateOrder'}.
      ${meant.length > 1 ? `${meant.length} cells wait for it.` : ''}</p>
      <div class="dialog-foot">${answers(asked).map(
        ({ word, says }, at) =>
          html`<button class="button" ?autofocus=${at === 0} @click=${() => choose(word)}>${says}</button>`,
      )}<button class="button" @click=${() => desk.close()}>Keep as text</button></div>
    </div>
  `,
  );
}
