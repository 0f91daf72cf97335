import type { Workbook as FileBook, Worksheet } from 'exceljs';
import type { UnitSystem } from '../../units/quantities.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { cellStyle } from './cell-styles.ts';
import type { FileFormulas } from './file-formulas.ts';
import type { LaidSheet } from './laid-sheets.ts';
import type { FileNumbers } from './file-numbers.ts';
import type { SaidOfRows } from './said-of-rows.ts';

/** What rows are made from: a book, or a part of its records with all that they refer to. */
export interface RowSource {
  readonly book: Workbook;
  readonly units: UnitSystem;
  /** Sheets' names in the file by those in the book. */
  readonly sheets: ReadonlyMap<string, string>;
  readonly formulas: FileFormulas;
  /** Declared sheets with their working columns. */
  readonly laid: ReadonlyMap<string, LaidSheet>;
  readonly numbers: FileNumbers;
  /** What is found out on the way. */
  readonly said: SaidOfRows;
}

/** A book on its way into a file: what the sheets' writers share. */
export interface Writing extends RowSource {
  readonly file: FileBook;
  /** Records of each sheet, by its name in the book. */
  readonly records: ReadonlyMap<string, number>;
  /** Characters of each sheet's columns, by the sheet's name in the book. */
  readonly widths: Map<string, readonly number[]>;
}

/** Paper sizes by the number that files give them. Source: ECMA-376 Part 1, 18.3.1.63 (pageSetup). */
const paper = { metric: { narrow: 9, wide: 8 }, us: { narrow: 1, wide: 3 } } as const;

/** Characters across a page that can still be read. */
const acrossPage = 240;

/**
 * A text in a page's head: no code of it, nothing that XML has no place for, and so short that two of them stay below
 * the 255 characters that a head may have. Source: ECMA-376 Part 1, 18.3.1.46 (headerFooter) for the codes; the length
 * is Microsoft's, from memory.
 */
const printed = (text: string): string =>
  text
    .replaceAll(/[\p{Cc}\p{Cs}\uFFFE\uFFFF]/gu, ' ')
    .slice(0, 120)
    .replaceAll('&', '&&')
    .slice(0, 120)
    // Either cut may part a pair: of a character, of the sign for an ampersand.
    .replaceAll(/\p{Cs}/gu, '')
    .replace(/(?<!&)((?:&&)*)&$/, '$1');

/**
 * Adds a sheet with columns so wide, that keeps its header row and as many key columns in view, on paper too.
 *
 * It prints landscape and one page wide, or as many pages as keep the print legible.
 */
export function addSheet(
  { file, book, units }: Pick<Writing, 'file' | 'book' | 'units'>,
  name: string,
  widths: readonly number[],
  keys: number,
  rows = 1,
): Worksheet {
  const pages = Math.max(1, Math.ceil(widths.reduce((sum, width) => sum + width, 0) / acrossPage));
  const sheet = file.addWorksheet(name, {
    views: [{ state: 'frozen', xSplit: keys, ySplit: rows }],
    pageSetup: {
      orientation: 'landscape',
      paperSize: paper[units][pages > 1 ? 'wide' : 'narrow'] as number,
      fitToPage: true,
      fitToWidth: pages,
      fitToHeight: 0,
      printTitlesRow: '1:1',
      ...(keys > 0 && pages > 1 ? { printTitlesColumn: 'A:A' } : {}),
      margins: { left: 0.4, right: 0.4, top: 0.7, bottom: 0.6, header: 0.3, footer: 0.3 },
    },
    headerFooter: {
      oddHeader: `&L${printed(book.state.title === '' ? 'Skewbook' : book.state.title)}&R${printed(name)}`,
      oddFooter: `&L${book.state.invented ? 'Supplier figures are invented' : ''}&RPage &P of &N`,
    },
  });
  sheet.columns = widths.map((width) => ({ width }));
  return sheet;
}

/** Writes the header row, each heading in its look. */
export function writeHeadings(
  sheet: Worksheet,
  headings: readonly { readonly text: string; readonly computed?: boolean; readonly note?: string }[],
  widths: readonly number[],
): void {
  const row = sheet.getRow(1);
  row.height = wrappedHeight(
    headings.map(({ text }) => text),
    widths,
  );
  headings.forEach(({ text, computed, note }, index) => {
    const cell = row.getCell(index + 1);
    cell.value = text;
    cell.style = cellStyle(computed === true ? 'computed header' : 'header');
    if (note !== undefined) cell.note = note;
  });
}

const [space, lineEnd] = [0x20, 0x0a];

/** Lines that a text takes in a column so many characters wide. */
function lines(text: string, width: number): number {
  if (text.length <= width && !text.includes('\n')) return 1;
  let [count, used, start] = [1, 0, 0];
  // Word by word, without texts of their own for them: a long list has hundreds of thousands of such texts.
  for (let at = 0; at <= text.length; at += 1) {
    const sign = at < text.length ? text.charCodeAt(at) : lineEnd;
    if (sign !== space && sign !== lineEnd) continue;
    const length = at - start;
    const after = used === 0 ? length : used + 1 + length;
    if (after <= width) used = after;
    else {
      count += (used > 0 ? 1 : 0) + Math.floor(Math.max(0, length - 1) / width);
      used = length % width;
    }
    start = at + 1;
    if (sign === lineEnd && at < text.length) {
      count += 1;
      used = 0;
    }
  }
  return count;
}

/** Points of a line and of a row at most. Source: Microsoft, "Excel specifications and limits": row height. */
const points = { line: 15, most: 409 };

/** The height of a row whose texts wrap in their columns: other programs do not find it by themselves. */
export function wrappedHeight(texts: readonly unknown[], widths: readonly number[]): number {
  const most = Math.max(
    1,
    ...texts.map((text, column) =>
      typeof text === 'string' ? lines(text, Math.max(4, (widths[column] ?? 10) - 1)) : 1,
    ),
  );
  return Math.min(points.most, points.line * most + 3);
}
