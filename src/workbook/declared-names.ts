import type { EngineeringFunction } from '../formula/define.ts';
import type { GuardScope } from '../formula/guard-uses.ts';
import type { Allowed } from '../formula/guards.ts';
import type { Column, NamedValue, SheetDeclaration } from '../sheet/declaration.ts';
import { slotParts } from '../sheet/declared-formula.ts';
import { type Dimension, isWords } from '../units/quantities.ts';

/** What a book is declared to hold. */
export interface Declarations {
  readonly sheets: readonly SheetDeclaration[];
  readonly named: readonly NamedValue[];
  /** Dimensions of named values that turn one kind into another, by name. */
  readonly dimensions: Readonly<Record<string, Dimension>>;
  readonly functions: readonly EngineeringFunction[];
}

const allowed = ({ kind, min, above, max, choices }: Column | NamedValue): Allowed => ({
  words: isWords(kind),
  min,
  above,
  max,
  choices: choices === undefined || 'sheet' in choices ? undefined : choices,
});

/** Everything that declared formulas may name. */
export class DeclaredNames {
  readonly sheets: readonly SheetDeclaration[];
  readonly functions: ReadonlyMap<string, EngineeringFunction>;
  readonly #columns: ReadonlyMap<string, ReadonlyMap<string, Column>>;
  readonly #named: ReadonlyMap<string, NamedValue>;
  readonly #dimensions: Declarations['dimensions'];

  constructor({ sheets, named, dimensions, functions }: Declarations) {
    this.sheets = sheets;
    this.functions = new Map(functions.map((item) => [item.name, item]));
    this.#columns = new Map(
      sheets.map(({ name, columns }) => [name, new Map(columns.map((column) => [column.header, column]))]),
    );
    this.#named = new Map(named.map((value) => [value.name, value]));
    this.#dimensions = dimensions;
  }

  /** The column that a formula of a sheet means by a placeholder. */
  column(sheet: string, placeholder: string): Column | undefined {
    const { sheet: other = sheet, header } = slotParts(placeholder);
    return this.#columns.get(other)?.get(header);
  }

  named(name: string): NamedValue | undefined {
    return this.#named.get(name);
  }

  dimension(name: string): Dimension | undefined {
    return this.#dimensions[name];
  }

  get allNamed(): readonly string[] {
    return [...this.#named.keys()];
  }

  /** What guards need to know of the cells in a sheet's formulas. */
  guardScope(sheet: string): GuardScope {
    return {
      functions: this.functions,
      column: (placeholder) => {
        const column = this.column(sheet, placeholder);
        return column === undefined ? undefined : allowed(column);
      },
      named: (name) => {
        const value = this.#named.get(name);
        return value === undefined ? undefined : allowed(value);
      },
    };
  }
}
