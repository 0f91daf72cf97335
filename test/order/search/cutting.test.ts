import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { attainableCosts } from '../../../src/order/search/attainable-costs.ts';
import { type CuttingPlan, cuttingPlan } from '../../../src/order/search/cutting-plan.ts';
import type { CuttingQuestion } from '../../../src/order/search/cutting-question.ts';
import { rollPicture } from '../../../src/order/search/roll-picture.ts';
import type { Progress } from '../../../src/solver/program.ts';
import { solving, watchedSolver } from './solving.ts';

interface Roll {
  readonly kind: number;
  left: number;
}

/** Fewest pieces not cut, then least cost, then most useful length on the shelf afterwards: by trying every way. */
function byTrying({
  pieces,
  shelf,
  sold,
  sawLoss,
  keepFrom = Number.POSITIVE_INFINITY,
}: CuttingQuestion): readonly [number, number, number] {
  const wanted = pieces
    .flatMap(({ length, quantity, due }) => Array.from({ length: quantity }, () => ({ length, due })))
    .toSorted((one, other) => other.length - one.length);
  const kinds = [
    ...shelf.map(({ length, quantity = 1, value = 0, day }) => ({
      length,
      most: quantity,
      cost: value,
      owned: true,
      day,
    })),
    ...sold.map(({ length, price, most = wanted.length }) => ({
      length,
      most,
      cost: price,
      owned: false,
      day: undefined,
    })),
  ];
  let best: readonly [number, number, number] = [Number.POSITIVE_INFINITY, 0, 0];
  const better = (one: readonly number[], other: readonly number[]): boolean => {
    const place = one.findIndex((value, index) => Math.abs(value - (other[index] ?? 0)) > 1e-9);
    return place >= 0 && (one[place] ?? 0) < (other[place] ?? 0);
  };
  const place = (piece: number, rolls: Roll[], missing: number): void => {
    const { length, due } = wanted[piece] ?? {};
    if (length === undefined) {
      const cost = rolls.reduce((sum, { kind }) => sum + (kinds[kind]?.cost ?? 0), 0);
      const spent = rolls.reduce((sum, { kind, left }) => {
        const { owned = false, length: whole = 0 } = kinds[kind] ?? {};
        return sum + (owned ? whole : 0) - (left >= keepFrom ? left : 0);
      }, 0);
      const figures = [missing, cost, spent] as const;
      if (better(figures, best)) best = figures;
      return;
    }
    const late = (kind: number): boolean => due !== undefined && (kinds[kind]?.day ?? due) > due;
    for (const roll of rolls) {
      if (roll.left < length || late(roll.kind)) continue;
      const before = roll.left;
      roll.left = Math.max(0, before - length - sawLoss);
      place(piece + 1, rolls, missing);
      roll.left = before;
    }
    for (const [kind, { length: whole, most }] of kinds.entries()) {
      if (whole < length || late(kind) || rolls.filter((roll) => roll.kind === kind).length >= most) continue;
      place(piece + 1, [...rolls, { kind, left: Math.max(0, whole - length - sawLoss) }], missing);
    }
    place(piece + 1, rolls, missing + 1);
  };
  place(0, [], 0);
  return best;
}

function figures(plan: CuttingPlan): readonly [number, number, number] {
  const spent = plan.rolls.reduce(
    (sum, { source, length, offcut, kept }) => sum + (source === 'shelf' ? length : 0) - (kept ? offcut : 0),
    0,
  );
  return [plan.uncut.reduce((sum, { quantity }) => sum + quantity, 0), plan.cost, spent];
}

