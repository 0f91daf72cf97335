import { afterEach, expect, test } from 'vitest';
import { emptyBook } from '../../src/workbook/declared.ts';
import {
  nameRefusal,
  namesSheet,
  type OwnName,
  ownNameAt,
  usesOfName,
  withOwnName,
  withoutOwnName,
} from '../../src/workbook/own-names.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** Named values of the user's own: in formulas, in other units, by another name. */

const opened: Workbook[] = [];
afterEach(() => {
  for (const book of opened.splice(0)) book.destroy();
});

const gap: OwnName = {
  name: 'EdgeGap',
  value: 25.4,
  unit: 'mm',
  meaning: 'room at the edge',
  source: 'our own drawing',
};

function bookWith(own: OwnName): { book: Workbook; record: number } {
  const book = new Workbook(withOwnName(emptyBook('metric'), own));
  opened.push(book);
  book.addSheet('Mine', 3, 3);
  book.edit([{ sheet: 'Mine', record: 0, column: 0, content: `=${own.name}*2+StripPieces` }]);
  return { book, record: book.sheet(namesSheet).rows.length - 1 };
}
const shown = (book: Workbook): unknown => book.value({ sheet: 'Mine', record: 0, column: 0 });

test('a formula calls it, and follows its value and its name', () => {
  const { book, record } = bookWith(gap);
  expect(shown(book)).toBeCloseTo(53.8, 12);
  book.replace(withOwnName(book.state, { ...gap, name: 'SideRoom', value: 10 }, record), 'change');
  expect(book.content({ sheet: 'Mine', record: 0, column: 0 })).toBe('=SideRoom*2+StripPieces');
  expect(shown(book)).toBe(23);
  expect(usesOfName(book.state, 'sideroom')).toBe(1);
});

test('a name within a text or another name stays when one is renamed', () => {
  const { book, record } = bookWith(gap);
  book.edit([{ sheet: 'Mine', record: 1, column: 0, content: '="EdgeGap"&EdgeGap&LEN("x")' }]);
  book.replace(withOwnName(book.state, { ...gap, name: 'Side' }, record), 'change');
  expect(book.content({ sheet: 'Mine', record: 1, column: 0 })).toBe('="EdgeGap"&Side&LEN("x")');
});

test('its number and its unit turn with the book, and a unit of the user’s own stays', () => {
  const { book, record } = bookWith(gap);
  expect(book.kind({ sheet: namesSheet, record, column: 1 })).toBe('length');
  book.convert('us');
  expect(ownNameAt(book.state, namesSheet, record)).toMatchObject({ value: 1, unit: 'in' });
  book.convert('metric');
  expect(ownNameAt(book.state, namesSheet, record)).toEqual(gap);
  const bar = bookWith({ ...gap, unit: 'bar' });
  bar.book.convert('us');
  expect(ownNameAt(bar.book.state, namesSheet, bar.record)).toMatchObject({ value: 25.4, unit: 'bar' });
});

test('it can be taken away, but what the program declares is nobody’s own', () => {
  const { book, record } = bookWith(gap);
  expect(ownNameAt(book.state, namesSheet, 0)).toBeUndefined();
  book.replace(withoutOwnName(book.state, record), 'remove');
  expect(String(shown(book))).toContain('#NAME?');
  book.undo();
  expect(shown(book)).toBeCloseTo(53.8, 12);
});

test.each([
  ['', 'needs a name'],
  ['AB12', 'cannot call'],
  ['two words', 'cannot call'],
  ['TightMargin', 'already'],
  ['edgegap', 'already'],
])('"%s" is refused', (name, why) => {
  const { book } = bookWith(gap);
  expect(nameRefusal(book.state, name)).toContain(why);
  expect(nameRefusal(book.state, 'EdgeGap', 'EdgeGap')).toBeUndefined();
});
