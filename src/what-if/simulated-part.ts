import { belts } from '../../sheets/belts/index.ts';
import { type CheckHeader, checkColumns } from '../../sheets/belts/check-columns.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import { type CaseValues, caseValue } from '../formula/case-values.ts';
import { verdictOf } from '../functions/checks.ts';
import { Belt } from '../records/belt.ts';
import { isComputed } from '../sheet/declaration.ts';
import { isWords } from '../units/quantities.ts';
import type { CaseCell, SupposedCases } from '../workbook/supposed-cases.ts';
import type { Workbook } from '../workbook/workbook.ts';
import type { Correlation } from './correlations.ts';
import { type Drawn, DrawnFactors } from './drawn-values.ts';
import type { Tolerances } from './effects.ts';
import type { Factor } from './factor.ts';
import { beltFactors, sharedFactors } from './known-factors.ts';

/**
 * A part of a simulation: some of the belts in all of the draws.
 *
 * What a belt draws depends on the seed, its name and its inputs, and on nothing that stands beside it. So the parts of
 * a simulation can be worked out anywhere, and come to the same numbers however the belts are dealt out.
 */

export interface SimulationAsked {
  readonly records: readonly number[];
  /** Numbers of which quantiles are wanted. */
  readonly columns: readonly BeltHeader[];
  readonly draws: number;
  readonly seed: number;
  readonly tolerances: Tolerances;
  readonly correlations?: readonly Correlation[];
  /** For measuring: works out every number of a belt in every draw, whatever is asked for. */
  readonly everyColumn?: boolean;
}

export type Judged = CheckHeader | 'Verdict';

/** Share of a column's spread that goes with a factor alone: the squared correlation. */
export interface Share {
  readonly name: string;
  readonly share: number;
}

/** What came of one belt, as plain data. */
export interface BeltDraws {
  readonly record: number;
  /** How often each check, and the belt, did not fail; of checks that are not known in any draw, nothing is said. */
  readonly passes: ReadonlyMap<Judged, number>;
  /** 1 in the draws in which the belt fails. */
  readonly fails: Uint8Array;
  /** Each wanted column in the order of the draws; no number where it is not known. */
  readonly figures: readonly Float64Array[];
  readonly shares: readonly (readonly Share[])[];
}

/** Draws that are worked out together. Chosen: their numbers stay in the processor's cache. */
const blockSize = 512;

const judged: readonly Judged[] = [...checkColumns.map(({ header }) => header), 'Verdict'];

/** Sums from which a correlation follows, about the first draw, so that large numbers lose no digits. */
export class CorrelationSums {
  #count = 0;
  #x0 = 0;
  #y0 = 0;
  #x = 0;
  #y = 0;
  #xx = 0;
  #yy = 0;
  #xy = 0;

  /** Takes pairs, but for those without a number. */
  add(xs: Float64Array, ys: Float64Array, from: number, count: number): void {
    for (let index = 0; index < count; index += 1) {
      const y = ys[from + index] ?? NaN;
      if (Number.isNaN(y)) continue;
      const x = xs[index] ?? 0;
      if (this.#count === 0) [this.#x0, this.#y0] = [x, y];
      this.#count += 1;
      const a = x - this.#x0;
      const b = y - this.#y0;
      this.#x += a;
      this.#y += b;
      this.#xx += a * a;
      this.#yy += b * b;
      this.#xy += a * b;
    }
  }

  get squared(): number {
    const count = this.#count;
    const xx = this.#xx - (this.#x * this.#x) / count;
    const yy = this.#yy - (this.#y * this.#y) / count;
    const xy = this.#xy - (this.#x * this.#y) / count;
    return xx > 0 && yy > 0 ? (xy * xy) / (xx * yy) : 0;
  }
}

/** The largest first. */
export const sharesOf = (names: readonly string[], sums: readonly CorrelationSums[]): Share[] =>
  names
    .map((name, place) => ({ name, share: sums[place]?.squared ?? 0 }))
    .toSorted((one, other) => other.share - one.share);

/** What is counted of one belt while draws are made. */
class BeltTally {
  readonly #record: number;
  readonly #own: DrawnFactors;
  readonly #cells: readonly CaseCell[];
  readonly #values: (count: number, cells: readonly CaseCell[]) => readonly CaseValues[];
  readonly #drawn: readonly Drawn[];
  readonly #columns: readonly number[];
  readonly #judged: readonly { readonly header: Judged; readonly column: number }[];
  readonly #passes = new Map<Judged, number>();
  readonly #known = new Set<Judged>();
  readonly #fails: Uint8Array;
  readonly #figures: readonly Float64Array[];
  readonly #sums: readonly (readonly CorrelationSums[])[];

  constructor(belt: Belt, asked: SimulationAsked, part: SimulatedPart) {
    const { book } = belt;
    this.#record = belt.record;
    this.#own = part.drawn(belt, beltFactors(belt), part.shared);
    this.#cells = this.#own.all.map(({ factor, values }) => ({ place: factor.place(belt), values }));
    const places = this.#cells.map(({ place }) => place);
    this.#values = part.cases.record(belt.record, places).values;
    const series = belt.seriesRecord;
    const isFollowed = ({ factor }: Drawn): boolean => factor.of === 'book' || factor.place(belt).record === series;
    this.#drawn = [...this.#own.all, ...part.shared.all.filter(isFollowed)];
    this.#columns = asked.columns.map((header) => book.column(belts.name, header));
    this.#judged = judged.map((header) => ({ header, column: book.column(belts.name, header) }));
    this.#fails = new Uint8Array(asked.draws);
    this.#figures = asked.columns.map(() => new Float64Array(asked.draws).fill(NaN));
    this.#sums = asked.columns.map(() => this.#drawn.map(() => new CorrelationSums()));
  }

