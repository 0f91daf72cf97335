import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { budget } from '../../../src/order/search/budget.ts';
import { checkOffer, freightOf, type Offer, type Supplier } from '../../../src/order/search/offers.ts';
import { beltNeeds, type ChosenJoints, type Item, itemKey, orderList } from '../../../src/order/search/order-list.ts';
import { singleSupply, splitSupply, type Supply, type SupplyQuestion } from '../../../src/order/search/supply.ts';
import type { Solver } from '../../../src/solver/program.ts';
import { solving, watchedSolver } from './solving.ts';

const chosen: fc.Arbitrary<ChosenJoints> = fc.record({
  belt: fc.integer({ min: 1, max: 40 }).map((number) => `K${number}`),
  area: fc.constantFrom('Quay', 'Shed'),
  month: fc.constantFrom('2026-11', '2026-12', '2027-03'),
  joints: fc.integer({ min: 0, max: 3 }),
  series: fc.constantFrom('A', 'B'),
  plates: fc.integer({ min: 5, max: 60 }),
  bolts: fc.integer({ min: 10, max: 120 }),
  boltLength: fc.constantFrom(27, 33),
  strip: fc.record({
    name: fc.constantFrom('narrow', 'wide'),
    length: fc.double({ min: 100, max: 6000, noNaN: true }),
  }),
  punch: fc.record({
    name: fc.constantFrom('6', '8'),
    holes: fc.integer({ min: 10, max: 200 }),
    life: fc.constant(1500),
  }),
  consumables: fc.constant([{ name: 'blade', quantity: 0.3 }]),
  beltPiece: fc.record({ name: fc.constant('EP 400/3'), length: fc.double({ min: 0, max: 2000, noNaN: true }) }),
});

