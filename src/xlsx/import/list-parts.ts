import { belts } from '../../../sheets/belts/index.ts';
import { recordSheets } from '../../../sheets/index.ts';
import { dateOrderShown } from '../../units/dates.ts';
import { decimalShown } from '../../units/numbers.ts';
import { columnNumber } from '../read/cell-address.ts';
import type { RawBook, RawCell, RawSheet } from '../read/raw-book.ts';
import { hasFormula, rowCells, shownBook } from '../read/raw-cells.ts';
import { nameWord } from './name-remarks.ts';
import { columnReader } from './cell-reading.ts';
import { isDitto } from './ditto-marks.ts';
import { foundSheets, type FoundTable, isBelts, keyColumn } from './found-tables.ts';
import type { ImportChoices, ImportProposal, TableProposal } from './import-model.ts';
import { mostOfTotal } from './table-rows.ts';
import { dayColumns } from './list-rows.ts';
import { type PatternedTexts, patternedTexts } from './patterned-texts.ts';

/**
 * A long list looked at part by part.
 *
 * What a column is taken for is judged by a sample: the list's first rows, and of the others those that show something
 * that no row of their part has shown (another kind of content, another number format, another mark or unit in a text)
 * and those that are no plain records. How cells contradict each other is seen in it; how many say what, only as far as
 * the sample goes. What depends on rows further apart (marks that repeat the cell above, merged cells, formulas, a
 * second list below) is told as a reason to read the list whole.
 */

/** What a part of a list shows. Rows are those of the sheet. */
export interface PartFacts {
  /** Why the list cannot be read in parts; undefined where it can. */
  readonly unfit?: string;
  /** The last row of the header. */
  readonly headRow: number;
  /** All rows that show something. */
  readonly rows: Uint32Array;
  /** Two halves of each row's name as a number by chance, by which equal names are found; 0 for one without a name. */
  readonly names: Uint32Array;
  readonly dates: ReadonlyMap<number, boolean>;
  /** The rows of the sample: those that show something new in their part, and the others. */
  readonly sample: ReadonlyMap<number, readonly RawCell[]>;
  /** Rows of it that are no plain records. */
  readonly odd: ReadonlySet<number>;
  readonly patterned: PatternedTexts;
}

/** Kinds of content of one column that are sampled; a column of free texts has any number. Ours. */
const mostKinds = 60;
/** Rows of each kind that a part gives to the sample. */
const ofEachKind = 2;

/** A text's shape: its letters, with one 9 for each run of digits. */
function kindOf({ value, format, date, error }: RawCell): string {
  if (error !== undefined) return error;
  if (typeof value !== 'string') return `${typeof value}${date === true ? ' day' : ''} ${format ?? ''}`;
  if (!/\d/.test(value)) return 'text';
  return `${decimalShown(value) ?? ''} ${dateOrderShown(value) ?? ''} ${value.toLowerCase().replaceAll(/\d+/g, '9')}`;
}

/** Which rows show something new, of all that it is asked for. */
export class TellingRows {
  readonly #met = new Map<number, Map<string, number>>();

  isTelling(cells: readonly RawCell[]): boolean {
    let telling = false;
    for (const cell of cells) {
      const kinds = this.#met.get(cell.column) ?? new Map<string, number>();
      this.#met.set(cell.column, kinds);
      const kind = kindOf(cell);
      const count = kinds.get(kind) ?? 0;
      if (count >= ofEachKind || (count === 0 && kinds.size >= mostKinds)) continue;
      kinds.set(kind, count + 1);
      telling = true;
    }
    return telling;
  }
}

const unfit = (why: string): PartFacts => ({
  unfit: why,
  headRow: 0,
  rows: new Uint32Array(0),
  names: new Uint32Array(0),
  dates: new Map(),
  sample: new Map(),
  odd: new Set(),
  patterned: new Map(),
});

/** Two 32-bit numbers of a text. Equal texts have equal ones; different ones too once in some 1e19 pairs. FNV-1a. */
function nameNumbers(word: string): readonly [number, number] {
  let [one, other] = [0x811c9dc5, 0x9747b28c];
  for (let at = 0; at < word.length; at += 1) {
    const code = word.charCodeAt(at);
    one = Math.imul(one ^ code, 0x01000193);
    other = Math.imul(other ^ (code + at), 0x85ebca6b);
    other ^= other >>> 13;
  }
  return [one >>> 0 || 1, other >>> 0];
}

/** What a name is found again by. */
export const nameMark = (word: string): string => nameMarkAt(...nameNumbers(word));
export const nameMarkAt = (one: number, other: number): string => `${one} ${other}`;

