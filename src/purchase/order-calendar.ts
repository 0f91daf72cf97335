import { basic, calendarText, type CalendarEvent, clean, identified } from '../outage/calendar.ts';
import { isoDate } from '../units/dates.ts';
import type { OrderDocument } from './order-document.ts';

/** The days of orders as a calendar: the last day to order, and the day of each delivery; an event is a whole day. */

const dayParts = (day: number): [number, number, number] => {
  const [year = 0, month = 1, date = 1] = isoDate(Math.floor(day)).split('-').map(Number);
  return [year, month, date];
};

interface Entry {
  readonly day: number;
  readonly what: 'Order by' | 'Order now, late' | 'Delivery';
  readonly document: OrderDocument;
}

/** A supplier's lines that fall on one day are one event. */
function entriesOf(document: OrderDocument): (Entry & { readonly items: readonly string[] })[] {
  const found = new Map<string, Entry & { items: string[] }>();
  const put = (day: number, what: Entry['what'], item: string): void => {
    const key = `${what} ${day}`;
    const entry = found.get(key) ?? { day, what, document, items: [] };
    entry.items.push(item);
    found.set(key, entry);
  };
  for (const { days, description, packs } of document.lines) {
    const item = `${packs} × ${description}`;
    put(Math.max(document.day, days.orderBy), days.orderBy < document.day ? 'Order now, late' : 'Order by', item);
    put(days.delivery, 'Delivery', item);
  }
  return [...found.values()];
}

/** `stamp` is when the file is made, milliseconds since 1970; undefined when there is nothing to order. */
export function orderCalendar(documents: readonly OrderDocument[], stamp: number): string | undefined {
  const events = documents
    .flatMap(entriesOf)
    .map(({ day, what, document, items }): CalendarEvent => ({
      start: dayParts(day),
      duration: { days: 1 },
      timestamp: `${basic(stamp)}Z`,
      uid: `${identified(`${document.number} ${what} ${isoDate(day)}`)}@${identified(document.site.name)}`,
      title: clean(`${what}: ${document.address.name}, ${document.number}`),
      description: clean(items.join('\n')),
      busyStatus: 'FREE',
    }));
  return events.length === 0 ? undefined : calendarText(events, 'Orders', 'Orders');
}