describe('order list', () => {
  test('every line adds up from the belts, exactly', () => {
    fc.assert(
      fc.property(fc.array(chosen, { maxLength: 25 }), (fleet) => {
        const needs = fleet.flatMap(beltNeeds);
        const lines = orderList(needs);
        expect(new Set(lines.map(({ item }) => itemKey(item)))).toEqual(
          new Set(needs.map(({ item }) => itemKey(item))),
        );
        for (const { item, sources, need } of lines) {
          let sum = 0;
          for (const { quantity } of sources) sum += quantity;
          expect(need).toBe(sum);
          // No belt is left out, none is counted twice.
          const own = needs
            .filter((one) => itemKey(one.item) === itemKey(item))
            .map(({ belt, area, month, quantity }) => ({ belt, area, month, quantity }));
          expect(sources).toEqual(own);
        }
        const plates = lines.filter(({ item }) => item.kind === 'plates').reduce((sum, { need }) => sum + need, 0);
        expect(plates).toBe(fleet.reduce((sum, { joints, plates: each }) => sum + joints * each, 0));
      }),
    );
  });

  test('what is to be bought is need and allowance less shelf and on order, and never below nothing', () => {
    const item: Item = { kind: 'plates', name: 'A' };
    const need = { item, belt: 'K1', area: 'Quay', month: '2026-11', quantity: 100 };
    const line = (shelf: number, coming: number): number | undefined =>
      orderList([need, { ...need, belt: 'K2', quantity: 40 }], {
        waste: { plates: 0.05 },
        shelf: [
          { item, quantity: shelf },
          { item, quantity: 7 },
        ],
        onOrder: [{ item, quantity: coming }],
      })[0]?.toOrder;
    expect(line(0, 0)).toBe(140);
    expect(line(10, 30)).toBe(100);
    expect(line(200, 0)).toBe(0);
    expect(orderList([{ ...need, quantity: 0.1 + 0.2 }], { shelf: [{ item, quantity: 0.3 }] })[0]?.toOrder).toBe(0);
  });

  test('a punch counts by the life that its holes use up; bolts of two lengths are two items', () => {
    const joints: ChosenJoints = {
      belt: 'K1',
      area: 'Quay',
      month: '2026-11',
      joints: 2,
      series: 'A',
      plates: 20,
      bolts: 40,
      boltLength: 27,
      punch: { name: '6', holes: 80, life: 400 },
    };
    const lines = orderList([...beltNeeds(joints), ...beltNeeds({ ...joints, belt: 'K2', boltLength: 33 })]);
    expect(lines.map(({ item, need }) => [item.kind, item.length, need])).toEqual([
      ['plates', undefined, 80],
      ['bolts', 27, 80],
      ['bolts', 33, 80],
      ['punch', undefined, 0.8],
    ]);
  });

  test('what comes after a joint is due does not cover it; the shelf gets what it lacks beside the joints', () => {
    const item: Item = { kind: 'plates', name: 'A' };
    const need = { item, belt: 'K1', area: '', month: '2026-11', quantity: 100, due: 10 };
    const [line] = orderList([need, { ...need, belt: 'K2', due: 90, quantity: 50 }], {
      shelf: [{ item, quantity: 30 }],
      onOrder: [{ item, quantity: 200, day: 60 }],
      levels: [{ item, quantity: 40 }],
    });
    // 100 on day 10 with 30 there; on day 90 there are 30 + 200 for 150; 70 bought for day 10 leave 150 over.
    expect(line).toMatchObject({
      forJoints: 70,
      late: 150,
      forShelf: 0,
      toOrder: 70,
      before: [{ day: 11, quantity: 70 }],
    });
    const [other] = orderList([need], { shelf: [{ item, quantity: 120 }], levels: [{ item, quantity: 40 }] });
    expect(other).toMatchObject({ forJoints: 0, forShelf: 20, toOrder: 20 });
    const alone = orderList([], { shelf: [{ item, quantity: 12 }], levels: [{ item, quantity: 40 }] });
    expect(alone).toMatchObject([{ need: 0, forJoints: 0, forShelf: 28, toOrder: 28 }]);
  });

  test('figures that cannot be are refused, naming belt and figure', () => {
    const joints: ChosenJoints = {
      belt: 'K1',
      area: 'Quay',
      month: '2026-11',
      joints: 2,
      series: 'A',
      plates: 20,
      bolts: 40,
      boltLength: 27,
    };
    expect(() => beltNeeds({ ...joints, plates: Number.NaN })).toThrow(
      'must be a number of at least 0; belt K1 has NaN',
    );
    expect(() => beltNeeds({ ...joints, month: '11/2026' })).toThrow(
      'must be a year and a month, as 2026-11; belt K1 has "11/2026"',
    );
    expect(() => beltNeeds({ ...joints, punch: { name: '6', holes: 4, life: 0 } })).toThrow(
      'must be more than 0 holes; the punch 6 of belt K1 has 0',
    );
    expect(() => orderList([], { waste: { strip: 5 } })).toThrow(
      'must be a share from 0 to 1; strip has 5. Five per cent is 0.05',
    );
  });
});

test('an offer whose breaks do not ascend is refused', () => {
  const offer: Offer = {
    item: { kind: 'plates', name: 'A' },
    supplier: 'S',
    pack: 50,
    breaks: [
      { from: 5, price: 1 },
      { from: 5, price: 2 },
    ],
  };
  expect(() => checkOffer(offer)).toThrow('of S for plates A must have breaks that ascend; 5 follows 5');
});

const items: readonly Item[] = [
  { kind: 'plates', name: 'A' },
  { kind: 'strip', name: 'narrow' },
];

