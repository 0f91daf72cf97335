import { randomNumbers } from '../../src/random/random-numbers.ts';
import type { BookLook, ColumnLayout } from '../../src/workbook/book-look.ts';
import { firstLayout } from '../../src/workbook/column-layout.ts';
import { bookColumns, declarationOf, namedSheetOf } from '../../src/workbook/declared.ts';
import { type OwnLook, sharedLook } from '../../src/workbook/own-look.ts';
import type { BookRow, BookState, SheetState } from '../../src/workbook/state.ts';

/** How a user's file might show the cells of a random book: drawn apart, so that its cells stay as they are. */

type Chance = () => number;

const below = (chance: Chance, end: number): number => Math.floor(chance() * end);
const oneOf = <Item>(chance: Chance, items: readonly [Item, ...Item[]]): Item =>
  items[below(chance, items.length)] ?? items[0];

const fills = ['FFFF00', 'E2EFDA', '808080', '000000', 'F1F2F1'] as const;
const colors = ['C00000', 'FFFFFF', '0563C1'] as const;
const aligns = ['left', 'left 3', 'center', 'right', 'right 2'] as const;
const borders = ['top medium', 'bottom double C00000', 'top thick 0563C1, left medium', 'right thick'] as const;
const formats = ['000', '0.0000', '#,##0.00', '0%'] as const;
const comments = ['To be replaced.', 'two\nlines', ' spaced', '<b>&amp;', '\u{1F6E0}', 'Allowed: 1 to 2.'] as const;

interface Given {
  /** Whether the cell holds or works out anything. */
  readonly filled: boolean;
  readonly key: boolean;
  readonly noted: boolean;
  /** Whether its number format is the user's to choose. */
  readonly formatted: boolean;
}

/**
 * A look that a file brings back. What the program shows itself cannot be told from the user's own: bold type and top
 * of names, and beside a remark italic type and greys. A blank cell shows its colour, its lines and its comment.
 */
function lookBy(chance: Chance, { filled, key, noted, formatted }: Given): OwnLook | undefined {
  const fill = oneOf(chance, fills);
  const some = (share: number): boolean => chance() < share;
  const look: OwnLook = {
    ...(some(0.5) && !(noted && /^(..)\1\1$/.test(fill)) ? { fill } : {}),
    ...(some(0.3) ? { color: oneOf(chance, colors) } : {}),
    ...(some(0.2) && !key ? { bold: true } : {}),
    ...(some(0.2) && !noted ? { italic: true } : {}),
    ...(some(0.2) ? { underline: true } : {}),
    ...(some(0.2) ? { struck: true } : {}),
    ...(some(0.2) ? { align: oneOf(chance, aligns) } : {}),
    ...(some(0.2) ? { vertical: key ? 'middle' : oneOf(chance, ['top', 'middle']) } : {}),
    ...(some(0.2) ? { wrap: true } : {}),
    ...(some(0.2) ? { borders: oneOf(chance, borders) } : {}),
    ...(some(0.2) && formatted ? { format: oneOf(chance, formats) } : {}),
    ...(some(0.2) ? { comment: oneOf(chance, comments).trim() } : {}),
  };
  const { comment } = look;
  const seen = filled || look.fill !== undefined || look.borders !== undefined;
  return sharedLook(seen ? look : comment === undefined ? {} : { comment });
}

function lookedRow(row: BookRow, sheet: SheetState, chance: Chance): BookRow {
  const columns = bookColumns(sheet);
  const key = declarationOf(sheet.name)?.key;
  const looks = columns.flatMap(({ header, own, computed }, at): [number, OwnLook][] => {
    if (chance() > 0.03) return [];
    const cell = row.cells[at] ?? null;
    const formatted = own && !computed && typeof cell === 'number' && row.formats?.[at] === undefined;
    const filled = computed || (cell !== null && cell !== '');
    const look = lookBy(chance, { filled, key: header === key, noted: row.notes?.[at] !== undefined, formatted });
    return look === undefined ? [] : [[at, look]];
  });
  return {
    ...row,
    ...(looks.length === 0 ? {} : { looks: Object.fromEntries(looks) }),
    ...(chance() < 0.1 ? { hidden: true as const } : {}),
  };
}

function layoutBy(sheet: SheetState, chance: Chance): ColumnLayout {
  const headers = bookColumns(sheet).map(({ header }) => header);
  // Of columns that share a name the file cannot say which is meant.
  const named = headers.filter((header) => headers.indexOf(header) === headers.lastIndexOf(header));
  const some = (share: number): string[] => named.filter(() => chance() < share);
  const [away, noted] = [some(0.05), some(0.05)];
  return {
    ...firstLayout(sheet.name),
    widths: Object.fromEntries(some(0.1).map((header) => [header, 50 + below(chance, 300)])),
    ...(away.length === 0 ? {} : { away }),
    ...(noted.length === 0
      ? {}
      : { comments: Object.fromEntries(noted.map((header) => [header, oneOf(chance, comments).trim()])) }),
  };
}

/** The book as a user's file shows it; a number gives always the same. */
export function withRandomLooks(state: BookState, number: number): BookState {
  const chance = randomNumbers(number + 7_919);
  const sheets = state.sheets.map((sheet) =>
    namedSheetOf(sheet.name) === undefined
      ? { ...sheet, rows: sheet.rows.map((row) => lookedRow(row, sheet, chance)) }
      : sheet,
  );
  const layouts = Object.fromEntries(
    sheets.flatMap((sheet) => (chance() < 0.5 ? [] : [[sheet.name, layoutBy(sheet, chance)] as const])),
  );
  const look: BookLook = { layouts, views: [] };
  return { ...state, sheets, ...(Object.keys(layouts).length === 0 ? {} : { look }) };
}
