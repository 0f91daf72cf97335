import { Refusal } from '../../formula/define.ts';
import { commonStep } from './common-step.ts';
import { costOf, type CutProblem, type CutSolution, type Size, type Stock, stepsDown, stepsUp } from './cut-problem.ts';
import { firstFitPlan } from './first-fit.ts';
import { type Found, patternSearch } from './pattern-search.ts';
import type { Limits, Solver } from '../../solver/program.ts';

/** How to cut pieces of strip or belt from rolls: least cost of rolls, then the most useful length left over. */

interface Piece {
  readonly belt: string;
  readonly length: number;
  readonly quantity: number;
}

/** A roll or leftover on the shelf. */
export interface ShelfRoll {
  readonly name: string;
  readonly length: number;
  /** How many of them; 1 when it is not told. */
  readonly quantity?: number;
  /** What using it counts as; 0 when it is not told, so that the shelf is used up first. */
  readonly value?: number;
}

interface SoldRoll {
  readonly name: string;
  readonly length: number;
  /** More than 0: give every roll 1 to find the fewest rolls. */
  readonly price: number;
  /** The most that can be had; without it, as many as are wanted. */
  readonly most?: number;
}

export interface CuttingQuestion {
  readonly pieces: readonly Piece[];
  readonly shelf: readonly ShelfRoll[];
  readonly sold: readonly SoldRoll[];
  /** Length that one cut takes. */
  readonly sawLoss: number;
  /** Offcuts at least this long go back to the shelf; without it none do. */
  readonly keepFrom?: number;
  /**
   * What the tape can tell: pieces are rounded up to whole steps and rolls down. Made coarser where rolls have very
   * many steps.
   */
  readonly step: number;
  /** Prices are rounded to it; 0.01 when it is not told. */
  readonly moneyStep?: number;
}

interface Cut {
  readonly belt: string;
  readonly length: number;
  /** Where the piece begins, from the roll's free end. */
  readonly from: number;
}

export interface RollPlan {
  readonly name: string;
  readonly length: number;
  readonly source: 'shelf' | 'bought';
  readonly cost: number;
  readonly cuts: readonly Cut[];
  /** What is left after the last cut. */
  readonly offcut: number;
  readonly kept: boolean;
  /** Saw loss, and the offcut when it is not kept. */
  readonly waste: number;
}

export interface CuttingPlan {
  readonly rolls: readonly RollPlan[];
  readonly bought: readonly { readonly name: string; readonly rolls: number; readonly cost: number }[];
  /** Rolls bought and the value of what is taken from the shelf. */
  readonly cost: number;
  /** No plan that cuts as many pieces costs less. */
  readonly bound: number;
  /** cost less bound, as a share of the cost: 0 when it is proven to be the least. */
  readonly gap: number;
  readonly proven: boolean;
  /** What the plain way costs: the longest piece first, into the first roll that holds it. */
  readonly firstFitCost: number;
  /** Whether no plan of this cost leaves more useful length; true when no offcuts are kept and no shelf is used. */
  readonly offcutsProven: boolean;
  /** By how much useful length a plan of this cost could at most leave more; infinite when nothing is known. */
  readonly offcutsGap: number;
  /** Pieces that no roll is left for, or that are longer than every roll. */
  readonly uncut: readonly Piece[];
  readonly pieces: number;
  readonly cutLength: number;
  readonly keptLength: number;
  readonly waste: number;
  /** The step that lengths were rounded to. */
  readonly step: number;
  readonly seconds: number;
}

/** Seconds for a search that is given no limit. */
const patience = 60;

/** Steps that the longest roll may have: the search keeps a number for each. */
const mostSteps = 200_000;

function check({ pieces, shelf, sold, sawLoss, keepFrom, step }: CuttingQuestion): void {
  const demand = (holds: boolean, argument: string, must: string): void => {
    if (!holds) throw new Refusal(argument, must);
  };
  for (const { belt, length, quantity } of pieces) {
    demand(
      Number.isFinite(length) && length > 0,
      'pieces',
      `of belt ${belt} must be longer than 0; ${length} was given`,
    );
    demand(
      Number.isInteger(quantity) && quantity >= 0,
      'pieces',
      `of belt ${belt} must be a whole number of at least 0; ${quantity} was given`,
    );
  }
  for (const { name, length, quantity = 1, value = 0 } of shelf) {
    demand(Number.isFinite(length) && length > 0, 'shelf', `must hold rolls longer than 0; ${name} has ${length}`);
    demand(
      Number.isInteger(quantity) && quantity >= 0,
      'shelf',
      `must hold whole numbers of rolls; ${name} has ${quantity}`,
    );
    demand(
      Number.isFinite(value) && value >= 0,
      'shelf',
      `must hold rolls of a value of at least 0; ${name} has ${value}`,
    );
  }
  for (const { name, length, price, most = 0 } of sold) {
    demand(Number.isFinite(length) && length > 0, 'sold', `must be rolls longer than 0; ${name} has ${length}`);
    demand(
      Number.isFinite(price) && price > 0,
      'sold',
      `must be rolls with a price of more than 0 (1 each to find the fewest rolls); ${name} has ${price}`,
    );
    demand(most >= 0 && !Number.isNaN(most), 'sold', `must have a greatest number of at least 0; ${name} has ${most}`);
  }
  demand(Number.isFinite(sawLoss) && sawLoss >= 0, 'sawLoss', `must be at least 0; ${sawLoss} was given`);
  demand(keepFrom === undefined || keepFrom > 0, 'keepFrom', `must be more than 0; ${keepFrom} was given`);
  demand(Number.isFinite(step) && step > 0, 'step', `must be more than 0; ${step} was given`);
}

