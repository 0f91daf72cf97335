import { caseValue } from '../formula/case-values.ts';
import type { Value } from '../formula/values.ts';
import { belts } from '../../sheets/belts/index.ts';
import { kinSheets } from '../workbook/dependence.ts';
import type { Belt, Change } from '../records/belt.ts';
import type { Name } from '../records/inputs.ts';
import { type AskedRange, type Factor, factorChoices, factorSteps, factorValue, standardSizes } from './factor.ts';
import type { Goal } from './goal.ts';
import { type Solutions, solutions, type Steps } from './solutions.ts';

/** Which values of one factor make a belt meet a goal, everything else as it is. */
export interface Solved {
  readonly belt: Belt;
  readonly goal: Goal;
  readonly factor: Factor;
  /** The factor's value now, and whether the goal is met with it. */
  readonly present: Value;
  readonly met: boolean;
  readonly answer:
    | { readonly of: 'no influence' }
    | { readonly of: 'no range' }
    | {
        readonly of: 'choices';
        readonly tried: readonly Name[];
        readonly found: readonly Name[];
        /** The choice that comes nearest, where none meets the goal and that can be said. */
        readonly nearest: Name | undefined;
      }
    | {
        readonly of: 'numbers';
        readonly steps: Steps;
        readonly solutions: Solutions;
        /** Of a pulley: the diameters that are made and meet the goal. */
        readonly standard: readonly number[] | undefined;
      };
}

/**
 * A change of a factor as it is made: another skew in place of one of the same skew replaces one of another, as the
 * cures and the skew panel have it. For tests: solutions are entered by it.
 */
export const changeTo = (belt: Belt, factor: Factor, value: Value): Change =>
  factor.name === 'Skew' && typeof value === 'number' ? { inputs: belt.atSkew(value) } : factor.change(value);

/** What a column of a belt comes to with another value of a factor. */
export const figureAt =
  (belt: Belt, factor: Factor, { header }: Pick<Goal, 'header'>) =>
  (value: Value): Value => {
    const { inputs = {}, named = {}, cells = [] } = changeTo(belt, factor, value);
    const row = belt.book.whatIf(belts.name, belt.record, inputs, { named, cells, wanted: header });
    return row[belt.book.column(belts.name, header)] ?? null;
  };

/** The same for many numbers at once; a skew, which may change what the joint replaces, goes one by one. */
function figuresAt(
  belt: Belt,
  factor: Factor,
  goal: Pick<Goal, 'header'>,
): (values: readonly number[]) => readonly Value[] {
  if (factor.name === 'Skew') return (values) => values.map(figureAt(belt, factor, goal));
  return (values) => {
    if (values.length === 0) return [];
    const { book, record } = belt;
    const [place, column] = [factor.place(belt), book.column(belts.name, goal.header)];
    const cell = { place, values: Float64Array.from(values) };
    const isName = factor.of === 'book';
    // A plate's figures are no part of the belt, so what follows from them follows for all belts.
    const [shared, own] = isName ? [[], []] : kinSheets(belts.name).includes(place.sheet) ? [[], [cell]] : [[cell], []];
    const cases = book.cases({
      sheet: belts.name,
      size: values.length,
      names: isName ? [factor.name] : [],
      cells: shared.map((one) => one.place),
      wanted: [column],
    });
    cases.share(values.length, isName ? new Map([[factor.name, cell.values]]) : new Map(), shared);
    const row = cases.record(
      record,
      own.map((one) => one.place),
    );
    const found = row.values(values.length, own)[column];
    return values.map((_, index) => (found === undefined ? null : caseValue(found, index)));
  };
}

function chosen(figure: (value: Value) => Value, goal: Goal, tried: readonly Name[]): Solved['answer'] {
  const far = tried.map((name) => ({ name, distance: goal.distance(figure(name)) }));
  const least = far.reduce((best, { distance = Infinity }) => Math.min(best, distance), Infinity);
  return {
    of: 'choices',
    tried,
    found: far.flatMap(({ name, distance }) => (distance === 0 ? [name] : [])),
    nearest: least === 0 || least === Infinity ? undefined : far.find(({ distance }) => distance === least)?.name,
  };
}

/** `most`: how many steps are tried of a long range; fewer where many factors are asked at once. */
export function solvedBelt(belt: Belt, goal: Goal, factor: Factor, asked: AskedRange = {}, most?: number): Solved {
  const present = factorValue(factor, belt);
  const met = goal.distance(belt.value(goal.header)) === 0;
  const base = { belt, goal, factor, present, met };
  const column = belt.book.column(belts.name, goal.header);
  const itself = factor.of === 'belt' && factor.name === goal.header;
  if (!itself && !factor.columns.has(column)) return { ...base, answer: { of: 'no influence' } };
  const figure = figureAt(belt, factor, goal);
  const choices = factorChoices(factor, belt);
  if (choices !== undefined) return { ...base, answer: chosen(figure, goal, choices) };
  const steps = typeof present === 'string' ? undefined : factorSteps(factor, belt, asked);
  if (steps === undefined) return { ...base, answer: { of: 'no range' } };
  return {
    ...base,
    answer: {
      of: 'numbers',
      steps,
      solutions: solutions(figure, steps, goal, most, figuresAt(belt, factor, goal)),
      standard: standardSizes(factor, belt)?.filter((size) => goal.distance(figure(size)) === 0),
    },
  };
}
