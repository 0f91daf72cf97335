import { columnName } from './cell-address.ts';
import type { RawRange } from './raw-book.ts';
import type { RawLook, RawSheetLook, UnkeptKind } from './raw-look.ts';

/** How much of it one sheet may have; what is beyond is told as not kept. Ours: a list has a few of each. */
const lookLimits = { columns: 16_384, hiddenRows: 200_000, blanks: 50_000, comments: 20_000, unkept: 1_000 };

export const rangeName = ({ top, left, bottom, right }: RawRange): string => {
  const first = `${columnName(left)}${top}`;
  return top === bottom && left === right ? first : `${first}:${columnName(right)}${bottom}`;
};

/** Gathers the look of one sheet within the limits. */
export class SheetLookReader {
  readonly #columns: RawSheetLook['columns'][number][] = [];
  readonly #hiddenRows = new Set<number>();
  readonly #blanks: RawSheetLook['blanks'][number][] = [];
  readonly #comments: RawSheetLook['comments'][number][] = [];
  readonly #unkept: RawSheetLook['unkept'][number][] = [];
  #frozen = { rows: 0, columns: 0 };

  columns(columns: RawSheetLook['columns'][number]): void {
    if (columns.width === undefined && columns.hidden === undefined) return;
    if (columns.first >= 1 && columns.last >= columns.first && this.#columns.length < lookLimits.columns)
      this.#columns.push(columns);
  }

  hiddenRow(row: number): void {
    if (this.#hiddenRows.size < lookLimits.hiddenRows) this.#hiddenRows.add(row);
  }

  freeze(rows: number, columns: number): void {
    const whole = (count: number): number => (Number.isInteger(count) && count > 0 && count < 1000 ? count : 0);
    this.#frozen = { rows: whole(rows), columns: whole(columns) };
  }

  blank(row: number, column: number, look: RawLook | undefined): void {
    if (look?.fill === undefined) return;
    if (this.#blanks.length < lookLimits.blanks) this.#blanks.push({ row, column, look });
    else this.unkept('fills of blank cells', rangeName({ top: row, left: column, bottom: row, right: column }));
  }

  comment(row: number, column: number, text: string): void {
    if (text.trim() === '') return;
    if (this.#comments.length < lookLimits.comments) this.#comments.push({ row, column, text: text.trim() });
    else this.unkept('comments', rangeName({ top: row, left: column, bottom: row, right: column }));
  }

  unkept(kind: UnkeptKind, place: string): void {
    if (this.#unkept.length < lookLimits.unkept) this.#unkept.push({ kind, place });
  }

  /** Undefined for a sheet that looks like any. */
  taken(): RawSheetLook | undefined {
    const { rows, columns } = this.#frozen;
    const lists = [this.#columns, this.#blanks, this.#comments, this.#unkept];
    if (rows + columns + this.#hiddenRows.size === 0 && lists.every(({ length }) => length === 0)) return undefined;
    return {
      columns: this.#columns,
      hiddenRows: this.#hiddenRows,
      frozen: this.#frozen,
      blanks: this.#blanks,
      comments: this.#comments,
      unkept: this.#unkept,
    };
  }
}
