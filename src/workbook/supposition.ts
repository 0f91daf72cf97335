import { recordInRow, sheetRow } from '../formula/address.ts';
import type { RowFormula } from '../formula/kernel.ts';
import type { Value } from '../formula/values.ts';
import { type CellPlace, placeKey } from './place.ts';
import { followingSteps, kinSheets, wholeName } from './dependence.ts';
import type { HeaderOf, SheetName, ValueName } from '../../sheets/index.ts';
import { compiledSheets, declaredValue, headerPosition } from './declared.ts';
import { type Records, SupposedValues } from './records.ts';

/**
 * Inputs by column position, and named values, that are supposed to be others. The record and its kin follow; of other
 * sheets what stands between a named value and them.
 */
export interface Supposition {
  readonly inputs: ReadonlyMap<number, Value>;
  readonly named?: ReadonlyMap<string, Value>;
  /** Cells of other records, of whatever sheet. */
  readonly cells?: readonly SupposedCell[] | undefined;
  /** The one column that is asked for: others may then keep their values. */
  readonly wanted?: number;
}

export interface SupposedCell {
  readonly place: CellPlace;
  readonly value: Value;
}

/** A record's values by header that are supposed to be others. */
export type SupposedInputs<Sheet extends SheetName> = Readonly<Partial<Record<HeaderOf<Sheet>, Value>>>;

/** Named values that are supposed to be others. */
export type SupposedNames = Readonly<Partial<Record<ValueName, Value>>>;

/**
 * What is supposed, one by one. Object.entries would make anything of the values, as the keys are of a sheet to come.
 */
function* each<Supposed extends Readonly<Partial<Record<string, Value>>>>(
  supposed: Supposed,
): Generator<[string, Value]> {
  for (const name in supposed) {
    const value = supposed[name];
    if (value !== undefined) yield [name, value];
  }
}

/** A supposition by names. Throws a programmer's error for a header or a named value that is not declared. */
export function supposition<Sheet extends SheetName>(
  sheet: Sheet,
  inputs: SupposedInputs<Sheet>,
  {
    named = {},
    wanted,
    cells,
  }: {
    readonly named?: SupposedNames;
    readonly wanted?: HeaderOf<Sheet>;
    readonly cells?: readonly SupposedCell[] | undefined;
  },
): Supposition {
  const [columns, names] = [new Map<number, Value>(), new Map<string, Value>()];
  for (const [header, value] of each(inputs)) columns.set(headerPosition(sheet, header), value);
  for (const [name, value] of each(named)) names.set(declaredValue(name).name, value);
  return {
    inputs: columns,
    named: names,
    cells,
    ...(wanted === undefined ? {} : { wanted: headerPosition(sheet, wanted) }),
  };
}

type RecordPlace = Pick<CellPlace, 'sheet' | 'record'>;

/** The records of a sheet that belong to the same whole as a record: itself, its parts, what it is a part of. */
export function kinRecords(values: Records, sheet: string, { sheet: from, record }: RecordPlace): readonly number[] {
  const name = values.cell(from, wholeName(from), sheetRow(record));
  const records = values
    .all(sheet, wholeName(sheet), name)
    .map((row) => recordInRow(row))
    .filter((other) => other >= 0);
  return sheet !== from || records.includes(record) ? records : [record, ...records];
}

/** What is supposed to be others, whatever they come to: columns of a sheet's inputs, named values, other cells. */
interface Supposable {
  readonly columns: readonly number[];
  readonly names: readonly string[];
  readonly cells?: readonly CellPlace[] | undefined;
  readonly wanted?: number | undefined;
}

interface OpenCell {
  readonly row: Value[];
  readonly column: number;
  readonly formula: RowFormula;
  readonly at: number;
}

/**
 * A record made ready to be asked many times what it would be: which cells follow is found once. `isOpen` tells a cell
 * that holds nothing of the user's.
 */
class SupposedRecord {
  readonly #values: SupposedValues;
  readonly #named = new Map<string, Value>();
  readonly #own: Value[];
  readonly #cells: readonly OpenCell[];

  constructor(
    values: Records,
    { sheet, record }: RecordPlace,
    { columns, names, cells = [], wanted }: Supposable,
    isOpen: (place: CellPlace) => boolean,
  ) {
    this.#values = new SupposedValues(values, compiledSheets, this.#named);
    this.#own = this.#values.row(sheet, record);
    const supposed = new Set(columns);
    const elsewhere = new Set(cells.map(placeKey));
    const asked = { columns, names, others: cells, wanted: wanted === undefined ? undefined : [wanted] };
    this.#cells = followingSteps(sheet, asked).flatMap(({ plan, column, formula }) => {
      const { name } = plan.declaration;
      return [...followingRecords(values, name, { sheet, record })].flatMap((other): OpenCell[] => {
        const place = { sheet: name, record: other, column };
        return (name === sheet && supposed.has(column)) ||
          (elsewhere.size > 0 && elsewhere.has(placeKey(place))) ||
          !isOpen(place)
          ? []
          : [{ row: this.#values.row(name, other), column, formula, at: sheetRow(other) }];
      });
    });
  }

  /** The record's values under a supposition of what it was made ready for. */
  row({ inputs, named = new Map(), cells = [] }: Supposition): Value[] {
    for (const [name, value] of named) this.#named.set(name, value);
    for (const [column, value] of inputs) this.#own[column] = value;
    for (const { place, value } of cells) this.#values.row(place.sheet, place.record)[place.column] = value;
    for (const { row, column, formula, at } of this.#cells) row[column] = formula(row, this.#values, at) ?? 0;
    return this.#own;
  }
}

/** The records of a sheet that may follow from a change of one: its own, its kin's; of other sheets all. */
export const followingRecords = (values: Records, name: string, { sheet, record }: RecordPlace): Iterable<number> =>
  name === sheet
    ? [record]
    : kinSheets(sheet).includes(name)
      ? kinRecords(values, name, { sheet, record })
      : values.records(name);

/** A record's values under one supposition, computed by the sheets' rows. */
export const supposedRow = (
  values: Records,
  place: RecordPlace,
  supposed: Supposition,
  isOpen: (place: CellPlace) => boolean,
): Value[] => {
  const { inputs, named = new Map<string, Value>(), cells = [], wanted } = supposed;
  const asked = {
    columns: [...inputs.keys()],
    names: [...named.keys()],
    cells: cells.map((cell) => cell.place),
    wanted,
  };
  return new SupposedRecord(values, place, asked, isOpen).row(supposed);
};
