import fc from 'fast-check';
import type { Content } from '../../src/formula/values.ts';
import { isComputed } from '../../src/sheet/declaration.ts';
import { randomNumbers } from '../../src/random/random-numbers.ts';
import { quantities, type QuantityKind } from '../../src/units/quantities.ts';
import { bookColumns, compiledSheets, namedSheetOf } from '../../src/workbook/declared.ts';
import type { BookRow, BookState, CellFormat, SheetState, UserColumn } from '../../src/workbook/state.ts';
import { randomBooks } from './books.ts';
import { withRandomLooks } from './random-looks.ts';

/** Books by chance with everything in them that a book can hold: what a file must bring back. */

type Chance = () => number;

const below = (chance: Chance, end: number): number => Math.floor(chance() * end);
const oneOf = <Item>(chance: Chance, items: readonly [Item, ...Item[]]): Item =>
  items[below(chance, items.length)] ?? items[0];

const texts = [
  'plain',
  '007',
  '0012.50',
  ' led and trailed ',
  "'=1+1",
  "'quoted",
  '+49 40 123',
  '-5',
  '@home',
  '1E5',
  '12 mm',
  '50%',
  '2026-01-02',
  '1/2',
  'TRUE',
  'false',
  '#N/A',
  '#REF!',
  '\u{1F6E0} tools \u{1F469}\u200D\u{1F527}',
  'Förderband 7, 傾斜',
  '\u0645\u0631\u062D\u0628\u0627 \u202Eabc',
  'a\nb\tc',
  'a\r\nb',
  'bell \u0007',
  '_x0041_',
  '_x005F_x0041_',
  '<b>&amp;"\'',
  ']]>',
  '=',
  '{=1}',
  'e\u0301 is two',
  'NaN',
  'Infinity',
  'null',
  '__proto__',
  'constructor',
  '0x1F',
  '1,5',
  '\uFEFFmark',
  '\u00A0',
] as const;

const formulas = [
  '=1+1',
  '=Belts!D2*2',
  '=SUM(Belts!D2:D9)',
  '=TightMargin',
  '=IF(Belts!D2>700,"wide","narrow")',
  '="007"',
  '=NA()',
  '=1/0',
  '=SKEWLENGTH(650,45)',
  '=A1',
  '=NOSUCH+1',
  '=Nowhere!A1',
  '=1+',
  '=XLOOKUP("a",A1:A3,B1:B3)',
  '=TEXT(12.5,"0.0")',
  '=-2^2',
  '="\u{1F6E0}"&"<&>"',
  '=10%',
  '=SEQUENCE(2)',
  '=COUNTIF(Belts!A:A,"*1")',
  "='Plate series'!A2",
] as const;

function numberBy(chance: Chance): number {
  switch (below(chance, 7)) {
    case 0:
      return below(chance, 1000);
    case 1:
      return Number(`${below(chance, 999_999_999)}${below(chance, 999_999)}e${below(chance, 20) - 15}`);
    case 2:
      return oneOf(chance, [123_456_789_012_345, 0.1, 1 / 3, 1e15, 1e-15, 5e-324, 1.797_693_134_862_315_7e308, -1, 0]);
    case 3:
      return chance();
    case 4:
      return -chance() * 1e6;
    case 5:
      return 40_000 + below(chance, 9_000);
    default:
      return Math.round(chance() * 1e4) / 100;
  }
}

const textBy = (chance: Chance): string =>
  chance() < 0.03 ? '\u{1F6E0}x='.repeat(8191).slice(0, 32_764) + 'end' : oneOf(chance, texts);

/** What a cell may hold. */
export function contentBy(chance: Chance): Content {
  const what = chance();
  if (what < 0.25) return null;
  if (what < 0.5) return numberBy(chance);
  if (what < 0.8) return textBy(chance);
  return what < 0.92 ? oneOf(chance, formulas) : chance() < 0.5;
}

const kinds = Object.keys(quantities) as QuantityKind[];

const formatBy = (chance: Chance): CellFormat => ({
  kind: kinds[below(chance, kinds.length)] ?? 'text',
  ...(chance() < 0.3 ? { digits: below(chance, 10) } : {}),
  ...(chance() < 0.2 ? { percent: true } : {}),
});

