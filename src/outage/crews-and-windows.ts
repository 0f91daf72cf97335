import { assumed } from '../records/assumed.ts';
import { type CellRemark, sheetRows } from '../records/sheet-rows.ts';
import { isoMoment } from '../units/dates.ts';
import { type Moment, momentOf } from './moments.ts';
import type { Crew, OutageWindow } from './search/request.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { crews as crewSheet } from '../../sheets/work/crews.ts';
import { windows as windowSheet } from '../../sheets/work/windows.ts';
import { AreaNames } from './area-names.ts';
import { momentIn, type NamedRow, namedRows } from './named-rows.ts';
import { bookCrews, bookWindows } from './outage-times.ts';

/** The crews and windows of a book that an outage plan may take, to choose among. */

export interface OfferedCrew extends Pick<Crew, 'name' | 'people' | 'area'> {
  /** Hours of the day as "06:00 to 18:00"; absent: the whole day. */
  readonly shift?: string;
  /** Before and after which it is not there; absent: always there. */
  readonly from?: Moment;
  readonly to?: Moment;
}

export interface CrewsAndWindows {
  readonly crews: readonly OfferedCrew[];
  /** Those that are not over at the review date. */
  readonly windows: readonly OutageWindow[];
  /** Filled rows of either sheet, the ones that can't be used included. */
  readonly rows: { readonly crews: number; readonly windows: number };
  readonly remarks: readonly CellRemark[];
}

/** Throws a Refusal that names an assumption which can't be used. */
export function crewsAndWindows(book: Workbook): CrewsAndWindows {
  const remarks: CellRemark[] = [];
  const areas = new AreaNames(book);
  const windows = bookWindows(book, areas, momentOf(Math.floor(assumed(book, 'ReviewDate'))), undefined, remarks);
  // Told above.
  const rows = new Map(namedRows(book, crewSheet, []).map((one) => [one.name, one]));
  const crews = bookCrews(book, areas, assumed(book, 'CrewSize'), windows, undefined, remarks).map(
    (crew): OfferedCrew => {
      const found = rows.get(crew.name);
      return found === undefined ? crew : { ...crew, ...presence(found) };
    },
  );
  return {
    crews,
    windows,
    remarks,
    rows: { crews: sheetRows(book, crewSheet.name, []).length, windows: sheetRows(book, windowSheet.name, []).length },
  };
}

/** An hour of the day as a clock shows it; 24 as the end of the day. */
const clockText = (hour: number): string => (hour >= 24 ? '24:00' : isoMoment(1 + hour / 24).slice(11));

function presence({ row }: NamedRow<'Crews'>): Pick<OfferedCrew, 'shift' | 'from' | 'to'> {
  const [begins, ends, from, to] = [
    row.number('Shift from'),
    row.number('Shift to'),
    momentIn(row, 'Available from'),
    momentIn(row, 'Available until'),
  ];
  return {
    ...(begins === undefined || ends === undefined ? {} : { shift: `${clockText(begins)} to ${clockText(ends)}` }),
    ...(from === undefined ? {} : { from }),
    ...(to === undefined ? {} : { to }),
  };
}
