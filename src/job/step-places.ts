import { fixedText, shortText } from '../units/shown-mark.ts';
import type { EngineeringFunction } from '../formula/define.ts';
import { squareDiagonal } from '../functions/cut.ts';
import { tightenTurn } from '../functions/plates.ts';
import { type QuantityKind, unitOf, type UnitSystem } from '../units/quantities.ts';

/** What a step's text may name in braces, and how its value is written. */

export interface StepPlace {
  readonly name: string;
  readonly kind: QuantityKind;
  readonly doc: string;
  /** Digits after the point; as many as needed, up to 2, where it is not said. */
  readonly digits?: Readonly<Record<UnitSystem, number>>;
}

export type StepValue = number | string | null | undefined;
export type StepValues = Readonly<Record<string, StepValue>>;

const whole = { metric: 0, us: 2 } as const;
const fine = { metric: 1, us: 3 } as const;
const length = (name: string, doc: string, digits: Readonly<Record<UnitSystem, number>> = whole): StepPlace => ({
  name,
  kind: 'length',
  doc,
  digits,
});
const count = (name: string, doc: string): StepPlace => ({ name, kind: 'count', doc });
const text = (name: string, doc: string): StepPlace => ({ name, kind: 'text', doc });

/** Named like the columns of Belts and of Plate series where there is one. */
export const stepPlaces: readonly StepPlace[] = [
  text('Belt', "the belt's name"),
  text('Plate series', 'the series that the plates are of'),
  length('Width', "the belt's width"),
  length('Thickness', 'of the whole belt', fine),
  { name: 'Skew', kind: 'angle', doc: 'of the cut from the square line', digits: { metric: 1, us: 1 } },
  text('Skew hand', 'the edge with the marked corner, looking in the direction of travel: right or left'),
  length('Cut length', 'along the cut, edge to edge'),
  length('Edge offset', 'along the edge from the square line to the cut'),
  length('Diagonal distance', 'distance to measure along both edges to prove the square line'),
  length('Diagonal', 'length of both diagonals when the line is square'),
  count('Midpoints', 'places at which the middle of the width is marked'),
  length('Centre line length', 'length of belt over which the midpoints are spread'),
  length('Belt lost to skew', 'belt lost to the skew, on the centre line'),
  length('Joint takes', 'belt that the joint takes from the loop, by what it replaces'),
  length('Travel needed', 'take-up travel for what the joint takes and for the stretch of the belt'),
  length('Take-up travel', 'travel still available in the take-up'),
  count('Plates', 'in the joint'),
  count('Bolts', 'in the joint'),
  length('Bolt length', 'of the bolts'),
  count('Holes per end', 'holes in one belt end'),
  length('Punch size', 'diameter of the holes', fine),
  length('Hole setback', 'from the cut to the holes, square to the cut', fine),
  length('Pitch', 'from plate to plate along the cut', fine),
  length('Edge clearance', 'clear distance at each end of the cut'),
  length('Skive depth', 'cover cut away under the plates; 0 if it is not skived', fine),
  length('Clamped thickness', 'belt between the plates', fine),
  count('Strip pieces', 'strips in the joint'),
  count('Strips below', 'strips under the belt'),
  count('Strips above', 'strips over the belt'),
  length('Strip length each', 'length of one strip'),
  text('Tightening order', 'the plates in the order of tightening, counted from the near edge'),
  length('Smallest pulley', 'the smallest pulley the belt runs over'),
  { name: 'First hours', kind: 'hours', doc: 'running hours after which the joint is tightened again' },
];

/** A value with its unit; 'not known' for a missing one. */
export type ShowValue = (value: number, place: StepPlace, units: UnitSystem) => string;

/** Decimal figures; a length in inches as a decimal too. Give another to write fractions of an inch. */
export const shownValue: ShowValue = (value, { kind, digits }, units) => {
  const figures = digits === undefined ? shortText(value, 2) : fixedText(value, digits[units]);
  const unit = unitOf(kind, units);
  const shown = /^-0(?:[.,]0*)?$/.test(figures) ? figures.slice(1) : figures;
  return unit === '' ? shown : unit === '°' ? `${shown}°` : `${shown} ${unit}`;
};

/** A function's number; undefined where it refuses. */
function answer(definition: EngineeringFunction, args: readonly number[]): number | undefined {
  const value = definition.evaluate(args);
  return typeof value === 'number' ? value : undefined;
}

/**
 * Plates in the order of their turns, runs of neighbours put together: "1 to 4, then 7 to 5". For tests: held to the
 * printed order.
 */
export function tighteningOrder(plates: number): string {
  const turn = (plate: number): number => answer(tightenTurn, [plates, plate]) ?? 0;
  const order = Array.from({ length: plates }, (_, index) => index + 1).toSorted((a, b) => turn(a) - turn(b));
  const runs: number[][] = [];
  for (const plate of order) {
    const run = runs.at(-1);
    const [before, last] = [run?.at(-2), run?.at(-1)];
    const goesOn =
      last !== undefined && Math.abs(plate - last) === 1 && (before === undefined || plate - last === last - before);
    if (run !== undefined && goesOn) run.push(plate);
    else runs.push([plate]);
  }
  return runs.map((run) => (run.length === 1 ? `${run[0]}` : `${run[0]} to ${run.at(-1)}`)).join(', then ');
}

/**
 * Values that follow from others: diagonals, midpoints, tightening order; those that can't be worked out stay
 * away.
 *
 * The rectangle that proves the square line reaches as far along the belt as the belt is wide, and the centre line
 * twice that: common practice, no source. A value that is given is kept.
 */
export function derivedValues(given: StepValues): StepValues {
  const number = (name: string): number | undefined => {
    const value = given[name];
    return typeof value === 'number' && Number.isFinite(value) ? value : undefined;
  };
  const [width, plates] = [number('Width'), number('Plates')];
  const back = number('Diagonal distance') ?? width;
  const derived: Record<string, StepValue> = {
    Midpoints: 5,
    'Centre line length': width === undefined ? undefined : 2 * width,
    'Diagonal distance': back,
    Diagonal: width === undefined || back === undefined ? undefined : answer(squareDiagonal, [width, back]),
    'Tightening order':
      plates === undefined || !Number.isInteger(plates) || plates < 1 ? undefined : tighteningOrder(plates),
  };
  const kept = Object.entries(given).filter(([, value]) => value !== undefined && value !== null && value !== '');
  return { ...derived, ...Object.fromEntries(kept) };
}
