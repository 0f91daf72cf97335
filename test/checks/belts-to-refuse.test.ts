import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { BeltHeader } from '../../sheets/index.ts';
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
  /** What the series says besides, for both. */
  readonly series?: Cells;
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
  // Square renews square: 41 of plate, two trims of 100, 423 of stretch.
  {
    check: 'Take-up check',
    verdict: 'fails',
    refused: { Skew: 0, Replaces: 'square joint', 'Take-up travel': 0 },
    twin: { Skew: 0, Replaces: 'square joint', 'Take-up travel': 750 },
  },
  {
    check: 'Take-up check',
    verdict: 'fails',
    refused: { Replaces: 'square joint', 'Take-up travel': 1400 },
    twin: { Replaces: 'same skew', 'Take-up travel': 900 },
  },
  {
    check: 'Take-up check',
    verdict: 'fails',
    // Between parallel cuts at 45: 300 over cos 45, and the stretch.
    refused: { Replaces: 'same skew', 'Cut-out': 300, 'Take-up travel': 840 },
    twin: { Replaces: 'same skew', 'Cut-out': 300, 'Take-up travel': 900 },
  },
  {
    check: 'Take-up check',
    verdict: 'fails',
    refused: { Replaces: 'other skew', Skew: 0, 'Take-up travel': 1400 },
    twin: { Replaces: 'other skew', 'Replaced skew': 10, Skew: 0, 'Take-up travel': 1400 },
  },
  {
    check: 'Take-up check',
    verdict: 'fails',
    refused: { Replaces: 'new belt', 'Take-up travel': 4200 },
    twin: { Replaces: 'new belt', 'Take-up travel': 4500 },
  },
  {
    check: 'Take-up check',
    verdict: 'fails',
    refused: { 'Take-up travel': 600 },
    twin: { 'Take-up travel': 600, Insert: 3 },
  },
  {
    check: 'Pulley check',
    verdict: 'fails',
    // 315 - 180 sin(44)^2 is 228.1: the rating at 45 counts beside it.
    refused: { Skew: 44, 'Smallest pulley': 225 },
    twin: { Skew: 46, 'Smallest pulley': 240 },
  },
  {
    check: 'Tension check',
    verdict: 'fails',
    // 30 kW at 2.5 m/s on 800 mm are 15 N/mm, and the slack side; at start-up direct on line 2.5 times that.
    refused: { Power: 30, 'Known tension': null, Starting: 'direct on line', 'Belt rating': 90 },
    twin: { Power: 30, 'Known tension': null, Starting: 'frequency converter', 'Belt rating': 90 },
  },
  {
    check: 'Carcass check',
    verdict: 'fails',
    refused: { 'Known tension': 30, 'Smallest pulley': 400, Skew: 45 },
    twin: { 'Known tension': 30, 'Smallest pulley': 400, 'Pulley group': 'C' },
  },
  {
    check: 'Speed check',
    verdict: 'fails',
    refused: { Speed: 5, Power: 40 },
    twin: { Speed: 3, Power: 22 },
    series: { 'Maximum speed': 4 },
  },
  {
    check: 'Temperature check',
    verdict: 'fails',
    refused: { 'Material temperature': 120 },
    twin: { 'Material temperature': 60 },
    series: { 'Maximum temperature': 90 },
  },
  {
    check: 'Temperature check',
    verdict: 'fails',
    refused: { 'Material temperature': 80, 'Maximum temperature': 60 },
    twin: { 'Material temperature': 50, 'Maximum temperature': 60 },
    series: { 'Maximum temperature': 90 },
  },
  {
    check: 'Trough check',
    verdict: 'fails',
    refused: { 'Trough angle': 35 },
    twin: { 'Trough angle': 20 },
    series: { 'Maximum trough angle': 30 },
  },
  {
    check: 'Scraper check',
    verdict: 'fails',
    refused: { 'Scraper clearance': 3 },
    twin: { 'Scraper clearance': 3, 'Skive depth': 2 },
    series: { 'Plate height': 4 },
  },
  {
    check: 'Slope check',
    verdict: 'fails',
    // 20 m on 60 m rise at 19.5 degrees.
    refused: { 'Pulley centres': 60, Lift: 20, 'Maximum slope': 18 },
    twin: { 'Pulley centres': 60, Lift: 15, 'Maximum slope': 18 },
  },
  {
    check: 'Capacity check',
    verdict: 'fails',
    // 800 mm at 30 and 20 degrees hold 0.065 m2, at 1600 kg/m3 and 2.5 m/s some 940 t/h.
    refused: { 'Trough angle': 30, 'Surcharge angle': 20, 'Bulk density': 1600, Capacity: 1000 },
    twin: { 'Trough angle': 30, 'Surcharge angle': 20, 'Bulk density': 1600, Capacity: 800 },
  },
  {
    check: 'Capacity check',
    verdict: 'fails',
    refused: { 'Trough angle': 0, 'Surcharge angle': 10, 'Bulk density': 800, Capacity: 150 },
    twin: { 'Trough angle': 20, 'Surcharge angle': 10, 'Bulk density': 800, Capacity: 150 },
  },
  {
    check: 'Plate count check',
    verdict: 'fails',
    refused: { Width: 300, Skew: 0 },
    twin: { Width: 800, Skew: 0 },
    series: { 'Minimum plates': 10 },
  },
  {
    check: 'Steel cord check',
    verdict: 'tight',
    refused: { Construction: 'St 1000 4+2', 'Carcass thickness': null },
    twin: {},
  },
];

