import type { BeltHeader, SeriesHeader, ValueName } from '../../sheets/index.ts';
import { amount } from '../sheet/words.ts';
import type { RowFormula } from '../formula/kernel.ts';
import { type Verdict, verdictOf } from '../functions/checks.ts';
import type { replacedJoints } from '../functions/parameters.ts';
import { recordInRow } from '../formula/address.ts';
import { isFault, numberIn, textIn, type Value } from '../formula/values.ts';
import type { Column } from '../sheet/declaration.ts';
import { type CheckHeader, checkColumns, type CheckWord } from '../../sheets/belts/check-columns.ts';
import { belts } from '../../sheets/belts/index.ts';
import { plateSeries } from '../../sheets/series/plate-series.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { rowFormula } from '../workbook/declared.ts';
import { cellInSheet } from '../workbook/state.ts';
import type { CellEdit } from '../workbook/state-changes.ts';
import type { SupposedCell, SupposedInputs, SupposedNames } from '../workbook/supposition.ts';
import type { Workbook } from '../workbook/workbook.ts';
import type { CellPlace } from '../workbook/place.ts';
import { usableNumber } from './cell-issue.ts';

/** One belt as all that plan for it see it: its values, its series' figures, and what would be if some were others. */

/** What is supposed to be otherwise: inputs of the belt by header, named values of the book, cells of other sheets. */
export interface Change {
  readonly inputs?: SupposedInputs<'Belts'>;
  readonly named?: SupposedNames;
  readonly cells?: readonly SupposedCell[];
}

/** The columns of a sheet by their headers, which every message about a belt asks for. */
function columnsByHeader<Header extends string>(
  columns: readonly Column<Header>[],
): (header: Header) => Column<Header> {
  const found = new Map(columns.map((column) => [column.header, column]));
  return (header) => {
    const column = found.get(header);
    if (column === undefined) throw new Error(`there is no column ${header}`);
    return column;
  };
}

export const beltColumn = columnsByHeader<BeltHeader>(belts.columns);
export const seriesColumn = columnsByHeader<SeriesHeader>(plateSeries.columns);

const rowFormulas = new Map<string, RowFormula>();

/** A formula over the columns of Belts, compiled once. */
function compiledOnce(formula: string): RowFormula {
  const known = rowFormulas.get(formula) ?? rowFormula(belts.name, formula);
  rowFormulas.set(formula, known);
  return known;
}

/** Inputs that say at which skew a joint is cut and what it replaces. */
interface JointAtSkew {
  readonly Skew: number;
  readonly Replaces?: (typeof replacedJoints)[number];
  readonly 'Replaced skew'?: number;
}

const sameSkew: (typeof replacedJoints)[number] = 'same skew';

export const unnamedBelt = 'Belt without a name';

/** What a belt is called where one can not see that it is a belt. */
export const beltTitle = (name: string): string => (name === '' ? unnamedBelt : `Belt ${name}`);

/** Why a belt can't be taken, and the column to look at. */
export interface Missing {
  readonly column: BeltHeader;
  readonly reason: string;
}

/** What a belt would be after a change. */
interface Trial {
  readonly value: (header: BeltHeader) => Value;
  readonly verdict: Verdict;
  /** The words of the checks that then have a verdict. */
  readonly with: (verdict: Verdict) => CheckWord[];
}

export class Belt {
  readonly book: Workbook;
  readonly record: number;
  #trials = new Map<string, Trial>();
  #failing: ReadonlySet<CheckWord> | undefined;
  #joint: { readonly own: number | undefined; readonly isParallel: boolean } | undefined;

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

  value(header: BeltHeader): Value {
    return this.book.read(belts.name, this.record, header);
  }

  number(header: BeltHeader): number | undefined {
    return numberIn(this.value(header));
  }

  /** '' for what is not known. */
  text(header: BeltHeader): string {
    return textIn(this.value(header));
  }

  /** An input that is given and allowed. */
  given(header: BeltHeader): number | undefined {
    return usableNumber(this.book, this.place(header));
  }

