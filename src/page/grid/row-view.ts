import type Handsontable from 'handsontable/base';
import type { BookColumn } from '../../workbook/declared.ts';
import type { BookRow } from '../../workbook/state.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { layoutOf, setLayout } from '../column-view.ts';
import type { SeenColumns } from './seen-columns.ts';

/** How the rows of a sheet are sorted, which is kept with the book, and filtered, which lasts as long as the page. */

/** Values of a filter that are named one by one. */
const mostNamed = 3;

/** What a filter's condition is called, by the grid's name for it. */
const conditionWords: Readonly<Record<string, string>> = {
  empty: 'empty',
  not_empty: 'not empty',
  eq: 'is',
  neq: 'is not',
  gt: 'above',
  gte: 'from',
  lt: 'below',
  lte: 'up to',
  between: 'between',
  not_between: 'not between',
  begins_with: 'begins with',
  ends_with: 'ends with',
  contains: 'contains',
  not_contains: 'does not contain',
};

const valueWord = (value: unknown): string =>
  value === null || value === undefined || value === '' ? 'empty' : String(value);

function conditionText({ name, args }: { readonly name: string; readonly args: readonly unknown[] }): string {
  if (name !== 'by_value') return [conditionWords[name] ?? name, args.map(valueWord).join(' and ')].join(' ').trim();
  const values: readonly unknown[] = Array.isArray(args[0]) ? args[0] : [];
  if (values.length === 0) return 'none';
  const named = values.slice(0, mostNamed).map(valueWord).join(', ');
  return values.length > mostNamed ? `${named} and ${values.length - mostNamed} more` : named;
}

/** Whether rows have come below the last alone, which is known by its name where it has one: it may have changed. */
function isAppended(before: readonly BookRow[], rows: readonly BookRow[], key: number): boolean {
  const [last, there] = [before.at(-1), rows[before.length - 1]];
  const name = last?.cells[key] ?? null;
  return rows.length > before.length && (last === there || (name !== null && there?.cells[key] === name));
}

export class RowView {
  readonly #book: Workbook;
  readonly #sheet: string;
  readonly #seen: SeenColumns;
  readonly #hot: Handsontable;
  readonly #columns: () => readonly BookColumn[];
  /** Those that were last filtered and sorted. */
  #rows: readonly BookRow[];

  constructor(
    book: Workbook,
    sheet: string,
    seen: SeenColumns,
    hot: Handsontable,
    columns: () => readonly BookColumn[],
  ) {
    this.#book = book;
    this.#sheet = sheet;
    this.#seen = seen;
    this.#hot = hot;
    this.#columns = columns;
    this.#rows = book.sheet(sheet).rows;
  }

  /**
   * Filters and sorts anew where rows have come or gone between others: the grid's package keeps both by the places of
   * rows. One that is being typed below the last stays in view and where it is, whatever it holds.
   */
  follow(key: number): void {
    const [before, rows] = [this.#rows, this.#book.sheet(this.#sheet).rows];
    this.#rows = rows;
    if (rows.length === before.length || isAppended(before, rows, key)) return;
    if (this.filters().length > 0) this.#hot.getPlugin('filters').filter();
    if (this.#hot.getPlugin('columnSorting').isSorted()) this.sort();
  }

  /** Sorts as the sheet was last. */
  sort(): void {
    const { sort } = layoutOf(this.#book, this.#sheet);
    const position = sort === undefined ? undefined : this.#book.findColumn(this.#sheet, sort.header);
    if (sort === undefined || position === undefined) return;
    const sortOrder = sort.descending ? 'desc' : 'asc';
    this.#hot.getPlugin('columnSorting').sort({ column: this.#seen.seenAt(position), sortOrder });
  }

  /** Keeps how the rows have been sorted. */
  sorted(by: { readonly column: number; readonly sortOrder: string } | undefined): void {
    const header = by === undefined ? undefined : this.#columns()[this.#seen.positionOf(by.column)]?.header;
    const sort = header === undefined ? undefined : { header, descending: by?.sortOrder === 'desc' };
    if (JSON.stringify(layoutOf(this.#book, this.#sheet).sort) !== JSON.stringify(sort))
      setLayout(this.#book, this.#sheet, { sort });
  }

  /** The filters that are on, by the position of their column, in words. */
  filters(): { readonly column: number; readonly says: string }[] {
    const { conditionCollection } = this.#hot.getPlugin('filters');
    return (conditionCollection?.exportAllConditions() ?? []).map(({ column, conditions, operation }) => ({
      column,
      says: conditions.map(conditionText).join(operation === 'disjunction' ? ' or ' : ' and '),
    }));
  }

  clearFilter(position: number): void {
    const filters = this.#hot.getPlugin('filters');
    filters.clearConditions(this.#seen.seenAt(position));
    filters.filter();
  }

  /** Shows only rows that have one of these values in a column, whatever was filtered before. */
  only(position: number, values: readonly string[]): void {
    const filters = this.#hot.getPlugin('filters');
    filters.clearConditions();
    filters.addCondition(this.#seen.seenAt(position), 'by_value', [[...values]]);
    filters.filter();
  }

  clearSort(): void {
    this.#hot.getPlugin('columnSorting').clearSort();
  }

  clear(): void {
    this.clearSort();
    const filters = this.#hot.getPlugin('filters');
    filters.clearConditions();
    filters.filter();
  }
}
