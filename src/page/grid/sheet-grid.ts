import Handsontable from 'handsontable/base';
import type { GridSettings } from 'handsontable/base';
import { type BookColumn, compiledSheets } from '../../workbook/declared.ts';
import { columnLetters, sheetRow } from '../../formula/address.ts';
import type { BookChange, CellPlace } from '../../workbook/place.ts';
import type { Desk, GridPort } from '../desk.ts';
import { newRecord } from '../editing.ts';
import { type Block, blockOf } from './block.ts';
import { isCut, leaveCut } from './clipboard.ts';
import { clipboardHooks } from './clipboard-hooks.ts';
import { cellLook, wear, withNames } from './cell-look.ts';
import { columnSettings } from './column-settings.ts';
import { foldedHeaders, unfolded } from './folding.ts';
import { everySheet } from './every-sheet.ts';
import { fitting } from './widths.ts';
import { fillHeader } from './headers.ts';
import { headerMenu, type MenuItem, rowMenu } from './menu.ts';
import { type Plain, plainRows, plainValue } from './plain-values.ts';

/** Changed cells on show beyond which drawing the whole view is quicker than cell by cell. */
const mostCellsDrawnSingly = 400;

/**
 * One sheet of the book in the grid.
 *
 * The grid holds a copy of the sheet's plain values for its sorting and filters; what it shows is asked of the book,
 * what is typed goes to the book, and the book's changes come back here. Sorting and filtering move rows on the screen
 * only.
 */
export class SheetGrid implements GridPort {
  readonly sheet: string;
  readonly element: HTMLElement;
  readonly #desk: Desk;
  readonly #hot: Handsontable;
  /** Which record stands in a row on the screen; while the grid is being made, all stand in order. */
  #recordOf: (row: number) => number = (row) => row;
  /** Not known while the grid is being made. */
  #widthOf: (column: number) => number = () => Infinity;
  #columns: BookColumn[];
  #rows: Plain[][];
  #stale = false;
  readonly #key: number;

