import { columnLetters, columnPosition } from '../formula/address.ts';
import { FormulaSyntaxError } from '../formula/tokens.ts';
import { mapped, parsed, printed } from '../formula/syntax.ts';
import { withRenamedHeaders } from './column-layout.ts';
import { movedSays, rowOf, withAllFormulas } from './formula-changes.ts';
import { emptyBook, namedSheetOf, compiledSheets } from './declared.ts';
import { presentBook, presentHeader, presentPosition, type Renamed, toldRenamed } from './earlier-names.ts';
import type { BookRow, BookState, SheetState } from './state.ts';

/** The form that a browser stores a book in; raised when what is stored changes its meaning. */
export const storedFormat = 2;

/** The declared headers of each sheet when a book was stored, in their order. */
export type StoredColumns = Readonly<Record<string, readonly string[]>>;

/** The declared headers of each sheet as the program has them now. */
export const presentColumns = (): StoredColumns =>
  Object.fromEntries([...compiledSheets].map(([name, { columns }]) => [name, columns.map(({ header }) => header)]));

/** Where a column of a sheet, by its name, stands now; undefined when it is no more. */
export type MovedColumn = (sheet: string, column: number) => number | undefined;

/** A formula's text with its references led to where the columns are now; a column that is no more gives #REF!. */
export function adaptedFormula(formula: string, home: string, moved: MovedColumn): string {
  try {
    let same = true;
    const tree = mapped(parsed(formula.slice(1)), (node) => {
      if (node.type !== 'reference') return undefined;
      const [, prefix = '', quoted, plain, area = ''] = /^((?:'((?:[^']|'')+)'|([^'!]+))!)?(.*)$/.exec(node.text) ?? [];
      const sheet = quoted?.replaceAll("''", "'") ?? plain ?? home;
      let lost = false;
      const text = area.replaceAll(/(\$?)([A-Za-z]{1,3})(?=\$?\d|:|$)/g, (whole, fixed: string, letters: string) => {
        const before = columnPosition(letters);
        const column = moved(sheet, before);
        lost ||= column === undefined;
        same &&= column === before;
        return column === undefined ? whole : `${fixed}${columnLetters(column)}`;
      });
      return lost ? { type: 'error', code: '#REF!' } : { type: 'reference', text: `${prefix}${text}` };
    });
    return same ? formula : `=${printed(tree)}`;
  } catch (error) {
    if (error instanceof FormulaSyntaxError) return formula;
    throw error;
  }
}

/** Where each of a sheet's present columns stood; -1 for one that is new. */
function placesBefore(sheet: string, before: readonly string[], now: readonly string[]): number[] {
  const present = before.map((header) => presentPosition(sheet, header));
  return now.map((_, column) => present.indexOf(column));
}

function adaptedRow(
  { cells, ...says }: BookRow,
  declared: readonly number[],
  before: readonly string[],
  own: number,
): BookRow {
  const places = [...declared, ...Array.from({ length: own }, (_, column) => before.length + column)];
  const now = new Map(places.map((place, column) => [place, column]));
  return rowOf(
    places.map((place) => cells[place] ?? null),
    movedSays(says, (column) => now.get(column)),
  );
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

/** A sheet's rows under the present columns. */
function adaptedSheet(sheet: SheetState, before: readonly string[]): SheetState {
  const now = compiledSheets.get(sheet.name)?.columns.map(({ header }) => header) ?? [];
  const same = before.length === now.length && before.every((header, column) => header === now[column]);
  const places = placesBefore(sheet.name, before, now);
  const rows = same ? sheet.rows : sheet.rows.map((row) => adaptedRow(row, places, before, sheet.userColumns.length));
  return same ? sheet : { ...sheet, rows };
}

/** A book with the sheets and the named values that it lacks, as an empty one has them; the user's own sheets last. */
function completedBook(state: BookState): BookState {
  const declared = emptyBook(state.units).sheets.map((fresh) => {
    const stored = state.sheets.find(({ name }) => name === fresh.name);
    return stored === undefined ? fresh : withDeclaredNames(stored, fresh).sheet;
  });
  return { ...state, sheets: [...declared, ...state.sheets.filter(({ name }) => !compiledSheets.has(name))] };
}

const renamedColumns = (columns: StoredColumns): Renamed[] =>
  Object.entries(columns).flatMap(([sheet, headers]) =>
    headers.flatMap((before) => {
      const now = presentHeader(sheet, before);
      return now === undefined ? [] : [{ before, now }];
    }),
  );

/** Where the columns of stored sheets stand now; a user's own keep their distance from the declared ones. */
function movedColumns(columns: StoredColumns): MovedColumn {
  return (sheet, column) => {
    const name = [...compiledSheets.keys()].find((other) => other.toLowerCase() === sheet.toLowerCase());
    const before = name === undefined || !Object.hasOwn(columns, name) ? undefined : columns[name];
    if (name === undefined || before === undefined) return column;
    if (column >= before.length) return column - before.length + (compiledSheets.get(name)?.columns.length ?? 0);
    return presentPosition(name, before[column] ?? '');
  };
}

interface AdaptedBook {
  readonly state: BookState;
  /** What has another name now, for the user. */
  readonly told: readonly string[];
}

/**
 * A book stored by another version of the program, in the sheets, columns and names of this one.
 *
 * Columns go by their headers, the earlier ones too: one that is no more is left out, a new one is empty, and formulas
 * follow them. Sheets that the book has not yet come as in an empty book; the user's own stay behind them.
 */
export function adaptedBook(state: BookState, columns: StoredColumns): AdaptedBook {
  const moved = movedColumns(columns);
  const sheets = state.sheets.map((sheet) => {
    // A user's sheet may be called as what every object has, such as "constructor".
    const before = Object.hasOwn(columns, sheet.name) ? columns[sheet.name] : undefined;
    return before === undefined ? sheet : adaptedSheet(sheet, before);
  });
  const led = {
    ...state,
    ...(state.look === undefined
      ? {}
      : { look: withRenamedHeaders(state.look, (sheet, header) => presentHeader(sheet, header) ?? header) }),
    sheets,
  };
  const present = presentBook(withAllFormulas(led, (formula, home) => adaptedFormula(formula, home, moved)));
  return {
    state: completedBook(present.state),
    told: [...toldRenamed('Columns', renamedColumns(columns)), ...present.told],
  };
}
