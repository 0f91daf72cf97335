import type { Value } from '../../src/formula/values.ts';
import type { UnitSystem } from '../../src/units/quantities.ts';

import type { HeaderIn, NameIn } from '../../src/sheet/declaration.ts';
import type { plateSeries } from '../series/plate-series.ts';
import type { assumptionValues } from '../values/assumptions.ts';
import type { FigureHeader } from './figures.ts';

export type SeriesHeader = HeaderIn<typeof plateSeries>;
export type AssumptionName = NameIn<typeof assumptionValues>;

/**
 * What a check is: one object from which the column of its verdict, its part in the belt's Verdict and Findings, what a
 * finding says and its numbers, cures, help and the reference are made.
 */

/** A pulley of a belt's list that decides a check. */
interface DecidingPulley {
  readonly name: string;
  readonly group: string;
  /** The tension that it stands under, with its unit. */
  readonly tension: string;
}

/** A belt as the words of a check may read it. */
export interface CheckedBelt {
  readonly units: UnitSystem;
  /** The name of its plate series. */
  readonly series: string;
  readonly number: (header: FigureHeader) => number | undefined;
  /** A cell's text, '' where it holds none. */
  readonly text: (header: FigureHeader) => string;
  /** A number as its column shows it, with its unit. */
  readonly shown: (header: FigureHeader) => string;
  /** A cell of its plate series. */
  readonly ofSeries: (header: SeriesHeader) => Value;
  /** The listed pulley that is smallest for the joint or for the carcass; undefined where no listed one decides. */
  readonly pulley: (decides: 'joint' | 'carcass') => DecidingPulley | undefined;
}

export type Words = string | ((belt: CheckedBelt) => string);

/** A cell of a belt, or of its plate series. */
export type CheckedCell =
  | { readonly sheet: 'Belts'; readonly header: FigureHeader }
  | { readonly sheet: 'Plate series'; readonly header: SeriesHeader };

/** A number that a check compares: a cell, or what a formula makes of cells. */
export type ComparedNumber = CheckedCell & {
  /**
   * Arithmetic over the belt's `{Column}`s and named values, without guards against missing and wrong ones. The cell
   * then only says what the number measures and how finely it is told.
   */
  readonly formula?: string;
  /** As a sentence about it begins: "the working tension". */
  readonly label: Words;
};

/** A number that must not be below a minimum, not above a maximum, or neither. */
type NumberComparison = { readonly value: ComparedNumber } & (
  | { readonly minimum: ComparedNumber; readonly maximum?: ComparedNumber }
  | { readonly minimum?: undefined; readonly maximum: ComparedNumber }
);

/** Words that are compared by a formula of their own. */
interface WordComparison {
  readonly verdict: {
    /** Gives one of the verdicts, "not known" on anything missing or wrong. */
    readonly formula: string;
    readonly given: WordSide;
    readonly limit: WordSide;
    /** One sentence of what does not fit, with both sides. */
    readonly message: (belt: CheckedBelt) => string;
  };
}

export interface WordSide {
  readonly label: Words;
  /** null where it can't be told. */
  readonly value: (belt: CheckedBelt) => string | null;
}

/** Cures that the program looks for and tries; src/checks/cures carries each of them out. */
export type CureKind =
  | 'minimum skew'
  | 'maximum skew'
  | 'nearest skews'
  | 'other series'
  | 'larger pulley for the joint'
  | 'larger pulley for the carcass'
  | 'other pulley group'
  | 'skive'
  | 'lower tension'
  | 'lower tension for the belt'
  | 'lower tension for a plate'
  | 'more take-up travel'
  | 'insert'
  | 'new joint';

interface CheckTerms {
  /** As Findings and messages name it. The column of its verdict is called after it: "Take-up check". */
  readonly word: string;
  /** What is compared with what, for help and the reference. */
  readonly doc: string;
  /** Where its limit comes from, for help and the reference. */
  readonly source: string;
  /** The belt's column to look at first when it does not fit. */
  readonly look: FigureHeader;
  /** The named value by which share of a limit a number may be near it before the check is tight; TightMargin else. */
  readonly margin?: AssumptionName;
  /** A further sentence of the message, '' for none. */
  readonly remark?: (belt: CheckedBelt, verdict: 'fails' | 'tight') => string;
  /** What would cure it, the easiest first: kinds that are tried, or sentences of advice, '' for none. */
  readonly cures: readonly (CureKind | ((belt: CheckedBelt) => string))[];
  /**
   * The check is silent while one of these is empty: its cell says "not asked", which counts as fits, and nothing is
   * found. For what few lists give and nobody has to; what a joint must be checked for is not known instead.
   */
  readonly silentWithout?: readonly CheckedCell[];
  /** The worst it says: a check that warns is tight where another would fail. */
  readonly atWorst?: 'tight';
  /** What breaks when it fails can hurt people: a finding of it that fails ends by saying whom to ask. */
  readonly defers?: true;
  /** It is of the joint that is in the belt, and does not count for one still to be made. */
  readonly ofJointInPlace?: true;
}

export type CheckDeclaration = CheckTerms & (NumberComparison | WordComparison);

/** Checks as they stand, their words known as such to the types. */
export const declareChecks = <const Checks extends readonly CheckDeclaration[]>(checks: Checks): Checks => checks;
