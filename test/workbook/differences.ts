import { Engine } from '../../src/formula/engine.ts';
import { isFault, type Value } from '../../src/formula/values.ts';
import { functions } from '../../src/functions/index.ts';
import { valueColumn } from '../../src/sheet/named-values.ts';
import { namedSheetOf } from '../../src/workbook/declared.ts';
import { columnLetters, quotedSheet, sheetRow } from '../../src/formula/address.ts';
import type { BookState } from '../../src/workbook/state.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { placeWords } from './place-words.ts';

/** Where two ways to compute a book differ. */

/**
 * The whole book as formula cells, computed ones included, evaluated by the engine alone; `altered` may change a
 * formula.
 */
export function inCells(book: Workbook, altered = (formula: string): string => formula): Engine {
  const { sheets } = book.state;
  return Engine.build(
    functions,
    sheets.map(({ name, rows }) => {
      const columns = book.columns(name);
      return {
        name,
        rows: [
          columns.map(({ header }) => header),
          ...rows.map((_, record) =>
            columns.map((__, column) => {
              const formula = book.formula({ sheet: name, record, column });
              return formula === undefined ? book.content({ sheet: name, record, column }) : altered(formula);
            }),
          ),
        ],
      };
    }),
    sheets.flatMap(({ name, rows }) =>
      namedSheetOf(name) === undefined
        ? []
        : rows.flatMap(({ cells }, record) =>
            typeof cells[0] === 'string'
              ? [
                  {
                    name: cells[0],
                    reference: `${quotedSheet(name)}!$${columnLetters(valueColumn)}$${sheetRow(record)}`,
                  },
                ]
              : [],
          ),
    ),
  );
}

const near = (one: number, other: number, share: number): boolean =>
  one === other || Math.abs(one - other) <= share * Math.max(Math.abs(one), Math.abs(other));

/** Whether two values are the same number to a share of its size, or the same text, truth or error code. */
export function agree(one: Value, other: Value, share = 1e-12): boolean {
  if (typeof one === 'number' && typeof other === 'number') return near(one, other, share);
  return isFault(one) && isFault(other) ? one.code === other.code : one === other;
}

/** Cells in which the book's rows and the engine's cells give other values, in words. */
export function differences(state: BookState, altered?: (formula: string) => string): string[] {
  const book = new Workbook(state);
  const engine = inCells(book, altered);
  const found: string[] = [];
  for (const { name, rows } of state.sheets) {
    const columns = book.columns(name);
    rows.forEach((_, record) =>
      columns.forEach(({ header }, column) => {
        const place = { sheet: name, record, column };
        const [kernel, cells] = [book.value(place), engine.value({ sheet: name, row: record + 1, column })];
        if (!agree(kernel, cells))
          found.push(
            `${placeWords(book, name, record, header)}: ${String(kernel)} by rows, ${String(cells)} in cells; ` +
              `${book.formula(place) ?? ''}`,
          );
      }),
    );
  }
  engine.destroy();
  return found;
}
