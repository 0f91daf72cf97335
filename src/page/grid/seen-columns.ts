import type Handsontable from 'handsontable/base';
import type { ColumnLayout } from '../../workbook/book-look.ts';
import type { BookColumn } from '../../workbook/declared.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { columnsOnShow, layoutOf, setLayout } from '../column-view.ts';

/**
 * The columns of one sheet as they are seen.
 *
 * Those on show stand first, in the order of the book's layout, and those that are hidden behind them: so a range is
 * what is seen, and whole rows are whole records.
 */
export class SeenColumns {
  readonly #book: Workbook;
  readonly #sheet: string;
  #hot: Handsontable | undefined;
  #columns: readonly BookColumn[] = [];
  #layout: ColumnLayout | undefined;
  /** How many are on show. */
  count = 0;

  constructor(book: Workbook, sheet: string) {
    this.#book = book;
    this.#sheet = sheet;
  }

  /** Takes the columns of a grid over; while it is being made, all stand in the order of the sheet. */
  take(hot: Handsontable, columns: readonly BookColumn[]): void {
    this.#hot = hot;
    this.#columns = columns;
    this.#layout = undefined;
    this.arrange();
  }

  /** Which column of the sheet stands in a column on the screen. */
  readonly positionOf = (seen: number): number => this.#hot?.toPhysicalColumn(seen) ?? seen;

  /** Where on the screen a column of the sheet stands. */
  readonly seenAt = (position: number): number => this.#hot?.toVisualColumn(position) ?? position;

  /** The column on show beside another; undefined at the end. */
  beside(position: number, step: 1 | -1): number | undefined {
    const seen = this.seenAt(position) + step;
    return seen < 0 || seen >= this.count ? undefined : this.positionOf(seen);
  }

  /** Brings the columns into the order of the book's layout; whether anything changed. */
  arrange(): boolean {
    const layout = layoutOf(this.#book, this.#sheet);
    if (layout === this.#layout || this.#hot === undefined) return false;
    this.#layout = layout;
    const shown = columnsOnShow(this.#book, this.#sheet);
    const onShow = new Set(shown);
    const hidden = [...this.#columns.keys()].filter((position) => !onShow.has(position));
    this.count = shown.length;
    this.#hot.columnIndexMapper.setIndexesSequence([...shown, ...hidden]);
    this.#hot.updateSettings({
      hiddenColumns: { columns: hidden.map((_, index) => shown.length + index), indicators: false },
      fixedColumnsStart: Math.min(layout.frozen, Math.max(0, shown.length - 1)),
    });
    return true;
  }

  /** Keeps a width that was drawn. */
  readonly resized = (width: number, seen: number): void => {
    const header = this.#columns[this.positionOf(seen)]?.header;
    if (header === undefined) return;
    const { widths } = layoutOf(this.#book, this.#sheet);
    setLayout(this.#book, this.#sheet, { widths: { ...widths, [header]: Math.round(width) } });
  };
}
