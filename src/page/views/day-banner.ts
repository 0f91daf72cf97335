import { html, nothing, type TemplateResult } from 'lit-html';
import type { Desk } from '../desk.ts';
import { changeAll } from '../book-changes.ts';
import { countToToday } from '../later-opening.ts';

/** The line that says to which day a book counts, when it is opened on another than before. */

const mostNamed = 8;

export function dayBanner(desk: Desk): TemplateResult | typeof nothing {
  const { dayNote } = desk;
  if (dayNote === undefined) return nothing;
  const { text, belts, set } = dayNote;
  const away = (): void => {
    desk.dayNote = undefined;
    desk.changed();
  };
  const count = (): void => changeAll(desk, 'count to today', () => countToToday(desk.book), away);
  return html`<div class="day-banner" role="region" aria-label="Day that ages count to">
    <span>${text} ${belts
      .slice(0, mostNamed)
      .map(
        ({ name, record }) =>
          html`<button class="link" @click=${() => desk.goTo({ sheet: 'Belts', record, column: 0 })}>${name}</button> `,
      )}${belts.length > mostNamed ? `and ${belts.length - mostNamed} more` : ''}</span>
    <span class="gap"></span>
    ${set ? html`<button class="small" @click=${count}>Count to today</button>` : nothing}
    <button class="small" aria-label="Dismiss this line" @click=${away}>✕</button>
  </div>`;
}
