import { counted } from '../units/phrases.ts';
import type { Value } from '../formula/values.ts';
import { summaryOf } from '../workbook/selection-summary.ts';
import type { BookState } from '../workbook/state.ts';
import { numberText, valueText } from './cell-text.ts';
import { columnUnit } from '../sheet/header.ts';
import type { Desk } from './desk.ts';
import { soon } from './idle.ts';

/** What the line below tells of the selection: its size, and what its numbers come to. */

/** More cells than this are not added up at each move of the selection. */
const mostCells = 300_000;

function* valuesOf({ book, selection }: Desk, records: readonly number[]): Generator<Value> {
  const { sheet } = selection.place;
  for (const record of records) {
    for (const column of selection.columns) {
      const place = { sheet, record, column };
      // Days are counted, not added.
      const value = book.shown(place);
      yield typeof value === 'number' && book.kind(place) === 'date' ? String(value) : value;
    }
  }
}

let last: { readonly selection: Desk['selection']; readonly state: BookState; readonly text: string } | undefined;

function figures(desk: Desk, records: readonly number[]): string {
  const { book, selection } = desk;
  const { filled, numbers, sum, mean } = summaryOf(valuesOf(desk, records));
  if (numbers < 2 || mean === undefined) return filled === 0 ? '' : ` · count ${filled}`;
  const column = selection.columns.length === 1 ? book.columnAt(selection.place) : undefined;
  const unit = column === undefined ? '' : columnUnit(column, book.units);
  const shown = (value: number): string =>
    (column === undefined
      ? numberText(value, undefined, true)
      : valueText(value, column.kind, column.look, book.units, true)) + (unit === '' ? '' : ` ${unit}`);
  return ` · sum ${shown(sum)} · mean ${shown(mean)} · count ${filled}`;
}

/** The cells of a selection that are added up at once; more wait until the page has nothing more urgent to do. */
const atOnce = 5_000;

/** Waits with adding up; nothing is said until then. */
let waiting: { readonly selection: Desk['selection']; readonly state: BookState } | undefined;

function addUp(desk: Desk, records: readonly number[], cells: number): string {
  const { book, selection } = desk;
  if (last?.selection === selection && last.state === book.state) return last.text;
  const now = { selection, state: book.state };
  if (cells > mostCells) return '';
  if (cells <= atOnce) {
    last = { ...now, text: figures(desk, records) };
    return last.text;
  }
  if (waiting?.selection !== selection || waiting.state !== book.state) {
    waiting = now;
    soon(() => {
      if (waiting !== now || desk.selection !== selection || book.state !== now.state) return;
      last = { ...now, text: figures(desk, records) };
      desk.changed();
    });
  }
  return '';
}

/** How many rows there are, or are left by a filter, and what the selected cells come to. */
export function selectionWords(desk: Desk): string {
  const { book, selection, sheet, grid } = desk;
  const { length } = book.sheet(sheet).rows;
  const { records } = selection;
  if (records.length * selection.columns.length <= 1 || selection.place.sheet !== sheet) {
    const shown = grid?.sheet === sheet && grid.viewed ? grid.shownRecords().length : length;
    return shown === length ? counted(length, 'row') : `${shown} of ${counted(length, 'row')}`;
  }
  // Only the row below the last record is none.
  const below = records.at(-1) === length || records[0] === length ? 1 : 0;
  const cells = (records.length - below) * selection.columns.length;
  const filled = below === 0 ? records : records.filter((record) => record < length);
  return `${filled.length} × ${selection.columns.length} cells${addUp(desk, filled, cells)}`;
}
