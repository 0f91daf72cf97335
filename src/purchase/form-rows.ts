import { columnLetters, quotedSheet } from '../formula/address.ts';
import type { Answer, LaidCell, LaidSheet, NumberLook } from '../sheet/laid-sheet.ts';
import type { FormulaCell } from '../sheet/table.ts';

/** A form's rows as they are put down, one after the other, with the cells that formulas of others point to. */

type CellOptions = Pick<LaidCell, 'align' | 'shown' | 'answer'> & { readonly span?: number };

export const formula = (text: string, value: number | string): FormulaCell => ({ formula: text, value });

export const text = (value: string, { span = 1, ...rest }: CellOptions = {}): LaidCell => ({
  value,
  look: 'text',
  span,
  ...rest,
});
export const strong = (value: string, { span = 1, ...rest }: CellOptions = {}): LaidCell => ({
  value,
  look: 'strong',
  span,
  ...rest,
});
const heading = (value: string, { span = 1, ...rest }: CellOptions = {}): LaidCell => ({
  value,
  look: 'head',
  span,
  ...rest,
});

export const moneyLook: NumberLook = { kind: 'money', digits: 2 };
export const countLook: NumberLook = { kind: 'count' };
export const dayLook: NumberLook = { kind: 'date' };
export const rateLook: NumberLook = { kind: 'number', digits: 6 };
export const amountLook: NumberLook = { kind: 'number', digits: 2 };
export const shareLook: NumberLook = { kind: 'ratio', digits: 1, percent: true };

/** A number, or a formula that gives one, shown in its way at the right of its cell. */
export const number = (
  value: number | FormulaCell | null,
  shown: NumberLook,
  { span = 1, ...rest }: CellOptions & { readonly bold?: true } = {},
): LaidCell => {
  const { bold, ...others } = rest;
  return { value, look: bold === true ? 'strong' : 'text', span, align: 'end', shown, ...others };
};

/** Room for an answer, with what stands there before. */
export const answered = (answer: Answer, value: string | number | null, shown?: NumberLook): LaidCell => ({
  value,
  look: 'blank',
  span: 1,
  answer,
  ...(shown === undefined ? {} : { shown }),
});

export class FormRows {
  readonly #name: string;
  readonly #across: number;
  readonly rows: (readonly LaidCell[])[] = [];

  /** Of a sheet with so many columns that are shown. */
  constructor(name: string, across: number) {
    this.#name = name;
    this.#across = across;
  }

  /** Adds a row and answers its number. */
  add(...cells: readonly LaidCell[]): number {
    this.rows.push(cells);
    return this.rows.length;
  }

  whole(value: string, look: LaidCell['look'] = 'text'): number {
    return this.add({ value, look, span: this.#across });
  }

  blank(): number {
    return this.whole('');
  }

  head(titles: readonly string[], ends: ReadonlySet<string> = new Set()): number {
    return this.add(...titles.map((title) => heading(title, ends.has(title) ? { align: 'end' } : {})));
  }

  /** A cell of this sheet for its own formulas. */
  at(column: number, row: number): string {
    return `${columnLetters(column)}${row}`;
  }

  /** The same for formulas of other sheets. */
  from(column: number, row: number): string {
    return `${quotedSheet(this.#name)}!$${columnLetters(column)}$${row}`;
  }

  sheet(options: Omit<LaidSheet, 'name' | 'rows'>): LaidSheet {
    return { name: this.#name, rows: this.rows, ...options };
  }
}
