import { belts } from '../../sheets/belts/index.ts';
import { isEmptyRecord } from '../records/input-issues.ts';
import type { Content } from '../formula/values.ts';
import type { BookRow } from '../workbook/state.ts';
import type { Desk } from './desk.ts';

/** The belt that the panels show, those that are selected, those that a filter leaves. */

/** The belt that was looked for last: it is asked for at every drawing of the page. */
let found: { readonly rows: readonly BookRow[]; readonly name: string; readonly record: number } | undefined;

/** The record of a belt by its name; undefined when there is none. */
function named({ book }: Desk, given: Content): number | undefined {
  if (given === null) return undefined;
  const { rows } = book.sheet(belts.name);
  const name = String(given).toLowerCase();
  if (found?.rows !== rows || found.name !== name) {
    const key = book.column(belts.name, belts.key);
    const record = rows.findIndex(({ cells }) => String(cells[key] ?? '').toLowerCase() === name);
    found = { rows, name, record };
  }
  return found.record < 0 ? undefined : found.record;
}

/**
 * The belt that was selected last: on its own sheet, or on another whose rows name a belt.
 *
 * Undefined when there is no such record, as in an empty book or on the row for a new belt.
 */
export function shownBelt(desk: Desk): number | undefined {
  const {
    book,
    selection: { place },
  } = desk;
  if (place.sheet === belts.name) desk.lastBelt = place.record;
  else {
    const column = book.findColumn(place.sheet, belts.key);
    if (column !== undefined) desk.lastBelt = named(desk, book.content({ ...place, column })) ?? desk.lastBelt;
  }
  return book.sheet(belts.name).rows[desk.lastBelt] === undefined ? undefined : desk.lastBelt;
}

/** The selected rows of Belts that hold a belt. */
export const selectedBelts = ({ book, sheet, selection }: Desk): number[] =>
  sheet === belts.name
    ? selection.records.filter((record) => !isEmptyRecord(book.sheet(belts.name).rows[record]?.cells ?? []))
    : [];

/** Whether the sheet Belts is on show with a filter. */
export const beltsFiltered = ({ grid }: Desk): boolean =>
  grid?.sheet === belts.name && (grid.rowView?.filters() ?? []).length > 0;

/** The belts that the filter of their sheet leaves, in the order that they are seen; none while no filter is on. */
export const filteredBelts = (desk: Desk): number[] =>
  beltsFiltered(desk)
    ? (desk.grid?.shownRecords() ?? []).filter(
        (record) => !isEmptyRecord(desk.book.sheet(belts.name).rows[record]?.cells ?? []),
      )
    : [];
