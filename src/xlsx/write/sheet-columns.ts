import type { Worksheet } from 'exceljs';
import type { Value } from '../../formula/values.ts';
import { isWords } from '../../units/quantities.ts';
import { layoutIn, widthIn } from '../../workbook/book-look.ts';
import { hiddenInFiles } from '../../workbook/column-layout.ts';
import { type BookColumn, compiledSheets } from '../../workbook/declared.ts';
import type { SheetState } from '../../workbook/state.ts';
import { pixelsPerCharacter } from '../read/raw-look.ts';
import { dateWidth } from './cell-styles.ts';
import { foldUnderLeft, outlineLevels } from './column-outline.ts';
import { addSheet, type Writing } from './writing.ts';

/** The columns of an exported sheet: how wide they are, which are folded or hidden, which stay in view. */

/** Characters of the widest column of texts: the few columns of named values leave room for sentences. */
export const widest = { record: 48, named: 110 };

/** What is wide enough for a heading's longest word, and for what stands below as far as a page allows. */
export function columnWidth(header: string, column: BookColumn, most: number, texts: readonly Value[]): number {
  const word = Math.max(...header.split(' ').map(({ length }) => length)) + 3;
  if (!isWords(column.kind)) return Math.max(column.kind === 'date' ? dateWidth(column.declared) : 10, word);
  const longest = texts.reduce<number>(
    (length, text) => Math.max(length, typeof text === 'string' ? text.length : 0),
    0,
  );
  return Math.max(10, word, Math.min(most, longest + 2));
}

/** The sheet in the file, with widths, hidden and frozen parts as the user's own file or the page had them. */
export function addedSheet(
  writing: Writing,
  { name }: SheetState,
  {
    columns,
    widths,
    key,
  }: { readonly columns: readonly BookColumn[]; readonly widths: number[]; readonly key: number },
): Worksheet {
  const layout = layoutIn(writing.book.look, name);
  columns.forEach(({ header }, index) => {
    const drawn = layout === undefined ? undefined : widthIn(layout, header);
    if (drawn !== undefined) widths[index] = Math.min(255, Math.round((drawn / pixelsPerCharacter) * 100) / 100);
  });
  writing.widths.set(name, widths);
  const free = !compiledSheets.has(name);
  const frozen = free ? (layout?.frozen ?? 0) : key + 1;
  const sheet = addSheet(writing, writing.sheets.get(name) ?? name, widths, frozen, layout?.frozenRows);
  const hidden = layout === undefined ? new Set<string>() : hiddenInFiles(name, layout);
  const levels = outlineLevels(name, columns);
  foldUnderLeft(sheet);
  columns.forEach(({ header, declared }, index) => {
    const level = levels[index] ?? 0;
    if (level > 0) sheet.getColumn(index + 1).outlineLevel = level;
    if (declared?.background === true || hidden.has(header)) sheet.getColumn(index + 1).hidden = true;
  });
  if (free && layout?.hidden === true) sheet.state = 'hidden';
  return sheet;
}