const bookWith = (changes: readonly Cells[], series: Cells = {}): Workbook =>
  new Workbook(
    bookOf({
      belts: changes.map((changed, index) => ({ ...soundBelt, ...power, ...changed, Belt: `B${index}` })),
      series: [{ ...plover, ...series }],
    }),
  );

const inBoth = (book: Workbook): readonly Workbook[] => [book, new Workbook(convertedBook(book.state, 'us').state)];

/** Figures of a series that can't be made, each with what is told of it. */
const spoilt: readonly { readonly says: string; readonly series: Cells }[] = [
  { says: 'plates overlap', series: { Pitch: 30 } },
  { says: 'holes run into each other', series: { 'Holes per side': 2, 'Hole spacing': 5, 'Bolts per plate': 4 } },
  {
    says: 'holes do not lie on their plate',
    series: { 'Holes per side': 2, 'Hole spacing': 24, 'Bolts per plate': 4 },
  },
  {
    says: 'holes run into those of the next plate',
    series: { 'Holes per side': 2, 'Hole spacing': 27, 'Bolts per plate': 4 },
  },
  { says: 'holes reach over the cut', series: { 'Hole setback': 3 } },
  { says: 'the plate is too short for its holes', series: { 'Plate length': 30 } },
  { says: 'the minimum edge is below half a hole', series: { 'Minimum edge': 3 } },
  { says: 'bolts and holes do not match', series: { 'Bolts per plate': 1 } },
  { says: 'the long bolt is not the longer one', series: { 'Long bolt length': 30 } },
  { says: 'bolts change outside the range of thickness', series: { 'Long bolt above': 13 } },
  { says: 'the maximum thickness is below the minimum', series: { 'Maximum thickness': 5 } },
  { says: 'the maximum edge is below the minimum', series: { 'Maximum edge': 20 } },
  { says: 'the minimum pulley at 45 is above the square one', series: { 'Minimum pulley at 45': 320 } },
];

test.each(spoilt)('a series that can not be made fits no belt: $says', ({ says, series }) => {
  const books = new Workbook(bookOf({ belts: [{ ...soundBelt, ...power }], series: [{ ...plover, ...series }] }));
  for (const book of inBoth(books)) {
    expect(String(book.read('Plate series', 0, 'Series faults')).split('; ')).toContain(says);
    expect(book.read('Belts', 0, 'Series check'), book.state.units).toBe('fails');
    expect(book.read('Belts', 0, 'Verdict')).toBe('fails');
    expect(recordFindings(book, 0).find(({ check }) => check === 'series')?.message).toContain(says);
  }
  const sound = new Workbook(bookOf({ belts: [{ ...soundBelt, ...power }], series: [plover] }));
  expect(sound.read('Plate series', 0, 'Series faults')).toBe('');
  expect(sound.read('Belts', 0, 'Series check')).toBe('fits');
});

describe('belts made to be refused', () => {
  test.each(trials)('$check: $verdict, and its twin passes', ({ check, verdict, refused, twin, series }) => {
    for (const book of inBoth(bookWith([refused, twin], series))) {
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
  { input: 'Cut-out', from: ordered(0, 800, 'rises') },
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
  expect(message).toContain('no margin');
  expect(message).not.toMatch(/e-\d/);
});

test('joints of whole rolls and the rolls to order agree in one row', () => {
  const rolled = { 'Roll length': 50, Joints: 1 };
  const book = bookWith([
    { ...rolled, Skew: 45 },
    { ...rolled, Skew: 0, 'Take-up position': 900 },
    { ...rolled, Skew: 30, Joints: null },
    { 'Roll length': 150, Skew: 45, Joints: 5 },
  ]);
  const read = (record: number, header: BeltHeader): number => Number(book.read('Belts', record, header));
  for (const record of [0, 1, 2]) expect(read(record, 'Rolls')).toBe(read(record, 'Joints with whole rolls'));
  // The rolls as they come, less what their joints take, close the loop.
  expect(read(0, 'Rolls') * (50 - (0.8 + 0.2))).toBeGreaterThanOrEqual(read(0, 'Loop length'));
  // More joints than rolls: each takes its belt.
  expect(read(3, 'Belt to order')).toBeCloseTo(read(3, 'Loop length') + 5 * (0.8 + 0.2), 9);
});
