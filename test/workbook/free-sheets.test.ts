import { afterEach, expect, test } from 'vitest';
import { emptyBook } from '../../src/workbook/declared.ts';
import {
  canMoveSheet,
  copyName,
  sheetNameRefusal,
  withSheetCopied,
  withSheetMoved,
  withSheetRenamed,
} from '../../src/workbook/free-sheets.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** Sheets of the user's own, renamed, copied and moved. */

const opened: Workbook[] = [];
afterEach(() => {
  for (const book of opened.splice(0)) book.destroy();
});

function twoSheets(): Workbook {
  const book = new Workbook(emptyBook('metric'));
  opened.push(book);
  book.addSheet('One', 3, 3);
  book.addSheet('Two', 3, 3);
  book.edit([
    { sheet: 'One', record: 0, column: 0, content: 5, format: { kind: 'money', digits: 2 } },
    { sheet: 'One', record: 1, column: 0, content: '=A2*2' },
    { sheet: 'Two', record: 0, column: 0, content: '=One!A3+SUM(One!A2:A3)&"One!A2"' },
  ]);
  return book;
}
const shown = (book: Workbook, sheet: string, record: number): unknown => book.value({ sheet, record, column: 0 });

test('formulas follow a sheet that is renamed, texts do not', () => {
  const book = twoSheets();
  book.replace(withSheetRenamed(book.state, 'One', "Crew's plan".replace("'", '')), 'rename');
  expect(book.content({ sheet: 'Two', record: 0, column: 0 })).toBe(
    `='Crews plan'!A3+SUM('Crews plan'!A2:A3)&"One!A2"`,
  );
  expect(shown(book, 'Two', 0)).toBe('25One!A2');
});

test('a copy looks at its own cells, and keeps their formats', () => {
  const book = twoSheets();
  const name = copyName(book.state, 'One');
  book.replace(withSheetCopied(book.state, 'One', name), 'copy');
  book.edit([{ sheet: name, record: 0, column: 0, content: 7 }]);
  expect([shown(book, name, 1), shown(book, 'One', 1)]).toEqual([14, 10]);
  expect(book.sheet(name).rows[0]?.formats).toEqual({ 0: { kind: 'money', digits: 2 } });
  expect(book.state.sheets.map((sheet) => sheet.name).slice(-3)).toEqual(['One', 'One (2)', 'Two']);
});

test('a sheet moves among the user’s own alone', () => {
  const book = twoSheets();
  expect(canMoveSheet(book.state, 'One', -1)).toBe(false);
  book.replace(withSheetMoved(book.state, 'Two', -1), 'move');
  expect(book.state.sheets.map((sheet) => sheet.name).slice(-2)).toEqual(['Two', 'One']);
  expect(shown(book, 'Two', 0)).toBe('25One!A2');
});

test.each([
  ['', 'needs a name'],
  ['belts', 'already'],
  ['a/b', 'cannot hold'],
  ['x'.repeat(32), 'at most 31'],
])('"%s" is no name for a sheet', (name, why) => expect(sheetNameRefusal(twoSheets().state, name)).toContain(why));

test('columns put in keep formats and formulas with their cells', () => {
  const book = twoSheets();
  book.addColumn('One', 'New', 'number', 0);
  expect(book.sheet('One').rows[0]?.formats).toEqual({ 1: { kind: 'money', digits: 2 } });
  expect(book.content({ sheet: 'One', record: 1, column: 1 })).toBe('=B2*2');
  book.removeColumn('One', 0);
  expect(book.sheet('One').rows[0]?.formats).toEqual({ 0: { kind: 'money', digits: 2 } });
});
