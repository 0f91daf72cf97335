import { expect, test } from 'vitest';
import { act } from '../../src/page/actions/action.ts';
import { actions } from '../../src/page/actions/index.ts';
import { cardActions } from '../../src/page/actions/card-actions.ts';
import { Desk } from '../../src/page/desk.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** The rows and columns that an action is about, without a browser. */

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

const run = (desk: Desk, id: string): void => {
  const action = actions.find((one) => one.id === id);
  if (action !== undefined) act(action, desk);
};

test('selected rows that others stand between, as in a filtered sheet, go and come back in one step', () => {
  const desk = new Desk(new Workbook(demoBook('metric')));
  const names = (): unknown[] => desk.book.sheet('Belts').rows.map(({ cells }) => cells[0]);
  const before = names();
  desk.select({ place: { sheet: 'Belts', record: 1, column: 0 }, records: [7, 1, 4, 5], columns: [0] });
  run(desk, 'remove-rows');
  expect(names()).toEqual(before.filter((_, record) => ![1, 4, 5, 7].includes(record)));
  desk.book.undo();
  expect(names()).toEqual(before);
});

test('all selected columns of a free sheet go, and come back in one step', () => {
  const desk = new Desk(new Workbook(demoBook('metric')));
  desk.book.addSheet('Free', 6, 3);
  desk.book.edit([1, 2, 3, 4].map((column) => ({ sheet: 'Free', record: 0, column, content: column })));
  desk.show('Free');
  desk.select({ place: { sheet: 'Free', record: 0, column: 3 }, records: [0], columns: [1, 2, 3] });
  run(desk, 'remove-column');
  const row = (): unknown => desk.book.sheet('Free').rows[0]?.cells;
  expect(row()).toEqual([null, 4, null]);
  desk.book.undo();
  expect(row()).toEqual([null, 1, 2, 3, 4, null]);
});
