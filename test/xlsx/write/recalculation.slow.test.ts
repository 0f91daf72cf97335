import fc from 'fast-check';
import { unzipSync, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import type { Content } from '../../../src/formula/values.ts';
import { functions } from '../../../src/functions/index.ts';
import { isWords, type UnitSystem } from '../../../src/units/quantities.ts';
import type { BookState } from '../../../src/workbook/state.ts';
import { demoBook } from '../../../src/workbook/demo.ts';
import { Workbook } from '../../../src/workbook/workbook.ts';
import type { RawBook } from '../../../src/xlsx/read/raw-book.ts';
import { readBook } from '../../../src/xlsx/read/read.ts';
import { exportedBook } from '../../../src/xlsx/write/write.ts';
import { readAboutSheet } from '../../../src/xlsx/import/earlier-export.ts';
import { bookOf, type Cells, extremes, inputsOf, type Parts, randomParts, soundBelt } from '../../workbook/books.ts';

import { fullBook, stamp } from './exported-book.ts';
import { recalculated } from '../libreoffice.ts';
import { cellAt, type Comparison, type Shown, differences, near, shown } from './recalculated-values.ts';

/**
 * Another spreadsheet program works the exported file out again and must come to the book's own values, cell by cell.
 */

const minutes = 4 * 60_000;

async function compared(state: BookState): Promise<Comparison & { readonly file: RawBook }> {
  const book = new Workbook(state);
  const { bytes } = await exportedBook(book, [], { stamp });
  const file = await recalculated(bytes);
  return { ...differences(book, file), file };
}

/** The bytes of a file whose results are all wrong, and how many cells of Belts that spoils. */
function spoilt(bytes: Uint8Array): { readonly bytes: Uint8Array; readonly cells: number } {
  const parts = unzipSync(bytes);
  const sheet = new TextDecoder().decode(parts['xl/worksheets/sheet1.xml']);
  let cells = 0;
  const wrong = sheet
    .replace(
      /(<c(?: r="[A-Z]+\d+")?(?: s="\d+")?><f[^>]*>[^<]*<\/f>)<v>[^<]*<\/v>/g,
      (_, cell: string) => `${cell}<v>${(cells += 1) && 999}</v>`,
    )
    .replace(
      /(<c(?: r="[A-Z]+\d+")?(?: s="\d+")? t="str"><f[^>]*>[^<]*<\/f>)<v>[^<]*<\/v>/g,
      (_, cell: string) => `${cell}<v>${(cells += 1) && 'WRONG'}</v>`,
    );
  return { bytes: zipSync({ ...parts, 'xl/worksheets/sheet1.xml': new TextEncoder().encode(wrong) }), cells };
}

/** The demo's file with wrong results, which shows that the other program does compute. */
async function comparedSpoilt(units: UnitSystem): Promise<Comparison & { readonly file: RawBook }> {
  const book = new Workbook(demoBook(units));
  const wrong = spoilt((await exportedBook(book, [], { stamp })).bytes);
  expect(wrong.cells).toBeGreaterThan(36 * 25);
  expect(differences(book, readBook(wrong.bytes)).differing.length).toBeGreaterThan(36 * 25);
  const file = await recalculated(wrong.bytes);
  return { ...differences(book, file), file };
}

type Compared = Awaited<ReturnType<typeof comparedSpoilt>>;
const demos = new Map<UnitSystem, Promise<Compared>>();

/** The demo's file, worked out once for the tests that look at it. */
function demo(units: UnitSystem): Promise<Compared> {
  const made = demos.get(units) ?? comparedSpoilt(units);
  demos.set(units, made);
  return made;
}

/**
 * Contents that programs take for different things have no place in a comparison: a truth is a number to the other
 * program, an empty text an empty cell.
 */
const plainly = (content: Content): Content =>
  typeof content === 'boolean' || content === '=TRUE()' || content === '=1=1' || content === '' ? null : content;
const untrue = (cells: Cells): Cells =>
  Object.fromEntries(Object.entries(cells).map(([header, content]) => [header, plainly(content)]));

/** Inputs of a belt that hold one of some words. */
const wordInputs = inputsOf('Belts').flatMap(({ header, choices, several }) =>
  choices === undefined || 'sheet' in choices || several === true ? [] : [{ header, choices }],
);

/** A sample's cells with its own belts' names, so that each belt has the pulleys that were made for it. */
const ofSample = (cells: Cells, sample: number): Cells => {
  const name = cells['Belt'];
  return typeof name === 'string' && /^b\d$/i.test(name) ? { ...cells, Belt: `${name}-${sample}` } : cells;
};

/** A sound belt for each of its figures and each number past all measure in its place. */
const extremeBelts = (): Cells[] =>
  inputsOf('Belts')
    .filter(({ kind }) => !isWords(kind))
    .flatMap(({ header }) =>
      [...extremes, -1e300].map((number): Cells => ({
        ...soundBelt,
        Capacity: 300,
        Belt: `${header} ${number}`,
        [header]: number,
      })),
    );

/** Two figures or two verdicts that cannot both be right. An error and an unknown contradict nothing. */
const contradict = (one: Shown, other: Shown): boolean =>
  typeof one === 'number'
    ? typeof other === 'number' || (typeof other === 'string' && !other.startsWith('#'))
    : ['fits', 'tight', 'fails'].includes(String(one)) && ['fits', 'tight', 'fails'].includes(String(other));

/**
 * Many random belts with their pulleys, with blanks, texts, negative numbers, errors and formulas in any input, over
 * the same few series.
 */
function randomFleet(
  seed: number,
  oddities: { readonly belts: number; readonly series: number; readonly named: number },
  books: number,
): Parts {
  const samples = fc.sample(randomParts({ ...oddities, extremes: false }, 40), { seed, numRuns: books });
  const [first] = samples;
  if (first === undefined) throw new Error('no sample');
  return {
    belts: samples.flatMap(({ belts }, sample) => belts.map((cells) => ofSample(untrue(cells), sample))),
    pulleys: samples.flatMap(({ pulleys = [] }, sample) => pulleys.map((cells) => ofSample(untrue(cells), sample))),
    series: (first.series ?? []).map(untrue),
    strips: (first.strips ?? []).map(untrue),
    named: untrue(first.named ?? {}),
  };
}

describe('a file worked out again by another program', () => {
  test.each(['metric', 'us'] as const)(
    'gives every value of the demo fleet where all results in the file are wrong, %s',
    async (units) => {
      const { compared: count, differing } = await demo(units);
      expect(differing).toEqual([]);
      expect(count).toBeGreaterThan(36 * 60);
    },
    minutes,
  );

  test.each(['metric', 'us'] as const)(
    "gives every value of a book with overrides, own columns, users' formulas and free sheets, %s",
    async (units) => {
      const { differing, file } = await compared(fullBook(units));
      expect(differing).toEqual([]);
      expect(readAboutSheet(file)?.overrides.length).toBe(2);
    },
    minutes,
  );

  test.each([
    ['metric', 11, { belts: 12, series: 5, named: 0 }],
    ['us', 12, { belts: 6, series: 2, named: 4 }],
  ] as const)(
    'gives every value of a random fleet, and an error wherever there is one: %s, seed %i',
    async (units, seed, oddities) => {
      const { compared: count, differing } = await compared(bookOf(randomFleet(seed, oddities, 14), units));
      expect(differing).toEqual([]);
      expect(count).toBeGreaterThan(3_000);
    },
    minutes,
  );

  // Squares of such numbers overflow, or come to nothing, which the other program reports as an error; where it adds
  // them otherwise than we do, either of the two may lose them first.
  test(
    'of numbers past all measure either shows an error, or both the same: they never contradict each other',
    async () => {
      const belts = extremeBelts();
      const { compared: count, pairs } = await compared(bookOf({ belts }));
      expect(belts.length).toBeGreaterThan(90);
      expect(
        pairs.flatMap(([ours, theirs, told]) => (contradict(ours, theirs) || contradict(theirs, ours) ? [told] : [])),
      ).toEqual([]);
      expect(pairs.length).toBeLessThan(count / 100);
    },
    minutes,
  );

  test(
    'gives every value when rows share their formulas',
    async () => {
      // Among them one of each word that a table is looked up by, and some that lack an input or hold a wrong one.
      const words = wordInputs.flatMap(({ header, choices }) => choices.map((word): Cells => ({ [header]: word })));
      const lacks: readonly Cells[] = [
        { Width: null },
        { Lift: 'abc' },
        { Skew: 61 },
        { Starting: 'softly' },
        { Service: null },
      ];
      const belts = Array.from({ length: 150 }, (_, index): Cells => {
        const own = { Belt: `B${index}`, Width: 500 + index };
        if (index % 3 > 0) return { ...own, Skew: 30 };
        const at = index / 3;
        return {
          ...soundBelt,
          ...own,
          ...words[at],
          ...lacks[at - words.length],
          ...(index === 120 ? { Plates: 7 } : {}),
        };
      });
      const book = new Workbook(bookOf({ belts }));
      const { bytes } = await exportedBook(book, [], { stamp });
      const part = new TextDecoder().decode(unzipSync(bytes)['xl/worksheets/sheet1.xml']);
      expect(part.match(/<f t="shared" ref=/g)?.length).toBeGreaterThan(30);
      expect(part.match(/<f t="shared" si="\d+"\/>/g)?.length).toBeGreaterThan(30 * 120);
      const worked = await recalculated(bytes);
      expect(differences(book, worked).differing).toEqual([]);
      expect(differences(book, readBook(bytes)).differing).toEqual([]);
      const headings = worked.sheets.find(({ name }) => name === 'Belts')?.rows.get(1) ?? [];
      const told = (record: number, heading: string): Shown =>
        shown(
          cellAt(worked, 'Belts', record + 2, headings.find(({ value }) => value === heading)?.column ?? Number.NaN),
        );
      expect(words.length + lacks.length).toBeLessThan(50);
      words.forEach((_, index) => expect([index, told(index * 3, 'Inputs complete')]).toEqual([index, 'yes']));
      expect(lacks.map((_, index) => told((words.length + index) * 3, 'What is missing'))).toEqual([
        'Width (mm) is empty',
        'not allowed: Lift (m)',
        'not allowed: Skew (°)',
        'not allowed: Starting',
        'Service is empty',
      ]);
    },
    minutes,
  );

  test(
    "gives the value of every function's example",
    async () => {
      const { file } = await demo('metric');
      functions.forEach(({ name, example: [formula, value] }, index) => {
        const first = typeof value === 'object' ? value[0]?.[0] : value;
        expect(cellAt(file, 'Functions', index + 2, 1)?.value).toBe(name);
        const theirs = shown(cellAt(file, 'Functions', index + 2, 10));
        expect(
          near(first, theirs) || theirs === null,
          `${formula}: ${String(first)} here, ${String(theirs)} there`,
        ).toBe(true);
      });
      const answered = functions.filter((_, index) => shown(cellAt(file, 'Functions', index + 2, 10)) !== null).length;
      expect(answered).toBeGreaterThan(functions.length * 0.85);
    },
    minutes,
  );
});
