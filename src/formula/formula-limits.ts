import { columnPosition } from './address.ts';

/**
 * How large a formula may be before it is refused. For tests: formulas just up to each bound.
 *
 * Characters, levels and arguments are those of Microsoft's "Excel specifications and limits" page, which other
 * programs keep to. The rest is ours: what reads and computes a formula goes one step deeper into the machine's stack
 * for every level and for every operation in a row, and makes room for every cell of a range, filled or not.
 *
 * For tests: formulas at and beyond each limit are tried.
 */
export const formulaLimits = {
  characters: 8_192,
  /** Brackets within brackets, and signs before a value. */
  levels: 64,
  arguments: 255,
  /** Operations that wait for each other: those of one level, and of the levels around it. */
  operations: 500,
  /** Cells of all ranges with both ends given; a range of whole columns ends where its sheet does. */
  rangeCells: 500_000,
  /** Cells that a whole row counts for, also one below the last: one of the widest sheet has about so many. */
  rowCells: 250,
};

const quotes = /"(?:[^"]|"")*"?|'(?:[^']|'')*'?/g;
/** Quotes, a character that nests, parts or joins, or what stands between such. */
const marks = /"(?:[^"]|"")*"?|'(?:[^']|'')*'?|<=|>=|<>|[(){},;\-+*/^&=<>%]|[^\s"'(){},;\-+*/^&=<>%]+/g;
const range =
  /\$?([A-Za-z]{1,3})\$?(\d{1,7})\s*:\s*(?:[^\s:!]*!)?\$?([A-Za-z]{1,3})\$?(\d{1,7})|\bOFFSET\s*\(([^()]*)\)/gi;
const wholeRows = /(?<![\w.$])\$?(\d{1,7})\s*:\s*(?:[^\s:!]*!)?\$?(\d{1,7})(?![\w.])/g;

const counted = (count: number): string => count.toLocaleString('en-US');

/** Cells of all ranges that a formula names, and of those that OFFSET names by a plain height and width. */
function rangeCells(formula: string): number {
  let cells = 0;
  const unquoted = formula.replaceAll(quotes, "''");
  for (const [, first, last] of unquoted.matchAll(wholeRows))
    cells += (Math.abs(Number(last) - Number(first)) + 1) * formulaLimits.rowCells;
  for (const [, left = '', top, right = '', bottom, given] of unquoted.matchAll(range)) {
    if (given !== undefined) {
      const [height = 1, width = 1] = given.split(',').slice(3).map(Number);
      cells += Math.abs(height * width) || 0;
    } else {
      const rows = Math.abs(Number(bottom) - Number(top)) + 1;
      cells += rows * (Math.abs(columnPosition(right) - columnPosition(left)) + 1);
    }
  }
  return cells;
}

/** What is open at a place of a formula. */
class Nesting {
  readonly #open = [{ operations: 0, arguments: 1 }];
  #signs = 0;
  #afterOperand = false;
  /** Operations that wait for what comes, on all open levels. */
  waiting = 0;

  get levels(): number {
    return this.#open.length - 1 + this.#signs;
  }

  get arguments(): number {
    return this.#open.at(-1)?.arguments ?? 1;
  }

  #done(): void {
    const level = this.#open.at(-1);
    this.waiting -= level?.operations ?? 0;
    if (level !== undefined) level.operations = 0;
    this.#signs = 0;
  }

  take(mark: string): void {
    const level = this.#open.at(-1);
    if (mark === '(' || mark === '{') {
      this.#open.push({ operations: 0, arguments: 1 });
      this.#afterOperand = false;
    } else if (mark === ')' || mark === '}') {
      this.#done();
      if (this.#open.length > 1) this.#open.pop();
      this.#afterOperand = true;
    } else if (mark === ',' || mark === ';') {
      this.#done();
      if (level !== undefined && mark === ',') level.arguments += 1;
      this.#afterOperand = false;
    } else if (/^[-+*/^&=<>%]/.test(mark)) {
      this.#signs = this.#afterOperand ? 0 : this.#signs + 1;
      if (level !== undefined) level.operations += 1;
      this.waiting += 1;
      this.#afterOperand = mark === '%';
    } else this.#afterOperand = true;
  }
}

/**
 * Why a formula is too large to be computed, in words; undefined when it is not.
 *
 * Looks at its characters alone and needs no stack, so that it holds for any text, a formula or not.
 */
export function formulaExcess(formula: string): string | undefined {
  const { characters, levels, operations } = formulaLimits;
  if (formula.length > characters)
    return (
      `the formula has ${counted(formula.length)} characters; the maximum is ${counted(characters)}. Split it ` +
      `over several cells`
    );
  if (formula.length <= levels && !/:|OFFSET/i.test(formula)) return undefined;
  const nesting = new Nesting();
  for (const [mark] of formula.slice(formula.startsWith('=') ? 1 : 0).matchAll(marks)) {
    nesting.take(mark);
    if (nesting.levels > levels)
      return (
        `the formula nests brackets, functions or signs more than ${levels} levels deep. Split it over several ` +
        `cells`
      );
    if (nesting.arguments > formulaLimits.arguments)
      return `a function of the formula has more than ${formulaLimits.arguments} arguments. Give it a range of cells`;
    if (nesting.waiting > operations)
      return (
        `the formula has more than ${operations} operations in a row. Split it over several cells, or use SUM ` +
        `over a range`
      );
  }
  const cells = rangeCells(formula);
  return cells > formulaLimits.rangeCells
    ? `the ranges of the formula contain ${counted(cells)} cells; the maximum is ` +
        `${counted(formulaLimits.rangeCells)}. Refer to the filled cells only, or to whole columns, such as A:C`
    : undefined;
}