/** What holds for any plan: every piece once, on rolls that there are, one after the other with the saw between. */
function sound({ pieces, shelf, sawLoss, keepFrom }: CuttingQuestion, plan: CuttingPlan): void {
  for (const { length, cuts, offcut, kept, waste } of plan.rolls) {
    let from = 0;
    for (const cut of cuts) {
      expect(cut.from).toBeCloseTo(from, 9);
      from += cut.length + sawLoss;
    }
    const used = cuts.reduce((sum, cut) => sum + cut.length, 0);
    expect(from - sawLoss).toBeLessThanOrEqual(length + 1e-9);
    expect(offcut).toBeCloseTo(Math.max(0, length - from), 9);
    expect(kept).toBe(keepFrom !== undefined && offcut >= keepFrom);
    expect(used + waste + (kept ? offcut : 0)).toBeCloseTo(length, 9);
  }
  for (const { name, quantity = 1, day } of shelf) {
    for (const { belt } of plan.rolls.filter((roll) => roll.name === name).flatMap(({ cuts }) => cuts))
      expect(day === undefined || pieces.some((piece) => piece.belt === belt && (piece.due ?? day) >= day)).toBe(true);
    expect(plan.rolls.filter((roll) => roll.name === name).length).toBeLessThanOrEqual(quantity);
  }
  const listed = (list: readonly { belt: string; length: number; quantity: number }[]): string[] =>
    list
      .flatMap(({ belt, length, quantity }) => Array.from({ length: quantity }, () => `${belt} ${length}`))
      .toSorted();
  const cut = plan.rolls.flatMap(({ cuts }) => cuts.map((one) => ({ ...one, quantity: 1 })));
  expect(listed([...cut, ...plan.uncut])).toEqual(listed(pieces));
  expect(plan.bound).toBeLessThanOrEqual(plan.cost + 1e-9);
}

const smallQuestion: fc.Arbitrary<CuttingQuestion> = fc.record({
  pieces: fc.array(
    fc.record({
      belt: fc.constantFrom('K1', 'K2', 'K3'),
      length: fc.integer({ min: 4, max: 30 }),
      quantity: fc.integer({ min: 1, max: 2 }),
      due: fc.constantFrom(undefined, undefined, 5, 15),
    }),
    { minLength: 1, maxLength: 3 },
  ),
  shelf: fc
    .array(
      fc.record({
        length: fc.integer({ min: 5, max: 40 }),
        quantity: fc.integer({ min: 1, max: 2 }),
        value: fc.constantFrom(0, 0, 1.5),
        day: fc.constantFrom(undefined, undefined, 10, 20),
      }),
      { maxLength: 2 },
    )
    .map((list) => list.map((roll, place) => ({ ...roll, name: `left ${place}` }))),
  sold: fc
    .array(
      fc.record({
        length: fc.integer({ min: 20, max: 60 }),
        price: fc.constantFrom(1, 2.5, 4, 7.25),
        most: fc.constantFrom(1, 2, Number.POSITIVE_INFINITY),
      }),
      { maxLength: 2 },
    )
    .map((list) => list.map((roll, place) => ({ ...roll, name: `sold ${place}` }))),
  sawLoss: fc.constantFrom(0, 1, 3),
  keepFrom: fc.integer({ min: 3, max: 25 }),
  step: fc.constant(1),
});

