import { chosen, faultOf } from './case-choices.ts';
import type { Among } from './among.ts';
import {
  type CaseFormula,
  type CaseRow,
  type CaseValues,
  caseValue,
  collected,
  joined,
  parted,
  same,
} from './case-values.ts';
import { missingInput, outOfItsBounds } from './standard.ts';
import type { Guard, Node } from './syntax.ts';
import { isFault, type Value } from './values.ts';

/** Guards over many cases: which cases they let through to the part behind them, and what they make of the others. */

interface AskedCell {
  readonly cell: CaseFormula;
  readonly min: number;
  readonly above: number;
  readonly max: number;
}

const isOutside = (number: number, { min, above, max }: AskedCell): boolean =>
  number < min || number <= above || number > max;

/** Whether all cases hold numbers within the bounds, as is usual. */
function isWithin(cases: CaseValues, asked: AskedCell, { at, count }: Among): boolean {
  if (cases.of === 'same') return typeof cases.value === 'number' && !isOutside(cases.value, asked);
  if (cases.of !== 'numbers') return false;
  const { values } = cases;
  const { min, above, max } = asked;
  if (min === -Infinity && above === -Infinity && max === Infinity) return true;
  for (let place = 0; place < count; place += 1) {
    const value = values[at[place] ?? 0] ?? 0;
    if (value < min || value <= above || value > max) return false;
  }
  return true;
}

/** Notes the cases that a cell keeps from what is behind the guard. */
function markRefused(passed: Uint8Array, cases: CaseValues, asked: AskedCell, { at, count }: Among): void {
  if (cases.of === 'numbers') {
    const { values } = cases;
    for (let place = 0; place < count; place += 1) {
      const index = at[place] ?? 0;
      if (isOutside(values[index] ?? 0, asked)) passed[index] = 0;
    }
    return;
  }
  for (let place = 0; place < count; place += 1) {
    const index = at[place] ?? 0;
    const value = caseValue(cases, index);
    if (typeof value !== 'number' || isOutside(value, asked)) passed[index] = 0;
  }
}

const isNoNumber = (cases: CaseValues): boolean => cases.of === 'same' && typeof cases.value !== 'number';

/** What a guard makes of one case; undefined where it lets the case through. */
function refused(
  asked: readonly AskedCell[],
  without: Guard['without'],
  given: readonly CaseValues[],
  index: number,
): Value | undefined {
  let outside = false;
  for (const [place, cases] of given.entries()) {
    const number = caseValue(cases, index);
    if (typeof number !== 'number') return without === 'nothing' ? '' : isFault(number) ? number : missingInput;
    const bounds = asked[place];
    outside ||= bounds !== undefined && isOutside(number, bounds);
  }
  return outside ? outOfItsBounds : undefined;
}

export function caseGuard({ cells, must, without, value }: Guard, formulaOf: (node: Node) => CaseFormula): CaseFormula {
  const asked = cells.map(({ cell, min = -Infinity, above = -Infinity, max = Infinity }): AskedCell => ({
    cell: formulaOf(cell),
    min,
    above,
    max,
  }));
  const conditions = must.map((condition) => formulaOf(condition));
  const answer = formulaOf(value);
  const refusal = (given: readonly CaseValues[], index: number): Value | undefined =>
    refused(asked, without, given, index);
  const parts = (row: CaseRow, among: Among, given: readonly CaseValues[]): [CaseValues, Among][] => {
    const { room } = row.book;
    const passed = room.truths().fill(1);
    for (const [place, cases] of given.entries()) {
      const bounds = asked[place];
      if (bounds !== undefined) markRefused(passed, cases, bounds, among);
    }
    const [good, others] = parted(room, among, (index) => passed[index] === 1);
    return [
      [others.count === 0 ? same(null) : collected(room, others, (index) => refusal(given, index) ?? null), others],
      ...(good.count === 0 ? [] : conditioned(row, good)),
    ];
  };
  const conditioned = (row: CaseRow, among: Among): [CaseValues, Among][] => {
    const { room } = row.book;
    const out: [CaseValues, Among][] = [];
    let left = among;
    for (const condition of conditions) {
      if (left.count === 0) break;
      const held = condition(row, left);
      const [yes, no, faulty] = chosen(room, held, left);
      out.push([same(outOfItsBounds), no]);
      if (faulty.count > 0) out.push([collected(room, faulty, (index) => faultOf(caseValue(held, index))), faulty]);
      left = yes;
    }
    if (left.count > 0) out.push([answer(row, left), left]);
    return out;
  };
  return (row, among) => {
    const given = asked.map(({ cell }) => cell(row, among));
    const passed = given.every((cases, place) => {
      const bounds = asked[place];
      return bounds === undefined || isWithin(cases, bounds, among);
    });
    if (passed) return conditions.length === 0 ? answer(row, among) : joined(row.book.room, conditioned(row, among));
    const { of } = given.find((cases) => cases.of === 'mixed' || isNoNumber(cases)) ?? same(0);
    // One that is no number in any case speaks before those behind it, and whatever the bounds are.
    if (of === 'same' && given.some(isNoNumber)) return same(refusal(given, among.at[0] ?? 0) ?? null);
    return joined(row.book.room, parts(row, among, given));
  };
}
