import { unitOf, type UnitSystem } from '../units/quantities.ts';
import { columns, declareSheet, type NamedValue, type SheetDeclaration } from './declaration.ts';

/** Sheets of named values: one row a value, the same five columns in each. */

const namedColumns = (editable: boolean) =>
  columns([
    { header: 'Name', kind: 'text', doc: 'name used in formulas' },
    {
      header: 'Value',
      kind: 'number',
      doc: editable ? 'value: you can change it' : "value, set by the book's unit system",
    },
    { header: 'Unit', kind: 'text', doc: 'unit of the value' },
    { header: 'Meaning', kind: 'text', doc: 'what the value means and where it is used' },
    { header: 'Source', kind: 'text', doc: 'source of the value: enter your own when you change it' },
  ]);

type NamedSheetHeader = ReturnType<typeof namedColumns>[number]['header'];

export const valueColumn = 1;
export const unitColumn = 2;

export interface NamedSheet<Name extends string = string, Value extends string = string> {
  readonly declaration: SheetDeclaration<Name, NamedSheetHeader>;
  readonly values: readonly NamedValue<Value>[];
  readonly editable: boolean;
}

export const namedSheet = <Name extends string, Value extends string>(
  name: Name,
  purpose: string,
  values: readonly NamedValue<Value>[],
  editable: boolean,
): NamedSheet<Name, Value> => ({
  declaration: declareSheet({ name, purpose, record: 'named value', key: 'Name', columns: namedColumns(editable) }),
  values,
  editable,
});

/** A named value's number or word in a unit system. */
export const valueIn = ({ value }: NamedValue, system: UnitSystem): number | string =>
  typeof value === 'object' ? value[system] : value;

/** The cells of a named value's row. */
export const namedRow = (named: NamedValue, system: UnitSystem): readonly (number | string)[] => [
  named.name,
  valueIn(named, system),
  unitOf(named.kind, system),
  named.doc,
  named.source,
];