describe('cutting plan', () => {
  test('cuts most pieces at least cost and then leaves most, as trying every way does', async () => {
    const solver = await solving();
    await fc.assert(
      fc.asyncProperty(smallQuestion, async (question) => {
        const plan = await cuttingPlan(question, solver);
        sound(question, plan);
        const [missing, cost, spent] = figures(plan);
        const [leastMissing, leastCost, leastSpent] = byTrying(question);
        expect([missing, plan.proven]).toEqual([leastMissing, true]);
        expect(cost).toBeCloseTo(leastCost, 9);
        if (plan.offcutsProven) expect(spent).toBeCloseTo(leastSpent, 9);
        else expect(spent).toBeGreaterThanOrEqual(leastSpent);
        expect(plan.offcutsProven).toBe(true);
      }),
      { numRuns: 60 },
    );
  }, 60_000);

  test('takes the saw loss between pieces, not after the last one of a roll that is used up', async () => {
    const question = { shelf: [], sold: [{ name: 'roll', length: 102, price: 3 }], sawLoss: 1, step: 1 };
    const pieces = (length: number): CuttingQuestion['pieces'] => [{ belt: 'K1', length, quantity: 3 }];
    const solver = await solving();
    // 3 x 33 + 2 cuts = 101; 3 x 33.5 needs 102.5.
    expect((await cuttingPlan({ ...question, pieces: pieces(33) }, solver)).rolls.length).toBe(1);
    expect((await cuttingPlan({ ...question, pieces: pieces(33.5) }, solver)).rolls.length).toBe(2);
    const exact = await cuttingPlan({ ...question, pieces: [{ belt: 'K1', length: 102, quantity: 1 }] }, solver);
    expect(exact.rolls.map(({ offcut, waste }) => [offcut, waste])).toEqual([[0, 0]]);
  });

  test('uses leftovers before it buys, and the one that leaves most', async () => {
    const plan = await cuttingPlan(
      {
        pieces: [{ belt: 'K7', length: 900, quantity: 1 }],
        shelf: [
          { name: 'long', length: 5000 },
          { name: 'short', length: 950 },
        ],
        sold: [{ name: 'roll', length: 28000, price: 100 }],
        sawLoss: 2,
        keepFrom: 500,
        step: 1,
      },
      await solving(),
    );
    // The short one: 950 are spent. Of the long one 4098 would be kept: 902 spent, which is less.
    expect(plan.rolls.map(({ name, offcut }) => [name, offcut])).toEqual([['long', 4098]]);
    expect([plan.cost, plan.proven, plan.offcutsProven]).toEqual([0, true, true]);
  });

  test('of the cheapest plans takes the one that leaves most, though a roll not cut would leave more', async () => {
    const plan = await cuttingPlan(
      {
        pieces: [
          { belt: 'K1', length: 20, quantity: 2 },
          { belt: 'K1', length: 4, quantity: 1 },
        ],
        shelf: [],
        sold: [{ name: 'roll', length: 47, price: 1 }],
        sawLoss: 3,
        keepFrom: 3,
        step: 1,
      },
      await solving(),
    );
    // 20 and 4 leave 47 - 27 - 3 = 17, 20 leaves 24. Both of 20 on one roll leave 1, which is waste, and 4 leaves 40.
    expect(plan.rolls.map(({ offcut }) => offcut).toSorted()).toEqual([17, 24]);
    expect([plan.keptLength, plan.proven, plan.offcutsProven]).toEqual([41, true, true]);
  });

  test('begins a leftover where the roll bought keeps more for it', async () => {
    const plan = await cuttingPlan(
      {
        pieces: [
          { belt: 'K1', length: 5, quantity: 2 },
          { belt: 'K1', length: 6, quantity: 1 },
          { belt: 'K1', length: 4, quantity: 1 },
        ],
        shelf: [{ name: 'left', length: 5 }],
        sold: [
          { name: 'short', length: 20, price: 4, most: 1 },
          { name: 'long', length: 30, price: 2.5, most: 2 },
        ],
        sawLoss: 3,
        keepFrom: 3,
        step: 1,
      },
      await solving(),
    );
    // One long roll holds all and keeps nothing. With 5 cut from the leftover it keeps 30 - 5 - 6 - 4 - 9 = 6: one more
    // than the leftover was.
    expect(plan.rolls.map(({ name, offcut }) => [name, offcut])).toEqual([
      ['left', 0],
      ['long', 6],
    ]);
    expect([plan.cost, plan.proven, plan.offcutsProven]).toEqual([2.5, true, true]);
  });

  test('cuts two middling pieces rather than one long one from a roll that is scarce', async () => {
    const plan = await cuttingPlan(
      {
        pieces: [
          { belt: 'K1', length: 8, quantity: 1 },
          { belt: 'K2', length: 6, quantity: 2 },
          { belt: 'K3', length: 5, quantity: 2 },
        ],
        shelf: [
          { name: 'long', length: 12 },
          { name: 'short', length: 5 },
        ],
        sold: [],
        sawLoss: 0,
        keepFrom: 3,
        step: 1,
      },
      await solving(),
    );
    // 6 and 6, or 5 and 5 on the long one and 5 on the short one: three of five. 8 on the long one would leave three
    // uncut.
    expect([plan.pieces, plan.proven]).toEqual([3, true]);
  });

  test('says what cannot be cut: longer than every roll, or no roll left', async () => {
    const plan = await cuttingPlan(
      {
        pieces: [
          { belt: 'K1', length: 1200, quantity: 2 },
          { belt: 'K2', length: 400, quantity: 3 },
        ],
        shelf: [{ name: 'left', length: 1000 }],
        sold: [],
        sawLoss: 0,
        step: 1,
      },
      await solving(),
    );
    expect(plan.uncut).toEqual([
      { belt: 'K1', length: 1200, quantity: 2 },
      { belt: 'K2', length: 400, quantity: 1 },
    ]);
    expect(plan.pieces).toBe(2);
    const nothing = await cuttingPlan(
      { pieces: [], shelf: [], sold: [{ name: 'roll', length: 100, price: 1 }], sawLoss: 0, step: 1 },
      await solving(),
    );
    expect([nothing.rolls, nothing.cost, nothing.proven]).toEqual([[], 0, true]);
  });

  test('lengths in inches, in sixteenths', async () => {
    const plan = await cuttingPlan(
      {
        pieces: [
          { belt: 'K1', length: 25.625, quantity: 4 },
          { belt: 'K2', length: 40.0625, quantity: 5 },
        ],
        shelf: [],
        sold: [{ name: 'roll', length: 12 * 12, price: 10 }],
        sawLoss: 0.125,
        step: 0.0625,
      },
      await solving(),
    );
    // 302.8 in of pieces on rolls of 144: at least three.
    expect([plan.rolls.length, plan.proven, plan.step]).toEqual([3, true, 0.0625]);
  });

  test('refuses what is impossible, naming it', async () => {
    const solver = await solving();
    const question: CuttingQuestion = {
      pieces: [{ belt: 'K1', length: 100, quantity: 1 }],
      shelf: [],
      sold: [{ name: 'roll', length: 500, price: 1 }],
      sawLoss: 0,
      step: 1,
    };
    await expect(cuttingPlan({ ...question, sold: [{ name: 'roll', length: 500, price: 0 }] }, solver)).rejects.toThrow(
      'must be rolls with a price of more than 0 (1 each to find the fewest rolls); roll has 0',
    );
    await expect(
      cuttingPlan({ ...question, pieces: [{ belt: 'K1', length: -5, quantity: 1 }] }, solver),
    ).rejects.toThrow('of belt K1 must be longer than 0; -5 was given');
    await expect(cuttingPlan({ ...question, sawLoss: -1 }, solver)).rejects.toThrow('must be at least 0; -1 was given');
  });
});

