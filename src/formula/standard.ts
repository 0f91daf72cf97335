import { rounded } from './decimal-rounding.ts';
import { nearDifference, nearOrder, nearSum } from './near-numbers.ts';
import { numberText } from './number-text.ts';
import { Fault, isFault, type Value } from './values.ts';

/**
 * The standard spreadsheet operations that sheets' own formulas use, for the row kernel.
 *
 * Only what those formulas need, with the semantics the engine and other programs share; a test compares kernel and
 * engine over random books. Users' formulas are the engine's business and never come here.
 */

const numeric = /^\s*[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?\s*$/;

/** A value as an operand of arithmetic: empty counts 0, TRUE 1, a text only when it reads as a number. */
export function asNumber(value: Value): number | Fault {
  if (typeof value === 'number' || isFault(value)) return value;
  if (value === null) return 0;
  if (typeof value === 'boolean') return value ? 1 : 0;
  return numeric.test(value)
    ? Number(value)
    : new Fault('#VALUE!', `a number is needed; the text "${value}" was given`);
}

export function asText(value: Value): string | Fault {
  if (typeof value === 'string' || isFault(value)) return value;
  if (value === null) return '';
  return typeof value === 'boolean' ? String(value).toUpperCase() : numberText(value);
}

export function asTruth(value: Value): boolean | Fault {
  if (typeof value === 'boolean' || isFault(value)) return value;
  if (typeof value === 'string') return new Fault('#VALUE!', `TRUE or FALSE is needed; the text "${value}" was given`);
  return value !== null && value !== 0;
}

/** What a guard says of a cell without a number, and of one out of its bounds. */
export const missingInput = new Fault('#VALUE!', 'a required input is empty or not a number');
export const outOfItsBounds = new Fault('#NUM!', 'an input is out of range, or the result is too large');

const finite = (value: number): Value => (Number.isFinite(value) ? value : outOfItsBounds);

export const arithmetic: Readonly<Record<string, (left: number, right: number) => Value>> = {
  '+': (left, right) => finite(nearSum(left, right)),
  '-': (left, right) => finite(nearDifference(left, right)),
  '*': (left, right) => finite(left * right),
  '/': (left, right) =>
    right === 0 ? new Fault('#DIV/0!', 'division by zero: the divisor is 0 or an empty cell') : finite(left / right),
  '^': (left, right) => finite(left ** right),
};

const rank = (value: Value): number => (typeof value === 'number' ? 0 : typeof value === 'string' ? 1 : 2);

/** Order of two values as spreadsheets sort them: numbers, texts without case, truths; empty takes the other's kind. */
export function compared(left: Value, right: Value): number {
  const a = left ?? (typeof right === 'string' ? '' : typeof right === 'boolean' ? false : 0);
  const b = right ?? (typeof a === 'string' ? '' : typeof a === 'boolean' ? false : 0);
  if (rank(a) !== rank(b)) return rank(a) - rank(b);
  if (typeof a === 'string' && typeof b === 'string') {
    const [lower, other] = [a.toLowerCase(), b.toLowerCase()];
    return lower < other ? -1 : lower > other ? 1 : 0;
  }
  return nearOrder(Number(a), Number(b));
}

export const comparisons: Readonly<Record<string, (order: number) => boolean>> = {
  '=': (order) => order === 0,
  '<>': (order) => order !== 0,
  '<': (order) => order < 0,
  '>': (order) => order > 0,
  '<=': (order) => order <= 0,
  '>=': (order) => order >= 0,
};

const firstFault = (values: readonly Value[]): Fault | undefined => values.find(isFault);

function truths(values: readonly Value[], combine: (list: readonly boolean[]) => boolean): Value {
  const list: boolean[] = [];
  for (const value of values) {
    const truth = asTruth(value);
    if (isFault(truth)) return truth;
    list.push(truth);
  }
  return combine(list);
}

function numbers(values: readonly Value[], combine: (list: readonly number[]) => number): Value {
  const list: number[] = [];
  for (const value of values) {
    const number = asNumber(value);
    if (isFault(number)) return number;
    list.push(number);
  }
  return finite(combine(list));
}

/** Functions whose arguments are all computed first. IF and IFERROR are the kernel's own, since they choose. */
export const standardFunctions: Readonly<Record<string, (args: readonly Value[]) => Value>> = {
  AND: (args) => truths(args, (list) => list.every(Boolean)),
  OR: (args) => truths(args, (list) => list.some(Boolean)),
  NOT: (args) => truths(args, ([truth]) => truth !== true),
  ISNUMBER: ([value]) => typeof value === 'number',
  ISTEXT: ([value]) => typeof value === 'string',
  ISBLANK: ([value]) => value === null || value === undefined,
  ISERROR: ([value]) => isFault(value),
  COUNT: (args) => args.filter((value) => typeof value === 'number').length,
  NA: () => new Fault('#N/A', 'a required input is missing'),
  ABS: (args) => numbers(args, ([value = 0]) => Math.abs(value)),
  MAX: (args) => numbers(args, (list) => Math.max(...list)),
  MIN: (args) => numbers(args, (list) => Math.min(...list)),
  ROUND: (args) => numbers(args, ([value = 0, digits = 0]) => rounded(value, digits)),
  SUM: (args) => numbers(args, (list) => list.reduce((total, value) => total + value, 0)),
  COS: (args) => numbers(args, ([value = 0]) => Math.cos(value)),
  RADIANS: (args) => numbers(args, ([value = 0]) => (value * Math.PI) / 180),
  LEN([text = null]) {
    const words = asText(text);
    return isFault(words) ? words : words.length;
  },
  SEARCH(args) {
    const fault = firstFault(args);
    if (fault !== undefined) return fault;
    const [find, within] = [asText(args[0] ?? null), asText(args[1] ?? null)];
    const place = String(within).toLowerCase().indexOf(String(find).toLowerCase());
    return place < 0 ? new Fault('#VALUE!', `the text "${String(find)}" is not found`) : place + 1;
  },
  SUBSTITUTE([text = null, old = null, by = null]) {
    const [words, sought, put] = [asText(text), asText(old), asText(by)];
    if (isFault(words)) return words;
    if (isFault(sought)) return sought;
    if (isFault(put)) return put;
    return sought === '' ? words : words.replaceAll(sought, () => put);
  },
  MID([text = null, start = null, length = null]) {
    const words = asText(text);
    const [from, count] = [asNumber(start), asNumber(length)];
    if (isFault(words)) return words;
    if (isFault(from)) return from;
    if (isFault(count)) return count;
    return from < 1 || count < 0
      ? new Fault('#VALUE!', 'MID starts at 1 or later')
      : words.slice(from - 1, from - 1 + count);
  },
};

/** How many arguments a function takes: a fewest, a most where there is one, and by how many further ones come. */
interface Takes {
  readonly least: number;
  readonly most?: number;
  readonly step?: number;
}

const exactly = (count: number): Takes => ({ least: count, most: count });
const some: Takes = { least: 1 };

/**
 * What the functions of sheets' formulas take that are not our own: the standard ones, those the kernel evaluates by
 * itself among them, and ISWRONG, which asks whether something stands in a cell that is not allowed there (guards.ts).
 */
export const standardArguments: Readonly<Record<string, Takes>> = {
  IF: { least: 2, most: 3 },
  IFERROR: exactly(2),
  INDEX: exactly(2),
  MATCH: exactly(3),
  ROW: exactly(0),
  COUNTIFS: { least: 2, step: 2 },
  SUMIFS: { least: 3, step: 2 },
  MINIFS: { least: 3, step: 2 },
  MAXIFS: { least: 3, step: 2 },
  AND: some,
  OR: some,
  NOT: exactly(1),
  ISNUMBER: exactly(1),
  ISTEXT: exactly(1),
  ISBLANK: exactly(1),
  ISERROR: exactly(1),
  ISWRONG: some,
  COUNT: some,
  NA: exactly(0),
  ABS: exactly(1),
  MAX: some,
  MIN: some,
  ROUND: exactly(2),
  SUM: some,
  COS: exactly(1),
  RADIANS: exactly(1),
  LEN: exactly(1),
  SEARCH: exactly(2),
  MID: exactly(3),
  SUBSTITUTE: exactly(3),
};

/** How many arguments a function takes, in words. */
export const takesInWords = ({ least, most, step = 1 }: Takes): string =>
  `${most === undefined ? `at least ${least}` : most === least ? least : `${least} to ${most}`} ` +
  `argument${least === 1 && most === 1 ? '' : 's'}${step === 1 ? '' : ', further ones in pairs'}`;
