import { Refusal } from '../../formula/define.ts';
import { commonStep } from './common-step.ts';
import { type CutProblem, type Size, type Stock, stepsDown, stepsUp } from './cut-problem.ts';

/** What is to be cut from which rolls, as it is asked and in whole steps. */

export interface Piece {
  readonly belt: string;
  readonly length: number;
  readonly quantity: number;
  /** Day on which it is cut at the latest; without it, it waits for every roll. */
  readonly due?: number | undefined;
}

/** A roll or leftover on the shelf. */
export interface ShelfRoll {
  readonly name: string;
  readonly length: number;
  /** How many of them; 1 when it is not given. */
  readonly quantity?: number;
  /** What using it counts as; 0 when it is not given, so that the shelf is used up first. */
  readonly value?: number;
  /** Where it comes from; the shelf when it is not given. */
  readonly source?: 'shelf' | 'on order' | 'bought';
  /** What was paid for it, where it is known: told, not counted. */
  readonly paid?: number;
  /** Day on which it comes; without it, it is there in time for every piece. */
  readonly day?: number | undefined;
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
  /** Prices are rounded to it; 0.01 when it is not given. */
  readonly moneyStep?: number;
}

/** Steps that the longest roll may have: the search keeps a number for each. */
const mostSteps = 200_000;

export function checkQuestion({ pieces, shelf, sold, sawLoss, keepFrom, step }: CuttingQuestion): void {
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
    demand(most >= 0 && !Number.isNaN(most), 'sold', `must have a maximum number of at least 0; ${name} has ${most}`);
  }
  demand(Number.isFinite(sawLoss) && sawLoss >= 0, 'sawLoss', `must be at least 0; ${sawLoss} was given`);
  demand(keepFrom === undefined || keepFrom > 0, 'keepFrom', `must be more than 0; ${keepFrom} was given`);
  demand(Number.isFinite(step) && step > 0, 'step', `must be more than 0; ${step} was given`);
}

/** A piece by itself. */
type OnePiece = Pick<Piece, 'belt' | 'length'>;

export interface Reading {
  readonly problem: CutProblem;
  readonly step: number;
  /** What one step of money stands for. */
  readonly money: number;
  /** Pieces of each size, each piece by itself. */
  readonly bySize: readonly (readonly OnePiece[])[];
  /** Pieces longer than every roll. */
  readonly tooLong: readonly OnePiece[];
}

interface Roll {
  readonly length: number;
  readonly available: number;
  readonly price: number;
  readonly owned: boolean;
  readonly day?: number | undefined;
}

const rollsOf = ({ shelf, sold }: CuttingQuestion): Roll[] => [
  ...shelf.map(({ length, quantity = 1, value = 0, day }) => ({
    length,
    available: quantity,
    price: value,
    owned: true,
    day,
  })),
  ...sold.map(({ length, price, most = Number.POSITIVE_INFINITY }) => ({
    length,
    available: Math.floor(most),
    price,
    owned: false,
  })),
];

/** Days on which rolls come, ascending. */
const arrivals = ({ shelf }: CuttingQuestion): number[] =>
  [...new Set(shelf.flatMap(({ day }) => (day === undefined ? [] : [day])))].toSorted((one, other) => one - other);

interface PieceGroup {
  /** With its kerf, in steps. */
  readonly length: number;
  /** The last arrival that it can wait for. */
  readonly due: number;
  readonly pieces: OnePiece[];
}

/**
 * Pieces by their length in steps, the longest first and of one length those first that can wait for the fewest rolls;
 * those of the same length that wait for the same rolls are cut alike.
 */
function pieceGroups({ pieces, sawLoss }: CuttingQuestion, step: number, days: readonly number[]): PieceGroup[] {
  const groups = new Map<string, PieceGroup>();
  for (const { belt, length: asked, quantity, due: day } of pieces) {
    const length = stepsUp(asked + sawLoss, step);
    const due = day === undefined ? days.length : days.filter((one) => one <= day).length;
    const key = `${length} ${due}`;
    const group = groups.get(key) ?? { length, due, pieces: [] };
    for (let piece = 0; piece < quantity; piece += 1) group.pieces.push({ belt, length: asked });
    groups.set(key, group);
  }
  return [...groups.values()]
    .filter((group) => group.pieces.length > 0)
    .toSorted((one, other) => other.length - one.length || one.due - other.due);
}

/** The question in whole steps of length and money. */
export function reading(question: CuttingQuestion): Reading {
  const { sawLoss, keepFrom, step: asked, moneyStep = 0.01 } = question;
  const rolls = rollsOf(question);
  const longest = Math.max(0, ...rolls.map(({ length }) => length)) + sawLoss;
  const step = Math.max(asked, longest / mostSteps);
  const stocks = rolls.map(({ length, ...rest }) => ({ ...rest, length: stepsDown(length + sawLoss, step) }));
  const most = Math.max(0, ...stocks.map(({ length }) => length));
  const days = arrivals(question);
  const wanted = pieceGroups(question, step, days);
  const sizes = wanted.filter(({ length }) => length <= most);
  const saw = stepsUp(sawLoss, step);
  const keep = keepFrom === undefined ? Number.POSITIVE_INFINITY : stepsUp(keepFrom, step);
  const commonLength = commonStep([
    ...sizes.map(({ length }) => length),
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
      !owned && available === Number.POSITIVE_INFINITY && length >= (sizes[0]?.length ?? 0),
  );
  const number = sizes.reduce((sum, { pieces }) => sum + pieces.length, 0);
  return {
    step: step * commonLength,
    money: moneyStep * commonMoney,
    bySize: sizes.map(({ pieces }) => pieces),
    tooLong: wanted.filter(({ length }) => length > most).flatMap(({ pieces }) => pieces),
    problem: {
      sizes: sizes.map(({ length, due, pieces }): Size => ({
        length: length / commonLength,
        demand: pieces.length,
        due,
      })),
      stocks: stocks.map(({ length, available, owned, day }, place): Stock => ({
        length: length / commonLength,
        available,
        owned,
        arrives: day === undefined ? 0 : days.indexOf(day) + 1,
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
