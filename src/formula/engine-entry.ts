import type { FigureNames } from './engine-figures.ts';
import { withoutFigures } from './engine-figures.ts';
import { withoutStandIns, withStandIns } from './engine-missing-sheets.ts';
import { formulaExcess } from './formula-limits.ts';
import { type Content, Fault, type FaultCode, isFormula } from './values.ts';

/** What is entered, as the engine takes it, and back. */

const exponent = /("(?:[^"]|"")*"|'(?:[^']|'')*')|(?<![\w$.])(\d+\.?\d*|\.\d+)E([+-]?\d+)/g;

/** A formula as the engine reads it: it knows 1e3 but not 1E3. */
const legible = (formula: string): string =>
  formula.replaceAll(exponent, (whole, quoted: string | undefined, mantissa: string, power: string) =>
    quoted === undefined ? `${mantissa}e${power}` : whole,
  );

export class EngineEntry {
  /** The names of the book's sheets, in lower case. */
  readonly #sheets: ReadonlySet<string>;
  readonly #figures: FigureNames;

  constructor(sheets: ReadonlySet<string>, figures: FigureNames) {
    this.#sheets = sheets;
    this.#figures = figures;
  }

  formula(typed: string): string {
    return this.#figures.put(withStandIns(legible(typed), this.#sheets));
  }

  /** A content: a leading apostrophe keeps a text from being read as a number, date or formula. */
  content(content: Content | Fault): Content {
    if (content instanceof Fault) return content.code;
    if (isFormula(content))
      return formulaExcess(content) === undefined ? this.formula(content) : ('#ERROR!' satisfies FaultCode);
    return typeof content === 'string' ? `'${content}` : content;
  }

  /** A row without the empty cells at its end, which a new sheet has anyway. */
  row(row: readonly (Content | Fault)[]): Content[] {
    return row.slice(0, row.findLastIndex((content) => content !== null) + 1).map((content) => this.content(content));
  }

  /** What was typed, from what the engine gives back, with references as they stand now. */
  typed(held: string): string {
    return held.startsWith("'") ? held.slice(1) : withoutFigures(withoutStandIns(held));
  }
}
