import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { breakQuantity, yearlyCostOf } from '../../../src/order/search/break-quantity.ts';
import { type Lot, lumpyReorderPoint, steadyReorderPoint } from '../../../src/order/search/lot-demand.ts';
import type { Item } from '../../../src/order/search/order-list.ts';
import { type BeltUse, jointsPerYear, type ShelfItem, shelfPlan, unlisted } from '../../../src/order/search/shelf.ts';
import { shareInterval, simulatedShelf } from '../../../src/order/search/shelf-simulation.ts';
import { orderQuantity } from '../../../src/functions/buying.ts';
import { poissonQuantile } from '../../../src/functions/poisson-quantile.ts';
import { table, tolerance } from '../../published/table.ts';

const single = (perYear: number): Lot[] => [{ perYear, quantity: 1 }];
const sure = (mean: number): { mean: number; deviation: number } => ({ mean, deviation: 0 });

describe('published cases', () => {
  const figure = (given: string, name: string): number => Number(new RegExp(`${name} ([\\d.]+)`).exec(given)?.[1]);
  const answer = (name: string, given: string, service: number): unknown => {
    const terms = {
      demand: figure(given, 'demand'),
      orderCost: figure(given, 'order'),
      holdingShare: figure(given, 'holding'),
      breaks: [...given.matchAll(/(\d+):([\d.]+)/g)].map(([, from, price]) => ({
        from: Number(from),
        price: Number(price),
      })),
    };
    switch (name) {
      case 'order quantity':
        return orderQuantity.evaluate([terms.demand, terms.orderCost, terms.holdingShare]);
      case 'breaks':
        return breakQuantity(terms).quantity;
      case 'breaks cost':
        return breakQuantity(terms).yearlyCost;
      case 'normal':
        return steadyReorderPoint(
          { mean: figure(given, 'mean'), deviation: figure(given, 'deviation') },
          sure(figure(given, 'lead')),
          service,
        );
      case 'poisson':
        return lumpyReorderPoint(single(figure(given, 'mean')), sure(1), service).reorderPoint;
      default:
        throw new Error(`no case ${name}`);
    }
  };
  test.each(
    table('../order/search/stock-cases.csv').rows.map((row) => [`${row.case} ${row.given} ${row.service}`, row]),
  )('%s', (_, { case: name = '', given = '', service = '', printed = '', print = '' }) => {
    expect(Math.abs(Number(answer(name, given, Number(service))) - Number(printed))).toBeLessThanOrEqual(
      tolerance(printed, print),
    );
  });
  test('the whole order quantity lies beside the economic one', () => {
    const { quantity } = breakQuantity({
      demand: 1300,
      orderCost: 8,
      holdingShare: 0.225,
      breaks: [{ from: 1, price: 1 }],
    });
    expect(quantity).toBe(304);
  });
});

describe('order quantity at price breaks', () => {
  test('is the best of all whole quantities', () => {
    const prices = fc.array(fc.tuple(fc.integer({ min: 1, max: 30 }), fc.integer({ min: 1, max: 400 })), {
      minLength: 1,
      maxLength: 4,
    });
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 400 }),
        fc.integer({ min: 0, max: 80 }),
        fc.integer({ min: 1, max: 60 }),
        prices,
        (demand, orderCost, holding, steps) => {
          let from = 0;
          const breaks = steps.map(([step, cents], place) => {
            from += place === 0 ? 1 : step;
            return { from, price: cents / 100 };
          });
          const question = { demand, orderCost, holdingShare: holding / 100, breaks };
          let best = Number.POSITIVE_INFINITY;
          for (let quantity = 1; quantity <= 5000; quantity += 1)
            best = Math.min(
              best,
              yearlyCostOf(question, quantity, breaks.findLast((one) => one.from <= quantity)?.price ?? Number.NaN),
            );
          expect(breakQuantity(question).yearlyCost).toBeLessThanOrEqual(best * (1 + 1e-12));
        },
      ),
      { numRuns: 150 },
    );
  });
  test('nothing is ordered without a use; what costs nothing to keep is ordered for a year', () => {
    expect(
      breakQuantity({ demand: 0, orderCost: 10, holdingShare: 0.2, breaks: [{ from: 1, price: 3 }] }).quantity,
    ).toBe(0);
    expect(
      breakQuantity({ demand: 12.5, orderCost: 10, holdingShare: 0.2, breaks: [{ from: 1, price: 0 }] }).quantity,
    ).toBe(13);
  });
});

