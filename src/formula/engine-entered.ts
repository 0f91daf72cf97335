import { withStandIns } from './engine-missing-sheets.ts';
import { formulaExcess } from './formula-limits.ts';
import { type Content, Fault, type FaultCode, isFormula } from './values.ts';

/** Contents as the engine takes them. */

const exponent = /("(?:[^"]|"")*"|'(?:[^']|'')*')|(?<![\w$.])(\d+\.?\d*|\.\d+)E([+-]?\d+)/g;

/** A formula as the engine reads it: it knows 1e3 but not 1E3. */
export const legible = (formula: string): string =>
  formula.replaceAll(exponent, (whole, quoted: string | undefined, mantissa: string, power: string) =>
    quoted === undefined ? `${mantissa}e${power}` : whole,
  );

/** A content as the engine takes it: a leading apostrophe keeps a text from being read as a number, date or formula. */
export const entered = (content: Content | Fault, sheets: ReadonlySet<string>): Content =>
  content instanceof Fault
    ? content.code
    : isFormula(content)
      ? formulaExcess(content) === undefined
        ? withStandIns(legible(content), sheets)
        : ('#ERROR!' satisfies FaultCode)
      : typeof content === 'string'
        ? `'${content}`
        : content;