  /** A number that is at least 0, or why it is not usable. */
  needed(header: BeltHeader): number | Missing {
    const value = this.value(header);
    if (typeof value === 'number' && value >= 0) return value;
    return {
      column: header,
      reason: `${header} is not known${isFault(value) && value.message !== '' ? `: ${value.message}` : ''}`,
    };
  }

  verdict(column: CheckHeader | 'Verdict'): Verdict {
    return verdictOf(this.value(column));
  }

  /** The checks that fail now. */
  failing(): ReadonlySet<CheckWord> {
    this.#failing ??= new Set(
      checkColumns.flatMap(({ header, word }) => (this.verdict(header) === 'fails' ? [word] : [])),
    );
    return this.#failing;
  }

  /** A number as its column shows it, with its unit. */
  shown(header: BeltHeader): string {
    const value = this.number(header);
    return value === undefined ? 'not known' : amount(value, beltColumn(header), this.units);
  }

  /** What a formula comes to in the belt's row, as the sheet's own do. */
  worked(formula: string): Value {
    return this.book.partValue({ sheet: belts.name, record: this.record, column: 0 }, compiledOnce(formula));
  }

  named(name: ValueName): number | undefined {
    return numberIn(this.book.named(name));
  }

  place(header: BeltHeader): CellPlace {
    return { sheet: belts.name, record: this.record, column: this.book.column(belts.name, header) };
  }

  cell(header: BeltHeader): string {
    const { sheet, record, column } = this.place(header);
    return cellInSheet(this.book.sheet(sheet), record, column);
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

  /** Inputs of the joint at some skew: what replaced one of the same skew then replaces one of another. */
  atSkew(skew: number): JointAtSkew {
    this.#joint ??= { own: this.given('Skew'), isParallel: this.text('Replaces').trim().toLowerCase() === sameSkew };
    const { own, isParallel } = this.#joint;
    return isParallel && own !== undefined && own !== skew
      ? { Skew: skew, Replaces: 'other skew', 'Replaced skew': own }
      : { Skew: skew };
  }

  /** The same as edits of the book. */
  editsAt(skew: number): CellEdit[] {
    const joint = this.atSkew(skew);
    return (['Skew', 'Replaces', 'Replaced skew'] as const).flatMap((header) => {
      const content = joint[header];
      return content === undefined ? [] : [{ ...this.place(header), content }];
    });
  }

  /** All of the belt after a change. */
  after(change: Change): Trial {
    const { inputs = {}, named = {}, cells = [] } = change;
    const mark = changeMark(change);
    const known = this.#trials.get(mark);
    if (known !== undefined) return known;
    const row = this.book.whatIf(belts.name, this.record, inputs, { named, cells });
    const trial = trialOf((header) => row[this.book.column(belts.name, header)] ?? null);
    this.#trials.set(mark, trial);
    return trial;
  }

  /** Whether it is known what the belt is after a change. */
  isTried(change: Change): boolean {
    return this.#trials.has(changeMark(change));
  }

  /** Keeps what the belt is after a change, as it was worked out with that of others. */
  keepTrial(change: Change, value: (header: BeltHeader) => Value): void {
    this.#trials.set(changeMark(change), trialOf(value));
  }
}

/** A change in a text: two that are not the same have two. */
function changeMark({ inputs = {}, named = {}, cells = [] }: Change): string {
  let mark = '';
  for (const [header, value] of Object.entries(inputs)) mark += `${header}=${typeof value}${String(value)}|`;
  for (const [name, value] of Object.entries(named)) mark += `=${name}=${typeof value}${String(value)}|`;
  return cells.length === 0 ? mark : `${mark}${JSON.stringify(cells)}`;
}

const trialOf = (value: Trial['value']): Trial => ({
  value,
  verdict: verdictOf(value('Verdict')),
  with: (verdict) => checkColumns.flatMap(({ header, word }) => (verdictOf(value(header)) === verdict ? [word] : [])),
});