/** Strip for a large fleet: widths of a standard series at several skews, three strips a joint. */
function fleet(belts: number): CuttingQuestion {
  const widths = [400, 500, 650, 800, 1000, 1200, 1400, 1600];
  return {
    pieces: Array.from({ length: belts }, (_, place) => ({
      belt: `K${place + 1}`,
      quantity: 3,
      length: Math.round((widths[(place * 5) % 8] ?? 0) / Math.cos((((place * 7) % 4) * 15 * Math.PI) / 180) + 60),
    })),
    shelf: [
      { name: 'left A', length: 9400 },
      { name: 'left B', length: 4150, quantity: 2 },
    ],
    sold: [
      { name: 'roll 28 m', length: 28_000, price: 106.4 },
      { name: 'roll 10 m', length: 10_000, price: 41 },
    ],
    sawLoss: 2,
    keepFrom: 1500,
    step: 1,
  };
}

describe('several prices', () => {
  test('costs that rolls can come to, as adding them up finds', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 30 }), { minLength: 1, maxLength: 3 }),
        fc.integer({ min: 1, max: 120 }),
        (costs, most) => {
          const sums = new Set([0]);
          // A set that grows while it is gone through is gone through to its end.
          for (const sum of sums) for (const cost of costs) if (sum + cost <= most) sums.add(sum + cost);
          const { from, below } = attainableCosts(costs, most);
          const listed = [...sums].toSorted((one, other) => one - other);
          for (let cost = 1; cost <= most; cost += 1) {
            // Above the last sum nothing is known: the cost itself stays the bound.
            expect(from(cost)).toBe(listed.find((sum) => sum >= cost) ?? cost);
            expect(below(cost)).toBe(listed.findLast((sum) => sum < cost));
          }
        },
      ),
      { numRuns: 40 },
    );
  });
  test('a fraction of a dear roll and cheap ones are no plan: branching on numbers proves the least', async () => {
    const question = fleet(36);
    const plan = await cuttingPlan(question, await solving(), { seconds: 50 });
    sound(question, plan);
    expect([plan.proven, plan.gap, plan.bound]).toEqual([true, 0, plan.cost]);
    expect(
      plan.bought.reduce(
        (sum, { rolls, name }) => sum + rolls * (question.sold.find((roll) => roll.name === name)?.price ?? Number.NaN),
        0,
      ),
    ).toBeCloseTo(plan.cost, 9);
    expect(Number.isFinite(plan.offcutsGap)).toBe(true);
  }, 60_000);
});

