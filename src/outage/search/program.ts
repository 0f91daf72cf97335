import { type Chosen, standingSteps } from './board.ts';
import type { Choice, Choices } from './choices.ts';
import type { OutageRequest } from './request.ts';
import { ProgramBuilder } from '../../solver/program-builder.ts';

/**
 * An outage as a time-indexed program: one variable of 0 or 1 for each place where a job can lie.
 *
 * Rows: a job lies in one place at most; in no step more crews of a kind at work than there are, nor more jobs in an
 * area than it bears; by no step has a job begun when one before it has not ended. Further variables, 0 or 1 by what
 * they are bounded by: an area is stopped in a step; the plan goes on beyond an end. This form has many variables but
 * bounds well.
 */
export interface OutageProgram {
  readonly builder: ProgramBuilder;
  readonly choices: readonly Choice[];
  /** The step before which no plan ends: costs of finishing count from there. */
  readonly firstEnd: number;
  /** Costs of each aim by column, to be made least. */
  readonly costs: {
    readonly placed: readonly number[];
    readonly lost: readonly number[];
    readonly finish: readonly number[];
    readonly ends: readonly number[];
  };
  /** The columns' values for a plan. */
  readonly valuesOf: (chosen: Chosen) => number[];
  /** The plan that columns' values say. */
  readonly chosenOf: (values: readonly number[]) => Chosen;
}

export function outageProgram(request: OutageRequest, all: Choices): OutageProgram {
  const builder = new ProgramBuilder();
  const choices = all.byJob.flat();
  for (const _ of choices) builder.column(1, true);
  const byJob = request.jobs.map((): number[] => []);
  for (const [column, { job }] of choices.entries()) byJob[job]?.push(column);
  const ones = (columns: readonly number[], coefficient = 1): (readonly [number, number])[] =>
    columns.map((column) => [column, coefficient] as const);

  for (const columns of byJob) if (columns.length > 1) builder.row({ upper: 1 }, ones(columns));
  crewRows(builder, choices, all);
  const areaOf = ({ job }: Choice): string => request.jobs[job]?.area ?? '';
  const standing = areaRows(builder, choices, request, all, areaOf);
  orderRows(builder, choices, byJob, request);
  const beyond =
    request.aim === 'earliest finish' ? finishColumns(builder, choices, byJob) : { ends: [], columns: [], late: [] };

  const costs = (of: (choice: Choice) => number, others: ReadonlyMap<number, number> = new Map()): number[] =>
    Array.from({ length: builder.size }, (_, column) => {
      const choice = choices[column];
      return choice === undefined ? (others.get(column) ?? 0) : of(choice);
    });
  const finishCosts = new Map(
    beyond.columns.map((column, index) => [column, (beyond.ends[index + 1] ?? 0) - (beyond.ends[index] ?? 0)]),
  );
  return {
    builder,
    choices,
    firstEnd: choices.reduce((first, { end }) => Math.min(first, end), Number.POSITIVE_INFINITY),
    costs: {
      placed: costs(({ job }) => -(request.jobs[job]?.weight ?? 1)),
      lost: costs(
        ({ lost }) => lost,
        new Map(standing.map(({ column, area, step }) => [column, all.standingLoss(area, step)])),
      ),
      finish: costs(() => 0, finishCosts),
      ends: costs(({ end }) => end),
    },
    valuesOf: (chosen) => {
      const values = new Array<number>(builder.size).fill(0);
      const made = new Set(chosen);
      for (const [column, choice] of choices.entries()) values[column] = made.has(choice) ? 1 : 0;
      const stands = standingSteps(request, chosen);
      for (const { column, area, step } of standing) values[column] = stands.get(area)?.has(step) === true ? 1 : 0;
      const last = Math.max(0, ...chosen.map((choice) => choice?.end ?? 0));
      for (const [index, column] of beyond.columns.entries()) values[column] = last > (beyond.ends[index] ?? 0) ? 1 : 0;
      for (const { column, job, after } of beyond.late) values[column] = (chosen[job]?.end ?? 0) > after ? 1 : 0;
      return values;
    },
    chosenOf: (values) => {
      const chosen: (Choice | undefined)[] = request.jobs.map(() => undefined);
      for (const [column, choice] of choices.entries()) if ((values[column] ?? 0) > 0.5) chosen[choice.job] = choice;
      return chosen;
    },
  };
}

/** Steps with the columns of the choices that cover them. */
function covering(choices: readonly Choice[], steps: number, counts: (choice: Choice) => boolean): number[][] {
  const columns = Array.from({ length: steps }, (): number[] => []);
  for (const [column, choice] of choices.entries()) {
    if (!counts(choice)) continue;
    for (let step = choice.start; step < choice.end; step += 1) columns[step]?.push(column);
  }
  return columns;
}

