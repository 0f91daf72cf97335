import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { jobRateValues, operations } from '../../sheets/values/job-rates.ts';
import { jointCounts, jobRates, lostProduction, newBeltCounts, pertTime, type Rate } from '../../src/job/job-time.ts';
import { pertMean, pertSum, pertDeviation, spreadFault } from '../../src/job/spread.ts';
import { assumptionValues } from '../../sheets/values/assumptions.ts';
import { randomNumbers } from '../../src/random/random-numbers.ts';
import { namedRow } from '../../src/sheet/named-values.ts';
import { drawn, sampleEstimate, simulatedTime, timeLines } from '../oracles/simulated-time.ts';

const valueOf = (name: string): unknown => jobRateValues.find((named) => named.name === name)?.value;
const declared = (): readonly Rate[] => {
  const rates = jobRates(valueOf);
  if ('faults' in rates) throw new Error('the declared rates are faulty');
  return rates;
};
const joint = { cutLength: 1000, plates: 20, bolts: 40, holes: 80, skived: true };
const options = { crewSize: 3, shares: [0.1, 0.5, 0.9] };

describe('spreads', () => {
  test('mean and deviation by PERT, worked by hand', () => {
    const spread = { low: 4, likely: 6, high: 14 };
    expect(pertMean(spread)).toBeCloseTo(7, 12);
    expect(pertDeviation(spread)).toBeCloseTo(5 / 3, 12);
    const sum = pertSum(
      [
        { times: 2, spread },
        { times: 1, spread: { low: 1, likely: 1, high: 1 } },
        { times: 3, spread: { low: 0, likely: 0, high: 2 } },
      ],
      [0.5, 0.975],
    );
    expect(sum.mean).toBeCloseTo(16, 12);
    // Long together: deviations add up, 2 times 10/6 and 3 times 2/6.
    expect(sum.deviation).toBeCloseTo(13 / 3, 12);
    expect(sum.quantiles[0]?.value).toBeCloseTo(16, 12);
    // 1.959964: printed tables of the normal distribution.
    expect(sum.quantiles[1]?.value).toBeCloseTo(16 + (13 / 3) * 1.959964, 5);
  });

  test('draws stay in range and have the mean and variance of their distribution', () => {
    const spread = { low: 2, likely: 3, high: 8 };
    const figures = (shape: 'beta-PERT' | 'triangular'): Float64Array => {
      const random = randomNumbers(7);
      return Float64Array.from({ length: 20_000 }, () => drawn(spread, shape, random));
    };
    for (const [shape, mean, variance] of [
      ['triangular', 13 / 3, (4 + 9 + 64 - 6 - 16 - 24) / 18],
      ['beta-PERT', 22 / 6, ((22 / 6 - 2) * (8 - 22 / 6)) / 7],
    ] as const) {
      const all = figures(shape);
      const { mean: found, deviation } = sampleEstimate(all, []);
      expect(all.every((figure) => figure >= 2 && figure <= 8)).toBe(true);
      expect(Math.abs(found - mean), shape).toBeLessThan((4 * Math.sqrt(variance)) / Math.sqrt(20_000));
      expect(Math.abs(deviation ** 2 / variance - 1), shape).toBeLessThan(0.05);
    }
    expect(drawn({ low: 5, likely: 5, high: 5 }, 'beta-PERT', randomNumbers(1))).toBe(5);
  });

  test('quantiles of a sample lie between their neighbours', () => {
    const { quantiles, mean, deviation } = sampleEstimate(Float64Array.of(4, 1, 3, 2), [0.25, 0.5, 0.999999]);
    expect(quantiles.map(({ value }) => value)).toEqual([1.75, 2.5, expect.closeTo(4, 4)]);
    expect([mean, deviation]).toEqual([2.5, expect.closeTo(Math.sqrt(5 / 3), 12)]);
  });

  test('that fall, lie below 0 or are no numbers are refused', () => {
    expect(spreadFault({ low: 1, likely: 1, high: 2 })).toBeUndefined();
    expect(spreadFault({ low: 3, likely: 2, high: 4 })).toBe('low, likely and high must not fall; they are 3, 2 and 4');
    expect(spreadFault({ low: -1, likely: 2, high: 4 })).toBe('low must be at least 0; it is -1');
    expect(spreadFault({ low: Number.NaN, likely: 2, high: 4 })).toBe('low, likely and high must all be numbers');
  });
});

