import { usualRanges } from '../../sheets/belts/usual-ranges.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import type { Value } from '../formula/values.ts';
import type { Belt, Change } from '../records/belt.ts';
import { type Input, inputAt, type Name } from '../records/inputs.ts';
import { usualPulleys } from '../records/usual-pulleys.ts';
import { amount, digitsOf } from '../sheet/words.ts';
import { converted, isWords, type QuantityKind, type UnitSystem } from '../units/quantities.ts';
import type { CellPlace } from '../workbook/place.ts';
import type { Steps } from './solutions.ts';

/**
 * What can be changed to see what follows: an input of a belt, a named value that every belt follows, or a cell of
 * another sheet, as a plate's figure or a pulley's.
 */
export interface Factor {
  /** Its column's header, the named value's name, or what stands for the cell: "Plate series!Lapwing:Pitch". */
  readonly name: string;
  readonly kind: QuantityKind;
  readonly of: 'belt' | 'book' | 'cell';
  /** Its cell for a belt. */
  readonly place: (belt: Belt) => CellPlace;
  /** What the book is supposed to hold in it. */
  readonly change: (value: Value) => Change;
  /** The columns of Belts that follow from it. */
  readonly columns: ReadonlySet<number>;
}

export const factorValue = ({ place }: Factor, belt: Belt): Value => belt.book.value(place(belt));

/** What may stand in a factor's cell. */
export const factorInput = ({ place }: Factor, belt: Belt): Input | undefined => inputAt(belt.book, place(belt));

/** Digits of a number at most, however small it is. */
const mostDigits = 12;

/** A value of a factor in words, as its column shows it, in three figures at least. */
export function factorWords(factor: Factor, belt: Belt, value: Value, digits?: number): string {
  if (typeof value !== 'number') return value === null || value === '' ? 'empty' : String(value);
  const input = factorInput(factor, belt);
  const usual = input === undefined ? 0 : (digitsOf(input, belt.units) ?? 0);
  const figures = value === 0 ? 0 : Math.ceil(2 - Math.log10(Math.abs(value)));
  const told = digits ?? Math.min(mostDigits, Math.max(usual, figures));
  return amount(value, { ...input, kind: factor.kind, digits: told }, belt.units);
}

/** Two values of a factor as a range, in as many digits as tell its ends well apart. */
export function rangeWords(factor: Factor, belt: Belt, low: number, high: number): string {
  const input = factorInput(factor, belt);
  const usual = input === undefined ? 0 : (digitsOf(input, belt.units) ?? 0);
  const apart = low === high ? 0 : Math.ceil(1 - Math.log10(Math.abs(high - low) / 2));
  const digits = Math.min(mostDigits, Math.max(usual, apart));
  return `${factorWords(factor, belt, low, digits)} to ${factorWords(factor, belt, high, digits)}`;
}

/** The words or names that a factor is chosen from; undefined for one that is a number, or several words. */
export function factorChoices(factor: Factor, belt: Belt): readonly Name[] | undefined {
  if (!isWords(factor.kind)) return undefined;
  const input = factorInput(factor, belt);
  return input?.several === true ? undefined : input?.choices;
}

/** Steps as a person sets them: half a degree, a whole millimetre, a sixteenth of an inch. Chosen. */
const usualSteps: Readonly<Partial<Record<QuantityKind, Readonly<Record<UnitSystem, number>>>>> = {
  angle: { metric: 0.5, us: 0.5 },
  length: { metric: 1, us: 0.0625 },
  distance: { metric: 0.1, us: 0.5 },
};

/** A step for a factor: by its kind, else the last digit that its column shows; of a small number a hundredth of it. */
function usualStep({ kind }: Factor, input: Input | undefined, present: Value, units: UnitSystem): number {
  const usual = usualSteps[kind]?.[units];
  if (usual !== undefined) return usual;
  if (kind === 'count' || kind === 'date') return 1;
  const digits = input === undefined ? undefined : digitsOf(input, units);
  const size =
    typeof present === 'number' && present !== 0 ? 10 ** Math.floor(Math.log10(Math.abs(present)) - 2) : 0.01;
  return digits === undefined ? size : Math.min(size, 10 ** -digits);
}

/** What a person says of a range; the rest is what the book allows and what is usual. */
export type AskedRange = Readonly<Partial<Steps>>;

/** How far around its value a factor without limits is varied: down to a tenth, up to ten times. Chosen. */
const around = 10;

/**
 * The steps over which a factor is tried: within what its cell may hold, where that has ends, else within what is usual
 * of it, else around its value. Undefined where there is no value to go around, so that a range must be said.
 */
export function factorSteps(factor: Factor, belt: Belt, asked: AskedRange = {}): Steps | undefined {
  const { units } = belt;
  const input = factorInput(factor, belt);
  const present = factorValue(factor, belt);
  const step = asked.step ?? usualStep(factor, input, present, units);
  const usual = factor.of === 'belt' ? usualRanges[factor.name as BeltHeader] : undefined;
  const bound = (value: number | undefined): number | undefined =>
    value === undefined ? undefined : converted(value, factor.kind, 'metric', units);
  const size = typeof present === 'number' && present !== 0 ? Math.abs(present) : undefined;
  const above = input?.above === undefined ? undefined : (Math.floor(input.above / step + 1e-9) + 1) * step;
  const low = input?.min ?? above;
  const from = asked.from ?? (usual === undefined ? low : Math.max(low ?? -Infinity, bound(usual.min) ?? -Infinity));
  const to = asked.to ?? input?.max ?? bound(usual?.max);
  const [first, last] = [
    from ??
      (size === undefined || typeof present !== 'number' ? undefined : present < 0 ? -around * size : size / around),
    to ??
      (size === undefined || typeof present !== 'number' ? undefined : present < 0 ? size / -around : around * size),
  ];
  return first === undefined || last === undefined || !(first <= last) ? undefined : { from: first, to: last, step };
}

/** Diameters that can be had, in the book's unit; undefined for what is no pulley's. */
export function standardSizes({ name }: Factor, belt: Belt): readonly number[] | undefined {
  const isPulley = (['Smallest pulley', 'Head pulley', 'Tail pulley'] as const satisfies readonly BeltHeader[]).some(
    (header) => header === name,
  );
  return isPulley ? usualPulleys(belt) : undefined;
}
