import { belts } from '../../sheets/belts/index.ts';
import { type CheckHeader, checkColumns } from '../../sheets/belts/check-columns.ts';
import type { BeltHeader, ValueName } from '../../sheets/index.ts';
import { verdictOf } from '../functions/checks.ts';
import type { Value } from '../formula/values.ts';
import { Belt } from '../records/belt.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { type Drawn, drawnFactors } from './drawn-values.ts';
import type { Tolerances } from './effects.ts';

/**
 * How sure belts are: their true inputs and the true assumptions drawn by chance, over and over, and all columns worked
 * out by the sheets' own rows.
 *
 * A named value is drawn once for all belts, an input for each belt by itself. What has no tolerance is exact. It tells
 * of errors in the figures, not of a rule that is wrong.
 */

interface SimulationAsked {
  readonly records: readonly number[];
  /** Numbers of which quantiles are wanted. */
  readonly columns: readonly BeltHeader[];
  readonly draws: number;
  readonly seed: number;
  readonly tolerances: Tolerances;
}

export interface SimulatedBelt {
  readonly belt: Belt;
  /** How often each check, and the belt, did not fail; of checks that are not known in any draw, nothing is said. */
  readonly passes: ReadonlyMap<CheckHeader | 'Verdict', number>;
  /** The draws of each wanted column, ascending; those in which it was no number are left out. */
  readonly figures: ReadonlyMap<BeltHeader, Float64Array>;
  /** Share of a column's spread that goes with each factor alone, the largest first: the squared correlation. */
  readonly shares: ReadonlyMap<BeltHeader, readonly { readonly name: string; readonly share: number }[]>;
}

export interface Simulation {
  readonly draws: number;
  readonly belts: readonly SimulatedBelt[];
  /** Belts that fail, in each draw, ascending; and each wanted column summed over the belts in which it is known. */
  readonly failing: Float64Array;
  readonly totals: ReadonlyMap<BeltHeader, Float64Array>;
}

/** Sums from which a correlation follows, about the first draw, so that large numbers lose no digits. */
class Correlation {
  #count = 0;
  #first: readonly [number, number] = [0, 0];
  #sums = [0, 0, 0, 0, 0];

