import type Handsontable from 'handsontable/base';
import type { CellPlace } from '../../workbook/place.ts';
import { bringIntoView } from './left-edge.ts';
import type { SeenColumns } from './seen-columns.ts';

/** The cells of a sheet on show as one points at them: with the mouse, by steps, by frames around them. */
export class PointedCells {
  readonly #hot: Handsontable;
  readonly #seen: SeenColumns;
  readonly #placeAt: (row: number, column: number) => CellPlace;

  constructor(hot: Handsontable, seen: SeenColumns, placeAt: (row: number, column: number) => CellPlace) {
    this.#hot = hot;
    this.#seen = seen;
    this.#placeAt = placeAt;
  }

  /** The cell that a part of the grid shows. */
  at(target: EventTarget | null): CellPlace | undefined {
    const cell = target instanceof Element ? target.closest('td') : null;
    const at = cell === null || !this.#hot.rootElement.contains(cell) ? null : this.#hot.getCoords(cell);
    if (at === null || at.row === null || at.col === null || at.row < 0 || at.col < 0) return undefined;
    return this.#placeAt(at.row, at.col);
  }

  /** The cell on show so many rows and columns from another; at an edge the one beside it. */
  beside({ record, column }: CellPlace, down: number, right: number): CellPlace {
    const within = (place: number, count: number): number => Math.max(0, Math.min(count - 1, place));
    const row = within((this.#hot.toVisualRow(record) ?? 0) + down, this.#hot.countRows());
    return this.#placeAt(row, within(this.#seen.seenAt(column) + right, this.#seen.count));
  }

  reveal({ record, column }: CellPlace): void {
    bringIntoView(this.#hot, this.#hot.toVisualRow(record), this.#seen.seenAt(column));
  }

  /** Draws the frames anew. */
  redraw(): void {
    this.#hot.render();
  }
}