describe('reorder points', () => {
  test('single pieces and a sure lead time: the Poisson quantile', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 2000 }), fc.integer({ min: 1, max: 999 }), (hundredths, thousandths) => {
        const [mean, service] = [hundredths / 100, thousandths / 1000];
        expect(lumpyReorderPoint(single(mean * 4), sure(0.25), service).reorderPoint).toBe(
          poissonQuantile(mean, service),
        );
      }),
    );
  });
  test('lots of one size are counted in lots; a stock just short of one lot more serves no more', () => {
    const lots = [
      { perYear: 3, quantity: 42 },
      { perYear: 1, quantity: 42 },
    ];
    expect(lumpyReorderPoint(lots, sure(1), 0.95).reorderPoint).toBe(42 * poissonQuantile(4, 0.95) + 41);
  });
  test('mixed lots: chances as found by adding up every number of each lot', () => {
    // Two lots of 2 and 3 pieces: number of each Poisson, independent; the last lot reaches below the point.
    const [twos, threes] = [1.2, 0.7];
    const poisson = (mean: number, count: number): number =>
      Array.from({ length: count }, (_, index) => mean / (index + 1)).reduce(
        (product, factor) => product * factor,
        Math.exp(-mean),
      );
    const meanLot = (2 * twos + 3 * threes) / (twos + threes);
    const beyond = [1, 1, threes / (twos + threes)].map((share) => share / meanLot);
    const reached = (point: number): number => {
      let sum = 0;
      for (const [below, share] of beyond.entries()) {
        for (let two = 0; two < 40; two += 1) {
          for (let three = 0; 2 * two + 3 * three + below <= point; three += 1)
            sum += share * poisson(twos, two) * poisson(threes, three);
        }
      }
      return sum;
    };
    for (const service of [0.5, 0.8, 0.9, 0.95, 0.99]) {
      const point = lumpyReorderPoint(
        [
          { perYear: twos, quantity: 2 },
          { perYear: threes, quantity: 3 },
        ],
        sure(1),
        service,
      );
      expect(point.service).toBeCloseTo(reached(point.reorderPoint), 9);
      expect(point.service).toBeGreaterThanOrEqual(service);
      expect(reached(point.reorderPoint - 1)).toBeLessThan(service);
    }
  });
  test('a lead time that spreads asks for more, in both models; the variance is that of handbooks', () => {
    // 5 a day, deviation 2, lead 10 days spread by 3: variance 10 x 4 + 25 x 9 = 265.
    expect(steadyReorderPoint({ mean: 5, deviation: 2 }, { mean: 10, deviation: 3 }, 0.95)).toBeCloseTo(
      50 + 1.644853627 * Math.sqrt(265),
      6,
    );
    expect(lumpyReorderPoint(single(4), { mean: 1, deviation: 0.5 }, 0.95).reorderPoint).toBeGreaterThan(
      lumpyReorderPoint(single(4), sure(1), 0.95).reorderPoint,
    );
  });
  test('services and lead times out of bounds are refused', () => {
    expect(() => lumpyReorderPoint(single(1), sure(1), 95)).toThrow(
      'must be more than 0 and less than 1, as a share; 95 was given. 95 per cent is 0.95',
    );
    expect(() => lumpyReorderPoint(single(1), sure(0), 0.9)).toThrow('must be more than 0; 0 was given');
    expect(lumpyReorderPoint([], sure(1), 0.9)).toEqual({ reorderPoint: 0, service: 1 });
  });
});

