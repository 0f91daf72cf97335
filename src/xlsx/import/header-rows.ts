import type { SheetDeclaration } from '../../sheet/declaration.ts';
import { isWords } from '../../units/quantities.ts';
import { readUnit, type Unit } from '../../units/reading.ts';
import type { HeaderText } from './header-forms.ts';
import { candidates, exactColumns, leastConfidence, matchedHeaders } from './header-matching.ts';
import { isPartList } from './part-lists.ts';
import type { RawRange, RawSheet } from '../read/raw-book.ts';
import { cellAt, cellText, rowCells, isText, rangeAt } from '../read/raw-cells.ts';

/**
 * Where a list begins in a sheet: its header, below titles and blank lines, in one row or in up to three with merged
 * titles over groups of columns, and the row of units under it.
 */

interface TableHeader {
  /** Column of the sheet, counted from 1. */
  readonly column: number;
  readonly text: HeaderText;
  /** Without titles that only seem to spread over it; absent where there are none. */
  readonly sure?: HeaderText;
  /** What the units row says, as written and as units. */
  readonly unitText?: string;
  readonly units?: readonly Unit[];
}

export interface HeaderBlock {
  readonly top: number;
  readonly bottom: number;
  readonly unitsRow?: number;
  readonly headers: readonly TableHeader[];
}

export interface ScoredBlock extends HeaderBlock {
  readonly sheet: SheetDeclaration;
  /** Sum of the matched columns' confidence, everyday words counting half. */
  readonly score: number;
  readonly matched: number;
  /** Whether a matched column is a size or a number and called by more than an everyday word. */
  readonly measured: boolean;
}

/** Rows looked through for a header before a list is taken to have none. */
const searchedRows = 200;
/** Rows that are worth a close look for names that are mistyped. */
const closelySearched = 12;
const tallest = 3;

/** The header that suits a declared sheet best, at or below a row; undefined when no row looks like one. */
export function headerBlock(
  sheet: RawSheet,
  declared: readonly SheetDeclaration[],
  from = 1,
  forced?: number,
): ScoredBlock | undefined {
  const rows: number[] = [];
  for (const row of sheet.rows.keys()) if (row >= from && rows.push(row) === searchedRows) break;
  const bottoms = forced === undefined ? likelyRows(sheet, rows, declared) : [forced];
  let best: ScoredBlock | undefined;
  let most = 0;
  for (const bottom of bottoms) {
    for (let height = 1; height <= tallest; height += 1) {
      const top = bottom - height + 1;
      if (top < from || rowCells(sheet, top).length === 0) break;
      const block = blockOf(sheet, top, bottom);
      // A taller header must be better, not only as good, and a header does not end within its merged cells.
      const cost = 0.3 * (height - 1) + unfinished(sheet, block);
      for (const declaration of declared) {
        const scored = scoredBlock(block, declaration);
        const worth = scored.score - cost;
        if (worth <= most) continue;
        most = worth;
        best = scored;
      }
    }
  }
  return best;
}

/** What a header loses when merged cells of it go on below its last row, or spread over several columns in it. */
function unfinished(sheet: RawSheet, { top, bottom, headers }: HeaderBlock): number {
  const whole = (range: RawRange): boolean =>
    headers.length > 0 && range.left <= (headers[0]?.column ?? 0) && range.right >= (headers.at(-1)?.column ?? 0);
  const cut = sheet.merges.some(
    (range) => range.top >= top && range.top <= bottom && range.bottom > bottom && range.bottom <= bottom + tallest,
  );
  const group = sheet.merges.some((range) => range.bottom === bottom && range.right > range.left && !whole(range));
  return (cut ? 1 : 0) + (group ? 0.5 : 0);
}

/** How sure the best match of a text is, 0 to 1. */
const sureness = (text: HeaderText, declaration: SheetDeclaration): number =>
  candidates({ text }, declaration)[0]?.confidence ?? 0;

/**
 * The header with titles where they help: one that only seems to spread over a column counts where the two together
 * name something that the column's own words do not.
 */
function settled({ sure, ...header }: TableHeader, declaration: SheetDeclaration): TableHeader {
  if (sure === undefined) return header;
  const together = sureness(header.text, declaration);
  const helps = together >= leastConfidence && together > sureness(sure, declaration);
  return helps ? header : { ...header, text: sure };
}

/** How well a header suits a declared sheet. */
function scoredBlock(given: HeaderBlock, declaration: SheetDeclaration): ScoredBlock {
  const block = { ...given, headers: given.headers.map((header) => settled(header, declaration)) };
  const matches = matchedHeaders(
    block.headers.map(({ text }) => ({ text })),
    declaration,
  );
  const found = matches.flatMap(({ best }) => best ?? []);
  const score = found.reduce(
    (sum, { column, confidence, everyday }) =>
      sum + confidence * (everyday ? 0.5 : 1) * (column.formula === undefined ? 1 : 0.5),
    0,
  );
  const measured = found.some(
    ({ column, everyday }) => !everyday && !isWords(column.kind) && column.formula === undefined,
  );
  const isList = isPartList(
    block.headers.map(({ text }) => text),
    matches,
    declaration,
  );
  return { ...block, sheet: declaration, score: isList ? score : 0, matched: found.length, measured };
}

