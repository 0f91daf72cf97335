import { sheetRow } from '../formula/address.ts';
import type { Among } from '../formula/among.ts';
import { type CaseBook, type CaseFormula, CaseRoom, type CaseValues, caseValue, same } from '../formula/case-values.ts';
import type { BookValues } from '../formula/kernel.ts';
import type { Value } from '../formula/values.ts';
import { recordInRow } from '../formula/address.ts';
import { caseFormula } from './case-formulas.ts';
import type { ComputingStep } from './compiled-book.ts';
import { compiledSheets } from './declared.ts';
import { followingSteps, kinSheets } from './dependence.ts';
import { type CellPlace, placeKey } from './place.ts';
import { OverlaidValues, type Records } from './records.ts';
import { followingRecords } from './supposition.ts';

/**
 * A sheet's records under many suppositions at once: what each would be in every draw of a simulation, at every step of
 * a search. The sheets' own formulas are worked out over a block of cases (case-kernel.ts).
 */

/** What is supposed for all records together, and which columns of the sheet are asked for. */
export interface CasesAsked {
  readonly sheet: string;
  /** Cases in a block. */
  readonly size: number;
  readonly names: readonly string[];
  /** Cells of other sheets. */
  readonly cells: readonly CellPlace[];
  readonly wanted: readonly number[];
}

/** A cell with its values in the cases of a block. */
export interface CaseCell {
  readonly place: CellPlace;
  readonly values: Float64Array;
}

/** A computed cell's values: nothing counts 0, as in a row. */
function withoutNothing(values: CaseValues, { at, count }: Among): CaseValues {
  if (values.of === 'same') return values.value === null ? same(0) : values;
  if (values.of === 'mixed') for (let place = 0; place < count; place += 1) values.values[at[place] ?? 0] ??= 0;
  return values;
}

type Rows = Map<string, Map<number, CaseValues[]>>;

/** The book as one of the cases has it. */
class OneCase extends OverlaidValues {
  readonly #layers: readonly Rows[];
  readonly #names: ReadonlyMap<string, CaseValues>;
  index = 0;

  constructor(records: Records, layers: readonly Rows[], names: ReadonlyMap<string, CaseValues>) {
    super(records, compiledSheets);
    this.#layers = layers;
    this.#names = names;
  }

  protected otherName(name: string): Value | undefined {
    const cases = this.#names.get(name);
    return cases === undefined ? undefined : caseValue(cases, this.index);
  }

  protected otherRecords(sheet: string): Iterable<number> | undefined {
    const found = this.#layers.flatMap((rows) => [...(rows.get(sheet)?.keys() ?? [])]);
    return found.length === 0 ? undefined : new Set(found);
  }

  protected otherValue(sheet: string, record: number, column: number): Value | undefined {
    for (const rows of this.#layers) {
      const row = rows.get(sheet)?.get(record);
      if (row !== undefined) return caseValue(row[column] ?? same(null), this.index);
    }
    return undefined;
  }
}

interface OpenCell {
  readonly row: CaseValues[];
  readonly column: number;
  readonly formula: CaseFormula;
  readonly at: CaseValues;
}

/** Records with other values, over what all share and over the book. */
class CaseRows implements CaseBook {
  readonly room: CaseRoom;
  readonly rows: Rows = new Map();
  readonly #records: Records;
  readonly #names: ReadonlyMap<string, CaseValues>;
  readonly #layers: readonly Rows[];
  readonly #one: OneCase;

  constructor(records: Records, room: CaseRoom, names: ReadonlyMap<string, CaseValues>, below?: CaseRows) {
    this.#records = records;
    this.room = room;
    this.#names = names;
    this.#layers = below === undefined ? [this.rows] : [this.rows, below.rows];
    this.#one = new OneCase(records, this.#layers, names);
  }

  /** A record's own copy of its values. */
  row(sheet: string, record: number): CaseValues[] {
    const rows = this.rows.get(sheet) ?? new Map<number, CaseValues[]>();
    this.rows.set(sheet, rows);
    let row = rows.get(record);
    if (row === undefined) {
      const below = this.#layers[1]?.get(sheet)?.get(record);
      row = below === undefined ? this.#records.sheet(sheet).row(record).map(same) : [...below];
      rows.set(record, row);
    }
    return row;
  }

  readonly named = (name: string): CaseValues => this.#names.get(name) ?? same(this.#records.named(name));

