import { describe, expect, test } from 'vitest';
import { Belt } from '../../src/records/belt.ts';
import { effects, turns } from '../../src/what-if/effects.ts';
import { factorNamed } from '../../src/what-if/known-factors.ts';
import { proposedTolerance, typedTolerance } from '../../src/what-if/tolerance.ts';
import { ChangeRefused } from '../../src/what-if/typed-change.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

const book = new Workbook(demoBook('metric'));
const belt = new Belt(
  book,
  book.sheet('Belts').rows.findIndex(({ cells }) => cells[0] === 'Q3'),
);

describe('effects', () => {
  test('are those of each factor alone, the largest first', () => {
    const found = effects(belt, 'Cut length');
    expect(found.map(({ factor }) => factor.name)).toEqual(['Skew', 'Width']);
    const [skew, width] = found;
    const cut = (degrees: number): number => 1000 / Math.cos((degrees * Math.PI) / 180);
    // A degree either way of 45, and a hundredth of 1000 mm.
    expect(skew?.swing).toBeCloseTo(cut(46) - cut(44), 9);
    expect(width?.swing).toBeCloseTo(20 / Math.cos(Math.PI / 4), 9);
    expect(width?.growth?.elasticity).toBeCloseTo(1, 12);
  });

  test('of choices are tried one by one', () => {
    const series = effects(belt, 'Joint minimum pulley').find(({ factor }) => factor.name === 'Plate series');
    expect(series?.tried).toHaveLength(book.sheet('Plate series').rows.length);
    expect(series?.swing).toBeGreaterThan(0);
  });
});

test('what turns a verdict does so where it is told, and not before', () => {
  const found = turns(belt, 'Pulley check');
  expect(found.length).toBeGreaterThan(1);
  const now = belt.value('Pulley check');
  for (const { factor, present, at, verdict } of found) {
    expect(verdict).not.toBe(now);
    const short = Number(present) + (at - Number(present)) * (1 - 1e-6);
    const { inputs = {}, named = {}, cells = [] } = factor.change(short);
    if (factor.name === 'Skew') continue;
    const row = book.whatIf('Belts', belt.record, inputs, { named, cells });
    expect({ factor: factor.name, value: row[book.column('Belts', 'Pulley check')] }).toEqual({
      factor: factor.name,
      value: now,
    });
  }
  expect(found.map(({ tolerances }) => tolerances)).toEqual(
    found.map(({ tolerances }) => tolerances).toSorted((one, other) => one - other),
  );
});

test('tolerances are wider for what is recalled, and none for what is chosen', () => {
  const half = (name: string): number | undefined => proposedTolerance(factorNamed(book, name), belt)?.half;
  // Marks of the book: "from memory", "our choice, no effect on safety", a standard recalled.
  expect(half('CarryIdlerSpacing')).toBeCloseTo(0.12, 12);
  expect(half('TightMargin')).toBeUndefined();
  expect(half('SafetyFabric')).toBeCloseTo(1, 12);
  expect(half('Skew')).toBe(1);
  expect(half('Plate series')).toBeUndefined();
  expect(typedTolerance('Power=5%').of(80)).toEqual({ half: 4, shape: 'normal' });
  expect(typedTolerance('Skew = 0.5 even').of(45)).toEqual({ half: 0.5, shape: 'even' });
  expect(() => typedTolerance('Skew=wide')).toThrow(ChangeRefused);
});
