import { columnName } from './cell-address.ts';
import type { RawRange } from './raw-book.ts';
import type { RawLook, RawSheetLook, UnkeptKind } from './raw-look.ts';

/** How much of it one sheet may have; what is beyond is told as not kept. Ours: a list has a few of each. */
const lookLimits = { columns: 16_384, hiddenRows: 200_000, blanks: 50_000, comments: 20_000, unkept: 1_000 };

export const rangeName = ({ top, left, bottom, right }: RawRange): string => {
  const first = `${columnName(left)}${top}`;
  return top === bottom && left === right ? first : `${first}:${columnName(right)}${bottom}`;
};

/** Whether a look is seen on a cell that holds nothing. */
const shows = (look: RawLook | undefined): boolean => look?.fill !== undefined || look?.borders !== undefined;

/** Gathers the look of one sheet within the limits. */
export class SheetLookReader {
  readonly #columns: RawSheetLook['columns'][number][] = [];
  readonly #hiddenRows = new Set<number>();
  readonly #rows = new Map<number, RawLook>();
  #columnLooks = false;
  /** Where what is no single thing is found, such as another font: how much of a sheet it spans. */
  readonly #spans = new Map<UnkeptKind, RawRange>();
  readonly #blanks: RawSheetLook['blanks'][number][] = [];
  readonly #comments: RawSheetLook['comments'][number][] = [];
  readonly #unkept: RawSheetLook['unkept'][number][] = [];
  #frozen = { rows: 0, columns: 0 };

  columns(columns: RawSheetLook['columns'][number]): void {
    const { look: given, ...others } = columns;
    const look = shows(given) ? given : undefined;
    if (columns.width === undefined && columns.hidden === undefined && look === undefined) return;
    if (columns.first < 1 || columns.last < columns.first || this.#columns.length >= lookLimits.columns) return;
    this.#columns.push(look === undefined ? others : { ...others, look });
    this.#columnLooks ||= look !== undefined;
  }

  row(row: number, look: RawLook | undefined): void {
    if (look !== undefined && shows(look) && this.#rows.size < lookLimits.hiddenRows) this.#rows.set(row, look);
  }

  hiddenRow(row: number): void {
    if (this.#hiddenRows.size < lookLimits.hiddenRows) this.#hiddenRows.add(row);
  }

  freeze(rows: number, columns: number): void {
    const whole = (count: number): number => (Number.isInteger(count) && count > 0 && count < 1000 ? count : 0);
    this.#frozen = { rows: whole(rows), columns: whole(columns) };
  }

  blank(row: number, column: number, look: RawLook | undefined): void {
    const shown = look !== undefined && shows(look);
    if (!shown && !this.#isInColour(row, column)) return;
    if (this.#blanks.length < lookLimits.blanks) this.#blanks.push({ row, column, look: shown ? look : {} });
    else this.unkept('fills of blank cells', rangeName({ top: row, left: column, bottom: row, right: column }));
  }

  #isInColour(row: number, column: number): boolean {
    return (
      this.#rows.has(row) ||
      (this.#columnLooks &&
        this.#columns.some(({ first, last, look }) => look !== undefined && column >= first && column <= last))
    );
  }

  comment(row: number, column: number, text: string): void {
    if (text.trim() === '') return;
    if (this.#comments.length < lookLimits.comments) this.#comments.push({ row, column, text: text.trim() });
    else this.unkept('comments', rangeName({ top: row, left: column, bottom: row, right: column }));
  }

  unkept(kind: UnkeptKind, place: string): void {
    if (this.#unkept.length < lookLimits.unkept) this.#unkept.push({ kind, place });
  }

  /** What is not kept and concerns many cells: told once, by all that it spans. */
  spread(kind: UnkeptKind, row: number, column: number): void {
    const range = this.#spans.get(kind) ?? { top: row, bottom: row, left: column, right: column };
    this.#spans.set(kind, {
      top: Math.min(range.top, row),
      bottom: Math.max(range.bottom, row),
      left: Math.min(range.left, column),
      right: Math.max(range.right, column),
    });
  }

  /** Undefined for a sheet that looks like any. */
  taken(): RawSheetLook | undefined {
    const { rows, columns } = this.#frozen;
    const spread = [...this.#spans].map(([kind, range]) => ({ kind, place: rangeName(range) }));
    const lists = [this.#columns, this.#blanks, this.#comments, this.#unkept, spread];
    if (rows + columns + this.#hiddenRows.size + this.#rows.size === 0 && lists.every(({ length }) => length === 0))
      return undefined;
    return {
      columns: this.#columns,
      hiddenRows: this.#hiddenRows,
      rows: this.#rows,
      frozen: this.#frozen,
      blanks: this.#blanks,
      comments: this.#comments,
      unkept: [...this.#unkept, ...spread],
    };
  }
}
