import { expect, test } from 'vitest';
import { chosenSupply, fleetOrder, suppliedOrder } from '../../src/order/fleet-order.ts';
import { itemText } from '../../src/order/items.ts';
import { joinedBooks } from '../../src/order/joined-books.ts';
import { deliveriesOf } from '../../src/order/purchase-orders.ts';
import { freightOf, type Offer, type Supplier } from '../../src/order/search/offers.ts';
import { itemKey } from '../../src/order/search/order-list.ts';
import { splitSupply } from '../../src/order/search/supply.ts';
import { randomNumbers } from '../../src/random/random-numbers.ts';
import { half, sitesOf } from './halved-demo.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import type { BookState } from '../../src/workbook/state.ts';
import { withSheet } from '../../src/workbook/state-changes.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { solving } from './search/solving.ts';

test('two halves of a plant cost what the whole costs with one delivery, and more by freight with two', async () => {
  const solver = await solving();
  const scope = { which: 'all' } as const;
  const whole = fleetOrder(new Workbook(demoBook('metric')), scope);
  const joined = joinedBooks([
    { file: 'quay.xlsx', book: half(0) },
    { file: 'mill.xlsx', book: half(1) },
  ]);
  expect(joined.conflicts).toEqual([]);
  expect(joined.sites).toEqual(['Quay', 'Mill']);
  const book = new Workbook(joined.state);
  const [together, apart] = [false, true].map((one) => fleetOrder(book, scope, { sites: sitesOf(joined, one) }));
  if (together === undefined || apart === undefined) throw new Error('no order');
  const toOrder = ({ lines }: typeof whole): [string, string][] =>
    lines
      .map((line): [string, string] => [itemText(line.item, 'metric'), line.toOrder.toFixed(6)])
      .toSorted(([one], [other]) => (one < other ? -1 : 1));
  expect(toOrder(together)).toEqual(toOrder(whole));
  const [one, once, twice] = [whole, together, apart].map((order) => chosenSupply(suppliedOrder(order, solver)));
  if (one === undefined || once === undefined || twice === undefined) throw new Error('no supply');
  expect([one.proven, once.proven, twice.proven]).toEqual([true, true, true]);
  expect(once.total).toBeCloseTo(one.total, 2);
  expect(once.orders.every(({ deliveries }) => deliveries === 1)).toBe(true);
  expect(twice.total).toBeGreaterThan(one.total);
  // Twice the freight of the same order is one way to do it.
  expect(twice.total).toBeLessThanOrEqual(one.total + one.charges + 0.01);
  expect(twice.orders.some(({ deliveries }) => deliveries === 2)).toBe(true);
  for (const { supplier, invoiced, deliveries } of twice.orders) {
    const terms = apart.offered.suppliers.find(({ name }) => name === supplier);
    if (terms === undefined) throw new Error('no supplier');
    expect(invoiced.freight).toBeCloseTo(deliveries * freightOf(terms, invoiced.goods), 2);
    const bought = twice.purchases.filter((purchase) => purchase.supplier === supplier);
    const parts = bought.map((purchase) => ({ purchase, to: deliveriesOf(apart, purchase) }));
    expect(new Set(parts.flatMap(({ to }) => to.map(({ site }) => site))).size).toBe(deliveries);
    for (const { purchase, to } of parts)
      expect(to.reduce((sum, { quantity }) => sum + quantity, 0)).toBeCloseTo(purchase.quantity, 9);
  }
  for (const line of apart.lines) {
    const parts = apart.sites?.get(itemKey(line.item)) ?? [];
    expect(parts.reduce((sum, { need }) => sum + need, 0)).toBeCloseTo(line.need, 9);
    expect(parts.reduce((sum, { onShelf }) => sum + onShelf, 0)).toBeCloseTo(line.shelf, 9);
  }
}, 60_000);

