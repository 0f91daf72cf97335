import { withShownMark } from '../units/shown-mark.ts';
import { belts } from '../../sheets/belts/index.ts';
import { isComputed } from '../sheet/declaration.ts';
import { isWords } from '../units/quantities.ts';
import { Belt } from '../records/belt.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import { type Effect, effects, type Turn, turns } from '../what-if/effects.ts';
import { anyFactor } from '../what-if/any-factor.ts';
import { factorNamed } from '../what-if/known-factors.ts';
import { type Goal, typedGoal } from '../what-if/goal.ts';
import { type Solved, solvedBelt } from '../what-if/solved-belt.ts';
import { ChangeRefused } from '../what-if/typed-change.ts';
import { type TypedRange, typedRange } from '../what-if/typed-range.ts';
import { nearestSolution } from '../what-if/nearest-solution.ts';
import { type Variant, variantSheet, variantsOf } from '../what-if/variants.ts';
import { variantDifferences, type VariantDifferences } from '../what-if/variant-differences.ts';
import type { BookState } from '../workbook/state.ts';
import type { CellEdit } from '../workbook/state-changes.ts';
import { Chances } from './chances.ts';
import type { Desk } from './desk.ts';

/** Whether what was found in a book holds of another state of it: variants and looks change no figure. */
export function stillHolds(found: BookState, now: BookState): boolean {
  const computing = ({ sheets }: BookState): BookState['sheets'] => sheets.filter(({ name }) => name !== variantSheet);
  const [before, after] = [computing(found), computing(now)];
  return (
    found.units === now.units &&
    before.length === after.length &&
    before.every((sheet, place) => sheet === after[place])
  );
}

/** What the panel What if was asked, and what was found; nothing of it is kept when the page is left. */

interface Asked {
  goal: string;
  /** '' for every input. */
  by: string;
  /** Where the input that is named is tried, as it is typed. */
  range: TypedRange;
  answer:
    | { readonly of: 'nothing' }
    | { readonly of: 'refusal'; readonly why: string }
    | { readonly of: 'solved'; readonly state: BookState; readonly record: number; readonly solved: readonly Solved[] };
  ranked:
    | {
        readonly state: BookState;
        readonly record: number;
        readonly header: BeltHeader;
        readonly list: readonly Effect[];
      }
    | undefined;
  turned:
    | {
        readonly state: BookState;
        readonly record: number;
        readonly header: BeltHeader;
        readonly list: readonly Turn[];
      }
    | undefined;
  differences: { readonly state: BookState; readonly all: readonly (VariantDifferences | string)[] } | undefined;
  version: number;
}

const asked: Asked = {
  goal: '',
  by: '',
  range: {},
  answer: { of: 'nothing' },
  ranked: undefined,
  turned: undefined,
  differences: undefined,
  version: 0,
};

export const whatIfAsked: Readonly<Asked> = asked;

function changed(desk: Desk): void {
  asked.version += 1;
  desk.changed();
}

export function askGoal(goal: string): void {
  asked.goal = goal;
}

export function askBy(desk: Desk, by: string): void {
  asked.by = by;
  asked.range = {};
  changed(desk);
}

/** The computed column that the selection stands in; Verdict where there is none. */
export function wantedColumn({ selection, sheet }: Desk): BeltHeader {
  const column = sheet === belts.name ? belts.columns[selection.place.column] : undefined;
  return column !== undefined && isComputed(column) ? column.header : 'Verdict';
}

/** A goal to begin with: that a check passes, or the present number as a limit, to be changed. */
export function proposedGoal(desk: Desk, record: number): string {
  const header = wantedColumn(desk);
  const column = belts.columns.find((one) => one.header === header);
  const value = desk.book.read(belts.name, record, header);
  if (column === undefined || isWords(column.kind)) return header.endsWith(' check') ? header : 'Verdict';
  return `${header} <= ${withShownMark(String(typeof value === 'number' ? Number(value.toPrecision(4)) : 0))}`;
}

/** What ends and steps are called in the panel. */
const rangeWords = { from: 'From', to: 'To', step: 'Steps of' } as const;

function solvedBy(belt: Belt, goal: Goal, by: string): Solved {
  const factor = factorNamed(belt.book, by);
  return solvedBelt(
    belt,
    goal,
    factor,
    typedRange(factor, belt.book, asked.range, (end) => rangeWords[end]),
  );
}

export function askRange(end: keyof typeof rangeWords, typed: string): void {
  asked.range = { ...asked.range, [end]: typed };
}

export function solve(desk: Desk, record: number): void {
  const { book } = desk;
  const belt = new Belt(book, record);
  try {
    const goal: Goal = typedGoal(book, asked.goal === '' ? proposedGoal(desk, record) : asked.goal);
    const solved = asked.by === '' ? anyFactor(belt, goal) : [solvedBy(belt, goal, asked.by)];
    asked.answer = { of: 'solved', state: book.state, record, solved };
  } catch (error) {
    if (!(error instanceof ChangeRefused)) throw error;
    asked.answer = { of: 'refusal', why: error.message };
  }
  changed(desk);
}

/** Ranks what a figure depends on; asked for, since it takes some tenths of a second. */
export function rankInputs(desk: Desk, record: number, header: BeltHeader): void {
  asked.ranked = { state: desk.book.state, record, header, list: effects(new Belt(desk.book, record), header) };
  changed(desk);
}

/** Finds what turns a verdict; asked for, since it takes a second. */
export function findTurns(desk: Desk, record: number, header: BeltHeader): void {
  asked.turned = { state: desk.book.state, record, header, list: turns(new Belt(desk.book, record), header) };
  changed(desk);
}

/** Draws for one belt: some tenths of a second. */
export const draws = 1000;

let known: { readonly desk: Desk; readonly chances: Chances } | undefined;

/** What was drawn by chance, and what is being drawn. */
export function chancesOf(desk: Desk): Chances {
  if (known?.desk !== desk) known = { desk, chances: new Chances(() => changed(desk)) };
  return known.chances;
}

/** The edits that enter the solution nearest to the present value; undefined where there is none. */
export function solutionEdits(solved: Solved): CellEdit[] | undefined {
  const value = nearestSolution(solved);
  if (value === undefined) return undefined;
  const { belt, factor } = solved;
  return editsTo(belt, factor, value);
}

/** The belts that variants are compared for: the selected ones where several are, else all. */
export function comparedRecords({ book, sheet, selection }: Desk): readonly number[] {
  const all = [...book.sheet(belts.name).rows.keys()];
  const selected = sheet === belts.name ? selection.records.filter((record) => record < all.length) : [];
  return selected.length > 1 ? selected : all;
}

/** Compares every variant with the book as it is; one that can't be made is told by why. */
export function compareVariants(desk: Desk): void {
  const { book } = desk;
  const records = comparedRecords(desk);
  const compared = (variant: Variant): VariantDifferences | string => {
    try {
      return variantDifferences(book, variant, records);
    } catch (error) {
      if (error instanceof ChangeRefused) return error.message;
      throw error;
    }
  };
  asked.differences = { state: book.state, all: variantsOf(book).map(compared) };
  changed(desk);
}

/** The edits that give a factor of a belt a value; another skew replaces the present one. */
export const editsTo = (belt: Belt, factor: Solved['factor'], value: number | string): CellEdit[] =>
  factor.name === 'Skew' && typeof value === 'number'
    ? belt.editsAt(value)
    : [{ ...factor.place(belt), content: value }];