describe('limits', () => {
  test('a fleet of 300 belts is planned within its time, with a bound', async () => {
    const question = fleet(300);
    const seen: Progress[] = [];
    const { solver, asked } = await watchedSolver();
    const plan = await cuttingPlan(question, solver, { seconds: 8, progress: (progress) => seen.push(progress) });
    // Every program gets what is left of the time, and none is begun without any.
    expect(asked.every(({ seconds }) => seconds > 0 && seconds <= 8)).toBe(true);
    expect(asked.length).toBeGreaterThan(3);
    sound(question, plan);
    expect(plan.gap).toBeLessThan(0.05);
    expect(plan.cost).toBeLessThanOrEqual(plan.firstFitCost);
    expect(seen.length).toBeGreaterThan(1);
    expect(seen.every(({ seconds }, place) => seconds >= (seen[place - 1]?.seconds ?? 0) - 0.5)).toBe(true);
  }, 60_000);

  test('no time at all gives the first-fit plan and an honest bound', async () => {
    const question = fleet(60);
    const plan = await cuttingPlan(question, await solving(), { seconds: 0 });
    sound(question, plan);
    expect(plan.cost).toBeCloseTo(plan.firstFitCost, 6);
    expect(plan.proven).toBe(false);
    const signalled = await cuttingPlan(question, await solving(), { signal: { aborted: true } });
    expect([signalled.cost, signalled.proven]).toEqual([plan.cost, false]);
    // Set while the search goes on: it ends at its next report.
    const signal = { aborted: false };
    const seen: string[] = [];
    const stopped = await cuttingPlan(fleet(300), await solving(), {
      signal,
      progress: ({ stage }) => {
        seen.push(stage);
        if (stage === 'patterns made') signal.aborted = true;
      },
    });
    sound(fleet(300), stopped);
    expect(stopped.offcutsProven).toBe(false);
    expect(seen.filter((stage) => stage === 'patterns made').length).toBeLessThan(5);
  });
});

describe('picture and rows', () => {
  test('a roll shows every cut, the kept offcut and waste, in the colour of the text around it', async () => {
    const plan = await cuttingPlan(
      {
        pieces: [
          { belt: 'K<1>', length: 700, quantity: 3 },
          { belt: 'K2', length: 450, quantity: 2 },
        ],
        shelf: [],
        sold: [{ name: 'roll', length: 2000, price: 1 }],
        sawLoss: 2,
        keepFrom: 300,
        step: 1,
      },
      await solving(),
    );
    expect(plan.rolls.length).toBe(2);
    const words = { length: (length: number): string => `${length} mm` };
    const pictures = plan.rolls.map((roll) => rollPicture(roll, words));
    expect(pictures.join('').match(/<rect /g)?.length).toBe(5 + plan.rolls.filter(({ offcut }) => offcut > 0).length);
    expect(pictures.join('')).toContain('K&lt;1&gt;: 700 mm');
    expect(pictures.join('')).not.toMatch(/#[0-9a-f]{3}|rgb|url\(/);
    expect(pictures.every((picture) => picture.includes('stroke="currentColor"'))).toBe(true);
  });
});
