import { afterEach, expect, test } from 'vitest';
import type { Content } from '../../src/formula/values.ts';
import { emptyBook } from '../../src/workbook/declared.ts';
import { withRoom } from '../../src/workbook/state-changes.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** A formula that stands in every record of a column is a column's, and records that are added have it, too. */

const opened: Workbook[] = [];
afterEach(() => {
  for (const book of opened.splice(0)) book.destroy();
});

/** Belts of these widths, with a column of the user's own in which `formula` stands for each of them. */
function belts(widths: readonly number[], formula: (row: number) => Content): { book: Workbook; own: number } {
  const book = new Workbook(emptyBook('metric'));
  opened.push(book);
  book.addColumn('Belts', 'Half', 'number');
  const [own, width] = [book.columns('Belts').length - 1, book.column('Belts', 'Width')];
  book.addRecords(
    'Belts',
    0,
    widths.map((content, record) => {
      const cells = Array.from({ length: own + 1 }, (): Content => null);
      [cells[width], cells[own]] = [content, formula(record + 2)];
      return cells;
    }),
  );
  return { book, own };
}
const contents = ({ book, own }: { book: Workbook; own: number }): Content[] =>
  book.sheet('Belts').rows.map(({ cells }) => cells[own] ?? null);

test('a record at the end, in between and at the start', () => {
  const made = belts([600, 800], (row) => `=D${row}/2`);
  made.book.addRecords('Belts', 2);
  expect(contents(made)).toEqual(['=D2/2', '=D3/2', '=D4/2']);
  made.book.addRecords('Belts', 1, [[], []]);
  expect(contents(made)).toEqual(['=D2/2', '=D3/2', '=D4/2', '=D5/2', '=D6/2']);
  made.book.addRecords('Belts', 0);
  expect(contents(made)).toEqual(['=D2/2', '=D3/2', '=D4/2', '=D5/2', '=D6/2', '=D7/2']);
  expect(made.book.value({ sheet: 'Belts', record: 1, column: made.own })).toBe(300);
});

test('what stays where it is, ranges that grow, and one step to undo', () => {
  const made = belts([600, 800], (row) => `=D${row}/SUM(D$2:D$3)`);
  made.book.addRecords('Belts', 2);
  expect(contents(made)).toEqual(['=D2/SUM(D$2:D$4)', '=D3/SUM(D$2:D$4)', '=D4/SUM(D$2:D$4)']);
  made.book.undo();
  expect(contents(made)).toEqual(['=D2/SUM(D$2:D$3)', '=D3/SUM(D$2:D$3)']);
});

test('a block that is pasted below the last record', () => {
  const made = belts([600, 800], (row) => `=D${row}/2`);
  const place = { sheet: 'Belts', record: 3, column: made.book.column('Belts', 'Width') };
  made.book.replace(withRoom(made.book.state, [place]), 'paste');
  expect(contents(made)).toEqual(['=D2/2', '=D3/2', '=D4/2', '=D5/2']);
});

test('a column whose formulas differ, or that has but one, stays the user’s cell by cell', () => {
  const mixed = belts([600, 800, 1000], (row) => (row === 3 ? 5 : `=D${row}/2`));
  mixed.book.addRecords('Belts', 3);
  expect(contents(mixed).at(-1)).toBeNull();
  const one = belts([600], (row) => `=D${row}/2`);
  one.book.addRecords('Belts', 1);
  expect(contents(one)).toEqual(['=D2/2', null]);
});

test('a record that comes with a content of its own keeps it', () => {
  const made = belts([600, 800], (row) => `=D${row}/2`);
  const cells = Array.from({ length: made.own + 1 }, (): Content => null);
  cells[made.own] = 7;
  made.book.addRecords('Belts', 2, [cells]);
  expect(contents(made)).toEqual(['=D2/2', '=D3/2', 7]);
});
