import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Verdict } from '../../src/functions/checks.ts';
import { bestBy, type Evaluate, pulleyPlot, skewAdvice, skewSteps } from '../../src/advice/skew-advisor.ts';

/** Advice on skew, against plain search over made-up joints. */

type Check = 'pulley' | 'tension' | 'edge';
type Figure = 'plates' | 'belt' | 'money';

/** A made-up joint: each check passes within ranges of skew and is known or not; figures grow with the skew. */
interface Joint {
  readonly passes: Readonly<Record<Check, readonly (readonly [number, number])[]>>;
  readonly notKnown: readonly Check[];
  readonly price: number;
}

const checks: readonly Check[] = ['pulley', 'tension', 'edge'];

function verdictOf(joint: Joint, check: Check, skew: number): Verdict {
  if (joint.notKnown.includes(check)) return 'not known';
  const within = joint.passes[check].find(([from, to]) => from <= skew && skew <= to);
  return within === undefined ? 'fails' : skew < within[0] + 2 ? 'tight' : 'fits';
}

const evaluateOf =
  (joints: Readonly<Record<string, Joint>>): Evaluate<Check, Figure> =>
  (skew, series) => {
    const joint = joints[series];
    if (joint === undefined) throw new Error(`no series ${series}`);
    return {
      verdicts: {
        pulley: verdictOf(joint, 'pulley', skew),
        tension: verdictOf(joint, 'tension', skew),
        edge: verdictOf(joint, 'edge', skew),
      },
      figures: {
        plates: 10 + Math.floor(skew / 5),
        belt: Math.tan((skew * Math.PI) / 180),
        money: joint.price < 0 ? undefined : joint.price * (1 + skew / 90),
      },
    };
  };

/** Ranges at least 3 degrees wide and apart, so that a table of whole degrees meets each of them. */
const ranges: fc.Arbitrary<(readonly [number, number])[]> = fc
  .array(fc.tuple(fc.integer({ min: 300, max: 2500 }), fc.integer({ min: 300, max: 3000 })), {
    minLength: 1,
    maxLength: 3,
  })
  .chain((steps) => fc.constantFrom(0, 3.5, 10).map((first) => ({ steps, first })))
  .map(({ steps, first }) => {
    let at = first;
    return steps.map(([gap, wide], index): readonly [number, number] => {
      const from = index === 0 ? at : at + gap / 100;
      at = from + wide / 100;
      return [from, at];
    });
  });

const oneRange: fc.Arbitrary<(readonly [number, number])[]> = fc.constant([[0, 60]]);
const joint: fc.Arbitrary<Joint> = fc.record({
  passes: fc.record({ pulley: ranges, tension: fc.oneof(ranges, oneRange), edge: oneRange }),
  notKnown: fc.constantFrom<readonly Check[]>([], [], [], ['edge']),
  price: fc.constantFrom(-1, 100, 250, 400),
});
const fleet = fc.record({ North: joint, South: joint, East: joint });
const names = ['North', 'South', 'East'];
const precision = 0.01;
const question = (joints: Readonly<Record<string, Joint>>, step = 0.5) => ({
  series: names,
  skews: skewSteps(60, step),
  evaluate: evaluateOf(joints),
  precision,
});

const passesAll = (joint: Joint, skew: number): boolean =>
  checks.every((check) => ['fits', 'tight'].includes(verdictOf(joint, check, skew)));

describe('the least skew', () => {
  test('is what a search in steps of a hundredth finds, where no range is narrower than the table', () => {
    fc.assert(
      fc.property(fleet, (joints) => {
        const { advice } = skewAdvice(question(joints));
        for (const { series, least } of advice) {
          const made = joints[series as keyof typeof joints];
          const searched = Array.from({ length: 6001 }, (_, index) => index / 100).filter((skew) =>
            passesAll(made, skew),
          );
          const [first] = searched;
          // A range that two checks leave open together may be narrower than the table's step: then the table need not
          // see it.
          const wide =
            first !== undefined && [0.1, 0.25, 0.5].every((more) => first + more > 60 || passesAll(made, first + more));
          if (first === undefined) expect(least).toBeUndefined();
          else if (wide) expect(Math.abs((least?.skew ?? Number.NaN) - first)).toBeLessThanOrEqual(precision + 1e-9);
          if (least !== undefined) {
            expect(passesAll(made, least.skew)).toBe(true);
            expect(least.skew === 0 || !passesAll(made, least.skew - precision)).toBe(true);
          }
        }
      }),
    );
  });

  test('comes with what it costs against the square joint', () => {
    fc.assert(
      fc.property(fleet, (joints) => {
        const evaluate = evaluateOf(joints);
        for (const { series, least, extra } of skewAdvice(question(joints)).advice) {
          expect(extra === undefined).toBe(least === undefined);
          if (least === undefined || extra === undefined) continue;
          const square = evaluate(0, series).figures;
          const skewed = evaluate(least.skew, series).figures;
          expect(least.figures).toEqual(skewed);
          expect(extra.plates).toBe((skewed.plates ?? 0) - (square.plates ?? 0));
          expect(extra.belt).toBe((skewed.belt ?? 0) - (square.belt ?? 0));
          expect(extra.money).toBe(
            skewed.money === undefined || square.money === undefined ? undefined : skewed.money - square.money,
          );
        }
      }),
    );
  });

  test('of a joint that passes square is 0', () => {
    const { advice } = skewAdvice(
      question({
        North: { passes: { pulley: [[0, 60]], tension: [[0, 60]], edge: [[0, 60]] }, notKnown: [], price: 1 },
        South: never,
        East: never,
      }),
    );
    expect(advice[0]?.least?.skew).toBe(0);
    expect(advice[0]?.extra).toEqual({ plates: 0, belt: 0, money: 0 });
  });

  const never: Joint = { passes: { pulley: [[20, 60]], tension: [], edge: [[0, 10]] }, notKnown: [], price: 1 };
  test('does not exist where a check fails at every skew, and the check is named', () => {
    const { advice } = skewAdvice(question({ North: never, South: { ...never, notKnown: ['edge'] }, East: never }));
    expect(advice[0]).toEqual({ series: 'North', incurable: ['tension'] });
    expect(advice[1]).toEqual({ series: 'South', incurable: ['tension', 'edge'] });
  });
});

