import { type BeltHeader } from '../../sheets/index.ts';
import { cases, type CaseWord } from '../../sheets/belts/load-cases.ts';
import { isFault, type Value } from '../formula/values.ts';
import { type Explanation, explained } from '../workbook/explanation.ts';
import type { CellPlace } from '../workbook/place.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { Belt } from '../records/belt.ts';

/**
 * A belt's tension by every way that its record allows, side by side: what the page shows and lets a user choose from.
 */

/** A figure of a belt with the cell that it stands in. */
export interface BeltFigure {
  readonly header: BeltHeader;
  readonly place: CellPlace;
  readonly value: number | undefined;
}

export interface Route {
  /** The word by which a belt names the method. */
  readonly name: string;
  readonly tension: BeltFigure;
  /** Whether the working tension is taken from it. */
  readonly used: boolean;
  /** Inputs that it lacks; empty when it has a tension, or when its inputs are not allowed. */
  readonly lacks: readonly string[];
  /** Why it has no tension though nothing is lacking. */
  readonly wrong: string | undefined;
}

interface LoadCase {
  readonly name: string;
  readonly pull: BeltFigure;
  /** The maximum anywhere on the loop. */
  readonly most: BeltFigure;
}

export interface BeltPull {
  readonly working: BeltFigure;
  /** The word of the method in use, or "not known". */
  readonly from: string;
  /** The method that the user selected, if any. */
  readonly forced: string | undefined;
  /** The cell that selects a method. */
  readonly choice: CellPlace;
  readonly routes: readonly Route[];
  /** Share of the largest by which the methods differ, and the margin that the book sets for it. */
  readonly difference: number | undefined;
  readonly margin: number | undefined;
  readonly cases: readonly LoadCase[];
  /** Tensions around the loop in any load case. */
  readonly points: readonly { readonly name: string; readonly force: BeltFigure }[];
}

/** Each method with the column of its tension, the surest first. */
const routeColumns: readonly (readonly [name: string, header: BeltHeader])[] = [
  ['entered', 'Known tension'],
  ['resistances', 'Tension by resistances'],
  ['power', 'Tension by power'],
  ['belt rating', 'Belt rating used'],
];

const caseNames: Readonly<Record<CaseWord, string>> = {
  empty: 'empty',
  loaded: 'loaded',
  'starting empty': 'empty, starting',
  starting: 'loaded, starting',
  'low friction': 'loaded, low friction',
  braking: 'loaded, low friction, braking',
  'braking empty': 'empty, low friction, braking',
  'at rest': 'loaded, stopped on the incline',
};

const pointColumns: readonly (readonly [name: string, header: BeltHeader])[] = [
  ['slack side, at the take-up', 'Slack-side tension'],
  ['behind the tail', 'Tail tension'],
  ['maximum in the loop', 'Maximum tension'],
];

const figure = (belt: Belt, header: BeltHeader): BeltFigure => ({
  header,
  place: belt.place(header),
  value: belt.number(header),
});

const isNothing = (value: Value): boolean => value === null || value === '' || isFault(value);

/** Empty inputs that keep a value from being calculated: one that has a value needs none of those behind it. */
function lacking(item: Explanation): Explanation[] {
  if (!isNothing(item.value)) return [];
  return item.origin === 'empty' ? [item] : item.parts.flatMap(lacking);
}

function route(belt: Belt, [name, header]: readonly [string, BeltHeader], from: string): Route {
  const tension = figure(belt, header);
  const used = name === from;
  if (tension.value !== undefined) return { name, tension, used, lacks: [], wrong: undefined };
  const value = belt.value(header);
  const lacks = [...new Set(lacking(explained(belt.book, tension.place)).map((item) => item.header))];
  return {
    name,
    tension,
    used,
    lacks,
    wrong: isFault(value) ? value.message : lacks.length === 0 ? 'it does not follow from the data given' : undefined,
  };
}

/** A belt's tension by all methods, in the load cases and around the loop. */
export function beltPull(book: Workbook, record: number): BeltPull {
  const belt = new Belt(book, record);
  const from = belt.text('Tension from').toLowerCase();
  const forced = belt.text('Tension method').toLowerCase();
  return {
    working: figure(belt, 'Working tension'),
    from: from === '' ? 'not known' : from,
    forced: forced === '' ? undefined : forced,
    choice: belt.place('Tension method'),
    routes: routeColumns.map((row) => route(belt, row, from)),
    difference: belt.number('Method difference'),
    margin: belt.named('MethodMargin'),
    cases: cases.map(({ word }) => ({
      name: caseNames[word],
      pull: figure(belt, `Effective tension ${word}`),
      most: figure(belt, `Maximum tension ${word}`),
    })),
    points: pointColumns.map(([name, header]) => ({ name, force: figure(belt, header) })),
  };
}
