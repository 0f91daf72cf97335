import { type BeltHeader } from '../../sheets/index.ts';
import { seriesColumn, seriesNames, skewColumn } from '../advice/skew-question.ts';
import { newJointChecks } from '../../sheets/belts/check-columns.ts';
import { verdictOf } from '../functions/checks.ts';
import type { Value } from '../formula/values.ts';
import { belts } from '../../sheets/belts/index.ts';
import { compiledSheets } from '../workbook/declared.ts';
import { columnDependents } from '../workbook/dependence.ts';
import { Belt } from '../records/belt.ts';
import type { SupposedInputs } from '../workbook/supposition.ts';
import type { Workbook } from '../workbook/workbook.ts';

/** Joints that a belt might have, asked of the same checks as its own, a column at a time: most fail one early. */

const skewPosition = compiledSheets.get(belts.name)?.position.get(skewColumn) ?? -1;
const followSkew = new Set(
  columnDependents(belts.name, skewPosition).flatMap(({ sheet, column }) =>
    sheet === belts.name ? (belts.columns[column]?.header ?? []) : [],
  ),
);

/** Checks that say the same at every skew. */
const ofSeries = newJointChecks.filter(({ header }) => !followSkew.has(header));
const ofSkew = newJointChecks.filter(({ header }) => followSkew.has(header));

const costColumns = ['Parts cost', 'Labour hours', 'Downtime', 'Joint takes'] as const;
export type TrialCosts = Readonly<Record<(typeof costColumns)[number], number>>;

/** A joint that is put in the place of its like, as it is from the second one on. */
const renewal = (skew: number): SupposedInputs<'Belts'> => ({
  [skewColumn]: skew,
  Replaces: skew === 0 ? 'square joint' : 'same skew',
  'Replaced skew': null,
  Insert: null,
});

export class JointTrials {
  readonly #book: Workbook;
  readonly series: readonly (string | number)[];

  constructor(book: Workbook) {
    this.#book = book;
    this.series = seriesNames(book);
  }

  #value(record: number, series: string | number, joint: SupposedInputs<'Belts'>, wanted: BeltHeader): Value {
    const row = this.#book.whatIf(belts.name, record, { ...joint, [seriesColumn]: series }, { wanted });
    return row[this.#book.column(belts.name, wanted)] ?? null;
  }

  #failing(record: number, series: string | number, skew: number, checks: typeof newJointChecks): string | undefined {
    const joint = new Belt(this.#book, record).atSkew(skew);
    return checks.find(({ header }) => {
      const verdict = verdictOf(this.#value(record, series, joint, header));
      return verdict !== 'fits' && verdict !== 'tight';
    })?.word;
  }

  /** The first check that a series does not pass at any skew; undefined when the skew decides. */
  againstSeries(record: number, series: string | number): string | undefined {
    return this.#failing(record, series, 0, ofSeries);
  }

  /** The first check that a joint does not pass; of a series that `againstSeries` has nothing against. */
  againstSkew(record: number, series: string | number, skew: number): string | undefined {
    return this.#failing(record, series, skew, ofSkew);
  }

  /** All checks that a joint does not pass which renews its like, year after year. */
  against(
    record: number,
    series: string | number,
    skew: number,
  ): { readonly word: string; readonly verdict: 'fails' | 'not known' }[] {
    return newJointChecks.flatMap(({ header, word }) => {
      const verdict = verdictOf(this.#value(record, series, renewal(skew), header));
      return verdict === 'fails' || verdict === 'not known' ? [{ word, verdict }] : [];
    });
  }

  /** What a joint costs that renews its like; undefined when a figure is not known. */
  costs(record: number, series: string | number, skew: number): TrialCosts | undefined {
    const figures = costColumns.map((header) => [header, this.#value(record, series, renewal(skew), header)] as const);
    return figures.every(([, value]) => typeof value === 'number')
      ? (Object.fromEntries(figures) as TrialCosts)
      : undefined;
  }
}
