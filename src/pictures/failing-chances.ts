import type { BeltHeader } from '../../sheets/index.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { simulated } from '../what-if/simulation.ts';
import { proposedTolerance } from '../what-if/tolerance.ts';
import { beltRecords } from './belt-figures.ts';

/** What draws by chance say of the fleet: how likely each belt fails, and how a figure is spread. */

/** The same pictures come of the same book. */
const seed = 1;

/** Draws of all belts together that are made for an overview, and the ends between which a belt's lie. Chosen. */
const [together, fewest, most] = [20_000, 100, 500];

/** Draws of each belt of a fleet of so many. For tests: fleets of any size. */
export const drawsFor = (belts: number): number =>
  Math.max(fewest, Math.min(most, Math.round(together / Math.max(1, belts) / fewest) * fewest));

export interface FailingChances {
  readonly draws: number;
  /** By record; a belt whose verdict is not known in any draw has none. */
  readonly chances: readonly (readonly [record: number, chance: number])[];
}

/** Belt by belt; yields the share that is done. Draws of a belt are the same whichever others are drawn. */
export function* failingChances(book: Workbook): Generator<number, FailingChances> {
  const records = beltRecords(book);
  const draws = drawsFor(records.length);
  const chances: (readonly [number, number])[] = [];
  for (const [place, record] of records.entries()) {
    const { belts, failing } = simulated(book, {
      records: [record],
      columns: [],
      draws,
      seed,
      tolerances: proposedTolerance,
    });
    if (belts[0]?.passes.has('Verdict') === true)
      chances.push([record, failing.reduce((sum, count) => sum + count, 0) / draws]);
    yield (place + 1) / records.length;
  }
  return { draws, chances };
}

/** Draws of one figure of one belt. Chosen: less than a second. */
export const figureDraws = 2000;

/** A figure of a belt in each draw in which it is a number, ascending. */
export function drawnFigures(book: Workbook, record: number, header: BeltHeader): readonly number[] {
  const { belts } = simulated(book, {
    records: [record],
    columns: [header],
    draws: figureDraws,
    seed,
    tolerances: proposedTolerance,
  });
  return [...(belts[0]?.figures.get(header) ?? [])];
}
