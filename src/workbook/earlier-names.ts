import { isFormula, type Content } from '../formula/values.ts';
import { FormulaSyntaxError } from '../formula/tokens.ts';
import { cellArea } from '../formula/references.ts';
import { mapped, type Node, nodesOf, parsed, printed } from '../formula/syntax.ts';
import { declarations, namedSheets, recordSheets } from '../../sheets/index.ts';
import type { Column } from '../sheet/declaration.ts';
import { listed } from '../sheet/words.ts';
import type { BookRow, BookState, SheetState } from './state.ts';

/**
 * What earlier versions called columns, named values and words in cells, led to what they are called now.
 *
 * Declarations say it once, beside what they rename. Stored books and exported files come through here, and so do
 * formulas that people type with a name they have by heart.
 */

/** Something that has another name now. */
export interface Renamed {
  readonly before: string;
  readonly now: string;
}

const namedBefore: ReadonlyMap<string, string> = new Map(
  namedSheets.flatMap(({ values }) =>
    values.flatMap(({ name, formerly }) => (formerly === undefined ? [] : [[formerly.toLowerCase(), name] as const])),
  ),
);

/** A named value's present name, from the one that it had; undefined when it never had another. */
const presentName = (name: string): string | undefined => namedBefore.get(name.toLowerCase());

const columnsBefore: ReadonlyMap<string, ReadonlyMap<string, string>> = new Map(
  recordSheets.map(({ name, columns }) => [
    name,
    new Map(
      columns.flatMap(({ header, formerly }) => (formerly === undefined ? [] : [[formerly.toLowerCase(), header]])),
    ),
  ]),
);

const columnsOf: ReadonlyMap<string, readonly Column[]> = new Map(
  declarations.map(({ name, columns }) => [name, columns]),
);

const positionsOf: ReadonlyMap<string, ReadonlyMap<string, number>> = new Map(
  [...columnsOf].map(([name, columns]) => [name, new Map(columns.map(({ header }, position) => [header, position]))]),
);

const holdsNames = (sheet: string): boolean => namedSheets.some(({ declaration }) => declaration.name === sheet);

/** A column's present header, from the one that it had. Some headers of before are those of other columns now. */
export function presentHeader(sheet: string, header: string): string | undefined {
  return positionsOf.get(sheet)?.has(header) === true ? undefined : columnsBefore.get(sheet)?.get(header.toLowerCase());
}

/** Where a header of an earlier version stands now among a sheet's columns; undefined when it is no more. */
export function presentPosition(sheet: string, header: string): number | undefined {
  const position = positionsOf.get(sheet);
  return position?.get(header) ?? position?.get(presentHeader(sheet, header) ?? '');
}

/** "Duty is now Material", for a few of many. */
export function toldRenamed(what: string, renamed: readonly Renamed[]): string[] {
  const unique = [...new Map(renamed.map((item) => [`${item.before} ${item.now}`, item])).values()];
  if (unique.length === 0) return [];
  const names = unique.map(({ before, now }) => `${before} is now ${now}`);
  return [`${what} from an earlier version were renamed: ${listed(names)}`];
}

/** What a column calls a word of before; undefined when it never had another, as every object has a "constructor". */
export function presentWord({ formerWords = {} }: Column, word: string): string | undefined {
  const former = word.toLowerCase();
  return Object.hasOwn(formerWords, former) ? formerWords[former] : undefined;
}

/** The columns with other words than before that a formula refers to. */
function wordColumns(node: Node, home: string): Column[] {
  return nodesOf(node).flatMap((part) => {
    const area = part.type === 'reference' ? cellArea(part.text) : undefined;
    const columns = columnsOf.get(area?.sheet ?? home) ?? [];
    return area === undefined
      ? []
      : columns.slice(area.left, area.right + 1).filter(({ formerWords }) => formerWords !== undefined);
  });
}

interface PresentFormula {
  readonly text: string;
  readonly renamed: readonly Renamed[];
}