describe('the declared rates', () => {
  test('are named values that can stand in the Assumptions sheet, in both systems', () => {
    const names: readonly string[] = jobRateValues.map(({ name }) => name);
    const others = assumptionValues.map(({ name }) => name).filter((name) => !names.includes(name));
    expect(new Set(names).size).toBe(names.length);
    expect(others.filter((name) => names.some((one) => one.toLowerCase() === name.toLowerCase()))).toEqual([]);
    for (const named of jobRateValues)
      for (const units of ['metric', 'us'] as const) expect(namedRow(named, units)).toHaveLength(5);
    expect(names).toHaveLength(operations.length * 3 + 4);
  });

  test('are read by name; what is wrong is said of each', () => {
    expect(declared()).toHaveLength(operations.length);
    const wrong = jobRates((name) =>
      name === 'HoleHoursLow'
        ? 1
        : name === 'BoltHoursHigh'
          ? 'slow'
          : name === 'CutHoursLikely'
            ? null
            : valueOf(name),
    );
    expect(wrong).toEqual({
      faults: [
        { name: 'CutHoursLikely', reason: 'CutHoursLikely must be a number of hours; it is missing' },
        { name: 'HoleHoursLow', reason: 'HoleHours: low, likely and high must not fall; they are 1, 0.01 and 0.02' },
        { name: 'BoltHoursHigh', reason: 'BoltHoursHigh must be a number of hours; "slow" is given' },
      ],
    });
  });
});

