import { expect, test } from 'vitest';
import { fleetOrder, suppliedOrder, usualScope } from '../../src/order/fleet-order.ts';
import { purchaseOrders } from '../../src/order/purchase-orders.ts';
import { isoDate, serialOf } from '../../src/units/dates.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { solving } from './search/solving.ts';

const cents = (amount: number): number => Math.round(amount * 100);

test('documents add up: lines to orders in both currencies, orders to the total', async () => {
  const book = new Workbook(demoBook('metric'));
  const order = fleetOrder(book, { which: 'all' });
  const made = purchaseOrders(book, order, suppliedOrder(order, await solving()));
  expect(made.currency).toBe('EUR');
  expect(new Set(made.orders.map(({ currency }) => currency))).toEqual(new Set(['EUR', 'GBP']));
  for (const { rate, lines, goods, discount, surcharge, freight, total, bookTotal } of made.orders) {
    for (const { packs, price, amount, bookAmount, quantity, forJoints, forShelf } of lines) {
      expect(cents(amount)).toBe(cents(packs * price));
      expect(cents(bookAmount)).toBe(cents(amount * rate));
      expect(forJoints + forShelf).toBeCloseTo(quantity, 9);
      expect(Math.min(forJoints, forShelf)).toBeGreaterThanOrEqual(0);
    }
    expect(cents(goods)).toBe(lines.reduce((sum, { amount }) => sum + cents(amount), 0));
    expect(cents(total)).toBe(cents(goods) - cents(discount) + cents(surcharge) + cents(freight));
    expect(cents(bookTotal)).toBe(
      lines.reduce((sum, { bookAmount }) => sum + cents(bookAmount), 0) +
        cents(freight * rate) +
        cents(surcharge * rate) -
        cents(discount * rate),
    );
  }
  expect(cents(made.total)).toBe(made.orders.reduce((sum, { bookTotal }) => sum + cents(bookTotal), 0));
  for (const {
    joints,
    allowance,
    shelfLevel,
    onShelf,
    onOrder,
    late,
    forJoints,
    forShelf,
    toOrder,
  } of made.requirements) {
    expect(forJoints).toBeCloseTo(Math.max(0, joints + allowance - onShelf - onOrder + late), 9);
    expect(forShelf).toBeCloseTo(Math.max(0, joints + allowance + shelfLevel - onShelf - onOrder - forJoints), 9);
    expect(toOrder).toBeCloseTo(forJoints + forShelf, 9);
  }
});

test('the usual list ends with the longest lead time and a review period, and counts every replacement in it', () => {
  const book = new Workbook(demoBook('metric'));
  const scope = usualScope(book);
  const today = Number(book.named('ReviewDate'));
  // The longest lead time of a bin is 35 days, ReviewPeriod is 90.
  expect(scope).toEqual({ which: 'due', until: today + 35 + 90 });
  const until = serialOf(2045, 12, 31) ?? 0;
  const { belts } = fleetOrder(book, { which: 'due', until }).joints;
  const q4 = belts.filter(({ belt }) => belt === 'Q4');
  const [first] = q4;
  if (first?.due === undefined) throw new Error('Q4 has no day');
  // 14000 h at 3600 h a year of 365.25 days, from the day on which the overdue joint is made.
  const days = (14_000 / 3600) * 365.25;
  const begun = Math.max(first.due, today);
  expect(q4.map(({ due = 0 }) => isoDate(due))).toEqual([
    isoDate(first.due),
    ...Array.from({ length: Math.floor((until - begun) / days) }, (_, place) =>
      isoDate(Math.floor(begun + (place + 1) * days)),
    ),
  ]);
  expect(q4.length).toBeGreaterThan(3);
});

test('what comes after a joint is due does not cover it, and the shelf is filled beside the joints', () => {
  const book = new Workbook(demoBook('metric'));
  const { lines } = fleetOrder(book, usualScope(book));
  // Belts that fail or have no day run today: all their joints are the shelf's.
  const plover = lines.find(({ item }) => item.kind === 'bolts' && item.name === 'Plover' && item.length === 39);
  expect(plover === undefined || plover.shelfLevel > 0).toBe(true);
  expect(lines.some(({ forShelf }) => forShelf > 0)).toBe(true);
  for (const { forJoints, need } of lines) if (need === 0) expect(forJoints).toBe(0);
});
