import { degreesText } from '../units/shown-mark.ts';
import { sheetRow } from '../formula/address.ts';
import { type FeasibleJoint, fewestSeries, type SeriesAnswer, type SeriesChoice } from './search/fewest-series.ts';
import type { Limits, Solver } from '../solver/program.ts';
import { ownJoint } from '../advice/belt-skews.ts';
import { Belt } from '../records/belt.ts';
import { seriesColumn, seriesNames } from '../advice/skew-question.ts';
import { isEmptyRecord, recordName } from '../records/input-issues.ts';
import { listed } from '../sheet/words.ts';
import { belts } from '../../sheets/belts/index.ts';
import type { CellEdit } from '../workbook/state-changes.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { assumed } from '../records/assumed.ts';
import { JointTrials, type TrialCosts } from './joint-trials.ts';
import { jointCost, yearlyJoints, yearlyRates } from './yearly.ts';

/**
 * How few plate series could serve the fleet: joints that pass the checks, the exact choice among them, and what it
 * would change.
 */

/** Skews that are tried beside a belt's own, degrees. For tests: the answer is compared with every trial. */
export const triedSkews: readonly number[] = [0, 5, 10, 15, 20, 25, 30, 35, 40, 45];

export interface FeasibleFleet {
  /** By name; belts of one name are distinguished by their row. */
  readonly belts: readonly { readonly name: string; readonly record: number }[];
  readonly joints: readonly FeasibleJoint[];
  /** Why a belt has no joint at all. */
  readonly reasons: ReadonlyMap<string, string>;
  /** False when it was stopped: belts that were not looked at are left out. */
  readonly complete: boolean;
}

interface SkewTerms {
  /** Any skew may be chosen; else none below a belt's own. */
  readonly anySkew?: boolean;
}

/** Milliseconds of work before others get their turn. */
const slice = 40;

const breath = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

/** Why nothing serves a belt: the checks that stand against its series, the most frequent first. */
function reasonOf(against: ReadonlyMap<string, number>, least: number): string {
  const words = [...against].toSorted(([, one], [, other]) => other - one).map(([word]) => word);
  if (words.length === 0) return 'the book has no plate series';
  return `no series passes${least > 0 ? ` at ${degreesText(least)} or more` : ''}: ${listed(words)}`;
}

/** The skews that are tried of a belt: its own, and the others that it may have. */
const skewsFor = (own: number | undefined, any: boolean): readonly number[] =>
  own === undefined || own < 0 ? triedSkews : [...new Set([own, ...triedSkews.filter((skew) => any || skew >= own)])];

/** The joints of a belt that pass, and how often each check stands against one. */
function passingJoints(
  trials: JointTrials,
  record: number,
  skews: readonly number[],
): {
  readonly joints: readonly { readonly series: string; readonly skew: number; readonly costs: TrialCosts }[];
  readonly against: ReadonlyMap<string, number>;
} {
  const against = new Map<string, number>();
  const told = (word: string): void => void against.set(word, (against.get(word) ?? 0) + 1);
  const joints = trials.series.flatMap((series) => {
    const never = trials.againstSeries(record, series);
    if (never !== undefined) {
      told(never);
      return [];
    }
    return skews.flatMap((skew) => {
      const failing = trials.againstSkew(record, series, skew);
      if (failing !== undefined) told(failing);
      const costs = failing === undefined ? trials.costs(record, series, skew) : undefined;
      return costs === undefined ? [] : [{ series: String(series), skew, costs }];
    });
  });
  return { joints, against };
}

/**
 * Every joint that passes all checks but that of age, with its cost a year: each belt at each series, at its own skew
 * and at the tried ones. The checks are those of the sheet, asked as what-ifs.
 */
