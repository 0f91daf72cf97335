import { isFormula } from '../formula/values.ts';
import { comparedBooks } from '../merge/compared-books.ts';
import { withoutConflictMarks } from '../merge/conflict-marks.ts';
import type { MergeItem, Side } from '../merge/merge-item.ts';
import { type MergeBook, mergePlan, type MergePlan } from '../merge/merge-plan.ts';
import { mergedBook } from '../merge/merged-book.ts';
import type { CellEdit } from '../workbook/state-changes.ts';
import type { Workbook } from '../workbook/workbook.ts';
import type { BookState } from '../workbook/state.ts';

/** What differs in one column, or of one kind in one sheet: taken or left together, or each by itself. */
export interface DifferenceGroup {
  readonly name: string;
  readonly items: readonly MergeItem[];
}

function groupName({ level, sheet, column, of = 'records' }: MergeItem): string {
  switch (level) {
    case 'cell':
    case 'fact':
      return `${sheet}, ${column}`;
    case 'view':
      return 'Views';
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
 * The open book beside another, and what of the other is taken into it.
 *
 * With `base`, which both come from, only what the other changed is offered, taken unless somebody leaves it; what both
 * changed stays open until somebody decides it. Without it nobody knows who changed what: what the other lacks may as
 * well be new here, so that is left unless somebody takes it.
 */
export class Comparing {
  readonly plan: MergePlan;
  readonly threeWay: boolean;
  /** What both changed, and not alike. */
  readonly conflicts: readonly MergeItem[];
  /** What only the other changed; without a base whatever differs. */
  readonly offered: readonly MergeItem[];
  readonly groups: readonly DifferenceGroup[];
  /** What only this book changed, and stays. */
  readonly own: number;
  /** What both changed alike. */
  readonly alike: number;
  readonly #sides = new Map<MergeItem, Side>();

  constructor(open: BookState, theirs: MergeBook, base?: MergeBook) {
    const other = { ...theirs, state: withoutConflictMarks(theirs.state) };
    this.threeWay = base !== undefined;
    this.plan =
      base === undefined
        ? comparedBooks({ state: open }, other)
        : mergePlan({ base, mine: { state: open }, theirs: other });
    const { items } = this.plan;
    this.conflicts = items.filter(({ conflict }) => conflict);
    this.offered = items.filter(({ here, there, conflict }) => there !== undefined && here === undefined && !conflict);
    this.own = items.filter(({ there }) => there === undefined).length;
    this.alike = items.length - this.conflicts.length - this.offered.length - this.own;
    const names = [...new Set(this.offered.map(groupName))];
    this.groups = names.map((name) => ({ name, items: this.offered.filter((item) => groupName(item) === name) }));
    for (const item of this.offered) this.#sides.set(item, this.threeWay || item.there !== 'gone' ? 'theirs' : 'mine');
  }

  /** Whose a difference is to be; undefined for a conflict that nobody has decided. */
  side(item: MergeItem): Side | undefined {
    return this.#sides.get(item);
  }

  takes(item: MergeItem): boolean {
    return this.side(item) === 'theirs';
  }

  takesAll(items: readonly MergeItem[]): boolean {
    return items.every((item) => this.takes(item));
  }

  take(items: readonly MergeItem[], taken: boolean): void {
    for (const item of items) this.#sides.set(item, taken ? 'theirs' : 'mine');
  }

  get taken(): number {
    return [...this.#sides.values()].filter((side) => side === 'theirs').length;
  }

  get undecided(): number {
    return this.conflicts.filter((item) => this.side(item) === undefined).length;
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
      const isContent = cells?.mine.content !== content;
      return at === undefined || rows.mine < 0 || isFormula(content) || !isContent
        ? []
        : [{ sheet, record: rows.mine, column: at, content }];
    });
    return { edits, others: taken.length - edits.length };
  }

  /** The open book with what was taken, once every conflict is decided. */
  merged(): BookState {
    if (this.undecided > 0) throw new Error('a conflict is not decided: it must not be settled by itself');
    return mergedBook(this.plan, (item) => this.side(item)).state;
  }
}
