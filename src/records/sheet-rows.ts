import type { HeaderOf, SheetName } from '../../sheets/index.ts';
import { issueAt, usableNumber } from './cell-issue.ts';
import { isEmptyRecord } from './input-issues.ts';
import { isFault, textIn } from '../formula/values.ts';
import { cellName } from '../formula/address.ts';
import type { CellPlace } from '../workbook/place.ts';
import type { Workbook } from '../workbook/workbook.ts';

/**
 * Records of a sheet as planning reads them: a cell that holds what it should not counts as empty, and is listed as
 * wrong.
 */

/** Something that could not be used, with the cell to look at. */
export interface CellRemark {
  readonly sheet: string;
  readonly record: number;
  readonly column: string;
  /** As "Offers!D5". */
  readonly cell: string;
  readonly message: string;
}

export class SheetRow<Sheet extends SheetName> {
  readonly book: Workbook;
  readonly sheet: Sheet;
  readonly record: number;
  readonly #remarks: CellRemark[];

  constructor(book: Workbook, sheet: Sheet, record: number, remarks: CellRemark[]) {
    this.book = book;
    this.sheet = sheet;
    this.record = record;
    this.#remarks = remarks;
  }

  #place(header: HeaderOf<Sheet>): CellPlace {
    return { sheet: this.sheet, record: this.record, column: this.book.column(this.sheet, header) };
  }

  /** A usable text; '' when the cell is empty or is listed as wrong. */
  text(header: HeaderOf<Sheet>): string {
    const place = this.#place(header);
    const value = this.book.value(place);
    if (value === null || value === '') return '';
    if (isFault(value) || issueAt(this.book, place) !== undefined) {
      this.#wrong(header);
      return '';
    }
    return textIn(value);
  }

  /** A usable number; undefined when the cell is empty or is listed as wrong. */
  number(header: HeaderOf<Sheet>): number | undefined {
    const place = this.#place(header);
    const value = this.book.value(place);
    if (value === null || value === '') return undefined;
    const usable = usableNumber(this.book, place);
    if (usable === undefined) this.#wrong(header);
    return usable;
  }

  /** Whether a cell holds what it should not, or a formula that fails. */
  isWrong(header: HeaderOf<Sheet>): boolean {
    const place = this.#place(header);
    return isFault(this.book.value(place)) || issueAt(this.book, place) !== undefined;
  }

  /** Whether the row's name is its own; a row whose name is another's is told, and left out whole by who reads it. */
  keyed(header: HeaderOf<Sheet>): boolean {
    if (this.book.value(this.#place(header)) === null || !this.isWrong(header)) return true;
    const issue = issueAt(this.book, this.#place(header));
    this.tell(header, `${issue?.wrong ?? `${header} cannot be used`}, so the row is left out`);
    return false;
  }

  #wrong(header: HeaderOf<Sheet>): void {
    const issue = issueAt(this.book, this.#place(header));
    this.tell(header, issue === undefined ? `${header} cannot be used` : `${issue.wrong}: ${issue.remedy}`);
  }

  tell(header: HeaderOf<Sheet>, message: string): void {
    const cell = cellName(this.sheet, this.record, this.#place(header).column);
    if (!this.#remarks.some((remark) => remark.cell === cell && remark.message === message)) {
      this.#remarks.push({ sheet: this.sheet, record: this.record, column: header, cell, message });
    }
  }
}

/** The filled records of a sheet; none when the book has no such sheet. */
export function sheetRows<Sheet extends SheetName>(
  book: Workbook,
  sheet: Sheet,
  remarks: CellRemark[],
): SheetRow<Sheet>[] {
  const rows = book.state.sheets.find(({ name }) => name === sheet)?.rows ?? [];
  return rows.flatMap(({ cells }, record) =>
    isEmptyRecord(cells) ? [] : [new SheetRow(book, sheet, record, remarks)],
  );
}
