import { counted } from '../units/phrases.ts';
import type { Value } from '../formula/values.ts';
import { summaryOf } from '../workbook/selection-summary.ts';
import type { BookState } from '../workbook/state.ts';
import { numberText, valueText } from './cell-text.ts';
import { columnUnit } from '../sheet/header.ts';
import type { Desk } from './desk.ts';

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

/** How many rows there are, or are left by a filter, and what the selected cells come to. */
export function selectionWords(desk: Desk): string {
  const { book, selection, sheet, grid } = desk;
  const { length } = book.sheet(sheet).rows;
  const records = selection.records.filter((record) => record < length);
  const cells = records.length * selection.columns.length;
  if (cells <= 1 || selection.place.sheet !== sheet) {
    const shown = grid?.sheet === sheet && grid.viewed ? grid.shownRecords().length : length;
    return shown === length ? counted(length, 'row') : `${shown} of ${counted(length, 'row')}`;
  }
  if (last?.selection !== selection || last.state !== book.state) {
    const text = cells > mostCells ? '' : figures(desk, records);
    last = { selection, state: book.state, text };
  }
  return `${records.length} × ${selection.columns.length} cells${last.text}`;
}
