import { columnLetters, quotedSheet, sheetRow } from '../formula/address.ts';
import type { TableColumn } from './table.ts';

/** Cells and ranges of a table in a file, by the headers of its columns. */
export class TableCells {
  readonly #name: string;
  readonly #places: ReadonlyMap<string, number>;
  readonly #rows: number;

  constructor(name: string, columns: readonly TableColumn[], rows: number) {
    this.#name = name;
    this.#places = new Map(columns.map(({ header }, place) => [header, place]));
    this.#rows = rows;
  }

  #letters(header: string): string {
    const place = this.#places.get(header);
    if (place === undefined) throw new Error(`the table ${this.#name} has no column ${header}`);
    return columnLetters(place);
  }

  /** A cell of a record's row, for formulas of the same sheet. */
  cell(header: string, record: number): string {
    return `${this.#letters(header)}${sheetRow(record)}`;
  }

  /** All records of a column, for formulas of any sheet. */
  column(header: string): string {
    const letters = this.#letters(header);
    return `${quotedSheet(this.#name)}!$${letters}$2:$${letters}$${sheetRow(Math.max(this.#rows, 1) - 1)}`;
  }

  /** The records of a column, for a total below them. */
  above(header: string): string {
    const letters = this.#letters(header);
    return `${letters}2:${letters}${sheetRow(Math.max(this.#rows, 1) - 1)}`;
  }

  /** From the first record to the one before, for formulas of the same sheet; undefined for the first. */
  before(header: string, record: number): string | undefined {
    const letters = this.#letters(header);
    return record === 0 ? undefined : `$${letters}$2:$${letters}$${sheetRow(record - 1)}`;
  }
}