export async function feasibleFleet(
  book: Workbook,
  { anySkew = false, progress, signal, seconds = Number.POSITIVE_INFINITY }: Limits & SkewTerms = {},
): Promise<FeasibleFleet> {
  const begun = performance.now();
  const trials = new JointTrials(book);
  const rates = yearlyRates(book);
  const names = new Set<string>();
  const fleet: { name: string; record: number }[] = [];
  const joints: FeasibleJoint[] = [];
  const reasons = new Map<string, string>();
  const records = [...book.sheet(belts.name).rows.entries()].flatMap(([record, { cells }]) =>
    isEmptyRecord(cells) ? [] : [record],
  );
  let turn = performance.now();
  for (const [place, record] of records.entries()) {
    if (performance.now() - turn > slice) {
      progress?.({ stage: `${place} of ${records.length} belts`, seconds: (performance.now() - begun) / 1000 });
      await breath();
      turn = performance.now();
      if (signal?.aborted === true || (turn - begun) / 1000 > seconds)
        return { belts: fleet, joints, reasons, complete: false };
    }
    const called = recordName(book, belts.name, record);
    const name = names.has(called) ? `${called} (row ${sheetRow(record)})` : called;
    names.add(name);
    fleet.push({ name, record });
    const yearly = yearlyJoints(book, record, rates.failureShare);
    if (typeof yearly === 'string') {
      reasons.set(name, yearly);
      continue;
    }
    const skews = skewsFor(ownJoint(book, record).skew, anySkew);
    const found = passingJoints(trials, record, skews);
    for (const { costs, ...joint } of found.joints)
      joints.push({ ...joint, belt: name, cost: yearly * jointCost(costs, rates) });
    if (found.joints.length === 0) reasons.set(name, reasonOf(found.against, Math.min(...skews)));
  }
  return { belts: fleet, joints, reasons, complete: true };
}

export interface FleetSeries extends SeriesAnswer {
  /**
   * What the fleet costs a year as it stands, of the belts that are served; absent when one of them has no passing
   * joint of its own.
   */
  readonly now?: number;
  /** Plate series that belts have now. */
  readonly present: readonly string[];
  readonly reasons: ReadonlyMap<string, string>;
}

/** The exact choice over a feasible fleet, with the curve of cost against the number of series. */
export async function fleetSeries(
  book: Workbook,
  fleet: FeasibleFleet,
  solver: Solver,
  { most, ...limits }: Limits & { readonly most?: number } = {},
): Promise<FleetSeries> {
  const keeping = assumed(book, 'SeriesKeeping');
  const answer = await fewestSeries(
    {
      belts: fleet.belts.map(({ name }) => name),
      joints: fleet.joints,
      keeping,
      ...(most === undefined ? {} : { most }),
    },
    solver,
    limits,
  );
  const at = new Map(
    fleet.joints.map((joint) => [JSON.stringify([joint.belt, joint.series.toLowerCase(), joint.skew]), joint.cost]),
  );
  const own = fleet.belts.map(({ name, record }) => ({ name, ...ownJoint(book, record) }));
  const present = [...new Set(own.flatMap(({ series }) => (series === '' ? [] : [series])))];
  const unserved = new Set(answer.unserved);
  const costs = own
    .filter(({ name }) => !unserved.has(name))
    .map(({ name, series, skew }) => at.get(JSON.stringify([name, series.toLowerCase(), skew])));
  const now = costs.every((cost) => cost !== undefined)
    ? costs.reduce((sum, cost) => sum + cost, 0) + keeping * present.length
    : undefined;
  return { ...answer, ...(now === undefined ? {} : { now }), present, reasons: fleet.reasons };
}

/** What a choice would change of one belt. */
export interface SeriesChange {
  readonly belt: string;
  readonly record: number;
  readonly from: { readonly series: string; readonly skew: number | undefined };
  readonly to: { readonly series: string; readonly skew: number };
}

/** The belts that a choice of series changes, in the order of the book. Nothing is applied. */
export function seriesChanges(
  book: Workbook,
  { belts: fleet }: FeasibleFleet,
  { joints }: SeriesChoice,
): SeriesChange[] {
  const chosen = new Map(joints.map((joint) => [joint.belt, joint]));
  return fleet.flatMap(({ name, record }): SeriesChange[] => {
    const joint = chosen.get(name);
    const from = ownJoint(book, record);
    if (joint === undefined || (joint.series.toLowerCase() === from.series.toLowerCase() && joint.skew === from.skew))
      return [];
    return [{ belt: name, record, from, to: { series: joint.series, skew: joint.skew } }];
  });
}

/** The changes as one edit of the book, for the user to apply. */
export function seriesEdits(book: Workbook, changes: readonly SeriesChange[]): CellEdit[] {
  // A series that is called by a number is found by the number, not by its text.
  const names = new Map(seriesNames(book).map((name) => [String(name), name]));
  return changes.flatMap(({ record, from, to }): CellEdit[] => [
    ...(from.series.toLowerCase() === to.series.toLowerCase()
      ? []
      : [
          {
            sheet: belts.name,
            record,
            column: book.column(belts.name, seriesColumn),
            content: names.get(to.series) ?? to.series,
          },
        ]),
    ...(from.skew === to.skew ? [] : new Belt(book, record).editsAt(to.skew)),
  ]);
}
