import { Refusal } from '../../formula/define.ts';
import type { Column, Limits, Program, Row, Solver } from '../../solver/program.ts';

/** Which plate series to keep, so that the whole fleet is served at the minimum cost a year. */

/** A joint that passes every check, with what it costs a year. */
export interface FeasibleJoint {
  readonly belt: string;
  readonly series: string;
  /** Degrees from the square cut. */
  readonly skew: number;
  readonly cost: number;
}

/** For tests: small questions are tried out. */
export interface SeriesQuestion {
  /** Every belt of the fleet, so that those that nothing serves are told. */
  readonly belts: readonly string[];
  readonly joints: readonly FeasibleJoint[];
  /** What keeping a series costs a year: shelf, punches, training. A series that is left out costs `keeping`. */
  readonly keepingBySeries?: Readonly<Record<string, number>>;
  readonly keeping: number;
  /** The most series that may be kept; as many as pay when it is left out. */
  readonly most?: number;
}

export interface SeriesChoice {
  readonly series: readonly string[];
  /** What every belt gets: the cheapest of the kept series, at its cheapest skew. */
  readonly joints: readonly FeasibleJoint[];
  readonly jointCost: number;
  readonly keepingCost: number;
  readonly cost: number;
  /** No choice of so many series costs less. */
  readonly bound: number;
  readonly proven: boolean;
}

export interface CurvePoint {
  /** At most so many series. */
  readonly series: number;
  /** Absent when so few cannot serve every belt that can be served. */
  readonly choice?: SeriesChoice;
}

interface ForcedSeries {
  readonly series: string;
  /** Belts that no other series serves. */
  readonly belts: readonly string[];
}

export interface SeriesAnswer {
  /** The minimum cost; absent when `most` series cannot serve the fleet. */
  readonly best?: SeriesChoice;
  /** For 1, 2, … up to all series. */
  readonly curve: readonly CurvePoint[];
  readonly forced: readonly ForcedSeries[];
  readonly unserved: readonly string[];
}

/** Of one belt: its cheapest joint in each series, the cheapest series first. */
type Options = readonly FeasibleJoint[];

/** At each belt and series only the cheapest skew can be in a best choice; of equal costs the minimum skew. */
function cheapestJoints({ belts, joints }: SeriesQuestion): Map<string, Options> {
  const options = new Map<string, Map<string, FeasibleJoint>>(belts.map((belt) => [belt, new Map()]));
  for (const joint of joints) {
    const own = options.get(joint.belt);
    if (own === undefined) throw new Refusal('joints', `must be of belts of the fleet; ${joint.belt} is none`);
    if (!Number.isFinite(joint.cost) || joint.cost < 0)
      throw new Refusal(
        'joints',
        `must cost at least 0 per year; ${joint.cost} was given for belt ${joint.belt} with ${joint.series} at ` +
          `${joint.skew} degrees`,
      );
    const known = own.get(joint.series);
    if (known === undefined || joint.cost < known.cost || (joint.cost === known.cost && joint.skew < known.skew))
      own.set(joint.series, joint);
  }
  return new Map(
    [...options].map(([belt, own]) => [belt, [...own.values()].toSorted((one, other) => one.cost - other.cost)]),
  );
}

/**
 * The choice as an integer program that counts belts together.
 *
 * Each belt costs at least its cheapest series; when that is not kept, the difference to the next; when that is not
 * kept either, the next difference. "None of these series is kept" is one variable for all belts that ask it of the
 * same series, so a thousand belts over eight series need at most 255 rows, not eight thousand. Exact: with the series
 * fixed, the cheapest joints and the differences add up to the cost.
 * Source: the pseudo-Boolean form of the location problem, P. L. Hammer 1968, from memory.
 */
function programOf(
  options: readonly Options[],
  series: readonly string[],
  keepingOf: (series: string) => number,
  most: number,
): { readonly program: Program; readonly least: number } {
  const place = new Map(series.map((name, index) => [name, index]));
  const steps = new Map<string, { readonly members: readonly number[]; weight: number; last: boolean }>();
  let least = 0;
  for (const belt of options) {
    least += belt[0]?.cost ?? 0;
    for (const [index, joint] of belt.entries()) {
      const members = belt
        .slice(0, index + 1)
        .map((one) => place.get(one.series) ?? 0)
        .toSorted((one, other) => one - other);
      const key = members.join(',');
      const next = belt[index + 1];
      const step = steps.get(key) ?? { members, weight: 0, last: false };
      if (next === undefined) step.last = true;
      else step.weight += next.cost - joint.cost;
      steps.set(key, step);
    }
  }
  const needed = [...steps.values()].filter(({ weight, last }) => last || weight > 0);
  const rows: Row[] = [...needed.map(() => ({ lower: 1 })), { upper: most }];
  const entriesOf = series.map((_, index) =>
    needed.flatMap(({ members }, row) => (members.includes(index) ? [[row, 1] as const] : [])),
  );
  const kept: Column[] = series.map((name, index) => ({
    cost: keepingOf(name),
    upper: 1,
    whole: true,
    entries: [...(entriesOf[index] ?? []), [needed.length, 1]],
  }));
  const absent: Column[] = needed.map(({ weight, last }, row) => ({
    cost: weight,
    upper: last ? 0 : 1,
    entries: [[row, 1]],
  }));
  return { program: { rows, columns: [...kept, ...absent] }, least };
}