describe('simulated service', () => {
  test("a share's interval, as worked in textbooks", () => {
    // 15 of 20 at 95 per cent: 0.531 to 0.888 (Wilson's interval, from memory, recomputed by hand).
    const [low, high] = shareInterval(15, 20, 0.95);
    expect([low, high].map((share) => Math.round(share * 1000))).toEqual([531, 888]);
  });
  // Each item is one that the Poisson model is for; orders large enough that lead times seldom overlap.
  const cases: readonly (readonly [string, readonly Lot[], { mean: number; deviation: number }, number])[] = [
    ['single pieces, one in a lead time', single(12), sure(1 / 12), 0.95],
    ['single pieces, six in a lead time', single(72), sure(1 / 12), 0.9],
    ['joints of 42 plates', [{ perYear: 24, quantity: 42 }], sure(1 / 12), 0.98],
    [
      'joints of several belts',
      [
        { perYear: 14, quantity: 24 },
        { perYear: 9, quantity: 36 },
        { perYear: 5, quantity: 61 },
      ],
      sure(1 / 12),
      0.95,
    ],
    ['a lead time that spreads', single(36), { mean: 1 / 12, deviation: 1 / 30 }, 0.95],
  ];
  test.each(cases)(
    '%s: the computed chance lies in the interval, which reaches the service asked for',
    (_, lots, lead, service) => {
      const point = lumpyReorderPoint(lots, lead, service);
      const demand = lots.reduce((sum, { perYear, quantity }) => sum + perYear * quantity, 0);
      const simulated = simulatedShelf(
        { lots, lead, reorderPoint: point.reorderPoint, orderQuantity: Math.ceil(demand / 2) },
        { years: 6000, seed: 20_261 },
      );
      const [low = 1, high = 0] = simulated.interval ?? [];
      expect(simulated.orders).toBeGreaterThan(8000);
      expect(point.service).toBeGreaterThanOrEqual(service);
      expect(low).toBeLessThanOrEqual(point.service);
      expect(high).toBeGreaterThanOrEqual(point.service);
      expect(high).toBeGreaterThanOrEqual(service);
      // One piece or lot less would not reach it.
      const unit = lots.length === 1 ? (lots[0]?.quantity ?? 1) : 1;
      if (lots.length === 1)
        expect(
          simulatedShelf(
            { lots, lead, reorderPoint: point.reorderPoint - unit, orderQuantity: Math.ceil(demand / 2) },
            { years: 6000, seed: 20_261 },
          ).service,
        ).toBeLessThan(service);
    },
  );
  test('steady items reach about the service', () => {
    const lots = [
      { perYear: 200, quantity: 24 },
      { perYear: 160, quantity: 40 },
    ];
    const point = shelfPlan(
      [
        {
          item,
          criticality: 'high',
          leadDays: 30,
          leadDeviationDays: 4,
          orderCost: 30,
          holdingShare: 0.2,
          pack: 50,
          breaks: [{ from: 1, price: 40 }],
          onShelf: 0,
          onOrder: 0,
        },
      ],
      [
        { belt: 'K1', joints: 200, hoursPerYear: 1, jointLife: 1, parts: [{ item, quantity: 24 }] },
        { belt: 'K2', joints: 160, hoursPerYear: 1, jointLife: 1, parts: [{ item, quantity: 40 }] },
      ],
      { services: { high: 0.95 } },
    )[0];
    if (point === undefined) throw new Error('one line');
    expect(point.use).toBe('steady');
    const { service = 0 } = simulatedShelf(
      { lots, lead: point.lead, reorderPoint: point.reorderPoint, orderQuantity: 4000 },
      { years: 4000, seed: 5 },
    );
    expect(Math.abs(service - 0.95)).toBeLessThan(0.02);
  });
  test('is the same for the same seed, and a year says how little it says', () => {
    const policy = { lots: single(10), lead: sure(0.1), reorderPoint: 3, orderQuantity: 5 };
    const year = simulatedShelf(policy, { years: 1, seed: 3 });
    expect(simulatedShelf(policy, { years: 1, seed: 3 })).toEqual(year);
    expect(year.orders).toBeLessThan(6);
    const [low = 0, high = 0] = year.interval ?? [];
    expect(high - low).toBeGreaterThan(0.4);
    expect(simulatedShelf({ ...policy, lots: [] }, { years: 1, seed: 3 })).toMatchObject({
      orders: 0,
      joints: 0,
      mean: 8,
    });
  });
  test('keeps its books: what came less what was taken is what is left', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1e6 }),
        fc.integer({ min: 1, max: 40 }),
        fc.integer({ min: 0, max: 6 }),
        fc.integer({ min: 1, max: 9 }),
        (seed, rate, reorderPoint, quantity) => {
          const { joints, served, orders, inTime, least, mean } = simulatedShelf(
            { lots: single(rate), lead: sure(0.05), reorderPoint, orderQuantity: quantity },
            { years: 5, seed },
          );
          expect(served).toBeLessThanOrEqual(joints);
          expect(inTime).toBeLessThanOrEqual(orders);
          expect(least).toBeLessThanOrEqual(reorderPoint + quantity);
          expect(mean).toBeLessThanOrEqual(reorderPoint + quantity);
          // Every joint that was not served found nothing on the shelf.
          expect(served < joints).toBe(least < 0);
        },
      ),
    );
  });
});

const item: Item = { kind: 'plates', name: 'A' };
const kept: ShelfItem = {
  item,
  criticality: 'high',
  leadDays: 36.525,
  orderCost: 30,
  holdingShare: 0.2,
  pack: 50,
  breaks: [
    { from: 1, price: 40 },
    { from: 4, price: 36 },
  ],
  onShelf: 100,
  onOrder: 0,
};
const belt: BeltUse = {
  belt: 'K1',
  joints: 2,
  hoursPerYear: 4000,
  jointLife: 16_000,
  failureShare: 0.2,
  failureRate: 0.05,
  parts: [{ item, quantity: 42 }],
};

