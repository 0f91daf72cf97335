import { describe, expect, test } from 'vitest';
import { belts } from '../../sheets/belts/index.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import { isComputed } from '../../src/sheet/declaration.ts';
import { isWords } from '../../src/units/quantities.ts';
import { Belt } from '../../src/records/belt.ts';
import { growth } from '../../src/what-if/elasticity.ts';
import { type Factor, factorValue } from '../../src/what-if/factor.ts';
import { factorNamed, factorsFor } from '../../src/what-if/known-factors.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

const book = new Workbook(demoBook('metric'));
const named = (name: string): Belt =>
  new Belt(
    book,
    book.sheet('Belts').rows.findIndex(({ cells }) => cells[0] === name),
  );

const elasticity = (belt: Belt, header: BeltHeader, factor: string): number =>
  growth(belt, header, factorNamed(book, factor))?.elasticity ?? NaN;

describe('what theory says of elasticities', () => {
  test('a cut is as long as the belt is wide, and grows with the skew as its tangent', () => {
    const belt = named('Q3');
    expect(elasticity(belt, 'Cut length', 'Width')).toBeCloseTo(1, 12);
    const skew = ((belt.number('Skew') ?? NaN) * Math.PI) / 180;
    expect(elasticity(belt, 'Cut length', 'Skew')).toBeCloseTo(skew * Math.tan(skew), 12);
  });

  test('those of a homogeneous figure sum to its degree (Euler)', () => {
    // The pull of a drive is its power over the speed; a strip is as long as the cut and what stands over, both
    // lengths.
    const belt = named('S3');
    const pull = ['Power', 'Speed'].map((name) => elasticity(belt, 'Effective tension by power', name));
    expect(pull[0]).toBeCloseTo(1, 12);
    expect(pull[1]).toBeCloseTo(-1, 12);
    const lengths = ['Width', 'StripOverhang'].map((name) => elasticity(belt, 'Strip length each', name));
    expect(lengths.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 12);
  });
});

interface Difference {
  readonly slope: number;
  readonly smooth: boolean;
}

/** Central differences of a belt's columns by a factor, and whether a column is smooth there. */
function differences(belt: Belt, factor: Factor): (header: BeltHeader) => Difference {
  const at = Number(factorValue(factor, belt));
  const by = (Math.abs(at) || 1) * 2e-4;
  // Each works out all columns, so once for all of them.
  const rows = new Map(
    [0, by, -by, by / 2, -by / 2].map((step) => {
      const { inputs = {}, named: names = {}, cells = [] } = factor.change(at + step);
      return [step, book.whatIf(belts.name, belt.record, inputs, { named: names, cells })];
    }),
  );
  return (header) => {
    const column = book.column(belts.name, header);
    const value = (step: number): number => {
      const found = rows.get(step)?.[column];
      return typeof found === 'number' ? found : NaN;
    };
    const central = (step: number): number => (value(step) - value(-step)) / (2 * step);
    const [coarse, fine] = [central(by), central(by / 2)];
    const [before, after] = [(value(0) - value(-by)) / by, (value(by) - value(0)) / by];
    const slope = (4 * fine - coarse) / 3;
    const size = Math.max(Math.abs(slope), Math.abs(before), Math.abs(after));
    // On both sides alike, and no more different at half the step than a smooth figure is.
    const smooth = Math.abs(after - before) <= 0.02 * size && Math.abs(fine - coarse) <= 1e-4 * size;
    return { slope, smooth: smooth && Number.isFinite(slope) };
  };
}

test('derivatives agree with central differences wherever a figure is smooth', () => {
  // Carcass difference is rounded to its 9th decimal, which differences this small can't see past.
  const numbers = belts.columns.filter(
    (column) => isComputed(column) && !isWords(column.kind) && column.header !== 'Carcass difference',
  );
  let compared = 0;
  const wrong: string[] = [];
  for (const belt of [named('Q3')])
    // Every eighth of the plates' and pulleys' figures: each works whole sheets out anew.
    for (const factor of factorsFor(belt).filter(({ of }, place) => of !== 'cell' || place % 8 === 0)) {
      if (typeof factorValue(factor, belt) !== 'number') continue;
      const difference = differences(belt, factor);
      for (const { header } of numbers) {
        const found = growth(belt, header, factor);
        if (found === undefined) continue;
        const { slope, smooth } = difference(header);
        if (!smooth) continue;
        compared += 1;
        const size = Math.max(
          Math.abs(slope),
          Math.abs(Number(belt.value(header))) / (Math.abs(Number(factorValue(factor, belt))) || 1) / 1000,
        );
        if (Math.abs(found.slope - slope) > 1e-6 * size)
          wrong.push(`${belt.name}, ${header} by ${factor.name}: ${found.slope}, by differences ${slope}`);
      }
    }
  expect(wrong).toEqual([]);
  expect(compared).toBeGreaterThan(600);
});