  readonly cell = (sheet: string, header: string, row: number): CaseValues => {
    const position = compiledSheets.get(sheet)?.position.get(header) ?? -1;
    for (const rows of this.#layers) {
      const held = rows.get(sheet)?.get(recordInRow(row));
      if (held !== undefined) return held[position] ?? same(null);
    }
    return same(this.#records.cell(sheet, header, row));
  };

  /** Cells may differ from case to case wherever they are supposed. */
  readonly column = (): undefined => undefined;

  readonly varies = (sheet: string, header: string): boolean => {
    const position = compiledSheets.get(sheet)?.position.get(header) ?? -1;
    for (const rows of this.#layers)
      for (const row of rows.get(sheet)?.values() ?? []) if ((row[position]?.of ?? 'same') !== 'same') return true;
    return false;
  };

  readonly in = (index: number): BookValues => {
    this.#one.index = index;
    return this.#one;
  };

  /** Works cells out, each after those that it uses; what they come to is kept in the room given. */
  compute(cells: readonly OpenCell[], among: Among, kept: CaseRoom): void {
    for (const { row, column, formula, at } of cells) {
      const values = withoutNothing(formula({ cells: row, at, book: this }, among), among);
      row[column] = kept.kept(values);
      this.room.free();
    }
  }
}

const allOf = (size: number): Int32Array => Int32Array.from({ length: size }, (_, index) => index);

/** One record of the sheet, with the cells of its own that are supposed. */
interface CaseRecord {
  /** The record's values by column in so many cases, with the given values in the cells that it was made ready for. */
  readonly values: (count: number, cells: readonly CaseCell[]) => readonly CaseValues[];
}

/** A sheet's records made ready to be asked what they would be in blocks of cases. */
export class SupposedCases {
  readonly #records: Records;
  readonly #asked: CasesAsked;
  readonly #isOpen: (place: CellPlace) => boolean;
  readonly #names = new Map<string, CaseValues>();
  readonly #scratch: CaseRoom;
  readonly #kept: CaseRoom;
  readonly #sharedRoom: CaseRoom;
  readonly #shared: CaseRows;
  readonly #sharedCells: readonly OpenCell[];
  readonly #all: Int32Array;

  constructor(records: Records, asked: CasesAsked, isOpen: (place: CellPlace) => boolean) {
    const { size, sheet, names, cells, wanted } = asked;
    this.#records = records;
    this.#asked = asked;
    this.#isOpen = isOpen;
    this.#scratch = new CaseRoom(size);
    this.#kept = new CaseRoom(size);
    this.#sharedRoom = new CaseRoom(size);
    this.#all = allOf(size);
    this.#shared = new CaseRows(records, this.#scratch, this.#names);
    const kin = kinSheets(sheet);
    const steps = followingSteps(sheet, { columns: [], names, others: cells, wanted });
    this.#sharedCells = this.#open(
      steps.filter(({ plan }) => !kin.includes(plan.declaration.name)),
      this.#shared,
      (name) => records.records(name),
      cells,
    );
  }

  #open(
    steps: readonly ComputingStep[],
    rows: CaseRows,
    recordsOf: (sheet: string) => Iterable<number>,
    supposed: readonly CellPlace[],
  ): OpenCell[] {
    const given = new Set(supposed.map(placeKey));
    return steps.flatMap((step): OpenCell[] => {
      const { name } = step.plan.declaration;
      const formula = caseFormula(step);
      return [...recordsOf(name)].flatMap((record): OpenCell[] => {
        const place = { sheet: name, record, column: step.column };
        return given.has(placeKey(place)) || !this.#isOpen(place)
          ? []
          : [{ row: rows.row(name, record), column: step.column, formula, at: same(sheetRow(record)) }];
      });
    });
  }

  /** Takes what all records share: named values and cells of other sheets, in so many cases. */
  share(count: number, names: ReadonlyMap<string, Float64Array>, cells: readonly CaseCell[]): void {
    this.#sharedRoom.free();
    for (const [name, values] of names) this.#names.set(name, { of: 'numbers', values });
    for (const { place, values } of cells)
      this.#shared.row(place.sheet, place.record)[place.column] = { of: 'numbers', values };
    this.#shared.compute(this.#sharedCells, { at: this.#all, count }, this.#sharedRoom);
  }

  /** A record made ready: `cells` are those that will be supposed, its own inputs and its kin's, no other sheet's. */
  record(record: number, cells: readonly CellPlace[]): CaseRecord {
    const { sheet, names, wanted } = this.#asked;
    const rows = new CaseRows(this.#records, this.#scratch, this.#names, this.#shared);
    const own = rows.row(sheet, record);
    const columns = cells.flatMap((place) => (place.sheet === sheet && place.record === record ? [place.column] : []));
    const elsewhere = cells.filter((place) => place.sheet !== sheet || place.record !== record);
    const kin = kinSheets(sheet);
    const steps = followingSteps(sheet, {
      columns,
      names,
      others: [...this.#asked.cells, ...elsewhere],
      wanted,
    }).filter(({ plan }) => kin.includes(plan.declaration.name));
    const open = this.#open(steps, rows, (name) => followingRecords(this.#records, name, { sheet, record }), cells);
    return {
      values: (count, given) => {
        this.#kept.free();
        for (const { place, values } of given)
          rows.row(place.sheet, place.record)[place.column] = { of: 'numbers', values };
        rows.compute(open, { at: this.#all, count }, this.#kept);
        return own;
      },
    };
  }
}
