import type { Content } from '../formula/values.ts';
import { isFault } from '../formula/values.ts';
import { cellIssue } from '../records/cell-issue.ts';
import { withContents } from '../workbook/state-changes.ts';
import type { CellEdit } from '../workbook/state-changes.ts';
import type { BookState, SheetState } from '../workbook/state.ts';
import { Workbook } from '../workbook/workbook.ts';
import { ChangeRefused, namedPlaces, placeName, typedChange } from './typed-change.ts';

/**
 * Variants: named sets of changes over a book. They stand in a sheet of the user's, a change a row, so that they are
 * kept, undone, exported, merged and edited as any other cells are.
 */

export const variantSheet = 'Variants';
const [nameHeader, cellHeader, valueHeader] = ['Variant', 'Cell', 'Value'];

/** One cell of a variant as its row says it: "Q3:Skew" and what shall stand there. */
interface VariantChange {
  readonly cell: string;
  readonly value: Content;
}

export interface Variant {
  readonly name: string;
  readonly changes: readonly VariantChange[];
}

const same = (one: string, other: string): boolean => one.trim().toLowerCase() === other.trim().toLowerCase();

/** The variants of a book, in the order in which they are first named. A row without a name goes with the one above. */
export function variantsOf(book: Workbook): Variant[] {
  const state = book.state.sheets.find(({ name }) => same(name, variantSheet));
  const at = (header: string): number => (state === undefined ? -1 : (book.findColumn(state.name, header) ?? -1));
  const [name, cell, value] = [at(nameHeader), at(cellHeader), at(valueHeader)];
  if (state === undefined || name < 0 || cell < 0 || value < 0) return [];
  const found = new Map<string, { name: string; changes: VariantChange[] }>();
  let last = '';
  for (const record of state.rows.keys()) {
    const [called, what, given] = [name, cell, value].map((column) =>
      book.value({ sheet: state.name, record, column }),
    );
    if (typeof called === 'string' && called.trim() !== '') last = called.trim();
    if (typeof what !== 'string' || what.trim() === '' || last === '') continue;
    const variant = found.get(last.toLowerCase()) ?? { name: last, changes: [] };
    variant.changes.push({ cell: what.trim(), value: given === undefined || isFault(given) ? null : given });
    found.set(last.toLowerCase(), variant);
  }
  return [...found.values()];
}

/** A variant by its name. Throws ChangeRefused where the book has none of it. */
export function variantNamed(book: Workbook, typed: string): Variant {
  const all = variantsOf(book);
  const found = all.find(({ name }) => same(name, typed));
  if (found !== undefined) return found;
  throw new ChangeRefused(
    all.length === 0
      ? `The book has no variants. Enter them in a sheet ${variantSheet} with the columns ${nameHeader}, ` +
          `${cellHeader} and ${valueHeader}, such as "steeper", "Q3:Skew", 45.`
      : `There is no variant "${typed}". The book has ${all.map(({ name }) => name).join(', ')}.`,
  );
}

/** The edits that make a variant of its book. Throws ChangeRefused that names the variant. */
function variantEdits(book: Workbook, { name, changes }: Variant): CellEdit[] {
  return changes.flatMap(({ cell, value }) => {
    try {
      return typeof value === 'string'
        ? typedChange(book, `${cell}=${value}`)
        : namedPlaces(book, cell).map((place) => ({ ...place, content: value }));
    } catch (error) {
      if (error instanceof ChangeRefused) throw new ChangeRefused(`Variant ${name}: ${error.message}`);
      throw error;
    }
  });
}

/** A book as a variant has it, beside the present one; what a cell may not hold is refused by ChangeRefused. */
export function variantBook(book: Workbook, variant: Variant): Workbook {
  const edits = variantEdits(book, variant);
  const made = new Workbook(withContents(book.state, edits));
  const wrong = edits.map((place) => cellIssue(made, place)).find((issue) => issue !== undefined);
  if (wrong !== undefined) {
    made.destroy();
    throw new ChangeRefused(`Variant ${variant.name}: ${wrong}`);
  }
  return made;
}

/** Makes a variant of its book, in one step that can be undone. */
export function applyVariant(book: Workbook, variant: Variant): void {
  variantBook(book, variant).destroy();
  book.edit(variantEdits(book, variant), `variant ${variant.name}`);
}

const emptySheet: SheetState = {
  name: variantSheet,
  userColumns: [nameHeader, cellHeader, valueHeader].map((header) => ({ header, kind: 'text' })),
  rows: [],
};

/**
 * A state with changes kept as a variant: its rows come after those of the others, in place of what it had. The cells
 * themselves stay as they are.
 */
export function withVariant(book: Workbook, name: string, changes: readonly CellEdit[]): BookState {
  const { state } = book;
  const before = state.sheets.find((sheet) => same(sheet.name, variantSheet)) ?? emptySheet;
  const at = (header: string): number => before.userColumns.findIndex((column) => same(column.header, header));
  const places = [nameHeader, cellHeader, valueHeader].map(at);
  if (places.some((place) => place < 0))
    throw new ChangeRefused(
      `The sheet ${variantSheet} needs the columns ${nameHeader}, ${cellHeader} and ${valueHeader}.`,
    );
  const [nameAt = 0, cellAt = 1, valueAt = 2] = places;
  const rows = changes.map((edit) => {
    const cells: Content[] = before.userColumns.map(() => null);
    cells[nameAt] = name;
    cells[cellAt] = placeName(book, edit);
    cells[valueAt] = edit.content;
    return { cells };
  });
  const others = before.rows.filter(
    ({ cells }) => cells.some((cell) => cell !== null) && !same(String(cells[nameAt] ?? ''), name),
  );
  const sheet = { ...before, rows: [...others, ...rows] };
  const known = state.sheets.includes(before);
  return {
    ...state,
    sheets: known ? state.sheets.map((one) => (one === before ? sheet : one)) : [...state.sheets, sheet],
  };
}
