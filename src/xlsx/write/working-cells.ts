import type { CellValue } from 'exceljs';
import type { UnitSystem } from '../../units/quantities.ts';
import type { SheetState } from '../../workbook/state.ts';
import type { DeclaredFormulas } from './declared-formulas.ts';
import type { FileNumbers } from './file-numbers.ts';
import type { LaidSheet } from './laid-sheets.ts';
import { cellStart, type RowText } from './row-text.ts';
import { workingSide } from './working-side.ts';

/** The cells of the columns that stand beside a sheet's own in its file, record by record. */
export class WorkingCells {
  /** The number of the look of what the sheet works out. */
  readonly look: number;
  readonly count: number;
  readonly #first: number;
  /** What stands beside named values. */
  readonly #values: ((record: number) => readonly CellValue[]) | undefined;
  readonly #declared: DeclaredFormulas | undefined;
  /** The cells as all rows of a block below its first hold them, but for the number of the row. */
  #alike: readonly string[] | undefined;
  #isFirst = true;

  constructor(
    numbers: FileNumbers,
    state: SheetState,
    {
      laid,
      width,
      units,
    }: { readonly laid: LaidSheet | undefined; readonly width: number; readonly units: UnitSystem },
    declared: DeclaredFormulas | undefined,
  ) {
    const { headings, cells } = workingSide(state, laid, units);
    this.look = numbers.look('computed', 'General');
    this.count = headings.length;
    this.#first = width;
    this.#values = cells;
    this.#declared = declared;
  }

  /** Begins a block of records that share formulas. */
  begin(): void {
    this.#alike = undefined;
    this.#isFirst = true;
  }

  add(text: RowText, record: number): void {
    if (this.#values !== undefined) {
      for (const [index, value] of this.#values(record).entries())
        if (value !== null) text.cell(this.#first + index, this.look, value);
      return;
    }
    const declared = this.#declared;
    if (declared === undefined || this.count === 0) return;
    if (this.#isFirst || !declared.shares) {
      for (let index = this.#first; index < this.#first + this.count; index += 1) {
        const formula = declared.element(index, record);
        if (formula !== undefined) text.computed(index, this.look, formula, undefined);
      }
      this.#isFirst = false;
      return;
    }
    this.#alike ??= Array.from({ length: this.count }, (_none, index) => {
      const formula = declared.element(this.#first + index, record, '\0');
      if (formula === undefined) throw new Error(`working column ${index} has no formula`);
      return `${cellStart(this.#first + index)}\0" s="${this.look}">${formula}</c>`;
    })
      .join('')
      .split('\0');
    text.ready(this.#alike);
  }
}
