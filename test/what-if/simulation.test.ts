import { describe, expect, test } from 'vitest';
import { normalQuantile } from '../../src/functions/normal-quantile.ts';
import { randomNumbers } from '../../src/random/random-numbers.ts';
import { Belt } from '../../src/records/belt.ts';
import type { Tolerances } from '../../src/what-if/effects.ts';
import { quantile, quantileInterval, shareMargin } from '../../src/what-if/quantiles.ts';
import { type Simulation, simulated } from '../../src/what-if/simulation.ts';
import { proposedTolerance, type Tolerance } from '../../src/what-if/tolerance.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import type { BeltHeader } from '../../sheets/index.ts';

const book = new Workbook(demoBook('metric'));
const record = book.sheet('Belts').rows.findIndex(({ cells }) => cells[0] === 'Q3');
const belt = new Belt(book, record);

const only =
  (given: Readonly<Record<string, Tolerance>>): Tolerances =>
  ({ name }) =>
    given[name];

const run = (tolerances: Tolerances, columns: readonly BeltHeader[], draws = 1500, seed = 1): Simulation =>
  simulated(book, { records: [record], columns, draws, seed, tolerances });

const drawn = (simulation: Simulation, header: BeltHeader): Float64Array =>
  simulation.belts[0]?.figures.get(header) ?? new Float64Array();

/** Quantiles that lie in the interval which holds 99 of 100 of them. */
function expectQuantiles(draws: Float64Array, truth: (share: number) => number): void {
  for (const share of [0.05, 0.25, 0.5, 0.75, 0.95]) {
    const [low, high] = quantileInterval(draws, share);
    expect({ share, holds: low <= truth(share) && truth(share) <= high }).toEqual({ share, holds: true });
  }
}

/** Deviations in the half of a tolerance. */
const z = normalQuantile(0.975);

describe('closed forms', () => {
  test('a sum of normals is normal', () => {
    // A strip is as long as the cut, the width over the skew's cosine, and twice what stands over.
    const simulation = run(
      only({ Width: { half: 20, shape: 'normal' }, StripOverhang: { half: 15, shape: 'normal' } }),
      ['Strip length each'],
    );
    const per = 1 / Math.cos(((belt.number('Skew') ?? NaN) * Math.PI) / 180);
    const overhangs = ((belt.number('Strip length each') ?? NaN) - (belt.number('Cut length') ?? NaN)) / 60;
    const deviation = Math.hypot(20 * per, 15 * overhangs) / z;
    expectQuantiles(
      drawn(simulation, 'Strip length each'),
      (share) => (belt.number('Strip length each') ?? NaN) + normalQuantile(share) * deviation,
    );
  });

  test('a product of lognormals is lognormal, and its spread is shared out by their variances', () => {
    const power = (belt.number('Power') ?? NaN) * 0.2;
    const speed = (belt.number('Speed') ?? NaN) * 0.1;
    const simulation = run(
      only({ Power: { half: power, shape: 'lognormal' }, Speed: { half: speed, shape: 'lognormal' } }),
      ['Effective tension by power'],
    );
    const [one, other] = [Math.log(1.2) / z, Math.log(1.1) / z];
    const middle = belt.number('Effective tension by power') ?? NaN;
    expectQuantiles(
      drawn(simulation, 'Effective tension by power'),
      (share) => middle * Math.exp(normalQuantile(share) * Math.hypot(one, other)),
    );
    const [first] = simulation.belts[0]?.shares.get('Effective tension by power') ?? [];
    expect(first?.name).toBe('Power');
    expect(first?.share).toBeCloseTo(one ** 2 / (one ** 2 + other ** 2), 1);
  });

  test('even draws have the order statistics of even numbers, and pass as often as they lie within the limit', () => {
    // The pulley fails below the joint's minimum: a tenth of an even range that begins 10 below it and ends 90 above.
    const least = belt.number('Joint minimum pulley') ?? NaN;
    const trial = new Workbook(demoBook('metric'));
    trial.edit([{ ...belt.place('Smallest pulley'), content: least + 40 }]);
    const simulation = simulated(trial, {
      records: [record],
      columns: ['Critical pulley'],
      draws: 1500,
      seed: 3,
      tolerances: only({ 'Smallest pulley': { half: 50, shape: 'even' } }),
    });
    const [result] = simulation.belts;
    const passes = (result?.passes.get('Pulley check') ?? NaN) / 1500;
    expect(Math.abs(passes - 0.9)).toBeLessThan(shareMargin(0.9, 1500));
    const numbers = Float64Array.from({ length: 999 }, (_, index) => (index + 1) / 1000);
    expect(quantile(numbers, 0.5)).toBeCloseTo(0.5, 12);
    expectQuantiles(result?.figures.get('Critical pulley') ?? new Float64Array(), (share) => least - 10 + 100 * share);
  });
});

test('an interval of a quantile holds it in 99 of 100 simulations', () => {
  let held = 0;
  for (let seed = 0; seed < 1000; seed += 1) {
    const random = randomNumbers(seed);
    const [low, high] = quantileInterval(Float64Array.from({ length: 200 }, () => random()).sort(), 0.9);
    if (low <= 0.9 && 0.9 <= high) held += 1;
  }
  // Of 1000 that hold in 99 of 100, fewer than 980 do once in a thousand times.
  expect(held).toBeGreaterThanOrEqual(980);
});

test('a seed gives the same draws, whatever else is asked; another gives others', () => {
  const first = run(proposedTolerance, ['Working tension'], 20, 7);
  const again = run(proposedTolerance, ['Working tension', 'Labour hours'], 20, 7);
  expect(drawn(again, 'Working tension')).toEqual(drawn(first, 'Working tension'));
  expect(drawn(run(proposedTolerance, ['Working tension'], 20, 8), 'Working tension')).not.toEqual(
    drawn(first, 'Working tension'),
  );
  const fleet = simulated(book, {
    records: [record - 1, record],
    columns: ['Working tension'],
    draws: 20,
    seed: 7,
    tolerances: proposedTolerance,
  });
  expect(fleet.belts[1]?.figures.get('Working tension')).toEqual(drawn(first, 'Working tension'));
});

test('low, likely and high figures of one rate are wrong together', () => {
  const { belts } = run(proposedTolerance, ['Labour hours low', 'Labour hours likely', 'Labour hours high'], 200);
  const shares = belts[0]?.shares.get('Labour hours likely') ?? [];
  const of = (name: string): number => shares.find((share) => share.name === name)?.share ?? NaN;
  expect(of('SettingUpHoursLow')).toBeCloseTo(of('SettingUpHoursLikely'), 9);
  expect(of('SettingUpHoursLikely')).toBeGreaterThan(0.1);
});
