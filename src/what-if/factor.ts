import { belts } from '../../sheets/belts/index.ts';
import { usualRanges } from '../../sheets/belts/usual-ranges.ts';
import { type BeltHeader, namedSheets, type ValueName } from '../../sheets/index.ts';
import type { Value } from '../formula/values.ts';
import type { Belt, Change } from '../records/belt.ts';
import { type Input, inputAt, type Name } from '../records/inputs.ts';
import { usualPulleys } from '../records/usual-pulleys.ts';
import { isComputed } from '../sheet/declaration.ts';
import { amount, digitsOf, listed } from '../sheet/words.ts';
import { nearest } from '../units/nearest.ts';
import { converted, isWords, type QuantityKind, type UnitSystem } from '../units/quantities.ts';
import { columnNamed } from '../workbook/declared.ts';
import { columnDependents, nameDependents } from '../workbook/dependence.ts';
import type { CellPlace } from '../workbook/place.ts';
import { BookNames } from '../workbook/names.ts';
import type { Workbook } from '../workbook/workbook.ts';
import type { Steps } from './solutions.ts';
import { cellFactor, plateFactors, pulleyFactors, seriesFactors } from './cell-factors.ts';
import { ChangeRefused, namedPlaces } from './typed-change.ts';

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

const beltsOnly = (followers: readonly { readonly sheet: string; readonly column: number }[]): ReadonlySet<number> =>
  new Set(followers.flatMap(({ sheet, column }) => (sheet === belts.name ? [column] : [])));

function inputFactor(header: BeltHeader, column: number, kind: QuantityKind): Factor {
  return {
    name: header,
    kind,
    of: 'belt',
    place: ({ record }) => ({ sheet: belts.name, record, column }),
    change: (value) => ({ inputs: { [header]: value } }),
    columns: beltsOnly(columnDependents(belts.name, column)),
  };
}

const inputs: readonly Factor[] = belts.columns.flatMap((column, position) =>
  isComputed(column) ? [] : [inputFactor(column.header, position, column.kind)],
);

/** Units are what they are, and a review date is a day, so neither is tried. */
const named: readonly { readonly name: ValueName; readonly kind: QuantityKind }[] = namedSheets.flatMap(
  ({ values, editable }) =>
    editable
      ? // The list of all sheets forgets the names that its parts declare.
        values.flatMap(({ name, kind }) => (kind === 'date' ? [] : [{ name: name as ValueName, kind }]))
      : [],
);

/** The factors of a book; named values that the user has taken out of it are none. */
export function factorsOf(book: Workbook): readonly Factor[] {
  const places = new Map(new BookNames(book.state).places.map((place) => [place.name, place] as const));
  return [
    ...inputs,
    ...named.flatMap(({ name, kind }): Factor[] => {
      const place = places.get(name);
      if (place === undefined) return [];
      const { sheet, record, column } = place;
      return [
        {
          name,
          kind,
          of: 'book',
          place: () => ({ sheet, record, column }),
          change: (value) => ({ named: { [name]: value } }),
          columns: beltsOnly(nameDependents(name)),
        },
      ];
    }),
  ];
}

/** What all belts share: named values, figures of plates. */
export const sharedFactors = (book: Workbook): readonly Factor[] => [
  ...factorsOf(book).filter(({ of }) => of === 'book'),
  ...seriesFactors(book),
];

/** What a belt has of its own: its inputs, figures of its pulleys. */
export const beltFactors = (belt: Belt): readonly Factor[] => [...inputs, ...pulleyFactors(belt)];

/** All that a belt follows from. */
export const factorsFor = (belt: Belt): readonly Factor[] => [
  ...factorsOf(belt.book),
  ...plateFactors(belt),
  ...pulleyFactors(belt),
];

/** The one cell of another sheet that is typed as "Plate series!Lapwing:Pitch". */
function typedCell(book: Workbook, typed: string): Factor {
  const places = namedPlaces(book, typed);
  const [place] = places;
  if (place === undefined || places.length > 1)
    throw new ChangeRefused(`"${typed}" stands for ${places.length} cells. Name one of them to vary it.`);
  const header = book.columnAt(place)?.header ?? '';
  if (place.sheet === belts.name)
    throw new ChangeRefused(`An input of the belt itself is named by its column alone: ${header}.`);
  const found = cellFactor(book, place);
  if (found !== undefined) return found;
  throw new ChangeRefused(
    book.columnAt(place)?.computed === true
      ? `${typed} is calculated, so it cannot be varied. Name an input.`
      : `No belt follows from ${typed}. Name another figure.`,
  );
}

/** The factor of a name, or of a cell of another sheet, as people type it. Throws ChangeRefused where there is none. */
export function factorNamed(book: Workbook, typed: string): Factor {
  const all = factorsOf(book);
  const column = columnNamed(book.sheet(belts.name), typed.trim());
  const header = column === undefined ? undefined : belts.columns[column]?.header;
  const found =
    all.find(({ name }) => name === header) ??
    all.find(({ name }) => name.toLowerCase() === typed.trim().toLowerCase());
  if (found !== undefined) return found;
  if (header !== undefined)
    throw new ChangeRefused(`${header} is calculated, so it cannot be varied. Name an input or a named value.`);
  if (typed.includes(':')) return typedCell(book, typed);
  const near = nearest(
    typed,
    all.map(({ name }) => name),
  );
  throw new ChangeRefused(
    `There is no input and no named value ` +
      `"${typed}".${near.length === 0 ? '' : ` Did you mean ` + `${listed(near, 'or')}?`}`,
  );
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