describe("a joint's time", () => {
  test('counts its pieces in either system of units', () => {
    expect(jointCounts(joint, 'metric')).toEqual({
      job: 1,
      'metre of cut': 2,
      'metre of skive': 2,
      hole: 80,
      plate: 20,
      bolt: 40,
    });
    expect(jointCounts({ ...joint, cutLength: 1000 / 25.4, skived: false }, 'us')).toEqual({
      job: 1,
      'metre of cut': expect.closeTo(2, 12),
      'metre of skive': 0,
      hole: 80,
      plate: 20,
      bolt: 40,
    });
    expect(newBeltCounts({ length: 250, joint, joints: 2 }, 'metric')).toEqual({
      job: 1,
      'metre of cut': 4,
      'metre of skive': 4,
      hole: 160,
      plate: 40,
      bolt: 80,
      'new belt': 1,
      '100 m of new belt': 2.5,
    });
  });

  test('by PERT, worked by hand with two rates', () => {
    const [bolt, run, before] = ['BoltHours', 'TestRunHours', 'PreparationHours'].map((name) =>
      operations.find((operation) => operation.name === name),
    );
    if (bolt === undefined || run === undefined || before === undefined) throw new Error('operations are missing');
    const rates: Rate[] = [
      { operation: bolt, spread: { low: 0.02, likely: 0.03, high: 0.1 } },
      { operation: run, spread: { low: 1, likely: 1, high: 1 } },
      { operation: before, spread: { low: 2, likely: 2, high: 2 } },
    ];
    const time = pertTime({ job: 1, bolt: 60 }, rates, { crewSize: 2, shares: [0.5] });
    expect(time.crewHours.mean).toBeCloseTo(60 * 0.04 + 2, 12);
    expect(time.outageHours.mean).toBeCloseTo((60 * 0.04) / 2 + 1, 12);
    expect(time.crewHours.deviation).toBeCloseTo((60 * 0.08) / 6, 12);
    expect(time.outageHours.deviation).toBeCloseTo((60 * 0.08) / 6 / 2, 12);
    expect(time.method).toContain('(low + 4 likely + high) / 6');
    expect(timeLines({ job: 1, bolt: 60 }, rates).map(({ count, mean }) => [count, mean])).toEqual([
      [60, expect.closeTo(2.4, 12)],
      [1, 1],
      [1, 2],
    ]);
  });

  test('promised hours hold as often as they say, even when a slow crew is slow at everything', () => {
    const counts = jointCounts(joint, 'metric');
    const time = pertTime(counts, declared(), options);
    for (const together of [true, false]) {
      const played = simulatedTime(
        counts,
        declared(),
        { ...options, shares: [0.84, 0.94] },
        { shape: 'beta-PERT', seed: 3, runs: 20_000, together },
      );
      for (const part of ['crewHours', 'outageHours'] as const) {
        const promised = time[part].quantiles.at(-1)?.value ?? 0;
        const [often, oftener] = played[part].quantiles.map(({ value }) => value);
        expect(promised).toBeGreaterThan(often ?? Number.NaN);
        if (together) expect(promised).toBeLessThan(oftener ?? Number.NaN);
      }
    }
  });

  test('by simulation has the same mean, and repeats with its seed', () => {
    const counts = jointCounts(joint, 'metric');
    const simulation = { shape: 'beta-PERT', seed: 3, runs: 4000, together: true } as const;
    const [pert, drawnTime] = [
      pertTime(counts, declared(), options),
      simulatedTime(counts, declared(), options, simulation),
    ];
    for (const part of ['crewHours', 'outageHours'] as const) {
      expect(Math.abs(drawnTime[part].mean - pert[part].mean)).toBeLessThan(
        (4 * drawnTime[part].deviation) / Math.sqrt(4000),
      );
      expect(drawnTime[part].deviation / pert[part].deviation).toBeGreaterThan(0.8);
      expect(drawnTime[part].deviation / pert[part].deviation).toBeLessThan(1.25);
      const ascending = drawnTime[part].quantiles.map(({ value }) => value);
      expect(ascending).toEqual(ascending.toSorted((a, b) => a - b));
    }
    expect(simulatedTime(counts, declared(), options, simulation)).toEqual(drawnTime);
    expect(simulatedTime(counts, declared(), options, { ...simulation, seed: 4 })).not.toEqual(drawnTime);
  });

  test('grows with the work and, the outage, shrinks with the crew (property)', () => {
    fc.assert(
      fc.property(
        fc.record({
          cutLength: fc.integer({ min: 300, max: 4000 }),
          plates: fc.integer({ min: 3, max: 90 }),
          crewSize: fc.integer({ min: 1, max: 8 }),
        }),
        ({ cutLength, plates, crewSize }) => {
          const work = (more: number): ReturnType<typeof pertTime> =>
            pertTime(
              jointCounts(
                {
                  cutLength: cutLength + more,
                  plates: plates + more,
                  bolts: 2 * (plates + more),
                  holes: 4 * (plates + more),
                  skived: true,
                },
                'metric',
              ),
              declared(),
              { crewSize, shares: [0.9] },
            );
          expect(work(1).outageHours.mean).toBeGreaterThan(work(0).outageHours.mean);
          const larger = pertTime(jointCounts({ ...joint, cutLength }, 'metric'), declared(), {
            crewSize: crewSize + 1,
            shares: [],
          });
          const smaller = pertTime(jointCounts({ ...joint, cutLength }, 'metric'), declared(), {
            crewSize,
            shares: [],
          });
          expect(larger.outageHours.mean).toBeLessThan(smaller.outageHours.mean);
          expect(larger.crewHours.mean).toBe(smaller.crewHours.mean);
        },
      ),
      { numRuns: 50 },
    );
  });

  test('of a square joint, a skew one and a new belt, side by side', () => {
    const alternatives = [
      {
        name: 'square',
        counts: jointCounts({ cutLength: 1000, plates: 18, bolts: 36, holes: 72, skived: false }, 'metric'),
      },
      {
        name: 'skew',
        counts: jointCounts({ cutLength: 1414, plates: 26, bolts: 52, holes: 104, skived: false }, 'metric'),
      },
      {
        name: 'new belt',
        counts: newBeltCounts(
          { length: 300, joint: { cutLength: 1000, plates: 18, bolts: 36, holes: 72, skived: false }, joints: 1 },
          'metric',
        ),
      },
    ];
    const [square, skew, belt] = alternatives.map(({ counts }) => pertTime(counts, declared(), options));
    for (const part of ['crewHours', 'outageHours'] as const) {
      expect(skew?.[part].mean).toBeGreaterThan(square?.[part].mean ?? Number.POSITIVE_INFINITY);
      expect(belt?.[part].mean).toBeGreaterThan(skew?.[part].mean ?? Number.POSITIVE_INFINITY);
    }
  });

  test('refuses an impossible crew or chance', () => {
    expect(() => pertTime({ job: 1 }, declared(), { crewSize: 0, shares: [] })).toThrow(
      'the crew must be at least 1 person; 0 is given',
    );
    expect(() => pertTime({ job: 1 }, declared(), { crewSize: 1, shares: [1] })).toThrow(
      'chances lie between 0 and 1; 1 are given',
    );
  });

  test('costs production by duty', () => {
    expect(lostProduction(5, 800, 0.7)).toBeCloseTo(2800, 12);
    expect(lostProduction(5, undefined, 0.7)).toBeUndefined();
  });
});
