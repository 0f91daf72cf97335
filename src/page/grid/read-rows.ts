import type Handsontable from 'handsontable/base';
import { isFault } from '../../formula/values.ts';
import { compiledSheets } from '../../workbook/declared.ts';
import type { CellPlace } from '../../workbook/place.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { dateText } from '../cell-text.ts';
import { growing } from '../editing.ts';

/** What the grid reads of a sheet for its sorting and filters: the book itself, cell by cell as it is asked for. */

type Plain = number | string | boolean | null;

function plainValue(book: Workbook, place: CellPlace): Plain {
  const value = book.shown(place);
  if (isFault(value)) return value.code;
  return typeof value === 'number' && book.kind(place) === 'date' ? dateText(value) : value;
}

/**
 * The rows of one sheet for the grid, which wants an array of arrays and asks for one row at a time.
 *
 * All its rows are one array whose places answer for the row that was asked for last: a copy of a hundred thousand
 * belts' values would be as large as the book, and a second older than it.
 */
export class ReadRows {
  readonly #book: Workbook;
  readonly #sheet: string;
  #record = 0;
  #row: readonly Plain[] = [];
  /** The units, the own columns and the first row that were taken over. */
  #of: readonly unknown[] = [];
  /** One for each row: the grid counts them. */
  data: (readonly Plain[])[] = [];

  constructor(book: Workbook, sheet: string) {
    this.#book = book;
    this.#sheet = sheet;
    this.take();
  }

  /**
   * Takes over how many rows and columns the sheet has now. Whether its columns are as before, and its rows those of
   * the same list, of which some have come or gone.
   */
  take(): boolean {
    const { units } = this.#book;
    const { userColumns, rows } = this.#book.sheet(this.#sheet);
    const of = [units, userColumns, rows[0]];
    const same = of.every((part, at) => part !== undefined && part === this.#of[at]);
    this.#of = of;
    const width = this.#book.columns(this.#sheet).length;
    if (this.#row.length !== width) this.#row = this.#reading(width);
    // One row more than the sheet has where rows may be added: typing there adds a record.
    const below = growing(this.#sheet) && compiledSheets.has(this.#sheet) ? 1 : 0;
    this.data = new Array<readonly Plain[]>(rows.length + below).fill(this.#row);
    return same;
  }

  #reading(width: number): readonly Plain[] {
    const row: Plain[] = [];
    for (let column = 0; column < width; column += 1)
      Object.defineProperty(row, column, {
        enumerable: true,
        get: () => this.value(this.#record, column),
        set() {
          // What is typed goes to the book, and nothing into the grid's own rows.
        },
      });
    return row;
  }

  readonly at = (record: number): readonly Plain[] => {
    this.#record = record;
    return this.#row;
  };

  value(record: number, column: number): Plain {
    // A row or a column that the grid does not know has no place in it.
    if (!Number.isInteger(record) || !Number.isInteger(column)) return null;
    const place = { sheet: this.#sheet, record, column };
    return record < this.#book.sheet(this.#sheet).rows.length ? plainValue(this.#book, place) : null;
  }
}

/** A value of a column as filters take it; the settings of one cell stand for those of all. */
interface ColumnValue {
  readonly row: number;
  readonly meta: object;
  readonly value: Plain;
}

/**
 * Lets a grid go through whole columns without making the settings of each cell for it, which takes longer than
 * reading.
 */
export function readColumnsAtOnce(hot: Handsontable, rows: ReadRows): void {
  const inRow = (row: number, position: number): Plain => rows.value(hot.toPhysicalRow(row), position);
  const all = (count: number): number[] => Array.from({ length: count }, (_, row) => row);
  Object.assign(hot, {
    getDataAtCell: (row: number, column: number) => inRow(row, hot.toPhysicalColumn(column)),
    getDataAtCol: (column: number) => {
      const position = hot.toPhysicalColumn(column);
      return all(hot.countRows()).map((row) => inRow(row, position));
    },
  });
  const filters = hot.getPlugin('filters');
  const listed = filters._getValueListDataAtColumn.bind(filters);
  Object.assign(filters, {
    getDataMapAtColumn(position: number, records = all(hot.countSourceRows())): ColumnValue[] {
      const meta = hot.getCellMetaTransient(0, hot.toVisualColumn(position));
      return records.map((row) => ({ row, meta, value: rows.value(row, position) ?? '' }));
    },
    _getValueListDataAtColumn(column: number): unknown {
      const position = hot.toPhysicalColumn(column);
      // A column that is filtered lists what those filtered before it leave, and not what it leaves itself.
      if ((filters.conditionCollection?.getColumnStackPosition(position) ?? -1) >= 0) return listed(column);
      const meta = hot.getCellMetaTransient(0, column);
      return all(hot.countRows()).map((row) => ({ row, meta, value: inRow(row, position) ?? '' }));
    },
  });
}

/** Compares numbers as they are: the grid's own way reads each of them from a text, at every comparison. */
export function numbersCompared(order: string): (value: unknown, other: unknown) => number {
  const number = (value: unknown): number => (typeof value === 'number' ? value : Number.parseFloat(String(value)));
  const first = order === 'asc' ? -1 : 1;
  return (one, other) => {
    const [left, right] = [number(one), number(other)];
    if (Number.isNaN(left) || Number.isNaN(right)) return Number(Number.isNaN(left)) - Number(Number.isNaN(right));
    return left === right ? 0 : left < right ? first : -first;
  };
}
