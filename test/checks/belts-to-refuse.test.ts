import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { CheckHeader } from '../../sheets/belts/check-columns.ts';
import { recordFindings } from '../../src/checks/findings.ts';
import { type Verdict, verdictOf } from '../../src/functions/checks.ts';
import { convertedBook } from '../../src/workbook/conversion.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { bookOf, type Cells, plover, soundBelt } from '../workbook/books.ts';

/**
 * Belts made to be refused for one thing that their record says, each with a twin that passes, and what must never make
 * a verdict better.
 */

interface Refused {
  readonly check: CheckHeader;
  readonly verdict: Verdict;
  readonly refused: Cells;
  readonly twin: Cells;
}

const power = { Power: 22 };
const skived = { Thickness: 10, 'Carcass thickness': null, Construction: 'EP 400/3 4+2', 'Top cover': null };

const trials: readonly Refused[] = [
  {
    check: 'Belt tension check',
    verdict: 'fails',
    refused: { 'Known tension': 30, 'Belt rating': 25 },
    twin: { 'Known tension': 30, 'Belt rating': 35 },
  },
  {
    check: 'Belt tension check',
    verdict: 'fails',
    refused: { 'Known tension': 30, 'Belt rating': null, Construction: 'EP 250/2 4+2' },
    twin: { 'Known tension': 24, 'Belt rating': null, Construction: 'EP 400/3 4+2' },
  },
  {
    check: 'Belt tension check',
    verdict: 'not known',
    refused: { 'Known tension': 20, 'Belt rating': null, Construction: null },
    twin: { 'Known tension': 20 },
  },
  {
    check: 'Tension check',
    verdict: 'fails',
    // 340 N/mm over 8 is 42.5, over 10 it would pass as 34.
    refused: { Power: null, 'Belt rating': null, Construction: 'EP 315/3 4+2' },
    twin: { Power: null, 'Belt rating': null, Construction: 'EP 250/3 4+2' },
  },
  {
    check: 'Larger tension check',
    verdict: 'tight',
    refused: { 'Known tension': 5, Power: 90 },
    twin: { 'Known tension': 5, Power: 22 },
  },
  {
    check: 'Load per plate check',
    verdict: 'tight',
    refused: { Skew: 0, 'Known tension': 33 },
    twin: { Skew: 0, 'Known tension': 24 },
  },
  {
    check: 'Skive check',
    verdict: 'fails',
    refused: { ...skived, 'Skive depth': 4.5 },
    twin: { ...skived, 'Skive depth': 2 },
  },
  {
    check: 'Skive check',
    verdict: 'fails',
    refused: { 'Skive depth': 2, 'Top cover': 1.5 },
    twin: { 'Skive depth': 2 },
  },
  {
    check: 'Skive check',
    verdict: 'not known',
    refused: { 'Skive depth': 2, 'Top cover': null, Construction: null },
    twin: { 'Skive depth': 2 },
  },
  {
    check: 'Cover left check',
    verdict: 'tight',
    refused: { ...skived, 'Skive depth': 3.5 },
    twin: { ...skived, 'Skive depth': 1 },
  },
  { check: 'Top cover check', verdict: 'tight', refused: { 'Top cover': 2 }, twin: { 'Top cover': 3.6 } },
  {
    check: 'Carcass thickness check',
    verdict: 'tight',
    refused: { Thickness: 7.5, 'Carcass thickness': null },
    twin: { Thickness: 9.8, 'Carcass thickness': null },
  },
  {
    check: 'Carcass check',
    verdict: 'fails',
    // Worn: thickness less covers would be a carcass of 1.5 mm, that goes round 200 mm.
    refused: { Thickness: 7.5, 'Carcass thickness': null, 'Smallest pulley': 250, 'Belt rating': 30 },
    twin: { Thickness: 7.5, 'Carcass thickness': null, 'Smallest pulley': 500, 'Belt rating': 30 },
  },
  {
    check: 'Steel cord check',
    verdict: 'tight',
    refused: { Construction: 'St 1000 4+2', 'Carcass thickness': null },
    twin: {},
  },
];