interface Reading {
  readonly problem: CutProblem;
  readonly step: number;
  /** What one step of money stands for. */
  readonly money: number;
  /** Pieces of each size, each piece by itself. */
  readonly bySize: readonly (readonly Omit<Piece, 'quantity'>[])[];
  /** Pieces longer than every roll. */
  readonly tooLong: readonly Omit<Piece, 'quantity'>[];
}

/** The question in whole steps of length and money. */
function reading({ pieces, shelf, sold, sawLoss, keepFrom, step: asked, moneyStep = 0.01 }: CuttingQuestion): Reading {
  const rolls = [
    ...shelf.map(({ length, quantity = 1, value = 0 }) => ({ length, available: quantity, price: value, owned: true })),
    ...sold.map(({ length, price, most = Number.POSITIVE_INFINITY }) => ({
      length,
      available: Math.floor(most),
      price,
      owned: false,
    })),
  ];
  const longest = Math.max(0, ...rolls.map(({ length }) => length)) + sawLoss;
  const step = Math.max(asked, longest / mostSteps);
  const groups = new Map<number, Omit<Piece, 'quantity'>[]>();
  for (const { belt, length, quantity } of pieces) {
    const steps = stepsUp(length + sawLoss, step);
    const group = groups.get(steps) ?? [];
    for (let piece = 0; piece < quantity; piece += 1) group.push({ belt, length });
    groups.set(steps, group);
  }
  const stocks = rolls.map(({ length, ...rest }) => ({ ...rest, length: stepsDown(length + sawLoss, step) }));
  const most = Math.max(0, ...stocks.map(({ length }) => length));
  const wanted = [...groups].filter(([, group]) => group.length > 0).toSorted(([one], [other]) => other - one);
  const sizes = wanted.filter(([length]) => length <= most);
  const saw = stepsUp(sawLoss, step);
  const keep = keepFrom === undefined ? Number.POSITIVE_INFINITY : stepsUp(keepFrom, step);
  const commonLength = commonStep([
    ...sizes.map(([length]) => length),
    ...stocks.map(({ length }) => length),
    saw,
    keep,
  ]);
  const prices = rolls.map(({ price }) => (price === 0 ? 0 : Math.max(1, Math.round(price / moneyStep))));
  const commonMoney = commonStep(prices);
  const costs = prices.map((price) => price / commonMoney);
  const dearest = Math.max(0, ...costs);
  const sure = stocks.some(
    ({ length, available, owned }) =>
      !owned && available === Number.POSITIVE_INFINITY && length >= (sizes[0]?.[0] ?? 0),
  );
  const number = sizes.reduce((sum, [, group]) => sum + group.length, 0);
  return {
    step: step * commonLength,
    money: moneyStep * commonMoney,
    bySize: sizes.map(([, group]) => group),
    tooLong: wanted.filter(([length]) => length > most).flatMap(([, group]) => group),
    problem: {
      sizes: sizes.map(([length, group]): Size => ({ length: length / commonLength, demand: group.length })),
      stocks: stocks.map(({ length, available, owned }, place): Stock => ({
        length: length / commonLength,
        available,
        owned,
        cost: costs[place] ?? 0,
      })),
      sawLoss: saw / commonLength,
      keepFrom: keep / commonLength,
      // More than any plan can cost, unless rolls that hold every piece can be had without limit: then more than one of
      // them.
      penalty: 1 + dearest * (sure ? 2 : number),
    },
  };
}

