import { costOf, type CutProblem, type CutSolution } from './cut-problem.ts';
import { checkQuestion, type CuttingQuestion, type Piece, type Reading, reading } from './cutting-question.ts';
import { firstFitPlan } from './first-fit.ts';
import { type Found, patternSearch } from './pattern-search.ts';
import type { Limits, Solver } from '../../solver/program.ts';

/** How to cut pieces of strip or belt from rolls: minimum cost of rolls, then the most useful length left over. */

interface Cut {
  readonly belt: string;
  readonly length: number;
  /** Where the piece begins, from the roll's free end. */
  readonly from: number;
}

export interface RollPlan {
  readonly name: string;
  readonly length: number;
  readonly source: 'shelf' | 'on order' | 'bought';
  readonly cost: number;
  /** What was paid for it; its cost where nothing else is known. */
  readonly paid: number;
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

/** Every roll of a solution with the belts' pieces on it, the longest cut first. */
function rollPlans(question: CuttingQuestion, { problem, bySize }: Reading, { uses }: CutSolution): RollPlan[] {
  const queues = bySize.map((group) => [...group]);
  const { shelf, sold, sawLoss, keepFrom = Number.POSITIVE_INFINITY } = question;
  const rolls = [
    ...shelf.map(({ name, length, value = 0, source = 'shelf' as const, paid = value }) => ({
      name,
      length,
      cost: value,
      paid,
      source,
    })),
    ...sold.map(({ name, length, price }) => ({ name, length, cost: price, paid: price, source: 'bought' as const })),
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

/** What the searches found: the plain way, the cheapest plan, and of such plans the one that leaves most. */
interface Searched {
  readonly start: CutSolution;
  readonly cheapest: Found;
  /** Undefined where it can't matter. */
  readonly useful: Found | undefined;
}

function planOf(
  question: CuttingQuestion,
  read: Reading,
  { start, cheapest, useful }: Searched,
): Omit<CuttingPlan, 'seconds'> {
  const { problem, money, step } = read;
  const { solution } = useful ?? cheapest;
  const rolls = rollPlans(question, read, solution);
  const penalties = ({ missing }: CutSolution): number =>
    missing.reduce((total, count) => total + count * problem.penalty, 0);
  const sum = (of: (roll: RollPlan) => number): number => rolls.reduce((total, roll) => total + of(roll), 0);
  const cost = sum((roll) => roll.cost);
  const bound = cheapest.proven ? cost : Math.max(0, (cheapest.bound - penalties(solution)) * money);
  return {
    rolls,
    bought: question.sold.flatMap(({ name, price }) => {
      const number = rolls.filter((roll) => roll.source === 'bought' && roll.cost > 0 && roll.name === name).length;
      return number === 0 ? [] : [{ name, rolls: number, cost: number * price }];
    }),
    cost,
    bound,
    gap: cost === 0 ? 0 : Math.max(0, (cost - bound) / cost),
    proven: cheapest.proven,
    firstFitCost: (costOf(problem, start) - penalties(start)) * money,
    offcutsProven: cheapest.proven && (useful ?? cheapest).proven,
    offcutsGap: useful === undefined ? 0 : (useful.value - useful.bound) * step,
    uncut: uncutPieces(read, solution),
    pieces: sum(({ cuts }) => cuts.length),
    cutLength: sum(({ cuts }) => cuts.reduce((total, { length }) => total + length, 0)),
    keptLength: sum(({ kept, offcut }) => (kept ? offcut : 0)),
    waste: sum(({ waste }) => waste),
    step,
  };
}

/**
 * The cutting plan of minimum cost, and of those the one that leaves most useful length: kept offcuts, and rolls on the
 * shelf that are not begun.
 *
 * Exact by integer programming over patterns; `bound` is proven, and with a time limit the best plan found so far is
 * given with it; without a limit that is after a minute. `costOnly` is content with any plan of minimum cost. As many
 * pieces are cut as the rolls allow before cost counts. Progress reports cost in money, then useful length spent.
 * Throws a Refusal that names the figure that is impossible.
 */
export async function cuttingPlan(
  question: CuttingQuestion,
  solver: Solver,
  limits: Limits & { readonly costOnly?: true } = {},
): Promise<CuttingPlan> {
  checkQuestion(question);
  const begun = performance.now();
  const elapsed = (): number => (performance.now() - begun) / 1000;
  const read = reading(question);
  const { problem, money, step } = read;
  const { seconds = patience, progress, signal, costOnly } = limits;
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
  const matter = costOnly === undefined && offcutsMatter(problem);
  const cheapest = await patternSearch(
    { problem, aim: 'cost', budget: Number.POSITIVE_INFINITY, start },
    solver,
    scaled(money, matter ? 0.7 : 1),
  );
  const useful = matter
    ? await patternSearch(
        { problem, aim: 'useful', budget: cheapest.value, start: cheapest.solution },
        solver,
        scaled(step, 1),
      )
    : undefined;
  return { ...planOf(question, read, { start, cheapest, useful }), seconds: elapsed() };
}
