import { recordInRow, sheetRow } from '../formula/address.ts';
import type { Value } from '../formula/values.ts';
import type { CellPlace } from './place.ts';
import { followingSteps, wholeName } from './dependence.ts';
import { compiledSheets } from './declared.ts';
import { type Records, SupposedValues } from './records.ts';

/** Inputs by column position, and named values, that are supposed to be others. Only the record and its kin follow. */
export interface Supposition {
  readonly inputs: ReadonlyMap<number, Value>;
  readonly named?: ReadonlyMap<string, Value>;
  /** The one column that is asked for: others may then keep their values. */
  readonly wanted?: number;
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

/**
 * A record's values under a supposition, computed by the sheets' rows; `isOpen` tells a cell that holds nothing of the
 * user's.
 */
export function supposedRow(
  values: Records,
  { sheet, record }: RecordPlace,
  { inputs, named = new Map(), wanted }: Supposition,
  isOpen: (place: CellPlace) => boolean,
): Value[] {
  const supposed = new SupposedValues(values, compiledSheets, named);
  const own = supposed.row(sheet, record);
  for (const [column, value] of inputs) own[column] = value;
  for (const { plan, column, formula } of followingSteps(sheet, [...inputs.keys()], [...named.keys()], wanted)) {
    const { name } = plan.declaration;
    for (const kin of name === sheet ? [record] : kinRecords(values, name, { sheet, record })) {
      if ((name === sheet && inputs.has(column)) || !isOpen({ sheet: name, record: kin, column })) continue;
      const row = supposed.row(name, kin);
      row[column] = formula(row, supposed, sheetRow(kin)) ?? 0;
    }
  }
  return own;
}
