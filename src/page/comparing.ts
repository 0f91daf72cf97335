import { isFormula } from '../formula/values.ts';
import { comparedBooks } from '../merge/compared-books.ts';
import type { MergeItem } from '../merge/merge-item.ts';
import type { MergePlan } from '../merge/merge-plan.ts';
import { mergedBook } from '../merge/merged-book.ts';
import type { CellEdit } from '../workbook/state-changes.ts';
import type { Workbook } from '../workbook/workbook.ts';
import type { BookState } from '../workbook/state.ts';
import { coveredColumns } from '../xlsx/import/covered-columns.ts';
import type { ImportResult } from '../xlsx/import/import-model.ts';

/** What differs in one column, or of one kind in one sheet: taken or left together, or each by itself. */
export interface DifferenceGroup {
  readonly name: string;
  readonly items: readonly MergeItem[];
}

function groupName({ level, sheet, column, of = 'records' }: MergeItem): string {
  switch (level) {
    case 'cell':
      return `${sheet}, ${column}`;
    case 'record':
      return `${sheet}, whole records`;
    case 'column':
      return `${sheet}, own columns`;
    case 'order':
      return sheet === '' ? 'Order of sheets' : `${sheet}, order of ${of}`;
    default:
      return level === 'book' ? 'Book' : 'Your own sheets';
  }
}

/**
 * The open book beside a file, and what of the file is taken into it.
 *
 * Nobody knows what both come from, so what the file lacks may as well be new here: that is left unless somebody takes
 * it, and all else is taken unless somebody leaves it.
 */
export class Comparing {
  readonly plan: MergePlan;
  readonly groups: readonly DifferenceGroup[];
  readonly #left: Set<MergeItem>;

  constructor(open: BookState, { state, report }: ImportResult) {
    const covers = coveredColumns(report);
    this.plan = comparedBooks({ state: open }, { state, ...(covers === undefined ? {} : { covers }) });
    const names = [...new Set(this.plan.items.map(groupName))];
    this.groups = names.map((name) => ({ name, items: this.plan.items.filter((item) => groupName(item) === name) }));
    this.#left = new Set(this.plan.items.filter(({ there }) => there === 'gone'));
  }

  takes(item: MergeItem): boolean {
    return !this.#left.has(item);
  }

  takesAll(items: readonly MergeItem[]): boolean {
    return items.every((item) => this.takes(item));
  }

  take(items: readonly MergeItem[], taken: boolean): void {
    for (const item of items) {
      if (taken) this.#left.delete(item);
      else this.#left.add(item);
    }
  }

  get taken(): number {
    return this.plan.items.length - this.#left.size;
  }

  /**
   * What was taken as changes of cells of the open book, for a variant; and how much of it is none: whole records,
   * columns and sheets, formulas, cells of records without a name.
   */
  changes(book: Workbook): { readonly edits: readonly CellEdit[]; readonly others: number } {
    const taken = this.plan.items.filter((item) => this.takes(item));
    const edits = taken.flatMap(({ level, sheet, column, record, cells, rows }): CellEdit[] => {
      const at = level === 'cell' && record !== '' ? book.findColumn(sheet, column) : undefined;
      const content = cells?.theirs.content ?? null;
      return at === undefined || rows.mine < 0 || isFormula(content)
        ? []
        : [{ sheet, record: rows.mine, column: at, content }];
    });
    return { edits, others: taken.length - edits.length };
  }

  /** The open book with what was taken. */
  merged(): BookState {
    return mergedBook(this.plan, (item) => (this.takes(item) ? 'theirs' : 'mine')).state;
  }
}