const smallSupply: fc.Arbitrary<SupplyQuestion> = fc.record({
  lines: fc
    .tuple(fc.integer({ min: 0, max: 12 }), fc.integer({ min: 1, max: 9 }))
    .map((needs) => items.map((item, place) => ({ item, toOrder: needs[place] ?? 0 }))),
  suppliers: fc
    .tuple(
      fc.record({
        freight: fc.constantFrom(0, 3, 9),
        minimumOrder: fc.constantFrom(0, 10, 22),
        freightFreeFrom: fc.constantFrom(Number.POSITIVE_INFINITY, 18),
      }),
      fc.record({
        freight: fc.constantFrom(0, 5),
        minimumOrder: fc.constantFrom(0, 8),
        freightFreeFrom: fc.constant(Number.POSITIVE_INFINITY),
      }),
    )
    .map((terms) =>
      terms.map(({ freight, minimumOrder, freightFreeFrom }, place): Supplier => ({
        name: `S${place}`,
        currency: place === 0 ? 'home' : 'away',
        freight,
        minimumOrder,
        ...(Number.isFinite(freightFreeFrom) ? { freightFreeFrom } : {}),
      })),
    ),
  offers: fc
    .array(
      fc.record({
        item: fc.constantFrom(...items),
        supplier: fc.constantFrom('S0', 'S1'),
        pack: fc.constantFrom(2, 3, 5),
        first: fc.integer({ min: 3, max: 9 }),
        later: fc.integer({ min: 2, max: 8 }),
        from: fc.integer({ min: 2, max: 4 }),
      }),
      { minLength: 1, maxLength: 3 },
    )
    .map((offers) =>
      offers.map(({ item, supplier, pack, first, later, from }): Offer => ({
        item,
        supplier,
        pack,
        breaks: [
          { from: 1, price: first },
          { from, price: later },
        ],
      })),
    ),
  rates: fc.constant({ home: 1, away: 1.25 }),
});

/** Least total by every number of packs of every offer. */
function byTrying({ lines, suppliers, offers, rates }: SupplyQuestion): number {
  let least = Number.POSITIVE_INFINITY;
  const offered = lines.filter(
    ({ item, toOrder }) => toOrder > 0 && offers.some((offer) => itemKey(offer.item) === itemKey(item)),
  );
  const used = offers.filter(
    (offer) =>
      offered.some(({ item }) => itemKey(item) === itemKey(offer.item)) &&
      suppliers.some(({ name }) => name === offer.supplier),
  );
  const counts = used.map(() => 0);
  const price = (offer: Offer, number: number): number =>
    offer.breaks.findLast(({ from }) => from <= number)?.price ?? Number.NaN;
  const figure = (): void => {
    for (const { item, toOrder } of offered) {
      const bought = used.reduce(
        (sum, offer, place) => sum + (itemKey(offer.item) === itemKey(item) ? (counts[place] ?? 0) * offer.pack : 0),
        0,
      );
      if (bought < toOrder) return;
    }
    let total = 0;
    for (const {
      name,
      currency,
      freight = 0,
      minimumOrder = 0,
      freightFreeFrom = Number.POSITIVE_INFINITY,
    } of suppliers) {
      let goods = 0;
      let packs = 0;
      for (const [place, offer] of used.entries()) {
        const number = counts[place] ?? 0;
        if (offer.supplier !== name || number === 0) continue;
        goods += number * price(offer, number);
        packs += number;
      }
      if (packs === 0) continue;
      if (goods < minimumOrder) return;
      total += (goods + (goods >= freightFreeFrom ? 0 : freight)) * (rates[currency] ?? Number.NaN);
    }
    least = Math.min(least, total);
  };
  const choose = (place: number): void => {
    if (place === used.length) return figure();
    for (let number = 0; number <= 13; number += 1) {
      counts[place] = number;
      choose(place + 1);
    }
  };
  choose(0);
  return least;
}

/** What holds for any supply. */
function sound({ lines, suppliers, rates }: SupplyQuestion, supply: Supply): void {
  for (const { item, toOrder } of lines) {
    if (toOrder === 0 || supply.unsupplied.some((one) => itemKey(one) === itemKey(item))) continue;
    const bought = supply.purchases
      .filter((purchase) => itemKey(purchase.item) === itemKey(item))
      .reduce((sum, { quantity }) => sum + quantity, 0);
    expect(bought).toBeGreaterThanOrEqual(toOrder);
  }
  for (const { supplier, invoiced } of supply.orders) {
    const terms = suppliers.find(({ name }) => name === supplier);
    expect(invoiced.goods).toBeGreaterThanOrEqual((terms?.minimumOrder ?? 0) - 1e-9);
    if (terms !== undefined) expect(invoiced.freight).toBeCloseTo(freightOf(terms, invoiced.goods), 9);
  }
  expect(supply.total).toBeCloseTo(
    supply.purchases.reduce(
      (sum, { packs, price, supplier }) =>
        sum + packs * price * (rates[suppliers.find(({ name }) => name === supplier)?.currency ?? ''] ?? Number.NaN),
      0,
    ) + supply.charges,
    9,
  );
}

