import { cellName, recordInRow } from '../formula/address.ts';
import { isFault, numberIn, textIn, type Value } from '../formula/values.ts';
import type { Column } from '../sheet/declaration.ts';
import { belts, checkColumns } from '../../sheets/belts/index.ts';
import { plateSeries } from '../../sheets/series/plate-series.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { compiledSheets } from '../workbook/declared.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { isVerdict, type Verdict } from '../functions/checks.ts';
import type { CellPlace } from '../workbook/place.ts';
import { usableNumber } from './cell-issue.ts';

/** One belt as all that plan for it see it: its values, its series' figures, and what would be if some were others. */

/** Values by header that are supposed to be others: inputs of the belt, or named values of the book. */
export interface Change {
  readonly inputs?: Readonly<Record<string, Value>>;
  readonly named?: Readonly<Record<string, Value>>;
}

/** A check's cell as a verdict; whatever is no verdict is not known. */
export const verdictOf = (value: Value): Verdict => (isVerdict(value) ? value : 'not known');

const declared = (columns: readonly Column[], header: string): Column => {
  const column = columns.find((item) => item.header === header);
  if (column === undefined) throw new Error(`there is no column ${header}`);
  return column;
};

export const beltColumn = (header: string): Column => declared(belts.columns, header);
export const seriesColumn = (header: string): Column => declared(plateSeries.columns, header);

export const unnamedBelt = 'Belt without a name';

/** What a belt is called where one can not see that it is a belt. */
export const beltTitle = (name: string): string => (name === '' ? unnamedBelt : `Belt ${name}`);

/** Why a belt can't be taken, and the column to look at. */
export interface Missing {
  readonly column: string;
  readonly reason: string;
}

/** What a belt would be after a change. */
export interface Trial {
  readonly value: (header: string) => Value;
  readonly verdict: Verdict;
  /** The words of the checks that then have a verdict. */
  readonly with: (verdict: Verdict) => string[];
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

  /** '' for a belt without one. */
  get name(): string {
    return this.text(belts.key);
  }

  value(header: string): Value {
    return this.book.read(belts.name, this.record, header);
  }

  number(header: string): number | undefined {
    return numberIn(this.value(header));
  }

  /** '' for what is not known. */
  text(header: string): string {
    return textIn(this.value(header));
  }

  /** An input that is given and allowed. */
  given(header: string): number | undefined {
    return usableNumber(this.book, this.place(header));
  }

  /** A number that is at least 0, or what is told of it. */
  needed(header: string): number | Missing {
    const value = this.value(header);
    if (typeof value === 'number' && value >= 0) return value;
    return {
      column: header,
      reason: `${header} is not known${isFault(value) && value.message !== '' ? `: ${value.message}` : ''}`,
    };
  }

  verdict(column: string): Verdict {
    return verdictOf(this.value(column));
  }

  named(name: string): number | undefined {
    return numberIn(this.book.named(name));
  }

  place(header: string): CellPlace {
    return { sheet: belts.name, record: this.record, column: this.book.column(belts.name, header) };
  }

  cell(header: string): string {
    const { sheet, record, column } = this.place(header);
    return cellName(sheet, record, column);
  }

  /** The record of the belt's plate series in its sheet. */
  get seriesRecord(): number | undefined {
    const row = this.number('Series row');
    return row === undefined ? undefined : recordInRow(row);
  }

  /** A figure of the belt's plate series. */
  ofSeries(header: string): Value {
    const record = this.seriesRecord;
    return record === undefined ? null : this.book.read(plateSeries.name, record, header);
  }

  /** The verdict of one check after a change, worked out alone. */
  checkAfter(column: string, { inputs = {}, named = {} }: Change): Verdict {
    const position = compiledSheets.get(belts.name)?.position.get(column) ?? -1;
    return verdictOf(this.book.whatIf(belts.name, this.record, inputs, { named, wanted: column })[position] ?? null);
  }

  /** All of the belt after a change. */
  after(change: Change): Trial {
    const { inputs = {}, named = {} } = change;
    const mark = JSON.stringify([Object.entries(inputs), Object.entries(named)]);
    const known = this.#trials.get(mark);
    if (known !== undefined) return known;
    const position = compiledSheets.get(belts.name)?.position;
    const row = this.book.whatIf(belts.name, this.record, inputs, { named });
    const value = (header: string): Value => row[position?.get(header) ?? -1] ?? null;
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
