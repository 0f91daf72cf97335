import { columnLetters, quotedSheet, sheetRow } from '../formula/address.ts';
import { Engine, type Place } from '../formula/engine.ts';
import { beginFormulaTime } from '../formula/engine-time.ts';
import { usedBy } from '../formula/references.ts';
import { type Content, type Fault, type Matrix, type Value } from '../formula/values.ts';
import { functions } from '../functions/index.ts';
import { bookColumns, compiledSheets } from './declared.ts';
import type { BookNames } from './names.ts';
import type { CellPlace } from './place.ts';
import { rectangles } from './rectangles.ts';
import type { Records } from './records.ts';
import { type BookState, sheetOf, type SheetState } from './state.ts';

/**
 * The formula engine beside the compiled rows, kept like the book: it holds all contents, and of the computed cells
 * those that a user's formula refers to.
 *
 * The engine's graph of a large book takes as long to build as the rows take to compute, so it is built when it is
 * first asked for; until then there is nothing to keep.
 */
export class EngineMirror {
  readonly #names: BookNames;
  readonly #records: Records;
  #state: BookState;
  #built: Engine | undefined;
  /** Computed columns, by sheet, whose values it holds. */
  readonly #held = new Map<string, Set<number>>();

  constructor(state: BookState, names: BookNames, records: Records) {
    this.#state = state;
    this.#names = names;
    this.#records = records;
    beginFormulaTime();
  }

  get #engine(): Engine {
    this.#built ??= Engine.build(
      functions,
      this.#state.sheets.map((sheet) => ({
        name: sheet.name,
        rows: [bookColumns(sheet).map(({ header }) => header), ...sheet.rows.map(({ cells }) => cells)],
      })),
      this.#names.places.map(({ name, sheet, record, column }) => ({
        name,
        reference: `${quotedSheet(sheet)}!$${columnLetters(column)}$${sheetRow(record)}`,
      })),
    );
    return this.#built;
  }

  get isBuilt(): boolean {
    return this.#built !== undefined;
  }

  /** Moves to a state of the same shape; what differs is still to be put. */
  follow(state: BookState): void {
    this.#state = state;
    beginFormulaTime();
  }

  /** Whether it holds a computed column's values. */
  holds({ sheet, column }: Pick<CellPlace, 'sheet' | 'column'>): boolean {
    return this.#held.get(sheet)?.has(column) === true;
  }

  /** A row's cells as it holds them: contents, and in the columns that it holds, computed values. */
  #row(sheet: SheetState, record: number, from: number, count: number): (Content | Fault)[] {
    return Array.from({ length: count }, (_, offset) => {
      const column = from + offset;
      const content = sheet.rows[record]?.cells[column] ?? null;
      return content === null && this.holds({ sheet: sheet.name, column })
        ? this.#records.value(sheet.name, record, column)
        : content;
    });
  }

  /** Puts cells as they are now; returns those whose values moved by it. */
  put(cells: readonly CellPlace[]): Place[] {
    if (cells.length === 0) return [];
    return this.#engine.setAll(
      rectangles(cells).map(({ sheet, record, column, records, columns }) => ({
        place: { sheet, row: record + 1, column },
        rows: Array.from({ length: records }, (_, down) =>
          this.#row(sheetOf(this.#state, sheet), record + down, column, columns),
        ),
      })),
    );
  }

  /** Holds the computed columns that a formula refers to; one that can't be read may mean any of them. */
  holdUsed(formula: string, sheet: string): void {
    const areas = usedBy(formula)?.areas;
    for (const { declaration, steps } of compiledSheets.values()) {
      const { name } = declaration;
      const held = this.#held.get(name) ?? new Set();
      this.#held.set(name, held);
      const { rows } = sheetOf(this.#state, name);
      for (const { column } of steps) {
        const meant =
          areas === undefined ||
          areas.some(
            (area) =>
              (area.sheet ?? sheet).toLowerCase() === name.toLowerCase() && column >= area.left && column <= area.right,
          );
        if (!meant || held.has(column)) continue;
        held.add(column);
        this.put(Array.from(rows, (_, record) => ({ sheet: name, record, column })));
      }
    }
  }

  value({ sheet, record, column }: CellPlace): Value {
    return this.#engine.value({ sheet, row: record + 1, column });
  }

  /** The value of a formula that stands in no cell. */
  evaluate(formula: string): Value | Matrix {
    // Built before what it is to hold is put into it.
    const engine = this.#engine;
    beginFormulaTime();
    this.holdUsed(formula, this.#state.sheets[0]?.name ?? '');
    return engine.evaluate(formula);
  }

  destroy(): void {
    this.#built?.destroy();
  }
}
