import { outageCalendar } from './calendar.ts';
import { ganttPicture, type GanttOptions } from './gantt.ts';
import type { OutagePlan } from './search/request.ts';
import { planSummary } from './plan-table.ts';
import type { BookState } from '../workbook/state.ts';
import type { TableBook } from '../sheet/table.ts';
import type { FleetOutage } from './fleet-outage.ts';
import { outageTables } from './outage-tables.ts';

/** A plan as files: calendar, picture, workbook. */

/** What the plan of a book is called. */
const outageTitle = ({ title }: Pick<BookState, 'title'>): string =>
  title === '' ? 'Outage plan' : `${title}: outage plan`;

/** A calendar knows a later edition by a greater number: the minutes since this moment serve as one. */
const editionsFrom = Date.UTC(2020, 0, 1);

/**
 * The calendar's text; events that an earlier file of the same book's plan brought are replaced. `stamp` is when it is
 * made, in milliseconds since 1970. Throws a CalendarRefusal when nothing is planned.
 */
export const outageCalendarFile = (book: Pick<BookState, 'title'>, plan: OutagePlan, stamp: number): string =>
  outageCalendar(plan, {
    name: outageTitle(book),
    id: outageTitle(book),
    stamp,
    sequence: Math.max(0, Math.floor((stamp - editionsFrom) / 60_000)),
    times: 'plant clock',
  });

export const outagePicture = (
  book: Pick<BookState, 'title'>,
  { request }: FleetOutage,
  plan: OutagePlan,
  options: Omit<GanttOptions, 'title'>,
): string => ganttPicture(request, plan, { ...options, title: outageTitle(book) });

/** What the hours are that a plan books, in a sentence. */
export const bookedText = ({ share }: Pick<FleetOutage, 'share'>): string =>
  `Hours booked for a belt hold all its joints, one after the other, with lock-out, running out and test run once; ` +
  `they suffice with a chance of ${Number((100 * share).toFixed(1))} % (PlanningShare of the Assumptions), for as ` +
  `many people as the crews have.`;

/** The sheets of the plan's workbook, with what must be known to read them. `from` is what it was made of. */
export function outageBook(book: BookState, fleet: FleetOutage, plan: OutagePlan, from: string): TableBook {
  return {
    title: outageTitle(book),
    tables: outageTables(fleet, plan),
    about: [
      ['Outage plan', `Made by Skewbook from ${from}.`],
      ...planSummary(fleet.request, plan).map((sentence) => ['Outage plan', sentence]),
      ['Hours', bookedText(fleet)],
      [
        'Formulas',
        "Cells in slanted headings are formulas: an end follows from start and hours, crews' hours and losses add " +
          'up. Moving a job moves nothing else: plan again, and keep to the windows.',
      ],
      ...(book.invented
        ? [
            [
              'Invented',
              'Belts, crews, windows and rates are invented: put your own in their place before you plan by them.',
            ],
          ]
        : []),
    ],
  };
}