function crewRows(builder: ProgramBuilder, choices: readonly Choice[], { kinds, grid }: Choices): void {
  for (const [kind, { names }] of kinds.entries()) {
    const taken = (column: number): number => choices[column]?.team[kind] ?? 0;
    for (const columns of covering(choices, grid.steps, ({ team }) => (team[kind] ?? 0) > 0)) {
      if (columns.length > 1)
        builder.row(
          { upper: names.length },
          columns.map((column) => [column, taken(column)] as const),
        );
    }
  }
}

interface StandingColumn {
  readonly column: number;
  readonly area: string;
  readonly step: number;
}

function areaRows(
  builder: ProgramBuilder,
  choices: readonly Choice[],
  request: OutageRequest,
  { grid }: Choices,
  areaOf: (choice: Choice) => string,
): StandingColumn[] {
  const standing: StandingColumn[] = [];
  for (const { name, atOnce, standsAtLoss } of request.areas ?? []) {
    if (atOnce === undefined && standsAtLoss === undefined) continue;
    for (const [step, columns] of covering(choices, grid.steps, (choice) => areaOf(choice) === name).entries()) {
      if (columns.length === 0) continue;
      if (atOnce !== undefined && columns.length > 1)
        builder.row(
          { upper: atOnce },
          columns.map((column) => [column, 1] as const),
        );
      if (standsAtLoss === undefined) continue;
      const stands = builder.column(1, false);
      standing.push({ column: stands, area: name, step });
      for (const job of new Set(columns.map((column) => choices[column]?.job))) {
        const own = columns.filter((column) => choices[column]?.job === job);
        builder.row({ upper: 0 }, [...own.map((column) => [column, 1] as const), [stands, -1]]);
      }
    }
  }
  return standing;
}

function orderRows(
  builder: ProgramBuilder,
  choices: readonly Choice[],
  byJob: readonly (readonly number[])[],
  { jobs }: OutageRequest,
): void {
  const placeOf = new Map(jobs.map(({ key }, place) => [key, place]));
  const at = (column: number): Choice | undefined => choices[column];
  for (const [place, { after = [] }] of jobs.entries()) {
    const own = byJob[place] ?? [];
    for (const key of after) {
      const earlier = byJob[placeOf.get(key) ?? -1] ?? [];
      for (const step of new Set(own.map((column) => at(column)?.start ?? 0))) {
        const begun = own.filter((column) => (at(column)?.start ?? 0) <= step);
        const ended = earlier.filter((column) => (at(column)?.end ?? 0) <= step);
        builder.row({ upper: 0 }, [
          ...begun.map((column) => [column, 1] as const),
          ...ended.map((column) => [column, -1] as const),
        ]);
      }
    }
  }
}

interface FinishColumns {
  /** All ends, ascending. */
  readonly ends: readonly number[];
  /** Column `i` is 1 when the plan goes on beyond end `i`. */
  readonly columns: readonly number[];
  /** Columns that are 1 when one job goes on beyond an end. */
  readonly late: readonly { readonly column: number; readonly job: number; readonly after: number }[];
}

/**
 * Each job's lateness is added up from its last end backward, so that a choice stands in one row and not in all before
 * it.
 */
function finishColumns(
  builder: ProgramBuilder,
  choices: readonly Choice[],
  byJob: readonly (readonly number[])[],
): FinishColumns {
  const ends = [...new Set(choices.map(({ end }) => end))].toSorted((a, b) => a - b);
  const columns = ends.slice(1).map(() => builder.column(1, false));
  const late: { column: number; job: number; after: number }[] = [];
  for (const [job, own] of byJob.entries()) {
    const ending = new Map<number, number[]>();
    for (const column of own) {
      const end = choices[column]?.end ?? 0;
      ending.set(end, [...(ending.get(end) ?? []), column]);
    }
    let later: number | undefined;
    for (let index = columns.length - 1; index >= 0; index -= 1) {
      const here = ending.get(ends[index + 1] ?? 0) ?? [];
      const beyond = columns[index];
      if (beyond === undefined || (here.length === 0 && later === undefined)) continue;
      const column = builder.column(1, false);
      late.push({ column, job, after: ends[index] ?? 0 });
      builder.row({ lower: 0, upper: 0 }, [
        [column, 1],
        ...here.map((one) => [one, -1] as const),
        ...(later === undefined ? [] : [[later, -1] as const]),
      ]);
      builder.row({ upper: 0 }, [
        [column, 1],
        [beyond, -1],
      ]);
      later = column;
    }
  }
  return { ends, columns, late };
}
