import type { UnitSystem } from '../units/quantities.ts';
import { emptyBook } from './declared.ts';
import { demoBook } from './demo.ts';
import { namingColumns, recordKey, recordKeys } from './record-names.ts';
import { differingRecords } from './row-lists.ts';
import type { BookRow, BookState, SheetState } from './state.ts';

/**
 * Which records of a book are still the demo's.
 *
 * A record is, when it has the name of one of the demo's and at least half of what stands in that one. It goes by
 * content, so it holds wherever a record has been: in a file, in another book, through a change of units. A record of
 * which most was entered anew is the user's, whatever it is called.
 */
const share = 0.5;

/** What a change of units leaves of a number's last digits. */
const noise = 1e-9;

interface DemoSheet {
  readonly records: ReadonlyMap<string, BookRow>;
  /** Columns that name its records: alike in any record of the name. */
  readonly naming: ReadonlySet<number>;
}

const known = new Map<UnitSystem, ReadonlyMap<string, DemoSheet>>();

/** The demo's records by sheet and name, but for those that every book has. */
function demoSheets(units: UnitSystem): ReadonlyMap<string, DemoSheet> {
  const made = known.get(units);
  if (made !== undefined) return made;
  const usual = new Map(emptyBook(units).sheets.map((sheet) => [sheet.name, new Set(recordKeys(sheet))]));
  const sheets = demoBook(units).sheets.map((sheet): [string, DemoSheet] => {
    const keys = recordKeys(sheet);
    const own = sheet.rows.flatMap((row, record): [string, BookRow][] => {
      const key = keys[record] ?? '';
      return key === '' || usual.get(sheet.name)?.has(key) === true ? [] : [[key, row]];
    });
    return [sheet.name, { records: new Map(own), naming: new Set(namingColumns(sheet.name)) }];
  });
  const found = new Map(sheets.filter(([, { records }]) => records.size > 0));
  known.set(units, found);
  return found;
}

function likeDemo({ cells }: BookRow, demo: BookRow, naming: ReadonlySet<number>): boolean {
  if (cells === demo.cells) return true;
  let [filled, same] = [0, 0];
  demo.cells.forEach((content, column) => {
    if (content === null || naming.has(column)) return;
    filled += 1;
    const here = cells[column] ?? null;
    const alike =
      typeof content === 'number' && typeof here === 'number'
        ? Math.abs(content - here) <= noise * Math.max(Math.abs(content), Math.abs(here))
        : content === here;
    if (alike) same += 1;
  });
  return same >= share * filled;
}

const found = new WeakMap<readonly BookRow[], ReadonlySet<number>>();
/** The rows that were looked at last, by sheet: after a change nearly all of them are the same. */
const latest = new Map<string, WeakRef<readonly BookRow[]>>();
const none: ReadonlySet<number> = new Set();

/** The records of before, with those looked at again that are others. */
function following(before: readonly BookRow[], now: readonly BookRow[], isDemo: (record: number) => boolean) {
  const kept = found.get(before) ?? none;
  let records: Set<number> | undefined;
  for (const record of differingRecords(before, now)) {
    if (isDemo(record) === kept.has(record)) continue;
    records ??= new Set(kept);
    if (!records.delete(record)) records.add(record);
  }
  return records ?? kept;
}

function ofSheet(sheet: SheetState, units: UnitSystem): ReadonlySet<number> {
  const demo = demoSheets(units).get(sheet.name);
  if (demo === undefined) return none;
  const { rows } = sheet;
  const known = found.get(rows);
  if (known !== undefined) return known;
  const isDemo = (record: number): boolean => {
    const row = rows[record];
    const like = row === undefined ? undefined : demo.records.get(recordKey(sheet, record));
    return row !== undefined && like !== undefined && likeDemo(row, like, demo.naming);
  };
  const key = `${units} ${sheet.name}`;
  const before = latest.get(key)?.deref();
  const records =
    before?.length === rows.length && found.has(before)
      ? following(before, rows, isDemo)
      : new Set([...rows.keys()].filter(isDemo));
  found.set(rows, records);
  latest.set(key, new WeakRef(rows));
  return records;
}

/** The demo's records in one sheet of a book. */
export function demoRecords({ sheets, units }: Pick<BookState, 'sheets' | 'units'>, name: string): ReadonlySet<number> {
  const sheet = sheets.find((one) => one.name === name);
  return sheet === undefined ? none : ofSheet(sheet, units);
}

/** How many of the demo's records each sheet holds, where there are any. */
export const demoCounts = ({
  sheets,
  units,
}: Pick<BookState, 'sheets' | 'units'>): readonly (readonly [sheet: string, count: number])[] =>
  sheets.flatMap((sheet) => {
    const { size } = ofSheet(sheet, units);
    return size === 0 ? [] : [[sheet.name, size] as const];
  });
