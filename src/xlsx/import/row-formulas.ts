import { FormulaSyntaxError } from '../../formula/tokens.ts';
import { mapped, type Node, nodesOf, parsed, printed } from '../../formula/syntax.ts';
import { functions } from '../../functions/index.ts';
import { columnLetters } from '../../formula/address.ts';
import { columnNumber } from '../read/cell-address.ts';

/**
 * Formulas of a list that live on in the book: those over cells of their own row alone, moved to where these cells
 * stand in the book. Of any other only the value is taken, since what it refers to does not come along.
 */

/** Standard functions that the engine has and that answer from their arguments alone. */
const standard = new Set(
  [
    'ABS ACOS AND ASIN ATAN ATAN2 AVERAGE CEILING CONCATENATE COS COUNT COUNTA DATE DAY DEGREES EVEN EXP FLOOR IF ' +
      'IFERROR IFNA INT ISBLANK',
    'ISERROR ISNUMBER ISTEXT LEFT LEN LN LOG LOG10 LOWER MAX MEDIAN MID MIN MOD MONTH NA NOT ODD OR PI POWER PRODUCT ' +
      'PROPER RADIANS REPLACE',
    'REPT RIGHT ROUND ROUNDDOWN ROUNDUP SEARCH SIGN SIN SQRT SUBSTITUTE SUM TAN TODAY TRIM TRUNC UPPER VALUE YEAR',
  ].flatMap((names) => names.split(' ')),
);
const engineering = new Set(functions.map(({ name }) => String(name)));
/** Those that look through ranges, for sheets that come along whole. */
const overRanges = new Set(
  'COUNTIF SUMIF AVERAGEIF SUMPRODUCT INDEX MATCH VLOOKUP HLOOKUP STDEV VAR SMALL LARGE ROWS COLUMNS MAXA MINA'.split(
    ' ',
  ),
);

const isKnown = (name: string): boolean => standard.has(name.toUpperCase()) || engineering.has(name.toUpperCase());

/**
 * A formula over its own sheet's cells alone, moved down by some rows with all that it refers to; undefined for any
 * other.
 */
export function sheetFormula(formula: string, down: number): string | undefined {
  let tree: Node;
  try {
    tree = parsed(formula);
  } catch (error) {
    if (error instanceof FormulaSyntaxError) return undefined;
    throw error;
  }
  for (const node of nodesOf(tree)) {
    if (node.type === 'name' || node.type === 'placeholder' || node.type === 'array') return undefined;
    if (node.type === 'call' && !isKnown(node.name) && !overRanges.has(node.name.toUpperCase())) return undefined;
    if (node.type === 'reference' && node.text.includes('!')) return undefined;
  }
  const moved = (reference: string): string =>
    reference.replaceAll(/(\$?)(\d+)/g, (_, dollar: string, row: string) => `${dollar}${Number(row) + down}`);
  const changed = mapped(tree, (node) =>
    node.type === 'reference' ? { type: 'reference', text: moved(node.text) } : undefined,
  );
  return `=${printed(down === 0 ? tree : changed)}`;
}

/** A formula of a row, ready to be written for another row. */
interface RowFormulaText {
  /** Columns of the list that it refers to, counted from 1. */
  readonly uses: readonly number[];
  /** The formula in the book's layout for a row of the book, with the book's column positions by column of the list. */
  readonly moved: (row: number, position: (column: number) => number | undefined) => string;
}

type RowFormulaResult = RowFormulaText | { readonly why: string };

const ownRowReference = /^(\$?)([A-Za-z]{1,3})(\$?)(\d+)$/;

/**
 * Why a formula is not read: a reference into another file, such as [1]Prices!A1, or to another program, app|topic!A1.
 */
const unreadable = (formula: string): string =>
  /\[[^\]]*\][^!]*!|\|[^!]*!/.test(formula.replaceAll(/"(?:[^"]|"")*"/g, ''))
    ? 'it refers to another file or program, which is not asked'
    : 'the book does not know how to read it';

/** What a formula in a row of a list makes possible. */
function rowFormula(formula: string, row: number): RowFormulaResult {
  let tree: Node;
  try {
    tree = parsed(formula);
  } catch (error) {
    if (error instanceof FormulaSyntaxError) return { why: unreadable(formula) };
    throw error;
  }
  const uses = new Set<number>();
  for (const node of nodesOf(tree)) {
    if (node.type === 'name') return { why: `it uses the name ${node.name}` };
    if (node.type === 'placeholder' || node.type === 'array') return { why: 'the book cannot read it' };
    if (node.type === 'call' && !isKnown(node.name)) return { why: `it uses the function ${node.name}` };
    if (node.type !== 'reference') continue;
    const match = ownRowReference.exec(node.text);
    if (match === null) return { why: `it refers to ${node.text}` };
    if (Number(match[4]) !== row) return { why: `it refers to ${node.text}, in another row` };
    uses.add(columnNumber(match[2] ?? ''));
  }
  return {
    uses: [...uses],
    moved: (target, position) =>
      `=${printed(
        mapped(tree, (node) => {
          const match = node.type === 'reference' ? ownRowReference.exec(node.text) : null;
          const at = position(columnNumber(match?.[2] ?? ''));
          return match === null || at === undefined
            ? undefined
            : { type: 'reference', text: `${match[1] ?? ''}${columnLetters(at)}${match[3] ?? ''}${target}` };
        }),
      )}`,
  };
}

/** Texts and sheet names in quotes, which stay, or a cell whose row may be the formula's own. */
const cellsAndQuotes = /"(?:[^"]|"")*"|'(?:[^']|'')*'|(?<![\w.$])\$?[A-Za-z]{1,3}(\d{1,7})(?![\w.(!])/g;

/** A formula as pieces between which its own row's number stands. */
export function rowPieces(formula: string, row: number): string[] {
  const pieces: string[] = [];
  let start = 0;
  for (const match of formula.matchAll(cellsAndQuotes)) {
    if (Number(match[1]) !== row) continue;
    const end = match.index + match[0].length;
    pieces.push(formula.slice(start, end - String(match[1]).length));
    start = end;
  }
  return [...pieces, formula.slice(start)];
}

/** The formulas of one column of a list; formulas that differ only by their row are read once. */
export class ColumnFormulas {
  #pieces: readonly string[] = [];
  #result: RowFormulaResult | undefined;

  at(formula: string, row: number): RowFormulaResult {
    if (this.#result === undefined || this.#pieces.join(String(row)) !== formula) {
      this.#pieces = rowPieces(formula, row);
      this.#result = rowFormula(formula, row);
    }
    return this.#result;
  }
}
