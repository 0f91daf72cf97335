import { parsed } from './syntax.ts';
import { FormulaSyntaxError } from './tokens.ts';

/** Formulas that do not read, and what may have been meant. */

const quotedOrMark = /"(?:[^"]|"")*"|'(?:[^']|'')*'|\{[^{}]*\}|;/g;
const spacedSheet = /(?<![\w'!])([A-Za-z_]\w*(?: \w+)+)!(?=\$?[A-Za-z]{1,3}\$?\d)/g;
const mostBrackets = 8;

const reads = (formula: string): boolean => {
  try {
    parsed(formula);
    return true;
  } catch (error) {
    if (error instanceof FormulaSyntaxError) return false;
    throw error;
  }
};

interface Repair {
  readonly formula: string;
  /** Why it was not read, '' where the reader says it. */
  readonly why: string;
}

/** With commas where ";" parts arguments, as programs of some countries write them. */
const withCommas = (formula: string): string =>
  formula.replaceAll(quotedOrMark, (found) => (found === ';' ? ',' : found));

const withBrackets = (formula: string): string | undefined =>
  Array.from({ length: mostBrackets }, (_, count) => formula + ')'.repeat(count + 1)).find(reads);

const withoutBracket = (formula: string): string | undefined => {
  const shorter = formula.replace(/\)\s*$/, '');
  return shorter !== formula && reads(shorter) ? shorter : undefined;
};

/** A formula that reads, near to one that does not; undefined when none is plain. */
function repaired(formula: string): Repair | undefined {
  const [commas, sheets] = [withCommas(formula), formula.replaceAll(spacedSheet, "'$1'!")];
  if (sheets !== formula && reads(sheets))
    return { formula: sheets, why: 'the name of a sheet with a space in it needs quotes' };
  if (commas !== formula) {
    const whole = reads(commas) ? commas : withBrackets(commas);
    if (whole !== undefined) return { formula: whole, why: 'arguments are parted by commas' };
  }
  const closed = withBrackets(formula);
  if (closed !== undefined) return { formula: closed, why: '' };
  const open = withoutBracket(formula);
  return open === undefined ? undefined : { formula: open, why: 'there is a closing bracket too many' };
}

/** The place of a quote that nothing closes; below 0 when all are closed. */
function openQuote(formula: string): number {
  let at = -1;
  for (const [index, letter] of [...formula].entries()) {
    if (letter !== '"') continue;
    at = at < 0 ? index : -1;
  }
  return at;
}

/** What is wrong with a formula, where, and what may be meant; undefined when it reads. */
export function syntaxFault(formula: string): string | undefined {
  try {
    parsed(formula);
    return undefined;
  } catch (error) {
    if (!(error instanceof FormulaSyntaxError)) throw error;
    const text = formula.trim();
    const open = openQuote(text);
    if (open >= 0)
      return `the text that begins at character ${text.startsWith('=') ? open : open + 1} has no quote at its end`;
    const repair = repaired(text);
    if (repair === undefined) return error.message;
    return `${error.message}${repair.why === '' ? '' : `: ${repair.why}`}. Is ${repair.formula} meant?`;
  }
}
