import type { Among } from './among.ts';
import {
  type CaseFormula,
  type CaseRoom,
  type CaseRow,
  type CaseValues,
  caseValue,
  collected,
  numbersOf,
  same,
} from './case-values.ts';
import { rounded } from './decimal-rounding.ts';
import { asTruth, standardFunctions } from './standard.ts';
import { isFault, type Value } from './values.ts';

/** Standard functions over many cases: of rows of numbers or truths in one loop, of whatever else case by case. */

type Fold = (args: readonly Float64Array[], out: Float64Array, among: Among) => boolean;

const each =
  (step: (value: number) => number): Fold =>
  ([values = new Float64Array()], out, { at, count }) => {
    let finite = true;
    for (let place = 0; place < count; place += 1) {
      const index = at[place] ?? 0;
      const value = step(values[index] ?? 0);
      out[index] = value;
      finite &&= value - value === 0;
    }
    return finite;
  };

const folded =
  (begin: number | undefined, step: (sofar: number, value: number) => number): Fold =>
  (args, out, { at, count }) => {
    const [first = new Float64Array()] = args;
    let finite = true;
    for (let place = 0; place < count; place += 1) {
      const index = at[place] ?? 0;
      let value = begin ?? first[index] ?? 0;
      for (let argument = begin === undefined ? 1 : 0; argument < args.length; argument += 1)
        value = step(value, args[argument]?.[index] ?? 0);
      out[index] = value;
      finite &&= value - value === 0;
    }
    return finite;
  };

/** Functions whose arguments are all numbers, nearly always. */
const numeric: Readonly<Record<string, Fold>> = {
  ABS: each(Math.abs),
  COS: each(Math.cos),
  RADIANS: each((value) => (value * Math.PI) / 180),
  MAX: folded(undefined, (one, other) => Math.max(one, other)),
  MIN: folded(undefined, (one, other) => Math.min(one, other)),
  SUM: folded(0, (sum, value) => sum + value),
  ROUND([values = new Float64Array(), digits = new Float64Array()], out, { at, count }) {
    let finite = true;
    for (let place = 0; place < count; place += 1) {
      const index = at[place] ?? 0;
      const value = rounded(values[index] ?? 0, digits[index] ?? 0);
      out[index] = value;
      finite &&= value - value === 0;
    }
    return finite;
  },
};

/** Functions that ask what a value is: what they answer of a row of numbers, and of one value. */
const ofKind: Readonly<Record<string, { readonly ofNumbers: boolean; readonly of: (value: Value) => boolean }>> = {
  ISNUMBER: { ofNumbers: true, of: (value) => typeof value === 'number' },
  ISTEXT: { ofNumbers: false, of: (value) => typeof value === 'string' },
  ISBLANK: { ofNumbers: false, of: (value) => value === null },
  ISERROR: { ofNumbers: false, of: isFault },
};

function kindsAsked(
  room: CaseRoom,
  values: readonly Value[],
  of: (value: Value) => boolean,
  { at, count }: Among,
): CaseValues {
  const out = room.truths();
  let held = 0;
  for (let place = 0; place < count; place += 1) {
    const index = at[place] ?? 0;
    const truth = of(values[index] ?? null) ? 1 : 0;
    out[index] = truth;
    held += truth;
  }
  return held === count ? same(true) : held === 0 ? same(false) : { of: 'truths', values: out };
}

/** How many of a function's arguments are numbers, case by case. */
function numbersCounted(room: CaseRoom, given: readonly CaseValues[], { at, count }: Among): CaseValues {
  const out = room.numbers();
  const whole = given.filter(isNumbers).length;
  const mixed = given.flatMap((cases) => (cases.of === 'mixed' ? [cases.values] : []));
  if (mixed.length === 0) return same(whole);
  for (let place = 0; place < count; place += 1) {
    const index = at[place] ?? 0;
    let counted = whole;
    for (let argument = 0; argument < mixed.length; argument += 1)
      if (typeof mixed[argument]?.[index] === 'number') counted += 1;
    out[index] = counted;
  }
  return { of: 'numbers', values: out };
}

/** Values as 0 and 1; undefined where one of them may be no truth. */
function truthsOf(room: CaseRoom, cases: CaseValues): Uint8Array | undefined {
  if (cases.of === 'truths') return cases.values;
  if (cases.of !== 'same') return undefined;
  const truth = asTruth(cases.value);
  return isFault(truth) ? undefined : room.truths().fill(truth ? 1 : 0);
}

type Join = (args: readonly Uint8Array[], index: number) => boolean;

/** Functions of truths. */
const truths: Readonly<Record<string, Join>> = {
  AND(args, index) {
    for (const values of args) if (values[index] === 0) return false;
    return true;
  },
  OR(args, index) {
    for (const values of args) if (values[index] === 1) return true;
    return false;
  },
  NOT: ([values], index) => values?.[index] !== 1,
};

function truthsJoined(room: CaseRoom, args: readonly Uint8Array[], join: Join, { at, count }: Among): CaseValues {
  const out = room.truths();
  let held = 0;
  for (let place = 0; place < count; place += 1) {
    const index = at[place] ?? 0;
    const truth = join(args, index) ? 1 : 0;
    out[index] = truth;
    held += truth;
  }
  return held === count ? same(true) : held === 0 ? same(false) : { of: 'truths', values: out };
}

const isNumbers = (cases: CaseValues): boolean =>
  cases.of === 'numbers' || (cases.of === 'same' && typeof cases.value === 'number');

/** Answers for all cases at once; undefined where they must be asked one by one. */
function atOnce(
  name: string,
  given: readonly CaseValues[],
  { book: { room } }: CaseRow,
  among: Among,
): CaseValues | undefined {
  const [quick, kind, join] = [numeric[name], ofKind[name], truths[name]];
  const [first] = given;
  if (kind !== undefined) {
    if (first?.of === 'numbers') return same(kind.ofNumbers);
    return first?.of === 'mixed' ? kindsAsked(room, first.values, kind.of, among) : undefined;
  }
  if (name === 'COUNT') return numbersCounted(room, given, among);
  if (quick !== undefined) {
    const rows = given.map((cases) => numbersOf(room, cases)).filter((values) => values !== undefined);
    const out = room.numbers();
    if (rows.length === given.length && quick(rows, out, among)) return { of: 'numbers', values: out };
  }
  if (join !== undefined) {
    const rows = given.map((cases) => truthsOf(room, cases)).filter((values) => values !== undefined);
    if (rows.length === given.length) return truthsJoined(room, rows, join, among);
  }
  return undefined;
}

const blank = same(null);

/** A standard function; all of its arguments are worked out first. */
export function caseStandard(name: string, args: readonly (CaseFormula | undefined)[]): CaseFormula {
  const one = standardFunctions[name];
  if (one === undefined) throw new Error(`${name} is not known to sheet formulas`);
  return (row, among) => {
    const given = args.map((argument) => argument?.(row, among) ?? same(null));
    if (given.every(({ of }) => of === 'same'))
      return same(one(given.map((cases) => (cases.of === 'same' ? cases.value : null))));
    const values: Value[] = given.map(() => null);
    return (
      atOnce(name, given, row, among) ??
      collected(row.book.room, among, (index) => {
        for (let place = 0; place < given.length; place += 1) values[place] = caseValue(given[place] ?? blank, index);
        return one(values);
      })
    );
  };
}
