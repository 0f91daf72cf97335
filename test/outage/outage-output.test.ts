import ICAL from 'ical.js';
import { SaxesParser } from 'saxes';
import { describe, expect, onTestFinished, test, vi } from 'vitest';
import { CalendarRefusal, outageCalendar } from '../../src/outage/calendar.ts';
import { ganttPicture } from '../../src/outage/gantt.ts';
import { joined, momentOf, momentText, serialOfMoment } from '../../src/outage/moments.ts';
import type { OutagePlan, OutageRequest, PlannedJob, Stage } from '../../src/outage/search/request.ts';
import { planColumns, planRows, planSummary } from '../../src/outage/plan-table.ts';
import { serialOf } from '../../src/units/dates.ts';

/** Invented: two weekends, three crews, three areas. */
const saturday = momentOf(serialOf(2027, 3, 27) ?? Number.NaN);
const hour = (hours: number): number => saturday + hours * 60;
const planned = (
  key: string,
  belt: string,
  area: string,
  from: number,
  to: number,
  crews: string[],
  lost = 0,
): PlannedJob => ({
  key,
  belt,
  area,
  window: from < 100 ? 'First weekend' : 'Second weekend',
  start: hour(from),
  end: hour(to),
  hours: to - from,
  crews,
  lost,
});
const plan: OutagePlan = {
  planned: [
    planned('Q1-1', 'Q1', 'Quay', 6, 11, ['Red'], 800),
    planned('Q2-1', 'Q2 & "old", <wide>; ä', 'Quay', 6, 14.5, ['Blue', 'Green'], 1200),
    planned('S4-1', 'S4', 'Salt shed', 11, 12, ['Red']),
    planned('night', 'G7 long transfer belt under the silo', 'Grain, "Ø" silo', 24, 27, ['Red']),
    planned('M1', 'M1', 'Quay', 174, 182, ['Red'], 300),
  ],
  unplanned: [{ key: 'K9', belt: 'K9', area: 'Quay', cause: 'window', reason: 'no window is long enough' }],
  standing: [{ area: 'Salt shed', hours: 1, lost: 90 }],
  lost: 2390,
  finish: hour(182),
  stages: [
    { name: 'jobs planned', value: 5, bound: 5, gap: 0, proven: true },
    { name: 'lost production', value: 2390, bound: 2151, gap: 0.1, proven: false },
  ],
  proven: false,
};
const request: OutageRequest = {
  jobs: [...plan.planned, ...plan.unplanned].map(({ key, belt, area }) => ({
    key,
    belt,
    area,
    work: { hours: 1 },
    crews: 1,
    lostPerHour: 1,
    ...(key === 'S4-1' ? { after: ['Q1-1'], due: hour(20) } : {}),
  })),
  crews: [
    { name: 'Red', people: 3 },
    { name: 'Blue', people: 3, available: [{ start: hour(6), end: hour(18) }] },
    { name: 'Green', people: 2, available: [{ start: hour(0), end: hour(200) }] },
  ],
  windows: [
    { name: 'First weekend', start: hour(6), end: hour(30) },
    { name: 'Second weekend', start: hour(174), end: hour(186) },
  ],
  areas: [{ name: 'Salt shed', standsAtLoss: 90 }],
  step: 30,
  aim: 'minimum lost production',
};

