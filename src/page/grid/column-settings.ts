import type { GridSettings } from 'handsontable/base';
import type { BaseRenderer } from 'handsontable/renderers';
import { isWords } from '../../units/quantities.ts';
import { type BookColumn, namedSheetOf } from '../../workbook/declared.ts';
import type { CellPlace } from '../../workbook/place.ts';
import { entryText } from '../cell-text.ts';
import { widthIn } from '../../workbook/book-look.ts';
import { layoutOf } from '../column-view.ts';
import type { Desk } from '../desk.ts';
import { changeable, enter } from '../editing.ts';
import { choicesFor } from '../../records/typed-entry.ts';
import { choiceEditor, entryEditor, type EntryPorts, offered } from './editors.ts';
import { sorting } from './every-sheet.ts';
import { numbersCompared } from './read-rows.ts';
import { columnWidths } from './widths.ts';

/** How a sheet's columns are shown and edited. */

interface ColumnPorts {
  /** The cell that stands in a row and a column on the screen. */
  readonly place: (row: number, column: number) => CellPlace;
  /** Which column of the sheet stands in a column on the screen. */
  readonly column: (column: number) => number;
  /** Draws a cell, which may be one that cannot be typed into. */
  readonly paint: (cell: HTMLTableCellElement, row: number, column: number, fixed: boolean) => void;
}

/** The editor of a column or cell: plain, or with the words it may hold. */
function editing(
  desk: Desk,
  place: (row: number, column: number) => CellPlace,
  column: BookColumn | undefined,
  choice: boolean,
): object {
  const ports: EntryPorts = {
    entry: (row, position) => entryText(desk.book, place(row, position)),
    save: (row, position, text, everywhere) => {
      const { records, columns } = desk.selection;
      const { sheet } = place(row, position);
      const places = everywhere
        ? records.flatMap((record) => columns.map((at) => ({ sheet, record, column: at })))
        : [place(row, position)];
      enter(
        desk,
        places.map((cell) => ({ ...cell, text })),
      );
    },
  };
  if (!choice || column?.computed === true) return { editor: entryEditor, ...ports };
  const several = column?.declared?.several === true;
  return {
    editor: choiceEditor,
    ...ports,
    strict: false,
    filter: false,
    visibleRows: 12,
    trimDropdown: false,
    source: (typed: string, offer: (words: string[]) => void) => {
      const { place: cell } = desk.selection;
      offer(offered(choicesFor(desk.book, cell) ?? [], typed, several, entryText(desk.book, cell)));
    },
  };
}

export function columnSettings(
  desk: Desk,
  sheet: string,
  columns: readonly BookColumn[],
  { place, column: columnOf, paint }: ColumnPorts,
): GridSettings {
  const renderer: BaseRenderer = (_hot, cell, row, column, _prop, _value, properties) => {
    // Else the package would put on the cell what it wears by then.
    properties._isBaseRendererCalled = true;
    paint(cell, row, column, properties.readOnly === true);
  };
  // In a sheet of named values each value has words of its own.
  const namedCell = (at: number, column: number): object => ({
    readOnly: !changeable({ sheet, record: at, column }, desk.book.state),
    ...(choicesFor(desk.book, { sheet, record: at, column }) === undefined
      ? {}
      : editing(desk, place, columns[column], true)),
  });
  const measured = columnWidths(desk.book, sheet, columns);
  const widthOf = (position: number): number =>
    widthIn(layoutOf(desk.book, sheet), columns[position]?.header ?? '') ?? measured[position] ?? 0;
  return {
    columns: columns.map((column, position) => ({
      data: position,
      ...(isWords(column.kind) || column.kind === 'date'
        ? { type: 'text' }
        : { type: 'numeric', columnSorting: { ...sorting, compareFunctionFactory: numbersCompared } }),
      ...editing(desk, place, column, column.declared?.choices !== undefined),
      renderer,
      readOnly: !changeable({ sheet, record: 0, column: position }, desk.book.state),
    })),
    colWidths: (column: number) => widthOf(columnOf(column)),
    ...(namedSheetOf(sheet) === undefined
      ? {}
      : { cells: (at: number, column: number | string) => namedCell(at, Number(column)) }),
  };
}
