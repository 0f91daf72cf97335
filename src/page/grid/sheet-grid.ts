import Handsontable from 'handsontable/base';
import type { GridSettings } from 'handsontable/base';
import { type BookColumn, compiledSheets } from '../../workbook/declared.ts';
import { columnLetters, sheetRow } from '../../formula/address.ts';
import type { BookChange, CellPlace } from '../../workbook/place.ts';
import type { Desk, GridPort } from '../desk.ts';
import { showColumn } from '../column-view.ts';
import { goBeyond, newRecord } from '../editing.ts';
import { type Block, blockOf, selectBoth } from './block.ts';
import { leaveCut } from './clipboard.ts';
import { clipboardHooks } from './clipboard-hooks.ts';
import { type CellLook, cellLook, lookBelow, nothingThere, wearAnew, withNames } from './cell-look.ts';
import { columnSettings } from './column-settings.ts';
import { ChangedCells } from './changed-cells.ts';
import { drawLess } from './drawn-cells.ts';
import { everySheet } from './every-sheet.ts';
import { drawOnce } from './fewer-drawings.ts';
import { fitting, widthsOf } from './widths.ts';
import { fillHeader } from './headers.ts';
import { alignLeftEdge, bringIntoView } from './left-edge.ts';
import { type MenuItem, menus } from './menu.ts';
import { passingMarks } from './passing-marks.ts';
import { PointedCells } from './pointed-cells.ts';
import { ReadRows, readColumnsAtOnce } from './read-rows.ts';
import { RowView } from './row-view.ts';
import { SeenColumns } from './seen-columns.ts';
import { followTabs } from './tab-run.ts';

/**
 * One sheet of the book in the grid.
 *
 * The grid keeps no values: what it shows, sorts and filters by is asked of the book, what is typed goes to the book,
 * and the book's changes come back here. Sorting and filtering move rows on the screen only.
 */
export class SheetGrid implements GridPort {
  readonly sheet: string;
  readonly element: HTMLElement;
  readonly #desk: Desk;
  readonly #hot: Handsontable;
  /** Which record stands in a row on the screen; while the grid is being made, all stand in order. */
  #recordOf: (row: number) => number = (row) => row;
  readonly #seen: SeenColumns;
  rowView: RowView | undefined;
  readonly pointed: PointedCells;
  /** Not known while the grid is being made. */
  #widthOf: (column: number) => number = () => Infinity;
  #columns: BookColumn[];
  readonly #rows: ReadRows;
  #stale = false;
  readonly #changed: ChangedCells;
  /** Records in the order they are seen, until rows are put in another. */
  #shown: readonly number[] | undefined;
  readonly #key: number;