describe('a calendar', () => {
  const options = {
    name: 'Outage; spring, 2027',
    id: 'tern-quay spring',
    stamp: Date.UTC(2026, 10, 25, 9, 30, 15),
    sequence: 2,
    times: 'plant clock',
  } as const;
  const events = (text: string): ICAL.Event[] =>
    new ICAL.Component(ICAL.parse(text)).getAllSubcomponents('vevent').map((component) => new ICAL.Event(component));

  test('reads back with another library as it was planned', () => {
    const text = outageCalendar(plan, options);
    const calendar = new ICAL.Component(ICAL.parse(text));
    expect(calendar.getFirstPropertyValue('version')).toBe('2.0');
    expect(calendar.getFirstPropertyValue('prodid')).toBe('-//Skewbook//Outage plan//EN');
    const read = events(text);
    expect(read.map(({ uid }) => uid)).toEqual(
      ['Q1-1', 'Q2-1', 'S4-1', 'night', 'M1'].map((key) => `${key}@tern-quay%20spring`),
    );
    expect(read[0]?.startDate.toString()).toBe('2027-03-27T06:00:00');
    expect(read[1]?.endDate.toString()).toBe('2027-03-27T14:30:00');
    expect(read[3]?.startDate.toString()).toBe('2027-03-28T00:00:00');
    expect(read[0]?.startDate.zone.tzid).toBe('floating');
    expect(read.map(({ summary }) => summary)).toEqual(plan.planned.map(({ belt }) => `Belt ${belt}: joint`));
    expect(read[3]?.location).toBe('Grain, "Ø" silo');
    expect(read[1]?.description).toBe(
      'Job Q2-1\nWindow First weekend\nDowntime 8.5 h\nCrews: Blue, Green\nSkewbook computes and reminds; it ' +
        'does not ' +
        'authorise work.',
    );
    for (const { component } of read) {
      expect(component.getFirstPropertyValue('dtstamp')?.toString()).toBe('2026-11-25T09:30:15Z');
      expect(component.getFirstPropertyValue('sequence')).toBe(2);
    }
    expect(outageCalendar(plan, options)).toBe(text);
  });

  test('says UTC with a Z when the plant is so many minutes ahead of it', () => {
    const [first] = events(outageCalendar(plan, { ...options, times: { aheadOfUtc: -330 } }));
    expect(first?.startDate.toString()).toBe('2027-03-27T11:30:00Z');
  });

  test('keeps the times of the night in which this machine changes its clock', () => {
    vi.stubEnv('TZ', 'Europe/Berlin');
    onTestFinished(() => void vi.unstubAllEnvs());
    expect(new Date(2027, 2, 28, 2, 30).getHours(), 'this machine leaves the hour out').toBe(3);
    const night = { ...plan, planned: [planned('n', 'N', 'Quay', 26.5, 27.5, ['Red'])] };
    expect(events(outageCalendar(night, options))[0]?.startDate.toString()).toBe('2027-03-28T02:30:00');
  });

  test('has CRLF lines of at most 75 octets, none cut inside a character', () => {
    const long = { ...plan, planned: [planned('x', 'Ø'.repeat(120), 'Ж'.repeat(99), 6, 7, ['Red'])] };
    const text = outageCalendar(long, options);
    expect(text.endsWith('END:VCALENDAR\r\n')).toBe(true);
    for (const line of text.split('\r\n')) {
      expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
      expect(line).not.toMatch(/[\r\n\uFFFD]/);
    }
    expect(events(text)[0]).toMatchObject({ summary: `Belt ${'Ø'.repeat(120)}: joint`, location: 'Ж'.repeat(99) });
  });

  test('is not written without an event', () => {
    expect(() => outageCalendar({ ...plan, planned: [] }, options)).toThrow(CalendarRefusal);
  });
});

