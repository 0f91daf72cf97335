import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { BeltHeader } from '../../sheets/index.ts';
import type { CheckHeader } from '../../sheets/belts/check-columns.ts';
import { recordFindings } from '../../src/checks/findings.ts';
import { notAsked, type Verdict, verdictOf } from '../../src/functions/checks.ts';
import { convertedBook } from '../../src/workbook/conversion.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { bookOf, type Cells, plover, soundBelt } from '../workbook/books.ts';
import { power, refusedBook, trials } from './refused-belts.ts';

/**
 * Belts made to be refused for one thing that their record says, each with a twin that passes, and what must never make
 * a verdict better.
 */

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
  { says: 'the bolt is shorter than the belt that it clamps', series: { 'Bolt length': 8.8 } },
  {
    says: 'the long bolt is shorter than the belt that it clamps',
    series: { 'Bolt length': 9, 'Long bolt length': 12 },
  },
  { says: 'bolts change outside the range of thickness', series: { 'Long bolt above': 13 } },
  { says: 'the maximum thickness is below the minimum', series: { 'Maximum thickness': 5 } },
  { says: 'the maximum edge is below the minimum', series: { 'Maximum edge': 20 } },
  { says: 'the minimum pulley at 45 is above the square one', series: { 'Minimum pulley at 45': 320 } },
  { says: 'the minimum pulley at 15 is above the square one', series: { 'Minimum pulley at 15': 320 } },
  { says: 'the minimum pulley at 60 is above the square one', series: { 'Minimum pulley at 60': 320 } },
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

describe.each(['metric', 'us'] as const)('belts made to be refused, %s', (units) => {
  const book = refusedBook(units);

  test.each(trials.map((trial, index) => ({ ...trial, index })))(
    '$index: $check: $verdict, and its twin passes',
    ({ check, verdict, index }) => {
      expect(book.read('Belts', 2 * index, check)).toBe(verdict);
      expect(['not known', 'fails', 'tight']).toContain(book.read('Belts', 2 * index, 'Verdict'));
      expect(verdictOf(book.read('Belts', 2 * index + 1, check))).toBe('fits');
    },
  );
});

