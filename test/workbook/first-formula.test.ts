import { expect, test } from 'vitest';
import { Workbook } from '../../src/workbook/workbook.ts';
import { bookOf, letters, soundBelt } from './books.ts';

/** A book without users' formulas needs no engine: the first formula finds all that was entered before it. */

const width = `Belts!${letters('Width')}`;
const cut = `Belts!${letters('Cut length')}`;

/** Two belts, edited and moved in every way that an engine would have been told of. */
function worked(): Workbook {
  const book = new Workbook(bookOf({ belts: [soundBelt, { ...soundBelt, Belt: 'K2' }] }));
  book.addSheet('Free', 3, 4);
  book.edit([{ sheet: 'Free', record: 1, column: 1, content: 7 }]);
  book.edit([{ sheet: 'Belts', record: 1, column: book.column('Belts', 'Width'), content: 900 }]);
  book.addRecords('Belts', 1, [[]]);
  book.edit([{ sheet: 'Belts', record: 0, column: book.column('Belts', 'Width'), content: 1100 }]);
  book.edit([{ sheet: 'Assumptions', record: 0, column: 1, content: 0.07 }]);
  return book;
}

test('a formula that is asked for', () => {
  const book = worked();
  expect(book.shown({ sheet: 'Free', record: 1, column: 1 })).toBe(7);
  expect(book.evaluate(`=${cut}2`)).toBe(book.read('Belts', 0, 'Cut length'));
  expect(book.evaluate(`=SUM(${width}2:${letters('Width')}9)`)).toBe(2000);
  expect(book.evaluate('=TightMargin+Free!B3')).toBe(7.07);
  book.edit([{ sheet: 'Belts', record: 0, column: book.column('Belts', 'Width'), content: 1200 }]);
  expect(book.evaluate(`=${cut}2`)).toBe(book.read('Belts', 0, 'Cut length'));
  expect(book.evaluate(`=${width}2`)).toBe(1200);
});

test('a formula that is typed, and taken away again', () => {
  const book = worked();
  const place = { sheet: 'Free', record: 0, column: 0 };
  book.edit([{ ...place, content: `=${cut}2+SUM(${width}2:${letters('Width')}9)+TightMargin+B3` }]);
  const wanted = (): number =>
    Number(book.read('Belts', 0, 'Cut length')) +
    Number(book.read('Belts', 0, 'Width')) +
    900 +
    Number(book.named('TightMargin')) +
    7;
  expect(book.shown(place)).toBe(wanted());
  book.edit([{ sheet: 'Belts', record: 0, column: book.column('Belts', 'Width'), content: 1300 }]);
  expect(book.shown(place)).toBe(wanted());
  book.edit([{ ...place, content: null }]);
  book.edit([{ sheet: 'Belts', record: 0, column: book.column('Belts', 'Width'), content: 1000 }]);
  expect(book.shown(place)).toBeNull();
  book.undo();
  book.undo();
  expect(book.shown(place)).toBe(wanted());
});
