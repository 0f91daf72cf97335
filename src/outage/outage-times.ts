import type { CellRemark, SheetRow } from '../records/sheet-rows.ts';
import type { Crew, OutageWindow } from './search/request.ts';
import { type Interval, joined, type Moment } from './moments.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { crews as crewSheet } from '../../sheets/work/crews.ts';
import { windows as windowSheet } from '../../sheets/work/windows.ts';
import type { AreaNames } from './area-names.ts';
import { momentIn, namedRows } from './named-rows.ts';

/** When belts may be stopped and crews are available, from the sheets Windows and Crews. */

const minutesPerDay = 1440;

/** Whether a name is among those chosen; all are when none is said. */
const isChosen = (name: string, chosen: readonly string[] | undefined): boolean =>
  chosen?.some((one) => one.toLowerCase() === name.toLowerCase()) ?? true;

/** The windows that are chosen and not over before `today`. */
export function bookWindows(
  book: Workbook,
  areas: AreaNames,
  today: Moment,
  chosen: readonly string[] | undefined,
  remarks: CellRemark[],
): OutageWindow[] {
  return namedRows(book, windowSheet, remarks).flatMap(({ row, name, usable }): OutageWindow[] => {
    if (!usable || !isChosen(name, chosen)) return [];
    const [start, end, area, lossShare] = [
      momentIn(row, 'Start'),
      momentIn(row, 'End'),
      areas.of(row, 'Area'),
      row.number('Production loss'),
    ];
    if (start === undefined)
      row.tell('Start', 'Start is not known, so the window is left out: enter a date and a time');
    if (end === undefined)
      row.tell('End', 'End is not known, so the window is left out: enter a date and a time after its start');
    if (start === undefined || end === undefined || area === null) return [];
    if (end <= today) {
      row.tell(
        'End',
        'the window ended before the review date, so it is left out: enter a later window, or change ReviewDate',
      );
      return [];
    }
    return [
      { name, start, end, ...(area === undefined ? {} : { area }), ...(lossShare === undefined ? {} : { lossShare }) },
    ];
  });
}

/** The crews that are chosen, available between the first window and the last. */
export function bookCrews(
  book: Workbook,
  areas: AreaNames,
  usualPeople: number,
  windows: readonly Interval[],
  chosen: readonly string[] | undefined,
  remarks: CellRemark[],
): Crew[] {
  return namedRows(book, crewSheet, remarks).flatMap(({ row, name, usable }): Crew[] => {
    if (!usable || !isChosen(name, chosen)) return [];
    const area = areas.of(row, 'Works in');
    if (area === null) return [];
    const available = presence(row, windows);
    if (available === null) return [];
    return [
      {
        name,
        people: row.number('People') ?? usualPeople,
        ...(area === undefined ? {} : { area }),
        ...(available === undefined ? {} : { available }),
      },
    ];
  });
}

/** When a crew is available; undefined when it always is, null when that is not known. */
function presence(row: SheetRow<'Crews'>, windows: readonly Interval[]): readonly Interval[] | undefined | null {
  const [from, to] = [momentIn(row, 'Available from'), momentIn(row, 'Available until')];
  const shifts = shiftTimes(row, windows);
  if (shifts === null) return null;
  if (shifts === undefined && from === undefined && to === undefined) return undefined;
  const [first, last] = [from ?? Number.NEGATIVE_INFINITY, to ?? Number.POSITIVE_INFINITY];
  const whole: Interval = {
    start: Math.min(...windows.map(({ start }) => start)),
    end: Math.max(...windows.map(({ end }) => end)),
  };
  return (shifts ?? (windows.length === 0 ? [] : [whole]))
    .map(({ start, end }) => ({ start: Math.max(start, first), end: Math.min(end, last) }))
    .filter(({ start, end }) => start < end);
}

function shiftTimes(row: SheetRow<'Crews'>, windows: readonly Interval[]): readonly Interval[] | undefined | null {
  const [from, to] = [row.number('Shift from'), row.number('Shift to')];
  if ((from === undefined) !== (to === undefined)) {
    const [empty, given] =
      from === undefined ? (['Shift from', 'Shift to'] as const) : (['Shift to', 'Shift from'] as const);
    row.tell(empty, `${empty} is missing but ${given} is entered, so the crew is left out: enter both, or neither`);
    return null;
  }
  if (from === undefined || to === undefined) return undefined;
  const [begins, ends] = [Math.round(from * 60), Math.round(to * 60) + (to > from ? 0 : minutesPerDay)];
  const days = new Set(
    windows.flatMap(({ start, end }) => {
      const first = Math.floor(start / minutesPerDay) - 1;
      return Array.from({ length: Math.floor(end / minutesPerDay) - first + 1 }, (_, index) => first + index);
    }),
  );
  return joined([...days].map((day) => ({ start: day * minutesPerDay + begins, end: day * minutesPerDay + ends })));
}