const anyFormerName = new RegExp(`\\b(?:${[...namedBefore.keys()].join('|')})\\b`, 'i');
const anyFormerWord = new RegExp(
  `"(?:${recordSheets
    .flatMap(({ columns }) => columns.flatMap(({ formerWords = {} }) => Object.keys(formerWords)))
    .join('|')})"`,
  'i',
);

/**
 * A formula with named values and compared words as they are called now. `own` are the book's own names in small
 * letters: a user's name goes before one that is no more. A text that can't be read as a formula stays as it is.
 */
export function presentFormula(formula: string, home: string, own: ReadonlySet<string>): PresentFormula {
  if (!anyFormerName.test(formula) && !anyFormerWord.test(formula)) return { text: formula, renamed: [] };
  try {
    const tree = parsed(formula.slice(1));
    const worded = wordColumns(tree, home);
    const renamed: Renamed[] = [];
    const changed = mapped(tree, (node) => {
      if (node.type === 'name') {
        const now = own.has(node.name.toLowerCase()) ? undefined : presentName(node.name);
        if (now === undefined) return undefined;
        renamed.push({ before: node.name, now });
        return { type: 'name', name: now };
      }
      if (node.type !== 'text') return undefined;
      const now = worded.map((column) => presentWord(column, node.value)).find((word) => word !== undefined);
      return now === undefined ? undefined : { type: 'text', value: now };
    });
    return { text: `=${printed(changed)}`, renamed };
  } catch (error) {
    if (error instanceof FormulaSyntaxError) return { text: formula, renamed: [] };
    throw error;
  }
}

/** The names in a book's sheets of named values, in small letters. */
export const namesOf = ({ sheets }: BookState): ReadonlySet<string> =>
  new Set(
    sheets.flatMap(({ name, rows }) =>
      holdsNames(name) ? rows.map(({ cells }) => String(cells[0]).toLowerCase()) : [],
    ),
  );

/** A row of a sheet of named values under the value's present name; its number and its source stay the user's. */
function presentNamedRow(row: BookRow, taken: ReadonlySet<string>, renamed: Renamed[]): BookRow {
  const [name] = row.cells;
  const now = typeof name === 'string' ? presentName(name) : undefined;
  if (typeof name !== 'string' || now === undefined || taken.has(now.toLowerCase())) return row;
  renamed.push({ before: name, now });
  return { ...row, cells: row.cells.with(0, now) };
}

function presentCells(sheet: SheetState, row: BookRow, own: ReadonlySet<string>, renamed: Renamed[]): BookRow {
  const columns = columnsOf.get(sheet.name) ?? [];
  let changed: Content[] | undefined;
  const put = (column: number, content: Content): void => {
    changed ??= [...row.cells];
    changed[column] = content;
  };
  row.cells.forEach((content, column) => {
    if (typeof content !== 'string') return;
    const formula: boolean = isFormula(content);
    if (formula) {
      const present = presentFormula(content, sheet.name, own);
      renamed.push(...present.renamed);
      if (present.text !== content) put(column, present.text);
      return;
    }
    const declared = columns[column];
    const word = declared === undefined ? undefined : presentWord(declared, content.trim());
    if (word !== undefined) put(column, word);
  });
  return changed === undefined ? row : { ...row, cells: changed };
}

/** A book with named values, formulas and words as this version calls them, and what to tell of it. */
export function presentBook(state: BookState): { readonly state: BookState; readonly told: readonly string[] } {
  const taken = namesOf(state);
  const renamed: Renamed[] = [];
  const named = state.sheets.map((sheet) =>
    holdsNames(sheet.name) ? { ...sheet, rows: sheet.rows.map((row) => presentNamedRow(row, taken, renamed)) } : sheet,
  );
  const own = namesOf({ ...state, sheets: named });
  const sheets = named.map((sheet) => ({
    ...sheet,
    rows: sheet.rows.map((row) => presentCells(sheet, row, own, renamed)),
    userColumns: sheet.userColumns.map((column) =>
      column.formula === undefined
        ? column
        : { ...column, formula: presentFormula(column.formula, sheet.name, own).text },
    ),
  }));
  return { state: { ...state, sheets }, told: toldRenamed('Named values', renamed) };
}