/** Every roll of a solution with the belts' pieces on it, the longest cut first. */
function rollPlans(question: CuttingQuestion, { problem, bySize }: Reading, { uses }: CutSolution): RollPlan[] {
  const queues = bySize.map((group) => [...group]);
  const { shelf, sold, sawLoss, keepFrom = Number.POSITIVE_INFINITY } = question;
  const rolls = [
    ...shelf.map(({ name, length, value = 0 }) => ({ name, length, cost: value, source: 'shelf' as const })),
    ...sold.map(({ name, length, price }) => ({ name, length, cost: price, source: 'bought' as const })),
  ];
  const each = uses
    .flatMap(({ pattern, times }) => Array.from({ length: times }, () => pattern))
    .toSorted(
      (one, other) =>
        one.stock - other.stock ||
        (problem.sizes[other.counts[0]?.[0] ?? 0]?.length ?? 0) - (problem.sizes[one.counts[0]?.[0] ?? 0]?.length ?? 0),
    );
  return each.flatMap(({ stock, counts }): RollPlan[] => {
    const roll = rolls[stock];
    if (roll === undefined) return [];
    const pieces = counts
      .toSorted(([one], [other]) => one - other)
      .flatMap(([size, count]) => queues[size]?.splice(0, count) ?? []);
    let from = 0;
    const cuts = pieces.map(({ belt, length }): Cut => {
      const cut = { belt, length, from };
      from += length + sawLoss;
      return cut;
    });
    const offcut = Math.max(0, roll.length - from);
    const kept = offcut >= keepFrom;
    const used = pieces.reduce((sum, { length }) => sum + length, 0);
    return [{ ...roll, cuts, offcut, kept, waste: Math.max(0, roll.length - used - (kept ? offcut : 0)) }];
  });
}

function uncutPieces({ bySize, tooLong }: Reading, { missing }: CutSolution): Piece[] {
  const left = missing.flatMap((count, size) => {
    const group = bySize[size] ?? [];
    return group.slice(group.length - count);
  });
  const pieces = new Map<string, Piece>();
  for (const { belt, length } of [...tooLong, ...left]) {
    const key = JSON.stringify([belt, length]);
    pieces.set(key, { belt, length, quantity: (pieces.get(key)?.quantity ?? 0) + 1 });
  }
  return [...pieces.values()];
}

/** Whether it can matter which of the cheapest plans is taken. */
const offcutsMatter = ({ stocks, keepFrom }: CutProblem): boolean =>
  Number.isFinite(keepFrom) || stocks.some(({ owned }) => owned);

/**
 * The cutting plan of least cost, and of those the one that leaves most useful length: kept offcuts, and rolls on the
 * shelf that are not begun.
 *
 * Exact by integer programming over patterns; `bound` is proven, and with a time limit the best plan found so far is
 * given with it; without a limit that is after a minute. As many pieces are cut as the rolls allow before cost counts.
 * Progress reports cost in money, then useful length spent. Throws a Refusal that names the figure that is impossible.
 */
export async function cuttingPlan(
  question: CuttingQuestion,
  solver: Solver,
  limits: Limits = {},
): Promise<CuttingPlan> {
  check(question);
  const begun = performance.now();
  const elapsed = (): number => (performance.now() - begun) / 1000;
  const read = reading(question);
  const { problem, money, step } = read;
  const { seconds = patience, progress, signal } = limits;
  const scaled = (unit: number, share: number): Limits => ({
    ...(signal === undefined ? {} : { signal }),
    seconds: Math.max(0, share * seconds - elapsed()),
    ...(progress === undefined
      ? {}
      : {
          progress: ({ stage, best, bound }) =>
            progress({
              stage,
              seconds: elapsed(),
              ...(best === undefined ? {} : { best: best * unit }),
              ...(bound === undefined ? {} : { bound: bound * unit }),
            }),
        }),
  });
  const start = firstFitPlan(problem);
  const useful = offcutsMatter(problem);
  const cheapest = await patternSearch(
    { problem, aim: 'cost', budget: Number.POSITIVE_INFINITY, start },
    solver,
    scaled(money, useful ? 0.7 : 1),
  );
  const best: Found = useful
    ? await patternSearch(
        { problem, aim: 'useful', budget: cheapest.value, start: cheapest.solution },
        solver,
        scaled(step, 1),
      )
    : cheapest;
  const { solution } = best;
  const rolls = rollPlans(question, read, solution);
  const penalties = solution.missing.reduce((sum, count) => sum + count * problem.penalty, 0);
  const cost = rolls.reduce((sum, roll) => sum + roll.cost, 0);
  const bound = cheapest.proven ? cost : Math.max(0, (cheapest.bound - penalties) * money);
  const sum = (of: (roll: RollPlan) => number): number => rolls.reduce((total, roll) => total + of(roll), 0);
  return {
    rolls,
    bought: question.sold.flatMap(({ name, price }) => {
      const number = rolls.filter((roll) => roll.source === 'bought' && roll.name === name).length;
      return number === 0 ? [] : [{ name, rolls: number, cost: number * price }];
    }),
    cost,
    bound,
    gap: cost === 0 ? 0 : Math.max(0, (cost - bound) / cost),
    proven: cheapest.proven,
    firstFitCost:
      (costOf(problem, start) - start.missing.reduce((total, count) => total + count * problem.penalty, 0)) * money,
    offcutsProven: cheapest.proven && best.proven,
    offcutsGap: useful ? (best.value - best.bound) * step : 0,
    uncut: uncutPieces(read, solution),
    pieces: sum(({ cuts }) => cuts.length),
    cutLength: sum(({ cuts }) => cuts.reduce((total, { length }) => total + length, 0)),
    keptLength: sum(({ kept, offcut }) => (kept ? offcut : 0)),
    waste: sum(({ waste }) => waste),
    step,
    seconds: elapsed(),
  };
}