/** Every belt's cheapest joint among the kept series; undefined when one has none. */
function served(options: readonly Options[], kept: ReadonlySet<string>): FeasibleJoint[] | undefined {
  const joints = options.flatMap((belt) => belt.find(({ series }) => kept.has(series)) ?? []);
  return joints.length === options.length ? joints : undefined;
}

/** What a choice of series is looked for in. */
interface Choosing {
  /** Each belt's cheapest joint of every series, of the belts that have any. */
  readonly options: readonly Options[];
  readonly series: readonly string[];
  readonly keepingOf: (name: string) => number;
}

/** The best choice of at most so many series; undefined when there is none, or a limit came first. */
function choiceOf(
  { options, series, keepingOf }: Choosing,
  count: number,
  solver: Solver,
  limits: Limits,
): SeriesChoice | undefined {
  const { program, least } = programOf(options, series, keepingOf, count);
  const { values, outcome, bound } = solver.whole(program, { ...limits, stage: `${count} series` });
  const kept = new Set(series.filter((_, index) => values[index] === 1));
  const joints = served(options, kept);
  if (joints === undefined || outcome === 'infeasible' || outcome === 'none') return undefined;
  const used = series.filter((name) => joints.some((joint) => joint.series === name));
  const jointCost = joints.reduce((sum, { cost }) => sum + cost, 0);
  const keepingCost = used.reduce((sum, name) => sum + keepingOf(name), 0);
  return {
    series: used,
    joints,
    jointCost,
    keepingCost,
    cost: jointCost + keepingCost,
    bound: least + bound,
    proven: outcome === 'optimal',
  };
}

/** The curve of cost against the number of series, as far as time allows. */
async function curveOf(choosing: Choosing, solver: Solver, limits: Limits): Promise<CurvePoint[]> {
  const begun = performance.now();
  const elapsed = (): number => (performance.now() - begun) / 1000;
  const curve: CurvePoint[] = [];
  for (let count = 1; count <= choosing.series.length; count += 1) {
    if (limits.signal?.aborted === true || elapsed() > (limits.seconds ?? Number.POSITIVE_INFINITY)) break;
    const before = curve.at(-1)?.choice;
    const left = limits.seconds === undefined ? {} : { seconds: Math.max(0, limits.seconds - elapsed()) };
    // A choice that keeps fewer than it may is best for every greater number too.
    const choice =
      before !== undefined && before.proven && before.series.length < count - 1
        ? before
        : choiceOf(choosing, count, solver, { ...limits, ...left });
    curve.push({ series: count, ...(choice === undefined ? {} : { choice }) });
    limits.progress?.({
      stage: `${count} series`,
      seconds: elapsed(),
      ...(choice === undefined ? {} : { best: choice.cost }),
    });
    await new Promise((resolve) => setTimeout(resolve, 0));
  }
  return curve;
}

/**
 * The series to keep for the minimum cost a year, the curve of cost against their number, and what forces a series.
 *
 * Exact by integer programming. The joints are the caller's: those that pass the checks. Belts that nothing serves are
 * told and left out of the cost. Every point of the curve holds at most so many series, so it never rises; it ends with
 * the best, which may keep fewer than all.
 */
export async function fewestSeries(
  question: SeriesQuestion,
  solver: Solver,
  limits: Limits = {},
): Promise<SeriesAnswer> {
  const { keeping, keepingBySeries = {}, most } = question;
  const keepingOf = (name: string): number =>
    Object.hasOwn(keepingBySeries, name) ? (keepingBySeries[name] ?? keeping) : keeping;
  const byBelt = cheapestJoints(question);
  const series = [...new Set(question.joints.map((joint) => joint.series))].toSorted();
  const wrong = series.find((name) => !(keepingOf(name) >= 0));
  if (wrong !== undefined)
    throw new Refusal('keeping', `must be at least 0 per year; ${keepingOf(wrong)} was given for ${wrong}`);
  const options = [...byBelt.values()].filter((belt) => belt.length > 0);
  const curve = await curveOf({ options, series, keepingOf }, solver, limits);
  const within = curve.filter((point) => most === undefined || point.series <= most).at(-1)?.choice;
  return {
    ...(within === undefined ? {} : { best: within }),
    curve,
    forced: series.flatMap((name) => {
      const belts = [...byBelt].filter(([, own]) => own.length === 1 && own[0]?.series === name).map(([belt]) => belt);
      return belts.length === 0 ? [] : [{ series: name, belts }];
    }),
    unserved: [...byBelt].filter(([, own]) => own.length === 0).map(([belt]) => belt),
  };
}
