import { FormulaSyntaxError } from '../formula/tokens.ts';
import { parsed } from '../formula/syntax.ts';
import { valueColumn } from '../sheet/named-values.ts';
import type { CellPlace } from './place.ts';
import { namedSheetOf, namedValue } from './declared.ts';
import type { BookState } from './state.ts';

/**
 * Whether a text can stand in a formula as a name: it is no cell, no TRUE, and holds no sign that means something else.
 */
export function isFormulaName(text: string): boolean {
  if (/^[rc]\d*(?:[rc]\d*)?$/i.test(text)) return false;
  try {
    const node = parsed(text);
    return node.type === 'name' && node.name === text;
  } catch (error) {
    if (error instanceof FormulaSyntaxError) return false;
    throw error;
  }
}

/**
 * The named values of a book, each by the name that formulas call it.
 *
 * A text that can't be a name is none; of several alike, without case, the first counts. Declared names keep the
 * spelling of their declaration.
 */
export class BookNames {
  readonly #names = new Map<string, string>();
  readonly places: readonly (CellPlace & { readonly name: string })[];

  constructor({ sheets }: BookState) {
    const taken = new Set<string>();
    this.places = sheets.flatMap(({ name: sheet, rows }) =>
      namedSheetOf(sheet) === undefined
        ? []
        : rows.flatMap(({ cells }, record) => {
            const text = cells[0];
            if (typeof text !== 'string' || taken.has(text.toLowerCase()) || !isFormulaName(text)) return [];
            taken.add(text.toLowerCase());
            const name = namedValue(text)?.name ?? text;
            this.#names.set(`${sheet}!${record}`, name);
            return [{ sheet, record, column: valueColumn, name }];
          }),
    );
  }

  /** The name whose value stands in a cell. */
  at({ sheet, record, column }: CellPlace): string | undefined {
    return column === valueColumn ? this.#names.get(`${sheet}!${record}`) : undefined;
  }
}