test('there are at least 60 of them', () => {
  expect(trials.length + spoilt.length).toBeGreaterThanOrEqual(60);
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

test('a check that only warns says so when its limit is passed, and not when it is near', () => {
  const book = bookWith([
    { Skew: 0, 'Known tension': 33 },
    { Skew: 0, 'Known tension': 31 },
    { Construction: 'St 1000 4+2', 'Carcass thickness': null },
  ]);
  const said = (record: number, check: string): string | undefined =>
    recordFindings(book, record).find((finding) => finding.check === check)?.message;
  expect(said(0, 'load per plate')).toMatch(
    /is above .* This check only warns: the belt is tight, it does not fail\.$/,
  );
  expect(said(1, 'load per plate')).toMatch(/is only .* below/);
  expect(said(1, 'load per plate')).not.toContain('only warns');
  expect(said(2, 'steel cord')).toContain('This check only warns');
});

test('where methods of the tension disagree, the inputs of those methods alone are named', () => {
  const book = bookWith([
    { 'Known tension': 5, Power: 90 },
    { Power: 90, Capacity: 300 },
  ]);
  const cure = (record: number): string | undefined =>
    recordFindings(book, record).find(({ verdict }) => verdict === 'compare')?.cures[0];
  expect(cure(0)).toBe('Check that Known tension, Power and Speed are correct for this belt.');
  expect(cure(1)).toBe('Check that Capacity, Lift, RollingFriction, Power and Speed are correct for this belt.');
});

test('a carcass that is known one way only, or by two of three, is not in doubt for the third', () => {
  const book = bookWith([
    { Construction: 'EP 400/3', 'Carcass thickness': null, 'Top cover': null },
    { Construction: 'EP 400/3', 'Carcass thickness': 3.3, 'Top cover': null },
    { Construction: 'EP 400/3', 'Carcass thickness': 6, 'Top cover': null },
    { Construction: 'B 250/3 4+2', 'Carcass thickness': 3.8, 'Top cover': null },
    // Covers of 6 mm do not go into a belt of 5.5.
    { Construction: 'EP 400/3 4+2', 'Carcass thickness': 3.3, 'Top cover': null, Thickness: 5.5 },
  ]);
  expect([0, 1, 2, 3, 4].map((record) => book.read('Belts', record, 'Carcass thickness check'))).toEqual([
    notAsked,
    'fits',
    'tight',
    'fits',
    'not known',
  ]);
});

test('without the loop nothing is known of its stretch, without the lift nothing of what lies on a slope', () => {
  const trough = {
    'Trough angle': 30,
    'Surcharge angle': 20,
    'Bulk density': 1600,
    Capacity: 300,
    'Known tension': 10,
  };
  const book = bookWith([{ 'Head pulley': null }, trough, { ...trough, Lift: null }]);
  expect(book.read('Belts', 0, 'Take-up check')).toBe('not known');
  expect(recordFindings(book, 0).find(({ check }) => check === 'take-up')?.message).toContain('Head pulley');
  expect(book.read('Belts', 1, 'Capacity check')).toBe('fits');
  expect(book.read('Belts', 2, 'Capacity check')).toBe('not known');
  expect(recordFindings(book, 2).find(({ check }) => check === 'capacity')?.message).toContain('Lift');
});

test('a figure that is a text is not taken for one that is not given', () => {
  const trough = { 'Trough angle': 30, 'Surcharge angle': 20, 'Bulk density': 1600, Capacity: 300 };
  const heat = { 'Material temperature': 50, 'Maximum temperature': 60 };
  const book = bookWith([
    ...(['Trough angle', 'Surcharge angle', 'Bulk density'] as const).map((header) => ({
      ...trough,
      [header]: 'high',
    })),
    { ...trough, 'Bulk density': null },
    { ...heat, 'Maximum temperature': 'high' },
    { ...heat, 'Maximum temperature': null },
  ]);
  for (const one of inBoth(book)) {
    expect([0, 1, 2, 3].map((record) => one.read('Belts', record, 'Capacity check'))).toEqual([
      'not known',
      'not known',
      'not known',
      notAsked,
    ]);
    expect([4, 5].map((record) => one.read('Belts', record, 'Temperature check'))).toEqual(['not known', notAsked]);
  }
});

test('a replaced joint whose skew is said in two ways is asked about', () => {
  const book = bookWith([
    { Replaces: 'square joint', 'Replaced skew': 45 },
    { Skew: 30, Replaces: 'same skew', 'Replaced skew': 45 },
    { Replaces: 'square joint', 'Replaced skew': 0 },
    { Skew: 30, Replaces: 'same skew', 'Replaced skew': 30 },
    { Replaces: 'other skew', 'Replaced skew': 45 },
    { Replaces: 'square joint' },
    { 'Replaced skew': 45 },
  ]);
  const asked = (record: number): string[] =>
    recordFindings(book, record).flatMap(({ column, verdict, message }) =>
      column === 'Replaced skew' && verdict === 'compare' ? [message] : [],
    );
  expect([0, 1].map(asked)).toEqual([
    ['Replaced skew, 45°, does not agree with the skew by Replaces, "square joint", 0°. The checks use 45°.'],
    ['Replaced skew, 45°, does not agree with the skew by Replaces, "same skew", 30°. The checks use 45°.'],
  ]);
  for (const record of [2, 3, 4, 5, 6]) expect(asked(record)).toEqual([]);
});

test('a width or a mass that the rest of the record does not bear out is asked about', () => {
  const book = bookWith([
    { Construction: '1000 EP 400/3 4+2' },
    { Construction: '800 EP 400/3 4+2' },
    { 'Belt mass': 1 },
    { 'Belt mass': 10 },
    { 'Belt mass': 30, Construction: 'St 1000 4+2' },
  ]);
  const asked = (record: number): string[] =>
    recordFindings(book, record).flatMap(({ verdict, check, message }) =>
      verdict === 'compare' && check === 'input' ? [message] : [],
    );
  expect(asked(0)).toEqual([
    'Width, 800 mm, does not agree with the width in Construction, 1000 mm. The checks use 800 mm.',
  ]);
  expect(asked(2)).toEqual([
    'Belt mass, 1 kg/m, does not agree with the mass by Width, Thickness and BeltDensity, 9.4 kg/m. The checks use ' +
      '1 kg/m.',
  ]);
  for (const record of [1, 3, 4]) expect(asked(record)).toEqual([]);
  const us = new Workbook(convertedBook(book.state, 'us').state);
  expect(recordFindings(us, 0).some(({ message }) => message.includes('31.5 in') && message.includes('39.37 in'))).toBe(
    true,
  );
});
