import { expect, test } from 'vitest';
import { belts } from '../../sheets/belts/index.ts';
import { pulleys } from '../../sheets/series/pulleys.ts';
import { Comparing } from '../../src/page/comparing.ts';
import { Desk } from '../../src/page/desk.ts';
import { freeName, keepVariant } from '../../src/page/keeping-variant.ts';
import { variantDifferences } from '../../src/what-if/variant-differences.ts';
import { variantBook, variantNamed } from '../../src/what-if/variants.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { columnNamed } from '../../src/workbook/declared.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** Variants from a file that was compared with the book, without a browser. */

test('what is taken of a file becomes a variant that is the file, and the base may change under it', () => {
  const book = new Workbook(demoBook('metric'));
  const theirs = new Workbook(demoBook('metric'));
  const at = (sheet: string, header: string): number => columnNamed(book.sheet(sheet), header) ?? -1;
  const diameter = at(pulleys.name, 'Diameter');
  theirs.edit([
    { sheet: belts.name, record: 2, column: at(belts.name, 'Skew'), content: 30 },
    { sheet: belts.name, record: 4, column: at(belts.name, 'Plate series'), content: 'Plover' },
    { sheet: belts.name, record: 5, column: at(belts.name, 'Skive depth'), content: '=1+1' },
    { sheet: pulleys.name, record: 0, column: diameter, content: 555 },
  ]);
  theirs.removeRecords(belts.name, 7, 1);
  const comparing = new Comparing(book.state, { state: theirs.state });
  const { edits, others } = comparing.changes(book);
  expect(edits).toHaveLength(3);
  // The formula; the belt that the file lacks is not taken unless somebody says so.
  expect(others).toBe(1);
  const desk = new Desk(book);
  const name = freeName(book, 'as in other.xlsx');
  expect(keepVariant(desk, name, edits)).toBeUndefined();
  expect(freeName(book, 'as in other.xlsx')).toBe('as in other.xlsx (2)');
  expect(book.read(belts.name, 2, 'Skew')).toBe(45);
  const made = variantBook(book, variantNamed(book, name));
  expect(made.read(belts.name, 2, 'Skew')).toBe(30);
  expect(made.read(belts.name, 4, 'Plate series')).toBe('Plover');
  expect(made.value({ sheet: pulleys.name, record: 0, column: diameter })).toBe(555);
  // Another width below it: the variant has that too, and still its own skew.
  book.edit([{ sheet: belts.name, record: 2, column: at(belts.name, 'Width'), content: 1200 }]);
  const [difference] = variantDifferences(book, variantNamed(book, name), [2]).belts;
  expect(difference?.columns.find(({ header }) => header === 'Cut length')).toMatchObject({
    before: book.read(belts.name, 2, 'Cut length'),
  });
  expect(Number(difference?.columns.find(({ header }) => header === 'Cut length')?.after)).toBeCloseTo(
    1200 / Math.cos(Math.PI / 6),
    6,
  );
});
