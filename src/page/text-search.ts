import { foundInRecord, type Search } from '../workbook/found-cells.ts';
import type { BookChange, CellPlace } from '../workbook/place.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { cellText } from './cell-text.ts';
import { soon } from './idle.ts';

/** Milliseconds of a search before the page gets its turn. */
const slice = 20;
/** What has been found so far is shown this often. */
const showEvery = 300;

/**
 * A search that goes through a book in slices: what it has found stands in `places` meanwhile. A change of cells is
 * looked at again in its rows alone; any other begins anew.
 */
export class TextSearch {
  readonly #book: Workbook;
  readonly #search: Search;
  readonly #changed: () => void;
  readonly #forget: () => void;
  #places: CellPlace[] = [];
  /** The next record to be looked at; no sheet once all are. */
  #sheet = 0;
  #record = 0;
  #shown = performance.now();
  #ended = false;

  constructor(book: Workbook, search: Search, changed: () => void) {
    this.#book = book;
    this.#search = search;
    this.#changed = changed;
    this.#forget = book.listen((change) => this.#follow(change));
    this.#work();
  }

  get places(): readonly CellPlace[] {
    return this.#places;
  }

  get complete(): boolean {
    return this.#sheet >= this.#book.state.sheets.length;
  }

  /** Looks no further, and follows the book no more. */
  end(): void {
    this.#ended = true;
    this.#forget();
  }

  #inRecord(sheet: string, record: number): CellPlace[] {
    const columns = this.#book.columns(sheet);
    const shown = (place: CellPlace): string => {
      const column = columns[place.column];
      return column === undefined ? '' : cellText(this.#book, column, place);
    };
    const { cells } = this.#book.sheet(sheet).rows[record] ?? { cells: [] };
    return foundInRecord(cells, { sheet, record, width: columns.length }, this.#search, shown);
  }

  #work(): void {
    const end = performance.now() + slice;
    while (!this.complete && performance.now() < end) {
      const sheet = this.#book.state.sheets[this.#sheet];
      const passed = this.#search.sheet !== undefined && this.#search.sheet !== sheet?.name;
      if (sheet === undefined || passed || this.#record >= sheet.rows.length) {
        this.#sheet += 1;
        this.#record = 0;
        continue;
      }
      for (const place of this.#inRecord(sheet.name, this.#record)) this.#places.push(place);
      this.#record += 1;
    }
    if (this.complete) return;
    soon(() => {
      if (this.#ended) return;
      this.#work();
      const now = performance.now();
      if (!this.complete && now - this.#shown < showEvery) return;
      this.#shown = now;
      this.#changed();
    });
  }

  #follow({ cells }: BookChange): void {
    if (cells === 'all') {
      const running = !this.complete;
      [this.#places, this.#sheet, this.#record] = [[], 0, 0];
      if (!running) this.#work();
      return;
    }
    const order = new Map(this.#book.state.sheets.map(({ name }, at) => [name, at]));
    const looked = ({ sheet, record }: CellPlace): boolean => {
      const at = order.get(sheet) ?? 0;
      return at < this.#sheet || (at === this.#sheet && record < this.#record);
    };
    const rows = new Map(cells.filter(looked).map(({ sheet, record }) => [`${record} ${sheet}`, { sheet, record }]));
    if (rows.size === 0) return;
    const kept = this.#places.filter(({ sheet, record }) => !rows.has(`${record} ${sheet}`));
    const found = [...rows.values()].flatMap(({ sheet, record }) => this.#inRecord(sheet, record));
    this.#places = [...kept, ...found].sort(
      (one, other) =>
        (order.get(one.sheet) ?? 0) - (order.get(other.sheet) ?? 0) ||
        one.record - other.record ||
        one.column - other.column,
    );
  }
}
