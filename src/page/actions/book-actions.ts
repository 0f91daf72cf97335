import { capital } from '../../units/phrases.ts';
import { demoBook } from '../../workbook/demo.ts';
import { demoCounts } from '../../workbook/demo-records.ts';
import { emptyBook } from '../../workbook/declared.ts';
import { reviewedToday } from '../../workbook/lent-sheets.ts';
import type { BookState } from '../../workbook/state.ts';
import type { UnitSystem } from '../../units/quantities.ts';
import type { UnitReview } from '../../workbook/conversion.ts';
import { changeAll } from '../book-changes.ts';
import type { Desk } from '../desk.ts';
import { habitEdit } from '../habit-setting.ts';
import { type Action, actionList } from './action.ts';

const systemName: Readonly<Record<UnitSystem, string>> = { metric: 'metric', us: 'US customary' };

/** Opens a book beside those that the browser keeps; where it keeps none, in the open one's place. */
function openBook(desk: Desk, state: BookState, label: string): void {
  if (desk.library !== undefined) {
    desk.close();
    void desk.library.create(state);
    return;
  }
  desk.book.replace(state, label);
  desk.goTo({ sheet: state.sheets[0]?.name ?? '', record: 0, column: 0 });
  desk.say('Undo brings the previous book back.');
}

const openDemo = <Units extends UnitSystem>(units: Units): Action<`demo-${Units}`> => ({
  id: `demo-${units}`,
  group: 'Book',
  name: `Open the demo, ${systemName[units]}`,
  doc: 'Tern Quay, an invented terminal with 36 belts; every name and price in it is invented',
  run: (desk) => openBook(desk, demoBook(units), 'open the demo'),
});

const turnUnits = <Units extends UnitSystem>(units: Units): Action<`units-${Units}`> => ({
  id: `units-${units}`,
  group: 'Book',
  name: `${capital(systemName[units])} units`,
  doc: 'converts every measure in the book; formulas stay, and those with fixed numbers are listed for review',
  chosen: ({ book }) => book.units === units,
  possible: ({ book }) => book.units !== units,
  run(desk) {
    let review: readonly UnitReview[] = [];
    const convert = (): void => void (review = desk.book.convert(units));
    changeAll(desk, `${systemName[units]} units`, convert, () => {
      if (review.length > 0) desk.open({ kind: 'review', review, units: systemName[units] });
      else desk.say(`The book is now in ${systemName[units]} units. Undo restores it exactly.`);
    });
  },
});

export const bookActions = actionList([
  {
    id: 'new-book',
    group: 'Book',
    name: 'New empty book',
    doc: 'all sheets without records, with the default assumptions; the open book stays in Books',
    run: (desk) => openBook(desk, reviewedToday(emptyBook(desk.book.units)), 'new book'),
  },
  openDemo('metric'),
  openDemo('us'),
  {
    id: 'rename-book',
    group: 'Book',
    name: 'Rename book …',
    doc: 'the title above the grid and in exported files',
    run: (desk) =>
      desk.open({
        kind: 'ask',
        title: 'Rename book',
        label: 'Name',
        initial: desk.book.state.title,
        answer(title) {
          const named = { ...desk.book.state, title: title.trim() };
          changeAll(desk, 'rename book', () => desk.book.replace(named, 'rename book'));
          return undefined;
        },
      }),
  },
  {
    id: 'own-figures',
    group: 'Book',
    name: 'These figures are my own',
    doc: 'takes the mark of invented figures off a book in which nothing of the demo is left',
    possible: ({ book }) => book.state.invented && demoCounts(book.state).length === 0,
    run(desk) {
      const { book } = desk;
      const own = { ...book.state, invented: false };
      changeAll(desk, 'figures are my own', () => book.replace(own, 'figures are my own'));
    },
  },
  turnUnits('metric'),
  turnUnits('us'),
  {
    id: 'typing-habits',
    group: 'Book',
    name: 'How numbers and dates are typed',
    doc: 'goes to the settings of the decimal mark and of the order of day and month, in Assumptions',
    run: (desk) => {
      const { sheet, record, column } = habitEdit(desk.book, 'decimal', '');
      desk.goTo({ sheet, record, column });
    },
  },
]);
