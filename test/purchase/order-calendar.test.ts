import ICAL from 'ical.js';
import { expect, test } from 'vitest';
import { fleetOrder, suppliedOrder } from '../../src/order/fleet-order.ts';
import { purchaseOrders } from '../../src/order/purchase-orders.ts';
import { orderCalendar } from '../../src/purchase/order-calendar.ts';
import { orderDocuments } from '../../src/purchase/order-document.ts';
import { loadSolver } from '../../src/solver/solver.ts';
import { isoDate } from '../../src/units/dates.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

test('every day to order by and every delivery is a whole day of the calendar, read by another library', async () => {
  const book = new Workbook(demoBook('metric'));
  const order = fleetOrder(book, { which: 'all' });
  const supplied = suppliedOrder(order, await loadSolver());
  const { documents } = orderDocuments(book, order, purchaseOrders(book, order, supplied));
  const events = new ICAL.Component(ICAL.parse(orderCalendar(documents, 0) ?? '')).getAllSubcomponents('vevent');
  const days = events.map((event) => String(event.getFirstPropertyValue('dtstart')));
  const expected = new Set(
    documents.flatMap(({ day, lines }) =>
      lines.flatMap((line) => [isoDate(Math.max(day, line.days.orderBy)), isoDate(line.days.delivery)]),
    ),
  );
  expect(new Set(days)).toEqual(expected);
  const uids = events.map((event) => String(event.getFirstPropertyValue('uid')));
  expect(new Set(uids).size).toBe(uids.length);
  expect(orderCalendar([], 0)).toBeUndefined();
});