describe('a picture', () => {
  interface Element {
    readonly name: string;
    readonly attributes: Readonly<Record<string, string>>;
  }
  const elements = (svg: string): Element[] => {
    const found: Element[] = [];
    const parser = new SaxesParser();
    parser.on('opentag', ({ name, attributes }) => found.push({ name, attributes }));
    parser.on('error', (error) => {
      throw error;
    });
    parser.write(svg).close();
    return found;
  };
  const bars = (svg: string): { readonly x: number; readonly y: number; readonly width: number }[] =>
    elements(svg)
      .filter(({ name, attributes }) => name === 'rect' && attributes['pointer-events'] === 'all')
      .map(({ attributes: { x, y, width } }) => ({ x: Number(x), y: Number(y), width: Number(width) }));

  test('is well-formed, in currentColor only, and says each job in full', () => {
    for (const lanes of ['crew', 'area'] as const) {
      const svg = ganttPicture(request, plan, { lanes, title: 'Outage <spring> & more' });
      for (const { attributes } of elements(svg))
        for (const paint of [attributes.fill, attributes.stroke])
          expect([undefined, 'none', 'currentColor']).toContain(
            paint?.startsWith('url(#') === true ? undefined : paint,
          );
      expect(svg).toContain(
        '2. Q2 &amp; &quot;old&quot;, &lt;wide&gt;; ä, Quay: 2027-03-27 06:00 to 2027-03-27 14:30, 8.5 h, ' +
          'Blue and Green',
      );
      expect(svg).toContain('Not planned: K9; see the table for the reasons.');
      expect(svg).toContain('Sat 2027-03-27');
      expect(svg).not.toMatch(/NaN|undefined|Infinity/);
    }
  });

  test('draws a bar for each crew of each job, as long as it lasts, none over another', () => {
    const drawn = bars(ganttPicture(request, plan, { lanes: 'crew', title: 'x' }));
    expect(drawn).toHaveLength(6);
    const scale = (drawn[0]?.width ?? 0) / 5;
    expect(drawn.map(({ width }) => width / scale)).toEqual(
      [5, 8.5, 8.5, 1, 3, 8].map((hours) => expect.closeTo(hours, 1)),
    );
    for (const [index, one] of drawn.entries())
      for (const other of drawn.slice(index + 1))
        expect(one.y !== other.y || one.x + one.width <= other.x + 0.02 || other.x + other.width <= one.x + 0.02).toBe(
          true,
        );
    expect(bars(ganttPicture(request, plan, { lanes: 'area', title: 'x' }))).toHaveLength(5);
  });

  test('stands empty without windows and jobs', () => {
    const nothing = { ...request, jobs: [], windows: [], crews: [] };
    const svg = ganttPicture(nothing, { ...plan, planned: [], unplanned: [] }, { lanes: 'crew', title: 'Nothing' });
    expect(bars(svg)).toEqual([]);
    expect(svg).not.toMatch(/NaN|Infinity|undefined/);
  });
});

describe('a table', () => {
  test('holds every job once, dates as cells do, and the reason of what does not fit', () => {
    const rows = planRows(request, plan);
    expect(rows.every((row) => row.length === planColumns(request).length)).toBe(true);
    expect(rows[2]).toEqual([
      3,
      'S4-1',
      'S4',
      'Salt shed',
      'First weekend',
      serialOfMoment(hour(11)),
      serialOfMoment(hour(12)),
      1,
      'Red',
      null,
      'Q1-1',
      serialOfMoment(hour(20)),
      'the whole area Salt shed is stopped: its loss counts once',
    ]);
    expect(rows[5]).toEqual([
      null,
      'K9',
      'K9',
      'Quay',
      '',
      null,
      null,
      null,
      '',
      null,
      '',
      null,
      'not planned: no window is long enough',
    ]);
  });

  test('is summed up with bounds and what is not proven', () => {
    expect(planSummary(request, plan)).toEqual([
      '5 of 6 jobs planned, the last ends 2027-04-03 14:00; aim: minimum lost production; time grid 30 ' +
        "minutes, on the plant's clock.",
      'Lost production 2390; 90 of it from the area Salt shed, shut down for 1 h.',
      'Jobs planned: 5, proven best.',
      'Lost production: 2390, not proven best: bound 2151, gap 10 %.',
      'Not all of the plan is proven best: more time, longer steps or fewer jobs may give a better plan. ' +
        'Another machine may give another plan.',
    ]);
  });

  test('says a proven loss once, and what may still be better', () => {
    const sure = (name: Stage['name'], value: number, proven: boolean): Stage => ({
      name,
      value,
      bound: value,
      gap: 0,
      proven,
    });
    const stages = [sure('jobs planned', 5, true), sure('lost production', 2390, true), sure('sum of ends', 9, false)];
    expect(planSummary(request, { ...plan, stages, proven: false }).slice(1)).toEqual([
      'Lost production 2390, proven best; 90 of it from the area Salt shed, shut down for 1 h.',
      'Jobs planned: 5, proven best.',
      'No plan loses less. Among those, a plan that ends earlier may exist.',
    ]);
  });
});

test('moments are minutes of cells', () => {
  const serial = 46_000.270_833_333_3; // 06:30
  expect(momentOf(serial) % 1440).toBe(390);
  expect(serialOfMoment(momentOf(serial))).toBeCloseTo(serial, 6);
  expect(momentText(hour(0))).toBe('2027-03-27 00:00');
  expect(
    joined([
      { start: 5, end: 9 },
      { start: 0, end: 2 },
      { start: 2, end: 3 },
      { start: 6, end: 7 },
    ]),
  ).toEqual([
    { start: 0, end: 3 },
    { start: 5, end: 9 },
  ]);
});
