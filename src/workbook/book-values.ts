import type { Content, Matrix, Value } from '../formula/values.ts';
import type { RowFormula } from '../formula/kernel.ts';
import type { HeaderOf, SheetName, ValueName } from '../../sheets/index.ts';
import type { QuantityKind, UnitSystem } from '../units/quantities.ts';
import { type BookLook, noLook } from './book-look.ts';
import { Calculation } from './calculation.ts';
import { type CellPlace } from './place.ts';
import {
  bookColumn,
  type BookColumn,
  bookColumns,
  cellKind,
  columnNamed,
  compiledSheets,
  declaredValue,
  headerPosition,
} from './declared.ts';
import { type BookState, contentAt, sheetOf, type SheetState } from './state.ts';
import { type SupposedInputs, supposition } from './supposition.ts';

/** A book's state and its values, to be read. */
export class BookValues {
  protected now: BookState;
  protected calculation: Calculation;

  /** `calculation` is one of this very state, where it was made part by part. */
  constructor(state: BookState, calculation = Calculation.of(state)) {
    this.now = state;
    this.calculation = calculation;
  }

  get state(): BookState {
    return this.now;
  }

  get units(): UnitSystem {
    return this.now.units;
  }

  sheet(name: string): SheetState {
    return sheetOf(this.now, name);
  }

  columns(sheet: string): BookColumn[] {
    return bookColumns(this.sheet(sheet));
  }

  /** The column that a cell stands in; undefined beside the last one. */
  columnAt({ sheet, column }: Pick<CellPlace, 'sheet' | 'column'>): BookColumn | undefined {
    return bookColumn(this.sheet(sheet), column);
  }

  /** The position of a declared column. */
  column<Sheet extends SheetName>(sheet: Sheet, header: HeaderOf<Sheet>): number {
    return headerPosition(sheet, header);
  }

  /**
   * The position of a column whose sheet or header comes from data, as of a user's own; undefined when there is none.
   */
  findColumn(sheet: string, header: string): number | undefined {
    const state = this.now.sheets.find(({ name }) => name === sheet);
    return state === undefined ? undefined : columnNamed(state, header);
  }

  value(place: CellPlace): Value {
    return this.calculation.value(place);
  }

  /** What a cell shows: in own columns and free sheets also what a neighbour's result fills. */
  shown(place: CellPlace): Value {
    const declared = compiledSheets.get(place.sheet)?.columns.length ?? 0;
    return place.column < declared ? this.calculation.value(place) : this.calculation.engineValue(place);
  }

  /** A record's value in a declared column. */
  read<Sheet extends SheetName>(sheet: Sheet, record: number, header: HeaderOf<Sheet>): Value {
    return this.value({ sheet, record, column: this.column(sheet, header) });
  }

  content(place: CellPlace): Content {
    return contentAt(this.now, place);
  }

  /** The formula behind a cell: the user's, or the sheet's own; undefined for a plain content. */
  formula(place: CellPlace): string | undefined {
    return this.calculation.formula(place);
  }

  /** Whether a computed cell holds the user's content instead of the sheet's formula. */
  overridden(place: CellPlace): boolean {
    return (
      compiledSheets.get(place.sheet)?.columns[place.column]?.formula !== undefined && this.content(place) !== null
    );
  }

  kind({ sheet, record, column }: CellPlace): QuantityKind {
    return cellKind(this.sheet(sheet), record, column);
  }

  note({ sheet, record, column }: CellPlace): string | undefined {
    return this.sheet(sheet).rows[record]?.notes?.[column];
  }

  /** A declared named value; an error value where the user has taken its row away. */
  named(name: ValueName): Value {
    return this.calculation.named(declaredValue(name).name);
  }

  /** The value of a part of a sheet's formula in the record of a place. */
  partValue(place: CellPlace, formula: RowFormula): Value {
    return this.calculation.partValue(place, formula);
  }

  evaluate(formula: string): Value | Matrix {
    return this.calculation.evaluate(formula);
  }

  /**
   * A record's values, by column position, if some of its inputs or named values were others. Changes nothing; users'
   * formulas, and records that do not belong to it, keep their values. With `wanted`, only that column is worked out.
   */
  whatIf<Sheet extends SheetName>(
    sheet: Sheet,
    record: number,
    inputs: SupposedInputs<Sheet>,
    others: Parameters<typeof supposition<Sheet>>[2] = {},
  ): Value[] {
    return this.calculation.whatIf(sheet, record, supposition(sheet, inputs, others));
  }

  /** The same of many records at once, by wanted column and supposition. */
  readonly whatIfs: Calculation['whatIfs'] = (asked) => this.calculation.whatIfs(asked);

  /** A sheet made ready for suppositions of many cases at once, until the book changes. */
  readonly cases: Calculation['cases'] = (asked) => this.calculation.cases(asked);

  get look(): BookLook {
    return this.now.look ?? noLook;
  }
}