function formatsBy(chance: Chance, from: number, width: number): Pick<BookRow, 'formats'> {
  return chance() < 0.8 || from >= width ? {} : { formats: { [from + below(chance, width - from)]: formatBy(chance) } };
}

const columnBy = (chance: Chance): UserColumn => ({
  header: chance() < 0.4 ? oneOf(chance, texts).trim() || 'Own' : `Own ${below(chance, 4)}`,
  ...formatBy(chance),
  ...(chance() < 0.3 ? { unit: oneOf(chance, texts) } : {}),
  ...(chance() < 0.3 ? { doc: oneOf(chance, texts) } : {}),
  ...(chance() < 0.3 ? { formula: oneOf(chance, formulas) } : {}),
});

/** Values of the user's own behind those that the book has. */
function namesBy(chance: Chance): BookRow[] {
  const names = ['OwnOne', 'own_two', 'Größe'].filter(() => chance() < 0.4);
  return names.map((name) => ({
    cells: [name, numberBy(chance), oneOf(chance, ['mm', 'kW', 'bar', 'date', 'x']), 'meaning', 'source'],
  }));
}

const columnsBy = (chance: Chance, most: number): UserColumn[] =>
  Array.from({ length: below(chance, most + 1) }, () => columnBy(chance));

function notesBy(chance: Chance, width: number): Pick<BookRow, 'notes'> {
  if (chance() < 0.8) return {};
  const many = 1 + below(chance, 3);
  return {
    notes: Object.fromEntries(
      Array.from({ length: many }, () => [below(chance, width), oneOf(chance, texts)] as const),
    ),
  };
}

/** A sheet of records with own columns, overrides and remarks. */
function filled(sheet: SheetState, chance: Chance): SheetState {
  const columns = compiledSheets.get(sheet.name)?.columns ?? [];
  const named = namedSheetOf(sheet.name);
  if (named !== undefined) return named.editable ? { ...sheet, rows: [...sheet.rows, ...namesBy(chance)] } : sheet;
  const userColumns = columnsBy(chance, 3);
  const wide = bookColumns({ ...sheet, userColumns }).length;
  const rows = sheet.rows.map((row): BookRow => ({
    cells: [
      ...columns.map((column, at) =>
        isComputed(column) && chance() < 0.01 ? contentBy(chance) : (row.cells[at] ?? null),
      ),
      ...userColumns.map(() => contentBy(chance)),
    ],
    ...notesBy(chance, wide),
    ...formatsBy(chance, columns.length, wide),
  }));
  return { ...sheet, userColumns, rows };
}

const names = [
  'Mine',
  "It's mine",
  'In / Out?',
  'A sheet whose name is longer than files take it, by far',
  'belts ',
  'Findings',
  'About',
  '\u{1F6E0}'.repeat(18),
  '123',
  'A1',
  'R1C1',
  'History',
  '[x]',
  '=1+1',
  "'x'",
] as const;

function freeSheet(name: string, chance: Chance): SheetState {
  const userColumns = [columnBy(chance), ...columnsBy(chance, 4)];
  const rows = Array.from({ length: below(chance, 6) }, (): BookRow => ({
    cells: userColumns.map(() => contentBy(chance)),
    ...notesBy(chance, userColumns.length),
  }));
  return { name, userColumns, rows };
}

/** The book of a number: it follows from it alone. */
export function everythingBook(number: number): BookState {
  const chance = randomNumbers(number);
  const [base] = fc.sample(randomBooks({ belts: 15, series: 8, named: 5 }), { seed: number, numRuns: 1 });
  if (base === undefined) throw new Error('no book was drawn');
  const free = new Set(Array.from({ length: below(chance, 4) }, () => oneOf(chance, names)));
  const book = {
    ...base,
    title: oneOf(chance, texts),
    invented: chance() < 0.5,
    sheets: [...base.sheets.map((sheet) => filled(sheet, chance)), ...[...free].map((name) => freeSheet(name, chance))],
  };
  return withRandomLooks(book, number);
}
