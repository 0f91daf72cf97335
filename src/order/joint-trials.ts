import { askedChecks, seriesColumn, seriesNames, skewColumn } from '../advice/skew-question.ts';
import { verdictOf } from '../records/belt.ts';
import type { Value } from '../formula/values.ts';
import { precedents } from '../sheet/declared-formula.ts';
import { belts, checkColumns } from '../../sheets/belts/index.ts';
import { compiledSheets } from '../workbook/declared.ts';
import type { Workbook } from '../workbook/workbook.ts';

/** Joints that a belt might have, asked of the same checks as its own, a column at a time: most fail one early. */

const asked = checkColumns.filter(({ word }) => askedChecks.some((check) => check === word));

/** Whether a column of Belts follows from another of the same row. */
function follows(header: string, from: string, seen = new Set<string>()): boolean {
  if (header === from) return true;
  if (seen.has(header)) return false;
  seen.add(header);
  const column = belts.columns.find((one) => one.header === header);
  return column !== undefined && precedents(column).some((before) => follows(before, from, seen));
}

/** Checks that say the same at every skew. */
const ofSeries = asked.filter(({ header }) => !follows(header, skewColumn));
const ofSkew = asked.filter(({ header }) => follows(header, skewColumn));

export const costColumns = ['Parts cost', 'Crew hours', 'Outage hours', 'Belt consumed'] as const;
export type TrialCosts = Readonly<Record<(typeof costColumns)[number], number>>;

export class JointTrials {
  readonly #book: Workbook;
  readonly series: readonly (string | number)[];

  constructor(book: Workbook) {
    this.#book = book;
    this.series = seriesNames(book);
  }

  #value(record: number, series: string | number, skew: number, wanted: string): Value {
    const position = compiledSheets.get(belts.name)?.position.get(wanted) ?? -1;
    return (
      this.#book.whatIf(belts.name, record, { [skewColumn]: skew, [seriesColumn]: series }, { wanted })[position] ??
      null
    );
  }

  #failing(record: number, series: string | number, skew: number, checks: typeof asked): string | undefined {
    return checks.find(({ header }) => {
      const verdict = verdictOf(this.#value(record, series, skew, header));
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

  /** All checks that a joint does not pass. */
  against(
    record: number,
    series: string | number,
    skew: number,
  ): { readonly word: string; readonly verdict: 'fails' | 'not known' }[] {
    return asked.flatMap(({ header, word }) => {
      const verdict = verdictOf(this.#value(record, series, skew, header));
      return verdict === 'fails' || verdict === 'not known' ? [{ word, verdict }] : [];
    });
  }

  /** What a joint costs; undefined when a figure is not known. */
  costs(record: number, series: string | number, skew: number): TrialCosts | undefined {
    const figures = costColumns.map((header) => [header, this.#value(record, series, skew, header)] as const);
    return figures.every(([, value]) => typeof value === 'number')
      ? (Object.fromEntries(figures) as TrialCosts)
      : undefined;
  }
}