const bookWith = (changes: readonly Cells[]): Workbook =>
  new Workbook(
    bookOf({
      belts: changes.map((changed, index) => ({ ...soundBelt, ...power, ...changed, Belt: `B${index}` })),
      series: [plover],
    }),
  );

const inBoth = (book: Workbook): readonly Workbook[] => [book, new Workbook(convertedBook(book.state, 'us').state)];

describe('belts made to be refused', () => {
  test.each(trials)('$check: $verdict, and its twin passes', ({ check, verdict, refused, twin }) => {
    for (const book of inBoth(bookWith([refused, twin]))) {
      expect(book.read('Belts', 0, check), book.state.units).toBe(verdict);
      expect(['not known', 'fails', 'tight']).toContain(book.read('Belts', 0, 'Verdict'));
      expect(verdictOf(book.read('Belts', 1, check)), book.state.units).toBe('fits');
    }
  });
});

const fromBest: readonly Verdict[] = ['fits', 'tight', 'not known', 'fails'];
const rank = (book: Workbook, record: number, header: CheckHeader | 'Verdict'): number =>
  fromBest.indexOf(verdictOf(book.read('Belts', record, header)));

function ordered(least: number, most: number, way: 'falls' | 'rises'): fc.Arbitrary<readonly [number, number]> {
  return fc
    .tuple(fc.integer({ min: least, max: most }), fc.integer({ min: least, max: most }))
    .map(([one, other]) =>
      way === 'rises' ? [Math.min(one, other), Math.max(one, other)] : [Math.max(one, other), Math.min(one, other)],
    );
}

/** A change for the worse of one input, which never makes the verdict better. */
const worse: readonly { readonly input: string; readonly from: fc.Arbitrary<readonly [number, number]> }[] = [
  { input: 'Take-up travel', from: ordered(200, 3000, 'falls') },
  { input: 'Smallest pulley', from: ordered(150, 900, 'falls') },
  { input: 'Known tension', from: ordered(2, 60, 'rises') },
];

describe('what is worse never makes a verdict better', () => {
  test.each(worse)('$input', ({ input, from }) => {
    fc.assert(
      fc.property(
        from,
        fc.constantFrom(0, 17, 30, 45),
        fc.constantFrom(0, 1, 2, 3, 5),
        fc.constantFrom(null, 10, 40, 90),
        ([better, bad], skew, skive, motor) => {
          // An entered tension nearer to a larger one of another way is in less doubt: alone it only gets worse.
          const other = input === 'Known tension' ? null : motor;
          const common: Cells = { Skew: skew, 'Skive depth': skive, Power: other, 'Known tension': 20 };
          const book = bookWith([
            { ...common, [input]: better },
            { ...common, [input]: bad },
          ]);
          expect(rank(book, 1, 'Verdict')).toBeGreaterThanOrEqual(rank(book, 0, 'Verdict'));
        },
      ),
      { numRuns: 60 },
    );
  });
});

test.each([
  { input: 'Skive depth', values: [0, 1, 2, 3, 3.5, 4, 5], checks: ['Skive check', 'Cover left check'] },
  { input: 'Top cover', values: [6, 4, 3, 2.5, 2, 1], checks: ['Skive check', 'Cover left check'] },
] as const)('$input from good to bad: no verdict of its checks gets better', ({ input, values, checks }) => {
  const book = bookWith(values.map((value) => ({ 'Skive depth': 2, [input]: value })));
  for (const check of checks) {
    const ranks = values.map((_, record) => rank(book, record, check));
    expect(ranks).toEqual(ranks.toSorted((one, other) => one - other));
    expect(ranks.at(-1)).toBeGreaterThan(ranks[0] ?? 0);
  }
});

test('a limit that is met but for the last digit is told as met', () => {
  const book = new Workbook(
    bookOf({
      belts: [{ ...soundBelt, Skew: 30, 'Smallest pulley': 175 }],
      series: [{ ...plover, 'Minimum pulley square': 200, 'Minimum pulley at 45': null }],
    }),
  );
  const message = recordFindings(book, 0).find(({ check }) => check === 'pulley')?.message;
  expect(message).toContain('with no margin');
  expect(message).not.toMatch(/e-\d/);
});