describe('supply', () => {
  test('split over suppliers costs what trying every number of packs finds', async () => {
    const solver = await solving();
    fc.assert(
      fc.property(smallSupply, (question) => {
        const supply = splitSupply(question, solver);
        const least = byTrying(question);
        expect(supply?.total ?? Number.POSITIVE_INFINITY).toBeCloseTo(least, 6);
        if (supply !== undefined) {
          expect(supply.proven).toBe(true);
          sound(question, supply);
        }
      }),
      { numRuns: 60 },
    );
  }, 60_000);

  test('from a single supplier costs what trying finds for each of those who sell everything', async () => {
    const solver = await solving();
    fc.assert(
      fc.property(smallSupply, (question) => {
        const { supply, lacking } = singleSupply(question, solver);
        const able = question.suppliers.filter(({ name }) => !lacking.some(({ supplier }) => supplier === name));
        const least = Math.min(...able.map((supplier) => byTrying({ ...question, suppliers: [supplier] })));
        expect(supply?.total ?? Number.POSITIVE_INFINITY).toBeCloseTo(least, 6);
        const split = splitSupply(question, solver);
        if (supply !== undefined) expect(split?.total).toBeLessThanOrEqual(supply.total + 1e-9);
        for (const { supplier, items: missing } of lacking) {
          for (const item of missing)
            expect(
              question.offers.some((offer) => offer.supplier === supplier && itemKey(offer.item) === itemKey(item)),
            ).toBe(false);
        }
      }),
      { numRuns: 60 },
    );
  }, 60_000);

  test('what nobody sells is told, and a currency without a rate refused', async () => {
    const solver = await solving();
    const question: SupplyQuestion = {
      lines: items.map((item) => ({ item, toOrder: 10 })),
      suppliers: [{ name: 'S', currency: 'away' }],
      offers: [{ item: { kind: 'plates', name: 'A' }, supplier: 'S', pack: 4, breaks: [{ from: 1, price: 2 }] }],
      rates: { away: 2 },
    };
    const supply = splitSupply(question, solver);
    expect(supply?.unsupplied).toEqual([{ kind: 'strip', name: 'narrow' }]);
    expect(supply?.total).toBe(12);
    expect(() => splitSupply({ ...question, rates: {} }, solver)).toThrow(
      'must have an exchange rate above 0 for away, the currency of S; none was given',
    );
    expect(splitSupply({ ...question, offers: [] }, solver)?.total).toBe(0);
    // However small a need beside its pack.
    expect(
      splitSupply({ ...question, lines: [{ item: items[0] ?? { kind: 'plates', name: '' }, toOrder: 1e-5 }] }, solver)
        ?.total,
    ).toBe(4);
  });
});

test('a stop never makes an order worse than the cheapest offer for each item', async () => {
  const solver = await solving();
  const stopped: Solver = {
    ...solver,
    whole: () => ({ outcome: 'none', values: [], cost: Number.POSITIVE_INFINITY, bound: 0 }),
  };
  fc.assert(
    fc.property(smallSupply, (question) => {
      const [first, best] = [splitSupply(question, stopped), splitSupply(question, solver)];
      if (first === undefined || best === undefined) throw new Error('no supply');
      expect(first.proven).toBe(false);
      expect(first.total).toBeGreaterThanOrEqual(best.total - 1e-9);
      sound(question, first);
    }),
    { numRuns: 60 },
  );
});

