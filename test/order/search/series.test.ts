import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type FeasibleJoint, fewestSeries, type SeriesQuestion } from '../../../src/order/search/fewest-series.ts';
import { solving, watchedSolver } from './solving.ts';

/** Least cost of at most `most` series, by every set of them. */
function byTrying({ belts, joints, keeping, keepingBySeries = {} }: SeriesQuestion, most: number): number {
  const series = [...new Set(joints.map((joint) => joint.series))];
  const servable = belts.filter((belt) => joints.some((joint) => joint.belt === belt));
  const cheapest = servable.map((belt) => {
    const own = joints.filter((joint) => joint.belt === belt);
    return series.map((name) => Math.min(...own.filter((joint) => joint.series === name).map(({ cost }) => cost)));
  });
  let least = Number.POSITIVE_INFINITY;
  for (let set = 0; set < 2 ** series.length; set += 1) {
    const kept = series.filter((_, index) => Math.floor(set / 2 ** index) % 2 === 1);
    if (kept.length > most) continue;
    const costs = cheapest.map((own) => Math.min(...own.filter((_, index) => kept.includes(series[index] ?? ''))));
    least = Math.min(
      least,
      [...costs, ...kept.map((name) => keepingBySeries[name] ?? keeping)].reduce((sum, cost) => sum + cost, 0),
    );
  }
  return least;
}

const smallFleet: fc.Arbitrary<SeriesQuestion> = fc.record({
  belts: fc.constant(['K1', 'K2', 'K3', 'K4', 'K5', 'K6', 'K7']),
  joints: fc.uniqueArray(
    fc.record({
      belt: fc.constantFrom('K1', 'K2', 'K3', 'K4', 'K5', 'K6', 'K7'),
      series: fc.constantFrom('A', 'B', 'C', 'D', 'E'),
      skew: fc.constantFrom(0, 15, 30, 45),
      cost: fc.integer({ min: 0, max: 1000 }),
    }),
    { minLength: 1, maxLength: 60, selector: ({ belt, series, skew }) => `${belt} ${series} ${skew}` },
  ),
  keeping: fc.integer({ min: 0, max: 900 }),
  keepingBySeries: fc.record({ B: fc.integer({ min: 0, max: 900 }) }),
});

describe('fewest series', () => {
  test('every point of the curve costs what trying every set of series finds', async () => {
    const solver = await solving();
    await fc.assert(
      fc.asyncProperty(smallFleet, fc.integer({ min: 1, max: 5 }), async (fleet, most) => {
        const answer = await fewestSeries({ ...fleet, most }, solver);
        const count = new Set(fleet.joints.map(({ series }) => series)).size;
        expect(answer.curve.map(({ series }) => series)).toEqual(
          Array.from({ length: count }, (_, index) => index + 1),
        );
        for (const { series, choice } of answer.curve)
          expect(choice?.cost ?? Number.POSITIVE_INFINITY).toBeCloseTo(byTrying(fleet, series), 6);
        expect(answer.best?.cost ?? Number.POSITIVE_INFINITY).toBeCloseTo(byTrying(fleet, most), 6);
        for (const { series, choice } of answer.curve) {
          if (choice === undefined) continue;
          expect(choice.series.length).toBeLessThanOrEqual(series);
          expect(choice.bound).toBeCloseTo(choice.cost, 5);
          expect(
            choice.joints.every((joint) => fleet.joints.includes(joint) && choice.series.includes(joint.series)),
          ).toBe(true);
          expect([...choice.joints.map(({ belt }) => belt), ...answer.unserved].toSorted()).toEqual(fleet.belts);
          expect(choice.cost).toBeCloseTo(choice.jointCost + choice.keepingCost, 9);
        }
        for (const { series, belts } of answer.forced) {
          for (const belt of belts)
            expect(new Set(fleet.joints.filter((joint) => joint.belt === belt).map((joint) => joint.series))).toEqual(
              new Set([series]),
            );
        }
        const single = fleet.belts.filter(
          (belt) => new Set(fleet.joints.filter((joint) => joint.belt === belt).map(({ series }) => series)).size === 1,
        );
        expect(answer.forced.flatMap(({ belts }) => belts).toSorted()).toEqual(single);
      }),
      { numRuns: 60 },
    );
  }, 60_000);

  test('names what is wrong', async () => {
    const solver = await solving();
    const joint: FeasibleJoint = { belt: 'K1', series: 'A', skew: 0, cost: 5 };
    await expect(fewestSeries({ belts: [], joints: [joint], keeping: 1 }, solver)).rejects.toThrow(
      'must be of belts of the fleet; K1 is none',
    );
    await expect(fewestSeries({ belts: ['K1'], joints: [{ ...joint, cost: -1 }], keeping: 1 }, solver)).rejects.toThrow(
      'must cost at least 0 per year; -1 was given for belt K1 with A at 0 degrees',
    );
    await expect(fewestSeries({ belts: ['K1'], joints: [joint], keeping: -2 }, solver)).rejects.toThrow(
      'must be at least 0 per year; -2 was given for A',
    );
    const none = await fewestSeries({ belts: ['K1'], joints: [], keeping: 1 }, solver);
    expect(none).toEqual({ curve: [], forced: [], unserved: ['K1'] });
  });

  test('a thousand belts, eight series, four skews: small programs, every point proven', async () => {
    const belts = Array.from({ length: 1000 }, (_, index) => `K${index + 1}`);
    // Sizes that overlap: a series serves a range of belts, and costs more the larger it is for the belt.
    const joints = belts.flatMap((belt, index) =>
      Array.from({ length: 8 }, (_, series) => series).flatMap((series) => {
        const size = ((index * 37) % 101) / 14;
        if (Math.abs(size - series) > 2.2 && (index + series) % 13 !== 0) return [];
        return [0, 15, 30, 45].map((skew) => ({
          belt,
          series: `S${series}`,
          skew,
          cost: 100 + 40 * Math.abs(size - series) + ((index * series * 17) % 23) + skew / 5,
        }));
      }),
    );
    const { solver, asked } = await watchedSolver();
    const answer = await fewestSeries({ belts, joints, keeping: 1500 }, solver);
    // One program a point of the curve, in which belts that ask for the same series count together.
    expect(asked.length).toBeLessThanOrEqual(8);
    expect(Math.max(...asked.map(({ rows }) => rows))).toBeLessThanOrEqual(2 ** 8);
    expect(answer.curve.flatMap(({ choice }) => (choice === undefined ? [] : [choice.proven]))).not.toContain(false);
    const costs = answer.curve.flatMap(({ choice }) => (choice === undefined ? [] : [choice.cost]));
    expect(costs.length).toBeGreaterThan(2);
    for (const { series, choice } of answer.curve)
      expect(choice?.cost ?? Number.POSITIVE_INFINITY).toBeCloseTo(
        byTrying({ belts, joints, keeping: 1500 }, series),
        4,
      );
    expect(costs.every((cost, index) => index === 0 || cost <= (costs[index - 1] ?? 0) + 1e-9)).toBe(true);
  }, 60_000);
});