/** The name of a record as the import reads it. */
function namesOf(table: FoundTable, rows: readonly number[], key: number): Uint32Array {
  const column = belts.columns.find(({ header }) => header === belts.key);
  const names = new Uint32Array(2 * rows.length);
  if (column === undefined || key === 0) return names;
  const reader = columnReader(column, belts, { system: 'metric', listSystem: 'metric' });
  for (const [index, row] of rows.entries()) {
    const cell = rowCells(table.sheet, row).find((item) => item.column === key);
    const name = cell === undefined ? null : reader.read(cell).content;
    if (name !== null) names.set(nameNumbers(nameWord(typeof name === 'string' ? name.trim() : name)), 2 * index);
  }
  return names;
}

/** Looks at a part of a sheet; the first is kept whole. */
export function lookedAt(file: RawBook, sheetName: string, choices: ImportChoices, first: boolean): PartFacts {
  const book = shownBook(file);
  const sheet = book.sheets.find(({ name }) => name === sheetName);
  if (sheet === undefined || sheet.rows.size === 0) return unfit('it has no rows');
  const { tables } = foundSheets({ ...book, sheets: [sheet] }, choices);
  const [table] = tables;
  if (table === undefined || tables.length > 1 || !isBelts(table) || table.turned)
    return unfit('it is not one list of belts with a belt in each row');
  if (table.rows.next !== undefined) return unfit('another list follows below it');
  const headRow = table.block.unitsRow ?? table.block.bottom;
  if (sheet.merges.some(({ bottom }) => bottom > headRow)) return unfit('it has merged cells');
  if ((sheet.look?.comments.length ?? 0) > 0) return unfit('it has comments');
  const rows = [...sheet.rows.keys()].filter((row) => row > headRow);
  const cells = rows.map((row) => rowCells(sheet, row));
  if (cells.some((own) => own.some(hasFormula))) return unfit('it holds formulas');
  if (cells.some((own) => own.some(isDitto))) return unfit('marks in it repeat the cell above');
  const skipped = new Set(table.rows.skipped.map(({ row }) => row));
  const telling = new TellingRows();
  const names = namesOf(table, rows, keyColumn(table.block));
  const isFew = (at: number): boolean => names[2 * at] === 0 && (cells[at]?.length ?? 0) <= mostOfTotal;
  const odd = new Set(rows.filter((row, at) => skipped.has(row) || cells[at]?.length === 1 || isFew(at)));
  const sample = [...sheet.rows].filter(
    ([row, own]) => telling.isTelling(own) || first || row <= headRow || odd.has(row),
  );
  return {
    headRow,
    rows: Uint32Array.from(rows),
    names,
    dates: dayColumns(rows.flatMap((row, at) => (skipped.has(row) ? [] : [cells[at] ?? []]))),
    sample: new Map(sample),
    odd,
    patterned: patternedTexts(cells),
  };
}

/** The list's column of names by what a proposal takes it for; 0 where it has none. */
export function keyColumnOf({ columns }: TableProposal): number {
  const letter = columns.find(({ target }) => target === belts.key)?.letter;
  return letter === undefined ? 0 : columnNumber(letter);
}

/** Sheets whose records belong to belts, or are chosen among them: a part of the belts would not do for these. */
const besideBelts: ReadonlySet<string> = new Set(
  recordSheets
    .filter(
      ({ partOf, columns }) =>
        partOf?.sheet === belts.name ||
        columns.some(({ choices }) => choices !== undefined && 'sheet' in choices && choices.sheet === belts.name),
    )
    .map(({ name }) => name),
);

/** The list of belts of a file that is read in parts, or why it cannot be. */
export function listInParts({ tables, ours }: ImportProposal, sheet: string): TableProposal | string {
  const lists = tables.filter(({ target }) => target === belts.name);
  const [list] = lists;
  if (ours || list === undefined || list.sheet !== sheet) return 'its belts are not in its longest sheet';
  if (lists.length > 1) return 'several of its sheets list belts';
  const beside = tables.find(({ target }) => besideBelts.has(target));
  return beside === undefined ? list : `it has ${beside.target} beside the belts`;
}

/** Whether a row has no name and so few cells that it may be the sums of all rows above it. */
export const mayBeTotal = ({ rows, names, odd }: PartFacts, row: number): boolean =>
  odd.has(row) && names[2 * rows.indexOf(row)] === 0;

/** Whether a book lends records that belong to belts. */
export const lendsParts = (sheets: readonly { readonly name: string; readonly rows: readonly unknown[] }[]): boolean =>
  sheets.some(({ name, rows }) => besideBelts.has(name) && rows.length > 0);

/** A sheet with the rows of a sample. */
export function sampleSheet(sheet: RawSheet, samples: readonly PartFacts['sample'][]): RawSheet {
  const rows = new Map(samples.flatMap((sample) => [...sample]).toSorted(([one], [other]) => one - other));
  let lastColumn = 0;
  for (const cells of rows.values()) lastColumn = Math.max(lastColumn, cells.at(-1)?.column ?? 0);
  return { ...sheet, rows, lastRow: Math.max(0, ...[...rows.keys()].slice(-1)), lastColumn };
}
