import { expect, test } from 'vitest';
import { cardActions } from '../../src/page/actions/card-actions.ts';
import { Desk } from '../../src/page/desk.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** The rows of Belts that an action is about, without a browser. */

test('a blank row among the selected ones is no belt: it has no job card', () => {
  const desk = new Desk(new Workbook(demoBook('metric')));
  const said = (): unknown => {
    const [card] = cardActions;
    return typeof card?.name === 'function' ? card.name(desk) : card?.name;
  };
  const select = (records: readonly number[]): void =>
    desk.select({ place: { sheet: 'Belts', record: records[0] ?? 0, column: 0 }, records, columns: [0] });
  select([2, 3, 4]);
  expect(said()).toBe('Job cards of 3 belts …');
  desk.book.edit(desk.book.columns('Belts').map((_, column) => ({ sheet: 'Belts', record: 3, column, content: null })));
  expect(said()).toBe('Job cards of 2 belts …');
});