  /** The next so many draws, of which the first is the one with the number given. */
  draw(from: number, count: number): void {
    this.#own.draw(count);
    const row = this.#values(count, this.#cells);
    for (const { header, column } of this.#judged) this.#judge(header, row[column], from, count);
    for (const [place, column] of this.#columns.entries()) {
      const [cases, figures] = [row[column], this.#figures[place]];
      if (cases === undefined || figures === undefined) continue;
      if (cases.of === 'numbers') figures.set(cases.values.subarray(0, count), from);
      else
        for (let index = 0; index < count; index += 1) {
          const value = caseValue(cases, index);
          if (typeof value === 'number') figures[from + index] = value;
        }
      const sums = this.#sums[place] ?? [];
      for (const [factor, { values }] of this.#drawn.entries()) sums[factor]?.add(values, figures, from, count);
    }
  }

  #judge(header: Judged, cases: CaseValues | undefined, from: number, count: number): void {
    if (cases === undefined) return;
    let [passes, known] = [0, false];
    const always = cases.of === 'same' ? verdictOf(cases.value) : undefined;
    if (always === 'fits' || always === 'tight') {
      this.#known.add(header);
      this.#passes.set(header, (this.#passes.get(header) ?? 0) + count);
      return;
    }
    for (let index = 0; index < count; index += 1) {
      const verdict = always ?? verdictOf(caseValue(cases, index));
      known ||= verdict !== 'not known';
      if (verdict === 'fits' || verdict === 'tight') passes += 1;
      else if (header === 'Verdict' && verdict === 'fails') this.#fails[from + index] = 1;
    }
    if (known) this.#known.add(header);
    this.#passes.set(header, (this.#passes.get(header) ?? 0) + passes);
  }

  get result(): BeltDraws {
    const names = this.#drawn.map(({ factor }) => factor.name);
    return {
      record: this.#record,
      passes: new Map(
        judged.flatMap((header) => (this.#known.has(header) ? [[header, this.#passes.get(header) ?? 0]] : [])),
      ),
      fails: this.#fails,
      figures: this.#figures,
      shares: this.#sums.map((sums) => sharesOf(names, sums)),
    };
  }
}

/** Columns that are asked for: the checks, those wanted, and where every one is, all numbers. */
function wantedColumns(book: Workbook, { columns, everyColumn = false }: SimulationAsked): number[] {
  const numbers = everyColumn
    ? belts.columns.flatMap((column) => (isComputed(column) && !isWords(column.kind) ? [column.header] : []))
    : [];
  return [...new Set([...judged, ...columns, ...numbers].map((header) => book.column(belts.name, header)))];
}

/** What all belts share while draws are made: named values, figures of plates. */
export class SimulatedPart {
  readonly shared: DrawnFactors;
  readonly cases: SupposedCases;
  readonly #asked: SimulationAsked;
  readonly #wanted: ReadonlySet<number>;
  readonly #names: ReadonlyMap<string, Float64Array>;
  readonly #cells: readonly CaseCell[];

  constructor(book: Workbook, asked: SimulationAsked, first: Belt) {
    this.#asked = asked;
    const wanted = wantedColumns(book, asked);
    this.#wanted = new Set(wanted);
    this.shared = this.drawn(first, sharedFactors(book));
    const isName = ({ factor }: Drawn): boolean => factor.of === 'book';
    this.#names = new Map(this.shared.all.filter(isName).map(({ factor, values }) => [factor.name, values] as const));
    this.#cells = this.shared.all
      .filter((one) => !isName(one))
      .map(({ factor, values }) => ({ place: factor.place(first), values }));
    this.cases = book.cases({
      sheet: belts.name,
      size: blockSize,
      names: [...this.#names.keys()],
      cells: this.#cells.map(({ place }) => place),
      wanted,
    });
  }

  /** The factors that are uncertain and that something asked for follows from. */
  drawn(belt: Belt, factors: readonly Factor[], shared?: DrawnFactors): DrawnFactors {
    const followed = factors.filter(({ columns }) => [...columns].some((column) => this.#wanted.has(column)));
    const { seed, tolerances, correlations = [] } = this.#asked;
    return new DrawnFactors(belt, followed, { seed, tolerances, correlations, size: blockSize }, shared);
  }

  /** Draws a block for all belts. */
  draw(count: number): void {
    this.shared.draw(count);
    this.cases.share(count, this.#names, this.#cells);
  }
}

/** The blocks of draws: the first of each and how many. */
export function* blocksOf(draws: number): Generator<readonly [from: number, count: number]> {
  for (let from = 0; from < draws; from += blockSize) yield [from, Math.min(blockSize, draws - from)];
}

/**
 * The draws, a block of one belt at a time: it yields the share that is done, so that a page stays alive and a caller
 * may stop. The book must not change meanwhile.
 */
export function* simulatedPart(book: Workbook, asked: SimulationAsked): Generator<number, BeltDraws[]> {
  const { records, draws } = asked;
  const [first] = records;
  if (first === undefined) return [];
  const part = new SimulatedPart(book, asked, new Belt(book, first));
  const tallies = records.map((record) => new BeltTally(new Belt(book, record), asked, part));
  let done = 0;
  for (const [from, count] of blocksOf(draws)) {
    part.draw(count);
    for (const tally of tallies) {
      tally.draw(from, count);
      done += count;
      yield done / (draws * records.length);
    }
  }
  return tallies.map(({ result }) => result);
}
