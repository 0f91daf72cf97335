import { quotedSheet, recordInRow, sheetRow } from '../formula/address.ts';
import type { Finding } from '../records/finding.ts';
import { columnName } from '../xlsx/read/cell-address.ts';
import type { ImportReport, TableReport } from '../xlsx/import/import-model.ts';
import type { RawBook, RawSheet } from '../xlsx/read/raw-book.ts';
import { cellText, turned } from '../xlsx/read/raw-cells.ts';
import { recordRows } from '../xlsx/import/list-rows.ts';

/** A cell of the book as findings name it. */
type FindingPlace = Pick<Finding, 'sheet' | 'record' | 'column' | 'cell'>;

/**
 * Where in the user's own file a finding points to.
 *
 * Findings name cells of the book; a planner looks for them in the list that was read, whose rows and columns are
 * others.
 */
export class SourcePlaces {
  readonly #file: string;
  readonly #ours: boolean;
  readonly #raw: RawBook;
  /** Lists by the sheet they were read into, each with the rows of its records. */
  readonly #lists = new Map<string, { readonly table: TableReport; readonly rows: readonly number[] }[]>();

  constructor(file: string, raw: RawBook, { ours, tables }: ImportReport) {
    this.#file = file;
    this.#ours = ours;
    this.#raw = raw;
    if (ours) return;
    for (const table of tables) {
      const sheet = this.#sheet(table.sheet);
      if (sheet === undefined || table.headerRow === 0) continue;
      const rows = recordRows(table.turned ? turned(sheet) : sheet, table);
      this.#lists.set(table.target, [...(this.#lists.get(table.target) ?? []), { table, rows }]);
    }
  }

  #sheet(name: string): RawSheet | undefined {
    return this.#raw.sheets.find((sheet) => sheet.name === name);
  }

  /**
   * "list.xlsx, Fleet!F9", or the row alone when the list has no such column; the book's cell when it is not from the
   * list.
   */
  of(finding: FindingPlace): string {
    return this.#cell(finding) ?? `book cell ${finding.cell}`;
  }

  #cell({ sheet: ofFinding, record: own, column, cell }: FindingPlace): string | undefined {
    // A finding of a belt may point into its plate series or a named value: its cell says so.
    const sheet = [...this.#lists.keys()].find((name) => cell.startsWith(`${quotedSheet(name)}!`)) ?? ofFinding;
    const record = sheet === ofFinding ? own : recordInRow(Number(/\d+$/.exec(cell)?.[0]));
    if (this.#ours) return this.#ownCell(sheet, record, column);
    let index = record;
    for (const { table, rows } of this.#lists.get(sheet) ?? []) {
      const row = rows[index];
      index -= rows.length;
      if (row === undefined) continue;
      const letter = table.columns.find(({ target }) => target === column)?.letter;
      const [across, down] = table.turned ? [columnName(row), letter] : [letter, String(row)];
      if (across !== undefined && down !== undefined) return `${this.#file}, ${table.sheet}!${across}${down}`;
      return (
        `${this.#file}, ${table.sheet}, ${table.turned ? `column ${columnName(row)}` : `row ${row}`}, which has ` +
        `no ${column}`
      );
    }
    return undefined;
  }

  /** In a book of our own the records stand in the same rows; columns are found by their headers. */
  #ownCell(name: string, record: number, column: string): string | undefined {
    const header = this.#sheet(name)
      ?.rows.get(1)
      ?.find((cell) => cellText(cell) === column || cellText(cell).startsWith(`${column} (`));
    return header === undefined ? undefined : `${this.#file}, ${name}!${columnName(header.column)}${sheetRow(record)}`;
  }
}
