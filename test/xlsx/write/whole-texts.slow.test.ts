import { expect, test } from 'vitest';
import { Workbook } from '../../../src/workbook/workbook.ts';
import { readBook } from '../../../src/xlsx/read/read.ts';
import { bookOf, columnOf, soundBelt } from '../../workbook/books.ts';
import { writtenBook } from './written-book.ts';

test('characters of two halves come back whole, wherever in the file they are', async () => {
  const texts = ['', 'a', 'ab', 'abc'].map((start) => `${start}${'\u{1F6E0}'.repeat(16_000)}`);
  const book = new Workbook(bookOf({ belts: texts.map((Area, at) => ({ ...soundBelt, Belt: `B${at}`, Area })) }));
  const sheet = readBook(await writtenBook(book, [])).sheets[0];
  const column = columnOf(book, 'Belts', 'Area') + 1;
  const back = texts.map((_, at) => sheet?.rows.get(at + 2)?.find((cell) => cell.column === column)?.value);
  expect(back.map((text) => String(text).includes('\uFFFD'))).toEqual(texts.map(() => false));
  expect(back.every((text, at) => text === texts[at])).toBe(true);
});
