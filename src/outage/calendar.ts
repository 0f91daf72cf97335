import { createEvents, type EventAttributes } from 'ics';
import { safetyPurpose } from '../workbook/safety.ts';
import { hoursText, type Moment, serialOfMoment } from './moments.ts';
import type { OutagePlan, PlannedJob } from './search/request.ts';

/**
 * A plan as a calendar file, one event a job.
 *
 * Source: RFC 5545 (iCalendar). Lines are folded at 75 octets, as it asks; the library that writes them counts
 * characters.
 */
interface CalendarOptions {
  /** What the calendar is called. */
  readonly name: string;
  /**
   * Stays the same for the same plan: with the job's key it makes the event's UID, so that a new file replaces old
   * events.
   */
  readonly id: string;
  /** When the file is made, milliseconds since 1970 in UTC. */
  readonly stamp: number;
  /** Raised by one each time a plan is given out again. */
  readonly sequence?: number;
  /**
   * 'plant clock': times without a zone, which every reader shows as they stand. Or the minutes by which the plant's
   * clock is ahead of UTC: one figure for the whole plan, so not for one that spans a change of clocks.
   */
  readonly times: 'plant clock' | { readonly aheadOfUtc: number };
}

/**
 * Thrown when there is nothing to write, or the library refuses what it is given. For tests: its refusals are told
 * apart.
 */
export class CalendarRefusal extends Error {
  constructor(reason: string) {
    super(reason);
    this.name = 'CalendarRefusal';
  }
}

/** Milliseconds as "20270306T060000". */
export const basic = (milliseconds: number): string =>
  new Date(milliseconds).toISOString().replaceAll(/[-:]|\.\d+Z$/g, '');

/** A moment's clock time, written as if it were UTC. */
const clock = (moment: Moment): string => basic(Math.round((serialOfMoment(moment) - 25_569) * 86_400) * 1000);

/** Without characters that no text of a calendar may hold, ends of lines that some readers know, and half ones. */
export const clean = (text: string): string =>
  text.replaceAll(/[\u0000-\u0008\u000B-\u001F\u007F-\u009F\u2028\u2029]/g, ' ').replaceAll(/\p{Cs}/gu, '\uFFFD');

/** An event of whole days or of moments, as the library takes it. */
export type CalendarEvent = EventAttributes & { readonly timestamp: string };

/** Events as a calendar file. */
export function calendarText(events: CalendarEvent[], product: string, name: string): string {
  const { error, value } = createEvents(events, {
    productId: `-//Skewbook//${product}//EN`,
    method: 'PUBLISH',
    calName: clean(name).replaceAll(/[\\;,]/g, String.raw`\$&`),
  });
  if (value === null) throw new CalendarRefusal(error?.message ?? 'the calendar could not be written');
  return folded(value);
}

/** A text as a part of a UID, which has no blanks. */
export const identified = (text: string): string => encodeURIComponent(clean(text));

export function outageCalendar(
  { planned }: OutagePlan,
  { name, id, stamp, sequence = 0, times }: CalendarOptions,
): string {
  if (planned.length === 0) throw new CalendarRefusal('no job is planned, so there is nothing to write to a calendar');
  const written = (moment: Moment): string =>
    times === 'plant clock' ? clock(moment) : `${clock(moment - times.aheadOfUtc)}Z`;
  const events = planned.map((job): CalendarEvent => ({
    // As texts: the library would take arrays for times of this machine's zone.
    start: written(job.start),
    end: written(job.end),
    timestamp: `${basic(stamp)}Z`,
    uid: `${identified(job.key)}@${identified(id)}`,
    sequence,
    title: clean(`Belt ${job.belt}: joint`),
    location: clean(job.area),
    description: clean(described(job)),
    status: 'TENTATIVE',
    busyStatus: 'BUSY',
  }));
  return calendarText(events, 'Outage plan', name);
}

const described = ({ key, window, hours, crews }: PlannedJob): string =>
  [`Job ${key}`, `Window ${window}`, `Downtime ${hoursText(hours)}`, `Crews: ${crews.join(', ')}`, safetyPurpose].join(
    '\n',
  );

/** Lines of at most 75 octets, none of them ending inside a character. */
function folded(text: string): string {
  const octets = new TextEncoder();
  return text
    .replaceAll(/\r\n[ \t]/g, '')
    .split('\r\n')
    .map((line) => {
      const parts: string[] = [];
      let [part, size] = ['', 0];
      for (const character of line) {
        const more = octets.encode(character).length;
        if (size + more > 75) {
          parts.push(part);
          [part, size] = ['', 1];
        }
        part += character;
        size += more;
      }
      return [...parts, part].join('\r\n ');
    })
    .join('\r\n');
}
