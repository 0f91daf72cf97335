import { cellName, recordInRow } from '../formula/address.ts';
import type { Value } from '../formula/values.ts';
import type { Column } from '../sheet/declaration.ts';
import { belts, checkColumns } from '../../sheets/belts/index.ts';
import type { BeltHeader, SeriesHeader, ValueName } from '../../sheets/index.ts';
import { plateSeries } from '../../sheets/series/plate-series.ts';
import type { UnitSystem } from '../units/quantities.ts';
import type { SupposedInputs, SupposedNames } from '../workbook/supposition.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { isVerdict, type Verdict } from '../functions/checks.ts';

/** One belt as the checks see it: its values, its plate series' figures, and what would be if some were others. */

/** Values by header that are supposed to be others: inputs of the belt, or named values of the book. */
export interface Change {
  readonly inputs?: SupposedInputs<'Belts'>;
  readonly named?: SupposedNames;
}

/** The header of a check's column. */
export type CheckHeader = (typeof checkColumns)[number]['header'];

/** The word by which Findings names a check. */
export type CheckWord = (typeof checkColumns)[number]['word'];

/** A check's cell as a verdict; whatever is no verdict is not known. */
export const verdictOf = (value: Value): Verdict => (isVerdict(value) ? value : 'not known');

const declared = <Header extends string>(columns: readonly Column<Header>[], header: Header): Column<Header> => {
  const column = columns.find((item) => item.header === header);
  if (column === undefined) throw new Error(`there is no column ${header}`);
  return column;
};

export const beltColumn = (header: BeltHeader): Column<BeltHeader> => declared(belts.columns, header);
export const seriesColumn = (header: SeriesHeader): Column<SeriesHeader> => declared(plateSeries.columns, header);

/** What a belt would be after a change. */
export interface Trial {
  readonly value: (header: BeltHeader) => Value;
  readonly verdict: Verdict;
  /** The words of the checks that then have a verdict. */
  readonly with: (verdict: Verdict) => CheckWord[];
}

export class Belt {
  readonly book: Workbook;
  readonly record: number;
  #trials = new Map<string, Trial>();

  constructor(book: Workbook, record: number) {
    this.book = book;
    this.record = record;
  }

  get units(): UnitSystem {
    return this.book.units;
  }

  value(header: BeltHeader): Value {
    return this.book.read(belts.name, this.record, header);
  }

  number(header: BeltHeader): number | undefined {
    const value = this.value(header);
    return typeof value === 'number' ? value : undefined;
  }

  text(header: BeltHeader): string {
    const value = this.value(header);
    return typeof value === 'string' ? value : '';
  }

  verdict(column: CheckHeader | 'Verdict'): Verdict {
    return verdictOf(this.value(column));
  }

  named(name: ValueName): number | undefined {
    const value = this.book.named(name);
    return typeof value === 'number' ? value : undefined;
  }

  cell(header: BeltHeader): string {
    return cellName(belts.name, this.record, this.book.column(belts.name, header));
  }

  /** The record of the belt's plate series in its sheet. */
  get seriesRecord(): number | undefined {
    const row = this.number('Series row');
    return row === undefined ? undefined : recordInRow(row);
  }

  /** A figure of the belt's plate series. */
  ofSeries(header: SeriesHeader): Value {
    const record = this.seriesRecord;
    return record === undefined ? null : this.book.read(plateSeries.name, record, header);
  }

  /** The verdict of one check after a change, worked out alone. */
  checkAfter(column: CheckHeader, { inputs = {}, named = {} }: Change): Verdict {
    const position = this.book.column(belts.name, column);
    return verdictOf(this.book.whatIf(belts.name, this.record, inputs, { named, wanted: column })[position] ?? null);
  }

  /** All of the belt after a change. */
  after(change: Change): Trial {
    const { inputs = {}, named = {} } = change;
    const mark = JSON.stringify([Object.entries(inputs), Object.entries(named)]);
    const known = this.#trials.get(mark);
    if (known !== undefined) return known;
    const row = this.book.whatIf(belts.name, this.record, inputs, { named });
    const value = (header: BeltHeader): Value => row[this.book.column(belts.name, header)] ?? null;
    const trial: Trial = {
      value,
      verdict: verdictOf(value('Verdict')),
      with: (verdict) =>
        checkColumns.flatMap(({ header, word }) => (verdictOf(value(header)) === verdict ? [word] : [])),
    };
    this.#trials.set(mark, trial);
    return trial;
  }
}