/** Rows that may be the last of a header: several texts in them name columns. */
function likelyRows(sheet: RawSheet, rows: readonly number[], declared: readonly SheetDeclaration[]): number[] {
  const likely: number[] = [];
  let most = 0;
  let close = 0;
  for (const row of rows) {
    const cells = rowCells(sheet, row);
    const texts = cells.filter((cell) => isText(cell) && cell.value.length <= 80 && !/^\s*[\d.,+-]/.test(cell.value));
    if (texts.length < 1 || texts.length < cells.length * 0.5) continue;
    const named = Math.max(
      ...declared.map(
        (declaration) =>
          texts.filter((cell) => exactColumns({ own: String(cell.value), above: [] }, declaration).length > 0).length,
      ),
    );
    // Names that are all mistyped or shortened are found by looking closer, which only the first rows are worth.
    const look = named < 2 && likely.length < 3 && texts.length >= 3 && (close += 1) <= closelySearched;
    const near =
      look &&
      Math.max(
        ...declared.map((declaration) =>
          nearlyNamed(
            texts.map((cell) => String(cell.value)),
            declaration,
          ),
        ),
      ) >= 2;
    if (named === 0 && !near) continue;
    likely.push(row);
    most = Math.max(most, named);
    if (most >= 3 && likely.length >= 4) break;
  }
  return likely.slice(0, 12);
}

const nearlyNamed = (texts: readonly string[], declaration: SheetDeclaration): number =>
  texts.filter((own) => (candidates({ text: { own, above: [] } }, declaration)[0]?.confidence ?? 0) >= leastConfidence)
    .length;

/** The headers of a block of rows, and the units in the row below it. */
function blockOf(sheet: RawSheet, top: number, bottom: number): HeaderBlock {
  const columns = new Set<number>();
  for (let row = top; row <= bottom; row += 1)
    for (const cell of rowCells(sheet, row)) if (isText(cell) || row === bottom) columns.add(cell.column);
  const left = Math.min(...columns);
  const right = Math.max(...columns);
  const titles = (row: number): readonly RawRange[] =>
    sheet.merges.filter((range) => row >= range.top && row <= range.bottom && range.right > range.left);
  // A title over the whole list is no group, nor is a lone text above the headers.
  const grouping = (row: number): boolean =>
    row < bottom &&
    rowCells(sheet, row).length > 1 &&
    !titles(row).some((range) => range.left <= left && range.right >= right);
  const headers: TableHeader[] = [];
  for (const column of [...columns].toSorted((a, b) => a - b)) {
    const parts: Title[] = [];
    for (let row = top; row <= bottom; row += 1) {
      if (row < bottom && !grouping(row)) continue;
      const title = titleAt(sheet, row, bottom, column);
      if (title.text !== '' && parts.at(-1)?.text !== title.text) parts.push(title);
    }
    const own = parts.pop();
    if (own === undefined) continue;
    const above = (titles: readonly Title[]): HeaderText => ({ own: own.text, above: titles.map(({ text }) => text) });
    const sure = parts.filter(({ guessed }) => guessed !== true);
    headers.push({ column, text: above(parts), ...(sure.length === parts.length ? {} : { sure: above(sure) }) });
  }
  return withUnits(sheet, { top, bottom, headers });
}

interface Title {
  readonly text: string;
  /** Nothing says where it ends: the cell stands to the left, and is not merged. */
  readonly guessed?: true;
}

/**
 * The text that stands over a column in a header row: its own, that of a merged cell, or one to its left that spreads
 * over it.
 */
function titleAt(sheet: RawSheet, row: number, bottom: number, column: number): Title {
  const own = cellAt(sheet, row, column);
  if (own !== undefined && cellText(own).trim() !== '') return { text: cellText(own).trim() };
  const range = rangeAt(sheet, row, column);
  if (range !== undefined) {
    const anchor = cellAt(sheet, range.top, range.left);
    return { text: anchor === undefined ? '' : cellText(anchor).trim() };
  }
  if (row === bottom || cellAt(sheet, bottom, column) === undefined) return { text: '' };
  const spreading = rowCells(sheet, row).findLast((cell) => cell.column < column);
  const unbroken =
    spreading !== undefined &&
    Array.from({ length: column - spreading.column }, (_, offset) => spreading.column + offset).every(
      (at) => cellAt(sheet, bottom, at) !== undefined,
    );
  return spreading === undefined ||
    !unbroken ||
    !isText(spreading) ||
    rangeAt(sheet, row, spreading.column) !== undefined
    ? { text: '' }
    : { text: spreading.value.trim(), guessed: true };
}

const noUnit = /^[\s\-–—./()[\]]*$/;

/**
 * The block with what a row of units under it says; a row is one when most of its texts are units and none is a number.
 */
function withUnits(sheet: RawSheet, block: HeaderBlock): HeaderBlock {
  const row = block.bottom + 1;
  const cells = rowCells(sheet, row);
  if (cells.length === 0 || !cells.every(isText)) return block;
  const said = cells.filter((cell) => !noUnit.test(cellText(cell)));
  const units = said.filter((cell) => readUnit(cellText(cell)).length > 0);
  if (units.length === 0 || units.length < said.length * 0.6) return block;
  const headers = block.headers.map((header): TableHeader => {
    const cell = said.find(({ column }) => column === header.column);
    return cell === undefined
      ? header
      : { ...header, unitText: cellText(cell).trim(), units: readUnit(cellText(cell)) };
  });
  return { ...block, unitsRow: row, headers };
}
