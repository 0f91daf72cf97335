import { writtenBook } from './write/written-book.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { BookState } from '../../src/workbook/state.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { emptyBook } from '../../src/workbook/declared.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { randomBooks } from '../workbook/books.ts';
import { everythingBook } from '../workbook/everything-book.ts';
import { readBack, roundTripDifferences, told, withContents } from './file-and-back.ts';
import { fullBook, stamp } from './write/exported-book.ts';
import { resaved } from './libreoffice.ts';

/** A book written to a file and read back is the book that it was. */

/** The other program saves 15 digits of a number. */
const rounded = (state: BookState): BookState =>
  withContents(told(state), (content) => (typeof content === 'number' ? Number(content.toPrecision(14)) : content));

const written = (state: BookState): Promise<Uint8Array> => writtenBook(new Workbook(state), [], { stamp });

describe('a book written and read back is the same', () => {
  test.each(['metric', 'us'] as const)(
    'with overrides, remarks, own columns, free sheets and every sort of formula, %s',
    async (units) => {
      const state = fullBook(units);
      expect(readBack(await written(state))).toEqual(told(state));
    },
    60_000,
  );

  test('the demo', async () => {
    const state = demoBook('us');
    expect(readBack(await written(state))).toEqual(told(state));
  }, 60_000);

  test('an empty one', async () => {
    const state = { ...emptyBook('us'), title: 'Nothing yet' };
    expect(readBack(await written(state))).toEqual(told(state));
  }, 60_000);

  test('whatever stands in its cells', async () => {
    await fc.assert(
      fc.asyncProperty(randomBooks({ belts: 20, series: 10, named: 4 }), async (state) => {
        expect(readBack(await written(state))).toEqual(told(state));
      }),
      { numRuns: 8, endOnFailure: true },
    );
  }, 240_000);

  test('whatever a book holds', async () => {
    const wrong: string[] = [];
    for (let number = 0; number < 8; number += 1)
      for (const difference of await roundTripDifferences(everythingBook(number)))
        wrong.push(`book ${number}, ${difference}`);
    expect(wrong).toEqual([]);
  }, 240_000);

  test.each([
    ['an override beside values of a column that has no formula in files', 20_261_353],
    ['a word that every object has as a name', 20_262_538],
    ['a formula in the last row that fills the one below', 20_261_184],
  ])(
    '%s',
    async (_, number) => {
      expect(await roundTripDifferences(everythingBook(number))).toEqual([]);
    },
    60_000,
  );

  test('a formula in the last cell of a sheet that fills cells beside and below it', async () => {
    const state = emptyBook('metric');
    const sheets = [
      ...state.sheets,
      {
        name: 'Own',
        userColumns: [{ header: 'One', kind: 'text' as const }],
        rows: [{ cells: ['first'] }, { cells: ['=SEQUENCE(2,3)'] }],
      },
    ];
    expect(await roundTripDifferences({ ...state, sheets })).toEqual([]);
  }, 60_000);

  test('and a second time gives the same file', async () => {
    const first = await written(fullBook('metric'));
    expect(Buffer.compare(await written(readBack(first)), first)).toBe(0);
  }, 60_000);

  test('after another program has saved it, the demo', async () => {
    const state = demoBook('metric');
    expect(rounded(readBack(await resaved(await written(state))))).toEqual(rounded(state));
  }, 240_000);
});