describe('shelf', () => {
  test('use from joints, life and failures', () => {
    // 2 x 4000 / 16000 planned; 0.5 x 0.2 + 2 x 0.05 unplanned.
    expect(jointsPerYear(belt).planned).toBe(0.5);
    expect(jointsPerYear(belt).unplanned).toBeCloseTo(0.2, 12);
    expect(() => jointsPerYear({ ...belt, jointLife: 0 })).toThrow('must be more than 0 hours; belt K1 has 0');
  });
  test('a line worked out by hand', () => {
    const [line] = shelfPlan([kept], [belt], { services: { high: 0.99 } });
    // 0.7 joints a year, 0.07 in the lead time: P(0) = 0.932, P(<= 1) = 0.9977. One joint of 42, and 41 that serve no
    // more.
    expect(line).toMatchObject({ use: 'lumpy', reorderPoint: 83, planned: 21, short: 0, packsToday: 0, dead: false });
    expect(line?.planned === undefined ? 0 : line.planned + line.unplanned).toBeCloseTo(29.4, 9);
    // 0.588 packs a year: sqrt(2 x 0.588 x 30 / 8) = 2.1 packs at 40: 23.5 + 8.8 + 8.0 = 40.3; four at 36: 21.2 + 4.4 +
    // 14.4 = 40.0.
    expect([line?.orderPacks, line?.orderQuantity]).toEqual([4, 200]);
    expect(line?.value).toBe(80);
    const [low] = shelfPlan([{ ...kept, onShelf: 20, onOrder: 30 }], [belt], { services: { high: 0.99 } });
    expect([low?.short, low?.packsToday]).toEqual([33, 4]);
  });
  test('use adds up from the belts, and ordering today lifts the stock above the point', () => {
    const uses = fc.array(
      fc.record({
        belt: fc.string(),
        joints: fc.integer({ min: 0, max: 4 }),
        hoursPerYear: fc.integer({ min: 100, max: 8000 }),
        jointLife: fc.integer({ min: 500, max: 30_000 }),
        failureShare: fc.constantFrom(0, 0.1),
        parts: fc.integer({ min: 0, max: 60 }).map((quantity) => [{ item, quantity }]),
      }),
      { maxLength: 30 },
    );
    fc.assert(
      fc.property(uses, fc.integer({ min: 0, max: 3000 }), fc.constantFrom(10, 60, 400), (belts, onShelf, leadDays) => {
        const [line] = shelfPlan([{ ...kept, onShelf, leadDays }], belts, { services: { high: 0.95 } });
        if (line === undefined) throw new Error('one line');
        const expected = belts.reduce(
          (sum, { joints, hoursPerYear, jointLife, failureShare, parts }) =>
            sum + ((joints * hoursPerYear) / jointLife) * (1 + failureShare) * (parts[0]?.quantity ?? 0),
          0,
        );
        expect(line.planned + line.unplanned).toBeCloseTo(expected, 6);
        expect(line.dead).toBe(expected === 0 && onShelf > 0);
        expect(line.use === 'unused').toBe(expected === 0);
        if (line.packsToday > 0) {
          expect(onShelf).toBeLessThanOrEqual(line.reorderPoint);
          expect(onShelf + line.packsToday * kept.pack).toBeGreaterThan(line.reorderPoint);
        } else if (expected > 0) expect(onShelf).toBeGreaterThan(line.reorderPoint);
      }),
    );
  });
  test('dead stock and items that nobody lists are told', () => {
    const other: Item = { kind: 'plates', name: 'B' };
    const [line] = shelfPlan([{ ...kept, item: other }], [belt], { services: { high: 0.95 } });
    expect(line).toMatchObject({
      dead: true,
      use: 'unused',
      cover: Number.POSITIVE_INFINITY,
      packsToday: 0,
      orderQuantity: 0,
    });
    expect(unlisted([{ item: other }], [belt])).toEqual([item]);
  });
  test('what cannot be is refused, naming the item', () => {
    expect(() => shelfPlan([{ ...kept, criticality: 'odd' }], [belt], { services: { high: 0.95 } })).toThrow(
      'must be one of high; plates A has "odd"',
    );
    expect(() => shelfPlan([{ ...kept, leadDays: 0 }], [belt], { services: { high: 0.95 } })).toThrow(
      'must be more than 0 days; plates A has 0',
    );
  });
});