describe('budget', () => {
  test('areas and months add up to the order', async () => {
    const solver = await solving();
    fc.assert(
      fc.property(fc.array(chosen, { minLength: 1, maxLength: 12 }), (fleet) => {
        const lines = orderList(fleet.flatMap(beltNeeds), { waste: { strip: 0.03 } });
        const suppliers: Supplier[] = [
          { name: 'S0', currency: 'home', freight: 40 },
          { name: 'S1', currency: 'away', freight: 25, minimumOrder: 60 },
        ];
        const offers = lines.flatMap(({ item }, place) =>
          suppliers.map(({ name }, other): Offer => ({
            item,
            supplier: name,
            pack: item.kind === 'strip' || item.kind === 'belt' ? 10_000 : 25,
            breaks: [
              { from: 1, price: 20 + ((place * 7 + other * 5) % 11) },
              { from: 6, price: 15 + ((place * 3 + other) % 7) },
            ],
          })),
        );
        const supply = splitSupply({ lines, suppliers, offers, rates: { home: 1, away: 0.9 } }, solver);
        if (supply === undefined) throw new Error('no supply');
        const { rows, total } = budget(lines, supply);
        expect(total).toBeCloseTo(supply.total, 6);
        expect(rows.reduce((sum, { charges }) => sum + charges, 0)).toBeCloseTo(supply.charges, 6);
        expect(rows.map(({ month, area }) => `${month} ${area}`)).toEqual(
          rows.map(({ month, area }) => `${month} ${area}`).toSorted(),
        );
        const places = new Set(fleet.filter(({ joints }) => joints > 0).map(({ month, area }) => `${month} ${area}`));
        expect(new Set(rows.map(({ month, area }) => `${month} ${area}`))).toEqual(places);
      }),
      { numRuns: 15 },
    );
  }, 60_000);

  test('a thousand belts: the split among suppliers keeps to its seconds, near the best', async () => {
    const { solver, asked } = await watchedSolver();
    const fleet = Array.from({ length: 1000 }, (_, place): ChosenJoints => ({
      belt: `K${place}`,
      area: `area ${place % 9}`,
      month: `2027-${String((place % 12) + 1).padStart(2, '0')}`,
      joints: 1 + (place % 2),
      series: `series ${place % 8}`,
      plates: 12 + (place % 40),
      bolts: 2 * (12 + (place % 40)),
      boltLength: 27 + 6 * ((place * 3) % 3),
      strip: { name: `strip ${place % 3}`, length: 1500 + (place % 700) },
      punch: { name: `punch ${place % 5}`, holes: 48 + 4 * (place % 40), life: 1500 },
    }));
    const lines = orderList(fleet.flatMap(beltNeeds), { waste: { strip: 0.03, plates: 0.02 } });
    const suppliers: Supplier[] = ['S0', 'S1', 'S2'].map((name, place) => ({
      name,
      currency: 'home',
      freight: 60 + 20 * place,
      minimumOrder: 200 * place,
      freightFreeFrom: 6000,
    }));
    const offers = lines.flatMap(({ item }, place) =>
      suppliers
        .filter((_, other) => (place + other) % 5 !== 4)
        .map(({ name }, other): Offer => ({
          item,
          supplier: name,
          pack: item.kind === 'strip' ? 28_000 : item.kind === 'punch' ? 1 : 48 + 12 * other,
          breaks: [
            { from: 1, price: 50 + ((place * 7 + other * 5) % 11) },
            { from: 10, price: 46 + ((place * 3 + other) % 7) },
            { from: 40, price: 41 + ((place + other) % 5) },
          ],
        })),
    );
    const supply = splitSupply({ lines, suppliers, offers, rates: { home: 1 } }, solver, { seconds: 10 });
    expect(asked.length).toBeGreaterThan(0);
    expect(Math.max(...asked.map(({ seconds }) => seconds))).toBeLessThanOrEqual(10);
    expect(supply === undefined ? Number.NaN : (supply.total - supply.bound) / supply.total).toBeLessThan(0.001);
  }, 60_000);
});
