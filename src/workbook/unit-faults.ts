import type { EngineeringFunction } from '../formula/define.ts';
import { unitFault, type UnitScope } from '../formula/unit-check.ts';
import { type Measured, measuring, word } from '../formula/measured.ts';
import { parsed } from '../formula/syntax.ts';
import { type NamedValue, type SheetDeclaration, isComputed, slotParts } from '../sheet/declaration.ts';
import { isWords, quantities, type Dimension, type QuantityKind } from '../units/quantities.ts';

/** Units of declared formulas. */

export interface Declared {
  readonly sheets: readonly SheetDeclaration[];
  readonly named: readonly NamedValue[];
  /** Dimensions of named values that turn one kind into another, by name. */
  readonly dimensions: Readonly<Record<string, Dimension>>;
  readonly functions: readonly EngineeringFunction[];
}

const ofKind = (kind: QuantityKind): Measured => (isWords(kind) ? word : measuring(quantities[kind].dimension));

/** Declared formulas whose units do not agree: sheet, column, and what is wrong. */
export function unitFaults({ sheets, named, dimensions, functions }: Declared): string[] {
  const byName = new Map(functions.map((item) => [item.name, item]));
  return sheets.flatMap((sheet) => {
    const column = (name: string, header: string): Measured | undefined => {
      const found = sheets.find((other) => other.name === name)?.columns.find((item) => item.header === header);
      return found === undefined ? undefined : ofKind(found.kind);
    };
    const scope: UnitScope = {
      functions: byName,
      column(placeholder) {
        const { sheet: other = sheet.name, header } = slotParts(placeholder);
        return column(other, header);
      },
      named(name) {
        const dimension = dimensions[name];
        const value = named.find((item) => item.name === name);
        return dimension !== undefined ? measuring(dimension) : value === undefined ? undefined : ofKind(value.kind);
      },
    };
    return sheet.columns.filter(isComputed).flatMap(({ header, kind, formula }) => {
      const fault = unitFault(parsed(formula), ofKind(kind), scope);
      return fault === undefined ? [] : [`${sheet.name}, ${header}: ${fault}`];
    });
  });
}
