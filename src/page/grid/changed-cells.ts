import type Handsontable from 'handsontable/base';
import type { CellPlace } from '../../workbook/place.ts';
import { type CellLook, wear } from './cell-look.ts';
import type { SeenColumns } from './seen-columns.ts';

/** Changed cells on show beyond which drawing the whole view is quicker than cell by cell. */
const mostCellsDrawnSingly = 400;

/**
 * Cells that a change has given another look, until all that goes on has come to its end: the grid measures itself
 * while it moves the selection, and the browser would lay it out for these cells once more before.
 */
export class ChangedCells {
  readonly #hot: Handsontable;
  readonly #seen: SeenColumns;
  readonly #lookAt: (row: number, column: number) => CellLook;
  #waiting: CellPlace[] = [];

  constructor(hot: Handsontable, seen: SeenColumns, lookAt: (row: number, column: number) => CellLook) {
    this.#hot = hot;
    this.#seen = seen;
    this.#lookAt = lookAt;
  }

  add(places: readonly CellPlace[]): void {
    if (this.#waiting.length === 0 && places.length > 0) queueMicrotask(() => this.#draw());
    this.#waiting = this.#waiting.concat(places);
  }

  #draw(): void {
    const [hot, places] = [this.#hot, this.#waiting];
    this.#waiting = [];
    if (hot.isDestroyed) return;
    const [top, bottom] = [hot.getFirstRenderedVisibleRow() ?? 0, hot.getLastRenderedVisibleRow() ?? -1];
    const onShow = places.flatMap(({ record, column }) => {
      const row = hot.toVisualRow(record);
      return row !== null && row >= top && row <= bottom ? [{ row, column: this.#seen.seenAt(column) }] : [];
    });
    if (onShow.length > mostCellsDrawnSingly) {
      hot.render();
      return;
    }
    for (const { row, column } of onShow) {
      const cell = hot.getCell(row, column, true);
      if (cell instanceof HTMLTableCellElement) wear(cell, this.#lookAt(row, column));
    }
  }
}