test('the table holds every series at every skew, with the checks that hinder it', () => {
  fc.assert(
    fc.property(fleet, (joints) => {
      const { table } = skewAdvice(question(joints, 7));
      expect(table.map(({ series, skew }) => [series, skew])).toEqual(
        names.flatMap((series) => [0, 7, 14, 21, 28, 35, 42, 49, 56, 60].map((skew) => [series, skew])),
      );
      for (const { series, skew, passes, hindered } of table) {
        const made = joints[series as keyof typeof joints];
        expect(passes).toBe(passesAll(made, skew));
        expect(hindered).toEqual(checks.filter((check) => !['fits', 'tight'].includes(verdictOf(made, check, skew))));
      }
    }),
  );
});

test('the best series by a figure has the least of it, of equals the smaller skew', () => {
  fc.assert(
    fc.property(fleet, (joints) => {
      const { advice } = skewAdvice(question(joints));
      const best = bestBy(advice, 'money');
      const known = advice.flatMap(({ least }) =>
        least?.figures.money === undefined ? [] : [{ money: least.figures.money, skew: least.skew }],
      );
      if (best === undefined) expect(known).toEqual([]);
      for (const { money, skew } of known) {
        const [found, at] = [best?.least?.figures.money ?? Number.NaN, best?.least?.skew ?? Number.NaN];
        expect(found < money || (found === money && at <= skew)).toBe(true);
      }
    }),
  );
});

test('of equal best ones the smaller skew', () => {
  const fromSkew = (skew: number): Joint => ({
    passes: { pulley: [[skew, 60]], tension: [[0, 60]], edge: [[0, 60]] },
    notKnown: [],
    price: 1,
  });
  const { advice } = skewAdvice({
    ...question({ North: fromSkew(34), South: fromSkew(31), East: fromSkew(36) }),
    skews: skewSteps(60, 1),
  });
  expect(advice.map(({ least }) => least?.figures.plates)).toEqual([16, 16, 17]);
  expect(bestBy(advice, 'plates')?.series).toBe('South');
});

describe('the plot', () => {
  const least = (skew: number, series: string): number | undefined =>
    series === 'none' ? undefined : 450 * Math.cos((skew * Math.PI) / 180);
  const pulleys = [
    { name: 'head', diameter: 630 },
    { name: 'snub', diameter: 315 },
    { name: 'small', diameter: 200 },
  ];
  const [known, none] = pulleyPlot(
    { series: ['known', 'none'], skews: skewSteps(60, 5), precision: 1e-6 },
    least,
    pulleys,
  );

  test('follows the least pulley', () => {
    expect(known?.curve.length).toBe(13);
    for (const { skew, pulley } of known?.curve ?? []) expect(pulley).toBe(least(skew, 'known'));
    expect(none).toMatchObject({ curve: [], marks: pulleys });
  });
  test('marks each pulley where the curve comes down to it', () => {
    const [head, snub, small] = known?.marks ?? [];
    expect(head?.from).toBe(0);
    expect(snub?.from).toBeCloseTo((Math.acos(315 / 450) * 180) / Math.PI, 5);
    expect(small).toEqual({ name: 'small', diameter: 200 });
  });
});

describe('skews', () => {
  test('go up in equal steps and end at the greatest', () => {
    expect(skewSteps(60, 15)).toEqual([0, 15, 30, 45, 60]);
    expect(skewSteps(50, 20)).toEqual([0, 20, 40, 50]);
    expect(skewSteps(0, 1)).toEqual([0]);
    expect(skewSteps(0.3, 0.1).length).toBe(4);
  });
  test('that make no sense are refused', () => {
    const made = question({});
    expect(() => skewSteps(60, 0)).toThrow(RangeError);
    expect(() => skewAdvice({ ...made, skews: [] })).toThrow(/no skews were given/);
    expect(() => skewAdvice({ ...made, skews: [0, 10, 10] })).toThrow(/must ascend; 0, 10, 10 were given/);
    expect(() => skewAdvice({ ...made, precision: 0 })).toThrow(/precision .* more than 0; 0 was given/);
  });
});
