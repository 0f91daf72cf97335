import { columnLetters, columnPosition } from '../formula/address.ts';
import { isFormula } from '../formula/values.ts';
import { FormulaSyntaxError } from '../formula/tokens.ts';
import { mapped, parsed, printed } from '../formula/syntax.ts';
import { emptyBook, namedSheetOf, compiledSheets } from './declared.ts';
import type { BookRow, BookState, SheetState } from './state.ts';

/** The declared headers of each sheet when a book was stored, in their order. */
export type StoredColumns = Readonly<Record<string, readonly string[]>>;

/** The declared headers of each sheet as the program has them now. */
export const presentColumns = (): StoredColumns =>
  Object.fromEntries([...compiledSheets].map(([name, { columns }]) => [name, columns.map(({ header }) => header)]));

/** A formula's text with its references led to where the columns are now; a column that is no more gives #REF!. */
function adaptedFormula(
  formula: string,
  home: string,
  moved: (sheet: string, column: number) => number | undefined,
): string {
  try {
    const tree = mapped(parsed(formula.slice(1)), (node) => {
      if (node.type !== 'reference') return undefined;
      const [, prefix = '', quoted, plain, area = ''] = /^((?:'((?:[^']|'')+)'|([^'!]+))!)?(.*)$/.exec(node.text) ?? [];
      const sheet = quoted?.replaceAll("''", "'") ?? plain ?? home;
      let lost = false;
      const text = area.replaceAll(/(\$?)([A-Za-z]{1,3})(?=\$?\d|:|$)/g, (whole, fixed: string, letters: string) => {
        const column = moved(sheet, columnPosition(letters));
        lost ||= column === undefined;
        return column === undefined ? whole : `${fixed}${columnLetters(column)}`;
      });
      return lost ? { type: 'error', code: '#REF!' } : { type: 'reference', text: `${prefix}${text}` };
    });
    return `=${printed(tree)}`;
  } catch (error) {
    if (error instanceof FormulaSyntaxError) return formula;
    throw error;
  }
}

function adaptedRow(row: BookRow, before: readonly string[], now: readonly string[], own: number): BookRow {
  const places = [
    ...now.map((header) => before.indexOf(header)),
    ...Array.from({ length: own }, (_, column) => before.length + column),
  ];
  const notes = Object.fromEntries(
    places.flatMap((place, column) => (row.notes?.[place] === undefined ? [] : [[column, row.notes[place]]])),
  );
  return {
    cells: places.map((place) => row.cells[place] ?? null),
    ...(Object.keys(notes).length === 0 ? {} : { notes }),
  };
}

/**
 * A sheet of named values with those that it lacks, as an empty book has them, at its end; any other sheet as it is.
 */
export function withDeclaredNames(
  sheet: SheetState,
  fresh: SheetState | undefined,
): { readonly sheet: SheetState; readonly added: readonly string[] } {
  if (fresh === undefined || namedSheetOf(sheet.name) === undefined) return { sheet, added: [] };
  const names = new Set(sheet.rows.map(({ cells }) => String(cells[0]).toLowerCase()));
  const added = fresh.rows.filter(({ cells }) => !names.has(String(cells[0]).toLowerCase()));
  return {
    sheet: added.length === 0 ? sheet : { ...sheet, rows: [...sheet.rows, ...added] },
    added: added.map(({ cells }) => String(cells[0])),
  };
}

/** A sheet's rows under the present columns; named values that came since are added as declared. */
function adaptedSheet(sheet: SheetState, before: readonly string[], fresh: SheetState): SheetState {
  const now = compiledSheets.get(sheet.name)?.columns.map(({ header }) => header) ?? [];
  const same = before.length === now.length && before.every((header, column) => header === now[column]);
  const rows = same ? sheet.rows : sheet.rows.map((row) => adaptedRow(row, before, now, sheet.userColumns.length));
  return withDeclaredNames(same ? sheet : { ...sheet, rows }, fresh).sheet;
}

/**
 * A book stored by another version of the program, in the sheets and columns of this one.
 *
 * Columns go by their headers: one that is no more is left out, a new one is empty, and formulas follow them. Sheets
 * that the book has not yet come as in an empty book; the user's own stay behind them.
 */
export function adaptedBook(state: BookState, columns: StoredColumns): BookState {
  const fresh = emptyBook(state.units);
  const declared = fresh.sheets.map((sheet) => {
    const stored = state.sheets.find(({ name }) => name === sheet.name);
    return stored === undefined
      ? sheet
      : adaptedSheet(
          stored,
          columns[sheet.name] ?? compiledSheets.get(sheet.name)?.columns.map(({ header }) => header) ?? [],
          sheet,
        );
  });
  const sheets = [...declared, ...state.sheets.filter(({ name }) => !compiledSheets.has(name))];
  const moved = (sheet: string, column: number): number | undefined => {
    const [name, plan] = [...compiledSheets].find(([other]) => other.toLowerCase() === sheet.toLowerCase()) ?? [];
    const before = name === undefined ? undefined : columns[name];
    if (plan === undefined || before === undefined) return column;
    if (column >= before.length) return column - before.length + plan.columns.length;
    return plan.position.get(before[column] ?? '');
  };
  return {
    ...state,
    sheets: sheets.map((sheet) => ({
      ...sheet,
      rows: sheet.rows.map((row) =>
        row.cells.some(isFormula)
          ? {
              ...row,
              cells: row.cells.map((content) =>
                isFormula(content) ? adaptedFormula(content, sheet.name, moved) : content,
              ),
            }
          : row,
      ),
    })),
  };
}
