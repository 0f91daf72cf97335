import { type Verdict, verdictOf } from '../functions/checks.ts';
import { Belt } from '../records/belt.ts';
import { columnNames, type Name } from '../records/inputs.ts';
import { numberIn } from '../formula/values.ts';
import { skew } from '../functions/parameters.ts';
import { type Evaluate, type Outcome, skewSteps } from './skew-advisor.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { newJointChecks, type NewJointCheckWord } from '../../sheets/belts/check-columns.ts';
import { belts } from '../../sheets/belts/index.ts';
import { plateSeries } from '../../sheets/series/plate-series.ts';

/** What the skew advisor asks the book of one belt: every check and figure at another skew and plate series. */

/** The figures that a skew costs, by their columns of Belts, in the order in which they are shown. */
export const figureColumns = [
  'Plates',
  'Strip per joint',
  'Joint takes',
  'Labour hours',
  'Downtime',
  'Joint cost',
] as const;
export type FigureColumn = (typeof figureColumns)[number];
/** The minimum pulley of the joint. */
export const pulleyColumn = 'Joint minimum pulley';
type PulleyColumn = typeof pulleyColumn;

export type AskedCheck = NewJointCheckWord;
export const askedChecks: readonly AskedCheck[] = newJointChecks.map(({ word }) => word);

/** Skews are marked out on a belt to a tenth of a degree. */
const parts = 10;
export const precision = 1 / parts;
/** Skews of the table; what a joint does between two of them is not seen unless it passes at one. */
export const tableSkews: readonly number[] = skewSteps(skew.max, 0.5);

/** The next skew up that can be marked out. */
export const markedOut = (wanted: number): number => Math.max(0, Math.ceil(wanted * parts - 1e-6)) / parts;

/** Headers of the cells that a skew is set in. */
export const skewColumn = 'Skew';
export const seriesColumn = 'Plate series';

/** The plate series of the book, in its order, each name once. */
export const seriesNames = (book: Workbook): readonly Name[] => columnNames(book, plateSeries.name, plateSeries.key);

/**
 * Every check and figure of a belt at skews that can be marked out, rounded up to them, and at any plate series.
 *
 * The joint's minimum pulley is one of the figures. What was asked once is kept, so ask anew after a change of the
 * book.
 */
export function beltEvaluation(book: Workbook, record: number): Evaluate<AskedCheck, FigureColumn | PulleyColumn> {
  const belt = new Belt(book, record);
  const names = new Map(seriesNames(book).map((name) => [String(name), name]));
  const checkPlaces = newJointChecks.map(({ header, word }) => ({ word, column: book.column(belts.name, header) }));
  const figurePlaces = ([...figureColumns, pulleyColumn] as const).map((header) => ({
    header,
    column: book.column(belts.name, header),
  }));
  const known = new Map<string, Outcome<AskedCheck, FigureColumn | PulleyColumn>>();
  return (wanted, series) => {
    const skew = markedOut(wanted);
    const key = `${skew} ${series}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const row = book.whatIf(belts.name, record, { ...belt.atSkew(skew), [seriesColumn]: names.get(series) ?? series });
    const outcome = {
      verdicts: Object.fromEntries(
        checkPlaces.map(({ word, column }) => [word, verdictOf(row[column] ?? null)]),
      ) as Record<AskedCheck, Verdict>,
      figures: Object.fromEntries(figurePlaces.map(({ header, column }) => [header, numberIn(row[column])])) as Record<
        FigureColumn | PulleyColumn,
        number | undefined
      >,
    };
    known.set(key, outcome);
    return outcome;
  };
}
