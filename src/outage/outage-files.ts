import { outageCalendar } from './calendar.ts';
import { ganttPicture, type GanttOptions } from './gantt.ts';
import type { OutagePlan } from './search/request.ts';
import { planSummary } from './plan-table.ts';
import type { BookState } from '../workbook/state.ts';
import type { TableBook } from '../sheet/table.ts';
import type { FleetOutage } from './fleet-outage.ts';
import { outageTables } from './outage-tables.ts';

/** A plan as files: calendar, picture, workbook. */

/** The title of a book's plan. */
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

/** The meaning of the planned hours, in a sentence. */
export const bookedText = ({ share }: Pick<FleetOutage, 'share'>): string =>
  `Planned hours cover all joints of the belt, one after the other, with one lock-out, one emptying and one test ` +
  `run, ` +
  `at ${Number((100 * share).toFixed(1))} % confidence (PlanningShare in Assumptions), for the people in the crews.`;

/** The sheets of the plan's workbook, with what must be known to read them. `from` is what it was made of. */
export function outageBook(book: BookState, fleet: FleetOutage, plan: OutagePlan, from: string): TableBook {
  return {
    title: outageTitle(book),
    tables: outageTables(fleet, plan),
    about: [
      ['Outage plan (shutdown plan)', `Made by Skewbook from ${from}.`],
      ...planSummary(fleet.request, plan).map((sentence) => ['Outage plan', sentence]),
      ['Hours', bookedText(fleet)],
      [
        'Formulas',
        "Columns with italic headings are formulas: each end follows from start and hours; crews' hours and losses " +
          'are summed. If you move a job, no other job moves: plan again, and keep to the windows.',
      ],
      ...(book.invented
        ? [
            [
              'Invented',
              'Belts, crews, windows and rates are invented: replace them with your own before you use the plan.',
            ],
          ]
        : []),
    ],
  };
}