  constructor(desk: Desk, sheet: string, parent: HTMLElement, menu: readonly MenuItem[]) {
    this.#desk = desk;
    this.sheet = sheet;
    this.#columns = desk.book.columns(sheet);
    this.#key = this.#columns.findIndex(({ header }) => header === compiledSheets.get(sheet)?.declaration.key);
    this.element = document.createElement('div');
    this.element.className = 'grid-sheet';
    parent.append(this.element);
    this.#rows = plainRows(this.#desk.book, this.sheet, this.#columns.length);
    const hot = new Handsontable(this.element, this.#settings(menu));
    this.#hot = hot;
    this.#recordOf = (row) => hot.toPhysicalRow(row) ?? row;
    this.#widthOf = (column) => hot.getColWidth(column);
    hot.render();
  }

  #settings(menu: readonly MenuItem[]): GridSettings {
    return {
      ...everySheet(),
      ...this.#shape(),
      data: this.#rows,
      colHeaders: (column: number) => columnLetters(column),
      rowHeaders: (row: number) => String(sheetRow(this.#recordOf(row))),
      fixedColumnsStart: this.#key === 0 ? 1 : 0,
      contextMenu: rowMenu(menu),
      dropdownMenu: headerMenu(),
      afterGetColHeader: (column, cell) => {
        const shown = this.#columns[column];
        if (shown !== undefined) fillHeader(cell, shown, column, this.#desk.book.units);
      },
      afterFilter: () => this.#desk.changed(),
      afterSelection: (row, column, toRow, toColumn) => this.#selected(row, column, toRow, toColumn),
      ...clipboardHooks(this.#desk, {
        place: (row, column) => this.#place(row, column),
        selected: () => this.#selectedBlock(),
        block: (range) => blockOf(this.sheet, range, (row) => this.#recordOf(row)),
        rows: {
          count: () => this.#hot.countRows(),
          recordOf: (row) => this.#recordOf(row),
          rowOf: (record) => this.#hot.toVisualRow(record),
        },
        editing: () => this.editing,
        render: () => this.#hot.render(),
        select: (source, target) =>
          this.#hot.selectCell(
            Math.min(source.from.row ?? 0, target.from.row ?? 0),
            Math.min(source.from.col ?? 0, target.from.col ?? 0),
            Math.max(source.to.row ?? 0, target.to.row ?? 0),
            Math.max(source.to.col ?? 0, target.to.col ?? 0),
            false,
          ),
      }),
    };
  }

  /** What depends on the columns and on the unit system. */
  #shape(): GridSettings {
    return {
      ...columnSettings(this.#desk, this.sheet, this.#columns, {
        record: (row) => this.#recordOf(row),
        paint: (cell, row, column) => this.#paint(cell, row, column),
      }),
      hiddenColumns: { columns: this.#hidden(), indicators: false },
    };
  }

  #hidden(): number[] {
    const folded = foldedHeaders(this.sheet, this.#desk.folded);
    return this.#columns.flatMap(({ header, declared }, position) =>
      (declared?.background === true && !this.#desk.backgroundShown) || folded.has(header) ? [position] : [],
    );
  }

  #place(row: number, column: number): CellPlace {
    return { sheet: this.sheet, record: this.#recordOf(row), column };
  }

  #paint(cell: HTMLTableCellElement, row: number, column: number): void {
    const place = this.#place(row, column);
    const shown = this.#columns[column];
    if (shown === undefined) return;
    if (place.record >= this.#desk.book.sheet(this.sheet).rows.length) {
      wear(cell, { text: column === this.#key ? newRecord(this.sheet) : '', classes: ['cell-hint'], says: '' });
      return;
    }
    const full = cellLook(this.#desk.book, shown, place, column === this.#key);
    const look = fitting(full, this.#widthOf(column));
    wear(cell, isCut(place) ? { ...look, classes: [...look.classes, 'cell-cut'] } : look);
  }

  /** Shows what a change of the book did to this sheet. */
  refresh(change: BookChange): void {
    if (change.cells === 'all') {
      leaveCut();
      this.#columns = this.#desk.book.columns(this.sheet);
      this.#rows = plainRows(this.#desk.book, this.sheet, this.#columns.length);
      this.#stale = true;
      if (this.visible) this.#reload();
      return;
    }
    const free = !compiledSheets.has(this.sheet);
    const own = change.cells.filter(({ sheet }) => sheet === this.sheet);
    for (const place of own) {
      const row = this.#rows[place.record];
      if (row !== undefined) row[place.column] = plainValue(this.#desk.book, place);
    }
    if (!this.visible) this.#stale ||= own.length > 0 || free;
    else if (free) this.#hot.render();
    else this.#repaint(withNames(own, this.#key));
  }

  #repaint(places: readonly CellPlace[]): void {
    const [top, bottom] = [this.#hot.getFirstRenderedVisibleRow() ?? 0, this.#hot.getLastRenderedVisibleRow() ?? -1];
    const onShow = places.filter(({ record }) => {
      const row = this.#hot.toVisualRow(record);
      return row !== null && row >= top && row <= bottom;
    });
    if (onShow.length > mostCellsDrawnSingly) {
      this.#hot.render();
      return;
    }
    for (const { record, column } of onShow) {
      const row = this.#hot.toVisualRow(record);
      const cell = row === null ? null : this.#hot.getCell(row, column, true);
      if (row !== null && cell instanceof HTMLTableCellElement) this.#paint(cell, row, column);
    }
  }

  #reload(): void {
    this.#stale = false;
    this.#hot.updateSettings({ ...this.#shape(), data: this.#rows });
  }

  get visible(): boolean {
    return !this.element.hidden;
  }

  show(visible: boolean): void {
    this.element.hidden = !visible;
    if (!visible) {
      this.#hot.unlisten();
      return;
    }
    if (this.#stale) this.#reload();
    this.#hot.refreshDimensions();
    this.#hot.render();
  }

  scheme(scheme: 'light' | 'dark'): void {
    this.#hot.updateSettings({ colorScheme: scheme });
  }

  showBackground(): void {
    this.#hot.updateSettings({ hiddenColumns: { columns: this.#hidden(), indicators: false } });
  }

  #selected(row: number, column: number, toRow: number, toColumn: number): void {
    const [top, bottom] = [Math.max(0, Math.min(row, toRow)), Math.max(row, toRow)];
    const [left, right] = [Math.max(0, Math.min(column, toColumn)), Math.max(column, toColumn)];
    this.#desk.select({
      place: this.#place(Math.max(0, row), Math.max(0, column)),
      records: Array.from({ length: bottom - top + 1 }, (_, down) => this.#recordOf(top + down)),
      columns: Array.from({ length: right - left + 1 }, (_, index) => left + index),
    });
  }

  #selectedBlock(): Block {
    const { records, columns } = this.#desk.selection;
    return { sheet: this.sheet, records, columns };
  }

  placeOf(target: EventTarget | null): CellPlace | undefined {
    const cell = target instanceof Element ? target.closest('td') : null;
    const at = cell === null || !this.element.contains(cell) ? null : this.#hot.getCoords(cell);
    if (at === null || at.row === null || at.col === null || at.row < 0 || at.col < 0) return undefined;
    return this.#place(at.row, at.col);
  }

  goTo({ record, column }: CellPlace): void {
    if (this.#hot.toVisualRow(record) === null) this.clearView();
    if (this.#hidden().includes(column)) {
      // What a link or a finding leads to is brought into view, and no more than that.
      const { header = '', declared } = this.#columns[column] ?? {};
      this.#desk.folded = unfolded(this.sheet, header, this.#desk.folded);
      if (declared?.background === true) this.#desk.backgroundShown = true;
      this.showBackground();
    }
    const row = this.#hot.toVisualRow(record) ?? record;
    // While a formula is typed in the bar, its field keeps the keys.
    this.#hot.selectCell(row, column, row, column, true, this.#desk.typing === undefined);
  }

  focus(): void {
    // Another sheet's grid is about to be put on show, and takes the keys then.
    if (this.#desk.sheet !== this.sheet) return;
    const { record, column } = this.#desk.selection.place;
    if (this.#hot.getSelectedLast() === undefined) this.#hot.selectCell(this.#hot.toVisualRow(record) ?? 0, column);
    this.#hot.listen();
    this.#hot.getFocusManager().focusOnHighlightedCell();
  }

  reveal(): void {
    const { record, column } = this.#desk.selection.place;
    const row = this.#hot.toVisualRow(record);
    if (row !== null) this.#hot.scrollViewportTo({ row, col: column });
  }

  leave(): void {
    this.#hot.unlisten();
  }

  get editing(): boolean {
    const editor = this.#hot.getActiveEditor();
    return editor !== undefined && editor.isOpened();
  }

  edit(): void {
    this.focus();
    this.#hot.getActiveEditor()?.beginEditing();
  }

  get viewed(): boolean {
    return this.#hot.getPlugin('columnSorting').isSorted() || this.#hot.countRows() < this.#rows.length;
  }

  shownRecords(): number[] {
    const { length } = this.#desk.book.sheet(this.sheet).rows;
    return Array.from({ length: this.#hot.countRows() }, (_, row) => this.#recordOf(row)).filter(
      (record) => record < length,
    );
  }

  clearView(): void {
    this.#hot.getPlugin('columnSorting').clearSort();
    const filters = this.#hot.getPlugin('filters');
    filters.clearConditions();
    filters.filter();
  }

  destroy(): void {
    this.#hot.destroy();
    this.element.remove();
  }
}