test('refuses series that books disagree on, and tells whose prices and assumptions count', () => {
  const series = (state: BookState): BookState =>
    withSheet(state, 'Plate series', (sheet) => ({
      ...sheet,
      rows: sheet.rows.map(({ cells }) =>
        cells[0] === 'Heron' ? { cells: cells.map((one, column) => (column === 3 ? 999 : one)) } : { cells },
      ),
    }));
  const assuming = (state: BookState): BookState =>
    withSheet(state, 'Assumptions', (sheet) => ({
      ...sheet,
      rows: sheet.rows.map(({ cells }) => ({ cells: cells[0] === 'PunchLife' ? cells.with(1, 123) : cells })),
    }));
  const first = { file: 'quay.xlsx', book: half(0) };
  const joined = joinedBooks([
    first,
    { file: 'mill.xlsx', book: half(1, (state) => assuming(series(state))) },
    { file: 'again.xlsx', book: half(0) },
  ]);
  expect(joined.conflicts).toHaveLength(1);
  expect(joined.conflicts[0]).toMatch(/^Plate series, Heron: .+ is [^ ]+ in quay\.xlsx and 999 in mill\.xlsx$/);
  expect(joined.told).toContain('mill.xlsx assumes otherwise: PunchLife; those of quay.xlsx are used');
  expect(joined.told).toContain('19 offers and 4 suppliers of mill.xlsx are not used: prices are those of quay.xlsx');
  expect(joined.sites).toEqual(['Quay', 'Mill', 'Quay (Tern Quay)']);
  const belts = joined.state.sheets.find(({ name }) => name === 'Belts')?.rows.map(({ cells }) => cells[0]) ?? [];
  expect(new Set(belts).size).toBe(belts.length);
  expect(belts).toContain('Q1 (Quay (Tern Quay))');
  // With a lender its figures count, and nothing is refused.
  const lent = joinedBooks([first, { file: 'mill.xlsx', book: half(1, series) }], {
    file: 'prices.xlsx',
    state: demoBook('metric'),
  });
  expect(lent.conflicts).toEqual([]);
});

test('deliveries to sites are weighed as trying every number of packs finds', async () => {
  const solver = await solving();
  for (let seed = 1; seed <= 20; seed += 1) {
    const random = randomNumbers(seed);
    const draw = (from: number, to: number): number => from + Math.floor(random() * (to - from + 1));
    const lines = ['a', 'b', 'c'].map((name) => ({
      item: { kind: 'consumable', name } as const,
      toOrder: draw(1, 5),
      sites: [['A'], ['B'], ['A', 'B']][draw(0, 2)] ?? [],
    }));
    const suppliers = ['North', 'South'].map((name): Supplier => ({
      name,
      currency: 'EUR',
      freight: draw(0, 30),
      ...(draw(0, 1) === 0 ? {} : { freightFreeFrom: draw(20, 120) }),
    }));
    const offers = suppliers.flatMap(({ name: supplier }) =>
      lines.map(({ item }): Offer => ({ item, supplier, pack: draw(1, 3), breaks: [{ from: 1, price: draw(5, 25) }] })),
    );
    const supply = splitSupply({ lines, suppliers, offers, rates: { EUR: 1 } }, solver);
    const most = 9;
    let best = Number.POSITIVE_INFINITY;
    /** Packs of each item from the first and the second supplier. */
    const ways = lines.map(({ item, toOrder }) => {
      const [first, second] = suppliers.map(({ name }) =>
        offers.find((offer) => offer.supplier === name && offer.item.name === item.name),
      );
      return (
        Array.from({ length: (most + 1) ** 2 }, (_, number) => [number % (most + 1), Math.floor(number / (most + 1))])
          .filter(([one = 0, other = 0]) => one * (first?.pack ?? 0) + other * (second?.pack ?? 0) >= toOrder)
          .map((packs) => ({
            packs,
            goods: [first, second].map((offer, place) => (packs[place] ?? 0) * (offer?.breaks[0]?.price ?? 0)),
          }))
          // More packs than these reach no limit that is left.
          .filter(({ packs: [one = 0, other = 0] }) => one + other <= toOrder + 4)
      );
    });
    const [firsts = [], seconds = [], thirds = []] = ways;
    for (const one of firsts)
      for (const two of seconds)
        for (const three of thirds) {
          const chosen = [one, two, three];
          let cost = 0;
          suppliers.forEach((supplier, place) => {
            const goods = chosen.reduce((sum, way) => sum + (way.goods[place] ?? 0), 0);
            const sites = new Set(
              chosen.flatMap((way, line) => ((way.packs[place] ?? 0) > 0 ? (lines[line]?.sites ?? []) : [])),
            );
            cost +=
              goods + (goods >= (supplier.freightFreeFrom ?? Infinity) ? 0 : sites.size * (supplier.freight ?? 0));
          });
          best = Math.min(best, cost);
        }
    expect({ seed, total: supply?.total }).toEqual({ seed, total: best });
  }
}, 60_000);
