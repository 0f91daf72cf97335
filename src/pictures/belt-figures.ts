import { belts } from '../../sheets/belts/index.ts';
import { verdictOf, type Verdict } from '../functions/checks.ts';
import { isFault, type Value } from '../formula/values.ts';
import { beltTitle } from '../records/belt.ts';
import { isEmptyRecord } from '../records/input-issues.ts';
import { headerWithUnit, shownHeader } from '../sheet/header.ts';
import type { TableColumn } from '../sheet/table.ts';
import { amount, listed } from '../sheet/words.ts';
import { counted } from '../units/phrases.ts';
import { isWords, unitOf, type UnitSystem } from '../units/quantities.ts';
import type { BookColumn } from '../workbook/declared.ts';
import type { Workbook } from '../workbook/workbook.ts';
import type { Axis } from './picture.ts';

/** Columns of Belts as axes, and what stands in them. */

/** Belts that are shown together, under a name. */
export interface BeltGroup {
  readonly name: string;
  readonly records: readonly number[];
}

/** Records of Belts that hold a belt. */
export const beltRecords = (book: Workbook): number[] =>
  book.sheet(belts.name).rows.flatMap(({ cells }, record) => (isEmptyRecord(cells) ? [] : [record]));

export const cellOf = (book: Workbook, record: number, { header }: Pick<BookColumn, 'header'>): Value =>
  book.value({ sheet: belts.name, record, column: book.findColumn(belts.name, header) ?? -1 });

export function nameOf(book: Workbook, record: number): string {
  const name = book.read(belts.name, record, belts.key);
  return isFault(name) || name === null ? '' : String(name);
}

/** Names that are listed in a sentence; the rest are counted. */
const mostNamed = 6;

/** Belts by their names: "Q1, Q3 and 4 more". */
export const namesOf = (book: Workbook, records: readonly number[]): string =>
  listed(
    records.map((record) => nameOf(book, record) || beltTitle('').toLowerCase()),
    'and',
    mostNamed,
  );

export const verdictAt = (book: Workbook, record: number): Verdict =>
  verdictOf(book.read(belts.name, record, 'Verdict'));

/** The columns of Belts that a picture can be asked for. */
export const beltColumns = (book: Workbook): readonly BookColumn[] => book.columns(belts.name);

/** A column of Belts by its header; undefined where there is none. */
export function beltColumnNamed(book: Workbook, header: string): BookColumn | undefined {
  const column = book.findColumn(belts.name, header);
  return column === undefined ? undefined : beltColumns(book)[column];
}

export const axisLabel = (column: BookColumn, units: UnitSystem): string => {
  const header = shownHeader(column, units);
  return column.declared?.percent === true ? `${header} (%)` : headerWithUnit(header, column.kind, units);
};

/** The axis of a column of numbers. */
export const numberAxis = (column: BookColumn, units: UnitSystem): Axis => ({
  label: axisLabel(column, units),
  scale: column.kind === 'date' ? 'date' : column.declared?.percent === true ? 'percent' : 'number',
  ...(column.kind === 'count' ? { whole: true as const } : {}),
});

/** A number of a column with its unit, as the sheet shows it. */
export const figureWords = ({ declared, kind }: BookColumn, value: number, units: UnitSystem): string =>
  amount(value, { ...declared, kind }, units);

/** A column of a picture's table that holds a column of Belts. */
export const tableColumn = (column: BookColumn, units: UnitSystem): TableColumn => ({
  header: shownHeader(column, units) + unitSuffix(column, units),
  kind: column.kind,
  ...(column.declared?.digits === undefined ? {} : { digits: column.declared.digits }),
  ...(column.declared?.percent === undefined ? {} : { percent: column.declared.percent }),
});

function unitSuffix({ kind, declared }: BookColumn, units: UnitSystem): string {
  const unit = unitOf(kind, units);
  return unit === '' || declared?.percent === true ? '' : ` (${unit})`;
}

interface BeltFigures {
  readonly column: BookColumn;
  readonly known: readonly { readonly record: number; readonly value: number }[];
  /** Belts whose number is not known. */
  readonly unknown: readonly number[];
}

/** The numbers of a column over all belts. */
export function beltFigures(book: Workbook, column: BookColumn): BeltFigures {
  const [known, unknown]: [{ record: number; value: number }[], number[]] = [[], []];
  for (const record of beltRecords(book)) {
    const value = cellOf(book, record, column);
    if (typeof value === 'number' && Number.isFinite(value)) known.push({ record, value });
    else unknown.push(record);
  }
  return { column, known, unknown };
}

/** What is said of belts that a picture leaves out. */
export const leftOutWords = (book: Workbook, records: readonly number[], why: string): string =>
  records.length === 0 ? '' : `Left out: ${counted(records.length, 'belt')} (${namesOf(book, records)}): ${why}.`;

/** Whether a column holds words, so that its values are names on an axis. */
export const holdsWords = ({ kind }: BookColumn): boolean => isWords(kind);
