import type { Among } from './among.ts';
import { type CaseFormula, type CaseValues, caseValue, collected, numbersOf, same } from './case-values.ts';
import { isNear } from './near-numbers.ts';
import { arithmetic, asNumber, asText, compared, comparisons } from './standard.ts';
import { isFault, type Value } from './values.ts';

/**
 * Operators over many cases. Rows of numbers are worked out in one loop each; whatever else
 * there is goes case by case through the same functions as in one row (standard.ts), which stay what they mean.
 */

type Loop = (left: Float64Array, right: Float64Array, out: Float64Array, among: Among) => boolean;

/** A loop that says whether every number that came out is one. */
const loop =
  (step: (left: number, right: number) => number): Loop =>
  (left, right, out, { at, count }) => {
    let finite = true;
    for (let place = 0; place < count; place += 1) {
      const index = at[place] ?? 0;
      const value = step(left[index] ?? 0, right[index] ?? 0);
      out[index] = value;
      // A number less itself is 0, infinity and no number less itself is none.
      finite &&= value - value === 0;
    }
    return finite;
  };

/** Each its own loop, so that the machine's code for one is not made for all. */
const loops: Readonly<Record<string, Loop>> = {
  '+'(left, right, out, { at, count }) {
    let finite = true;
    for (let place = 0; place < count; place += 1) {
      const index = at[place] ?? 0;
      const [a, b] = [left[index] ?? 0, right[index] ?? 0];
      const value = isNear(a, -b) ? 0 : a + b;
      out[index] = value;
      finite &&= value - value === 0;
    }
    return finite;
  },
  '-'(left, right, out, { at, count }) {
    let finite = true;
    for (let place = 0; place < count; place += 1) {
      const index = at[place] ?? 0;
      const [a, b] = [left[index] ?? 0, right[index] ?? 0];
      const value = isNear(a, b) ? 0 : a - b;
      out[index] = value;
      finite &&= value - value === 0;
    }
    return finite;
  },
  '*'(left, right, out, { at, count }) {
    let finite = true;
    for (let place = 0; place < count; place += 1) {
      const index = at[place] ?? 0;
      const value = (left[index] ?? 0) * (right[index] ?? 0);
      out[index] = value;
      finite &&= value - value === 0;
    }
    return finite;
  },
  '/'(left, right, out, { at, count }) {
    let finite = true;
    for (let place = 0; place < count; place += 1) {
      const index = at[place] ?? 0;
      const value = (left[index] ?? 0) / (right[index] ?? 0);
      out[index] = value;
      finite &&= value - value === 0;
    }
    return finite;
  },
  '^': loop((left, right) => left ** right),
};

/** What two values come to in one row. */
function scalar(operator: string): (left: Value, right: Value) => Value {
  const compute = arithmetic[operator];
  if (compute !== undefined)
    return (left, right) => {
      const a = asNumber(left);
      if (isFault(a)) return a;
      const b = asNumber(right);
      return isFault(b) ? b : compute(a, b);
    };
  if (operator === '&')
    return (left, right) => {
      const a = asText(left);
      if (isFault(a)) return a;
      const b = asText(right);
      return isFault(b) ? b : a + b;
    };
  const holds = comparisons[operator];
  if (holds === undefined) throw new Error(`the operator ${operator} is not known to sheet formulas`);
  return (left, right) => (isFault(left) ? left : isFault(right) ? right : holds(compared(left, right)));
}

/** An operator between two formulas. */
export function caseBinary(operator: string, left: CaseFormula, right: CaseFormula): CaseFormula {
  const [one, quick, holds] = [scalar(operator), loops[operator], comparisons[operator]];
  return (row, among) => {
    const { room } = row.book;
    const [a, b] = [left(row, among), right(row, among)];
    if (a.of === 'same' && (b.of === 'same' || isFault(a.value)))
      return same(one(a.value, b.of === 'same' ? b.value : null));
    if (quick !== undefined || holds !== undefined) {
      const [x, y] = [numbersOf(room, a), numbersOf(room, b)];
      if (x !== undefined && y !== undefined) {
        if (holds !== undefined) return numbersCompared(x, y, room.truths(), holds, among);
        const out = room.numbers();
        if (quick?.(x, y, out, among) === true) return { of: 'numbers', values: out };
      }
    }
    return collected(room, among, (index) => one(caseValue(a, index), caseValue(b, index)));
  };
}

function numbersCompared(
  left: Float64Array,
  right: Float64Array,
  out: Uint8Array,
  holds: (order: number) => boolean,
  { at, count }: Among,
): CaseValues {
  let held = 0;
  for (let place = 0; place < count; place += 1) {
    const index = at[place] ?? 0;
    const [a, b] = [left[index] ?? 0, right[index] ?? 0];
    const truth = holds(isNear(a, b) ? 0 : a - b) ? 1 : 0;
    out[index] = truth;
    held += truth;
  }
  return held === count ? same(true) : held === 0 ? same(false) : { of: 'truths', values: out };
}