  constructor(desk: Desk, sheet: string, parent: HTMLElement, menu: readonly MenuItem[]) {
    this.#desk = desk;
    this.sheet = sheet;
    this.#columns = desk.book.columns(sheet);
    this.#key = this.#columns.findIndex(({ header }) => header === compiledSheets.get(sheet)?.declaration.key);
    this.#seen = new SeenColumns(desk.book, sheet);
    this.element = document.createElement('div');
    this.element.className = 'grid-sheet';
    parent.append(this.element);
    this.#rows = new ReadRows(desk.book, sheet);
    const hot = new Handsontable(this.element, this.#settings(menu));
    this.#hot = hot;
    readColumnsAtOnce(hot, this.#rows);
    drawLess(hot);
    drawOnce(hot);
    hot.rowIndexMapper.addLocalHook('cacheUpdated', () => (this.#shown = undefined));
    this.#recordOf = (row) => hot.toPhysicalRow(row) ?? row;
    this.#widthOf = widthsOf(hot);
    this.#changed = new ChangedCells(hot, this.#seen, (row, column) => this.#lookAt(row, column));
    this.pointed = new PointedCells(hot, this.#seen, (row, column) => this.#place(row, column));
    this.rowView = new RowView(desk.book, sheet, this.#seen, hot, () => this.#columns);
    hot.batchRender(() => {
      this.#seen.take(hot, this.#columns);
      this.rowView?.sort();
      followTabs(
        hot,
        (row, column) => goBeyond(desk, this.#place(row, column)),
        (column) => column >= this.#seen.count || this.#columns[this.#seen.positionOf(column)]?.computed === true,
      );
      hot.render();
    });
  }

  #settings(menu: readonly MenuItem[]): GridSettings {
    return {
      ...everySheet(),
      ...this.#shape(),
      data: this.#rows.data,
      modifyRowData: this.#rows.at,
      colHeaders: (column: number) => columnLetters(column),
      rowHeaders: (row: number) => String(sheetRow(this.#recordOf(row))),
      ...menus(menu),
      afterGetColHeader: (column, cell) => {
        const position = this.#seen.positionOf(column);
        const shown = column < 0 ? undefined : this.#columns[position];
        if (shown !== undefined) fillHeader(cell, shown, position, this.#desk.book, this.sheet);
      },
      afterFilter: () => this.#desk.changed(),
      afterColumnSort: (_, [by]) => this.rowView?.sorted(by),
      afterColumnResize: this.#seen.resized,
      afterSelection: (row, column, toRow, toColumn) => this.#selected(row, column, toRow, toColumn),
      ...clipboardHooks(this.#desk, {
        place: (row, position) => ({ sheet: this.sheet, record: this.#recordOf(row), column: position }),
        selected: () => this.#selectedBlock(),
        block: (range) => blockOf(this.sheet, range, (row) => this.#recordOf(row), this.#seen.positionOf),
        seen: {
          rows: () => this.#hot.countRows(),
          recordOf: (row) => this.#recordOf(row),
          rowOf: (record) => this.#hot.toVisualRow(record),
          columns: () => this.#seen.count,
          columnOf: this.#seen.positionOf,
          columnAt: this.#seen.seenAt,
        },
        editing: () => this.editing,
        render: () => this.#hot.render(),
        select: (source, target) => selectBoth(this.#hot, source, target),
      }),
    };
  }

  #shape(): GridSettings {
    return {
      ...columnSettings(this.#desk, this.sheet, this.#columns, {
        place: (row, column) => this.#place(row, column),
        column: this.#seen.positionOf,
        paint: (cell, row, column, fixed) => wearAnew(cell, this.#lookAt(row, column), fixed),
      }),
      hiddenColumns: { columns: [], indicators: false },
    };
  }

  /** Brings the columns into the order of the book's layout; the cell that is selected may stand elsewhere then. */
  arrange(): void {
    if (!this.#seen.arrange()) return;
    const { place } = this.#desk.selection;
    if (place.sheet === this.sheet && this.#hot.getSelectedLast() !== undefined)
      this.#select(place, this.#hot.isListening());
  }

  #place(row: number, column: number): CellPlace {
    return { sheet: this.sheet, record: this.#recordOf(row), column: this.#seen.positionOf(column) };
  }

  #lookAt(row: number, column: number): CellLook {
    const place = this.#place(row, column);
    const shown = this.#columns[place.column];
    const key = place.column === this.#key;
    const below = place.record >= this.#desk.book.sheet(this.sheet).rows.length;
    if (shown === undefined) return nothingThere;
    if (below) return lookBelow(shown, key ? newRecord(this.sheet) : '');
    const look = fitting(cellLook(this.#desk.book, shown, place, key), this.#widthOf(column));
    return { ...look, classes: [...look.classes, ...passingMarks(this.#desk, place)] };
  }

  /** Shows what a change of the book did to this sheet. */
  refresh(change: BookChange): void {
    if (change.cells === 'all') {
      leaveCut();
      const [asIs, same] = [!this.#stale && this.visible && !this.viewed, this.#rows.take()];
      this.#shown = undefined;
      // To make the columns anew takes longer than all else that a new belt brings with it.
      if (same && asIs) {
        this.rowView?.follow(this.#key);
        return this.#hot.updateData(this.#rows.data);
      }
      this.#columns = this.#desk.book.columns(this.sheet);
      this.#stale = true;
      if (this.visible) this.#reload();
      return;
    }
    const free = !compiledSheets.has(this.sheet);
    const own = change.cells.filter(({ sheet }) => sheet === this.sheet);
    if (!this.visible) this.#stale ||= own.length > 0 || free;
    else if (free) this.#hot.render();
    else this.#changed.add(withNames(own, this.#key));
  }

  #reload(): void {
    this.#stale = false;
    this.#hot.batchRender(() => {
      this.#hot.updateSettings({ ...this.#shape(), data: this.#rows.data });
      this.#seen.take(this.#hot, this.#columns);
      this.rowView?.follow(this.#key);
    });
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

  #selected(row: number, column: number, toRow: number, toColumn: number): void {
    const [top, bottom] = [Math.max(0, Math.min(row, toRow)), Math.max(row, toRow)];
    const [left, right] = [Math.max(0, Math.min(column, toColumn)), Math.max(column, toColumn)];
    this.#desk.select({
      place: this.#place(Math.max(0, row), Math.max(0, column)),
      records: Array.from({ length: bottom - top + 1 }, (_, down) => this.#recordOf(top + down)),
      columns: Array.from({ length: right - left + 1 }, (_, index) => this.#seen.positionOf(left + index)),
    });
  }

  #selectedBlock(): Block {
    const { records, columns } = this.#desk.selection;
    return { sheet: this.sheet, records, columns };
  }

  goTo({ record, column }: CellPlace, takesKeys = true): void {
    if (this.#hot.toVisualRow(record) === null) this.rowView?.clear();
    // What a link or a finding leads to is brought into view, and no more than that.
    const header = this.#columns[column]?.header;
    if (header !== undefined) showColumn(this.#desk.book, this.sheet, header);
    this.arrange();
    // While a formula is typed in the bar, its field keeps the keys.
    this.#select({ record, column }, takesKeys && this.#desk.typing === undefined);
  }

  #select({ record, column }: Omit<CellPlace, 'sheet'>, takesKeys: boolean): void {
    const row = this.#hot.toVisualRow(record) ?? record;
    const seen = this.#seen.seenAt(column);
    this.#hot.selectCell(row, seen, row, seen, true, takesKeys);
    alignLeftEdge(this.#hot, seen);
  }

  beside(column: number, step: 1 | -1): number | undefined {
    return this.#seen.beside(column, step);
  }

  focus(): void {
    // Another sheet's grid is about to be put on show, and takes the keys then.
    if (this.#desk.sheet !== this.sheet) return;
    const { record, column } = this.#desk.selection.place;
    if (this.#hot.getSelectedLast() === undefined)
      this.#hot.selectCell(this.#hot.toVisualRow(record) ?? 0, this.#seen.seenAt(column));
    this.#hot.listen();
    this.#hot.getFocusManager().focusOnHighlightedCell();
  }

  reveal(): void {
    const { record, column } = this.#desk.selection.place;
    bringIntoView(this.#hot, this.#hot.toVisualRow(record), this.#seen.seenAt(column));
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
    return this.#hot.getPlugin('columnSorting').isSorted() || this.#hot.countRows() < this.#rows.data.length;
  }

  shownRecords(): readonly number[] {
    if (this.#shown !== undefined) return this.#shown;
    const { length } = this.#desk.book.sheet(this.sheet).rows;
    this.#shown = Array.from({ length: this.#hot.countRows() }, (_, row) => this.#recordOf(row)).filter(
      (record) => record < length,
    );
    return this.#shown;
  }

  destroy(): void {
    this.#hot.destroy();
    this.element.remove();
  }
}