  add(x: number, y: number): void {
    if (this.#count === 0) this.#first = [x, y];
    this.#count += 1;
    const [a, b] = [x - this.#first[0], y - this.#first[1]];
    const [sa = 0, sb = 0, saa = 0, sbb = 0, sab = 0] = this.#sums;
    this.#sums = [sa + a, sb + b, saa + a * a, sbb + b * b, sab + a * b];
  }

  get squared(): number {
    const [sa = 0, sb = 0, saa = 0, sbb = 0, sab = 0] = this.#sums;
    const count = this.#count;
    const [xx, yy, xy] = [saa - (sa * sa) / count, sbb - (sb * sb) / count, sab - (sa * sb) / count];
    return xx > 0 && yy > 0 ? (xy * xy) / (xx * yy) : 0;
  }
}

/** What is counted of one belt while draws are made. */
class BeltTally {
  readonly belt: Belt;
  readonly own: readonly Drawn[];
  readonly #row: (inputs: ReadonlyMap<number, Value>, named: ReadonlyMap<string, Value>) => readonly Value[];
  readonly #checks: readonly { readonly header: CheckHeader | 'Verdict'; readonly column: number }[];
  readonly #columns: readonly { readonly header: BeltHeader; readonly column: number; readonly drawn: number[] }[];
  readonly #passes = new Map<CheckHeader | 'Verdict', number>();
  readonly #known = new Set<CheckHeader | 'Verdict'>();
  readonly #correlations: readonly (readonly Correlation[])[];
  readonly #inputs = new Map<number, Value>();
  readonly #names: readonly string[];

  constructor(belt: Belt, asked: SimulationAsked, wanted: ReadonlySet<number>, shared: readonly Drawn[]) {
    const { book } = belt;
    this.belt = belt;
    this.own = drawnFactors(belt, 'belt', wanted, asked.tolerances, asked.seed);
    const named = shared.map(({ factor }) => factor.name as ValueName);
    const record = book.supposing(
      belts.name,
      belt.record,
      this.own.map(({ factor }) => factor.place(belt).column),
      named,
    );
    this.#row = (inputs, names) => record.row(inputs, names);
    const position = (header: BeltHeader): number => book.column(belts.name, header);
    this.#checks = [...checkColumns.map(({ header }) => header), 'Verdict' as const].map((header) => ({
      header,
      column: position(header),
    }));
    this.#columns = asked.columns.map((header) => ({ header, column: position(header), drawn: [] }));
    this.#names = [...this.own, ...shared].map(({ factor }) => factor.name);
    this.#correlations = asked.columns.map(() => this.#names.map(() => new Correlation()));
  }

  /** One draw; the numbers that the columns come to, and whether the belt fails. */
  draw(named: ReadonlyMap<string, Value>): { readonly fails: boolean; readonly figures: readonly Value[] } {
    for (const { factor, next } of this.own) this.#inputs.set(factor.place(this.belt).column, next());
    const row = this.#row(this.#inputs, named);
    let fails = false;
    for (const { header, column } of this.#checks) {
      const verdict = verdictOf(row[column]);
      if (verdict !== 'not known') this.#known.add(header);
      if (verdict === 'fits' || verdict === 'tight') this.#passes.set(header, (this.#passes.get(header) ?? 0) + 1);
      else if (header === 'Verdict') fails = verdict === 'fails';
    }
    const values = [...this.#inputs.values(), ...named.values()];
    const figures = this.#columns.map(({ column, drawn }, index) => {
      const value = row[column] ?? null;
      if (typeof value !== 'number') return value;
      drawn.push(value);
      for (const [place, correlation] of (this.#correlations[index] ?? []).entries())
        correlation.add(Number(values[place]), value);
      return value;
    });
    return { fails, figures };
  }

  get result(): SimulatedBelt {
    return {
      belt: this.belt,
      passes: new Map([...this.#known].map((header) => [header, this.#passes.get(header) ?? 0])),
      figures: new Map(this.#columns.map(({ header, drawn }) => [header, Float64Array.from(drawn).sort()])),
      shares: new Map(
        this.#columns.map(({ header }, index) => [
          header,
          this.#names
            .map((name, place) => ({ name, share: this.#correlations[index]?.[place]?.squared ?? 0 }))
            .toSorted((one, other) => other.share - one.share),
        ]),
      ),
    };
  }
}

/** Draws after which the caller may look: some hundredths of a second for a fleet. */
const drawsAtOnce = 20;

/**
 * The draws, some at a time: it yields the share that is done, so that a page stays alive and a caller may stop. The
 * book must not change meanwhile.
 */
function* simulation(book: Workbook, asked: SimulationAsked): Generator<number, Simulation> {
  const { records, columns, draws, seed, tolerances } = asked;
  const wanted = new Set(
    [...checkColumns.map(({ header }) => header), ...columns].map((header) => book.column(belts.name, header)),
  );
  const [first] = records;
  const shared = first === undefined ? [] : drawnFactors(new Belt(book, first), 'book', wanted, tolerances, seed);
  const tallies = records.map((record) => new BeltTally(new Belt(book, record), asked, wanted, shared));
  const failing = new Float64Array(draws);
  const totals = columns.map(() => new Float64Array(draws));
  const named = new Map<string, Value>();
  for (let draw = 0; draw < draws; draw += 1) {
    for (const { factor, next } of shared) named.set(factor.name, next());
    for (const tally of tallies) {
      const { fails, figures } = tally.draw(named);
      if (fails) failing[draw] = (failing[draw] ?? 0) + 1;
      for (const [index, value] of figures.entries()) {
        const total = totals[index];
        if (total !== undefined && typeof value === 'number') total[draw] = (total[draw] ?? 0) + value;
      }
    }
    if (draw % drawsAtOnce === drawsAtOnce - 1) yield (draw + 1) / draws;
  }
  return {
    draws,
    belts: tallies.map(({ result }) => result),
    failing: failing.sort(),
    totals: new Map(columns.map((header, index) => [header, (totals[index] ?? new Float64Array()).sort()])),
  };
}

/** All draws at once. */
export function simulated(book: Workbook, asked: SimulationAsked): Simulation {
  const run = simulation(book, asked);
  for (;;) {
    const step = run.next();
    if (step.done === true) return step.value;
  }
}
