import type { BeltHeader } from '../../sheets/index.ts';
import { Belt } from '../records/belt.ts';
import type { Workbook } from '../workbook/workbook.ts';
import {
  type BeltDraws,
  blocksOf,
  CorrelationSums,
  type Judged,
  type Share,
  sharesOf,
  SimulatedPart,
  simulatedPart,
  type SimulationAsked,
} from './simulated-part.ts';

/**
 * How sure belts are: their true inputs and the true assumptions drawn by chance, over and over, and all columns worked
 * out by the sheets' own rows.
 *
 * A named value and a plate's figure are drawn once for all belts, an input and a pulley's figure for each belt by
 * itself. What has no tolerance is exact. It tells of errors in the figures, not of a rule that is wrong.
 */

export interface SimulatedBelt {
  readonly belt: Belt;
  readonly passes: ReadonlyMap<Judged, number>;
  /** The draws of each wanted column, ascending; those in which it was no number are left out. */
  readonly figures: ReadonlyMap<BeltHeader, Float64Array>;
  readonly shares: ReadonlyMap<BeltHeader, readonly Share[]>;
}

export interface Simulation {
  readonly draws: number;
  readonly belts: readonly SimulatedBelt[];
  /** Belts that fail, in each draw, ascending; and each wanted column summed over the belts in which it is known. */
  readonly failing: Float64Array;
  readonly totals: ReadonlyMap<BeltHeader, Float64Array>;
  /** Shares of the spread of these sums, and of the number that fails, that go with what all belts share. */
  readonly totalShares: ReadonlyMap<BeltHeader, readonly Share[]>;
  readonly failingShares: readonly Share[];
}

const withoutGaps = (drawn: Float64Array): Float64Array => drawn.filter((value) => !Number.isNaN(value)).sort();

/** How sums over all belts go with each factor that they share: the draws are made once more, which is quick. */
function totalShares(
  book: Workbook,
  asked: SimulationAsked,
  totals: readonly Float64Array[],
): readonly (readonly Share[])[] {
  const [first] = asked.records;
  if (first === undefined) return totals.map(() => []);
  const { shared } = new SimulatedPart(book, asked, new Belt(book, first));
  const sums = totals.map(() => shared.all.map(() => new CorrelationSums()));
  for (const [from, count] of blocksOf(asked.draws)) {
    shared.draw(count);
    for (const [place, total] of totals.entries())
      for (const [factor, { values }] of shared.all.entries()) sums[place]?.[factor]?.add(values, total, from, count);
  }
  const names = shared.all.map(({ factor }) => factor.name);
  return sums.map((of) => sharesOf(names, of));
}

/** A simulation from its parts, in whatever order they came: sums are taken in the order of the belts. */
export function gathered(book: Workbook, asked: SimulationAsked, parts: readonly BeltDraws[]): Simulation {
  const { records, columns, draws } = asked;
  const byRecord = new Map(parts.map((part) => [part.record, part]));
  const found = records.flatMap((record) => byRecord.get(record) ?? []);
  const failing = new Float64Array(draws);
  const totals = columns.map(() => new Float64Array(draws));
  for (const { fails, figures } of found) {
    for (let draw = 0; draw < draws; draw += 1) failing[draw] = (failing[draw] ?? 0) + (fails[draw] ?? 0);
    for (const [place, total] of totals.entries()) {
      const values = figures[place];
      for (let draw = 0; draw < draws; draw += 1) {
        const value = values?.[draw] ?? NaN;
        if (!Number.isNaN(value)) total[draw] = (total[draw] ?? 0) + value;
      }
    }
  }
  const shares = records.length > 1 ? totalShares(book, asked, [failing, ...totals]) : [];
  return {
    draws,
    belts: found.map(({ record, passes, figures, shares: own }) => ({
      belt: new Belt(book, record),
      passes,
      figures: new Map(columns.map((header, place) => [header, withoutGaps(figures[place] ?? new Float64Array())])),
      shares: new Map(columns.map((header, place) => [header, own[place] ?? []])),
    })),
    totalShares: new Map(columns.map((header, place) => [header, shares[place + 1] ?? []])),
    failingShares: shares[0] ?? [],
    failing: failing.sort(),
    totals: new Map(columns.map((header, place) => [header, (totals[place] ?? new Float64Array()).sort()])),
  };
}

/** All draws at once, in this thread. For tests: the parts of threads are held to it. */
export function simulated(book: Workbook, asked: SimulationAsked): Simulation {
  const run = simulatedPart(book, asked);
  for (;;) {
    const step = run.next();
    if (step.done === true) return gathered(book, asked, step.value);
  }
}
