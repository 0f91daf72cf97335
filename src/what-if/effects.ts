import { belts } from '../../sheets/belts/index.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import type { Value } from '../formula/values.ts';
import { verdictOf } from '../functions/checks.ts';
import type { Belt } from '../records/belt.ts';
import { type Growth, growth } from './elasticity.ts';
import { type Factor, factorChoices, factorValue } from './factor.ts';
import { factorsFor } from './known-factors.ts';
import type { Goal } from './goal.ts';
import { figureAt, type Solved, solvedBelt } from './solved-belt.ts';
import { proposedTolerance, type Tolerance, toleranceEnds } from './tolerance.ts';

/** What a belt's figure depends on, and how much: one factor varied at a time, all others as the book has them. */

export interface Effect {
  readonly factor: Factor;
  readonly present: Value;
  /** The values that were tried, and what the figure then comes to. */
  readonly tried: readonly { readonly at: number | string; readonly figure: Value }[];
  /** Between the largest and the smallest of these figures, the present one among them; 0 where none is a number. */
  readonly swing: number;
  readonly growth: Growth | undefined;
}

const numbersIn = (values: readonly Value[]): number[] => values.filter((value) => typeof value === 'number');

/** The tolerance of a factor; undefined for one that is exact. */
export type Tolerances = (factor: Factor, belt: Belt) => Tolerance | undefined;

function effect(belt: Belt, header: BeltHeader, factor: Factor, tolerances: Tolerances): Effect | undefined {
  const figure = figureAt(belt, factor, { header });
  const tolerance = tolerances(factor, belt);
  const at: readonly (number | string)[] =
    factorChoices(factor, belt) ?? (tolerance === undefined ? [] : toleranceEnds(factor, belt, tolerance));
  const tried = at.map((value) => ({ at: value, figure: figure(value) }));
  const figures = numbersIn([belt.value(header), ...tried.map((one) => one.figure)]);
  const swing = figures.length < 2 ? 0 : Math.max(...figures) - Math.min(...figures);
  const grown = growth(belt, header, factor);
  return swing === 0 && (grown?.slope ?? 0) === 0
    ? undefined
    : { factor, present: factorValue(factor, belt), tried, swing, growth: grown };
}

const isChosen = ({ tried: [first] }: Effect): boolean => typeof first?.at === 'string';

/**
 * The factors that a number of a belt depends on: those that vary within a tolerance, the one with the largest swing
 * first, then those that are chosen from a list, which no tolerance bounds.
 */
export function effects(belt: Belt, header: BeltHeader, tolerances: Tolerances = proposedTolerance): Effect[] {
  const column = belt.book.column(belts.name, header);
  return factorsFor(belt)
    .filter(({ columns }) => columns.has(column))
    .flatMap((factor) => effect(belt, header, factor, tolerances) ?? [])
    .toSorted((one, other) => Number(isChosen(one)) - Number(isChosen(other)) || other.swing - one.swing);
}

/** The nearest value of a factor at which a verdict is another than now. */
export interface Turn {
  readonly factor: Factor;
  readonly present: Value;
  readonly at: number;
  readonly verdict: Value;
  /** How far that is, in tolerances of the factor. */
  readonly tolerances: number;
}

/** Steps tried of each factor. Chosen: a second or two for a belt. */
const fewTried = 200;
/** A factor that is exact is measured by this share of its value. Chosen. */
const exactShare = 0.1;

/** The edges next to the present value, outside of it. */
function nearestEdge(present: number, { answer }: Solved): number | undefined {
  if (answer.of !== 'numbers') return undefined;
  const edges = answer.solutions.stretches.flatMap(({ exactFrom, exactTo }) => [exactFrom, exactTo]);
  return edges.toSorted((one, other) => Math.abs(one - present) - Math.abs(other - present))[0];
}

/**
 * The factors that turn a verdict when they alone change, the nearest first: nearest in tolerances, so that a degree of
 * skew and a kilowatt can be compared.
 */
export function turns(belt: Belt, header: BeltHeader, tolerances: Tolerances = proposedTolerance): Turn[] {
  const now = verdictOf(belt.value(header));
  const column = belt.book.column(belts.name, header);
  const goal: Goal = {
    header,
    words: `${header} is not "${now}"`,
    distance: (value) => (verdictOf(value) === now ? 1 : 0),
  };
  return factorsFor(belt)
    .flatMap((factor): Turn[] => {
      const present = factorValue(factor, belt);
      if (typeof present !== 'number' || !factor.columns.has(column)) return [];
      const at = nearestEdge(present, solvedBelt(belt, goal, factor, {}, fewTried));
      if (at === undefined) return [];
      const half = tolerances(factor, belt)?.half ?? (exactShare * Math.abs(present) || 1);
      const verdict = figureAt(belt, factor, { header })(at);
      return [{ factor, present, at, verdict, tolerances: Math.abs(at - present) / half }];
    })
    .toSorted((one, other) => one.tolerances - other.tolerances);
}
