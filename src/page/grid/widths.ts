import type Handsontable from 'handsontable/base';
import { type BookColumn, namedSheetOf, compiledSheets } from '../../workbook/declared.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { cellText } from '../cell-text.ts';
import { type CellLook, verdictColumn } from './cell-look.ts';
import { growing, newRecord } from '../editing.ts';

/** Column widths from headers and the first records: measured once per sheet, so that nothing shifts later. */

const narrowest = 64;
/** In the user's own sheets, where a day may be typed into any column. */
const narrowestFree = 100;
const widest = 300;
/** In sheets of named values, whose meanings and sources are sentences. */
const widestSentence = 520;
const padding = 18;
const sampled = 150;
/** What a cell's edges take of its width. */
const edges = 14;
/** So many characters have room for sure, and need not be measured. */
const widestDigit = 10;
/** The verdict's mark before a record's name. */
const markWidth = 18;

let context: CanvasRenderingContext2D | null | undefined;

function measured(text: string, bold: boolean): number {
  context ??= document.createElement('canvas').getContext('2d');
  if (context === null) return text.length * 7;
  context.font = `${bold ? '600 ' : ''}13px system-ui, sans-serif`;
  return context.measureText(text).width;
}

/** Room for the name on two lines, with the mark of a computed column before it and the menu's button beside it. */
function headerWidth({ header, computed, formula }: BookColumn): number {
  const words = header.split(' ');
  const mark = computed || formula !== undefined ? 14 : 0;
  const splits = words.map((_, at) =>
    Math.max(
      measured(words.slice(0, at).join(' '), true) + (at > 0 ? mark : 0),
      measured(words.slice(at).join(' '), true) + (at > 0 ? 0 : mark),
    ),
  );
  return Math.min(...splits) + 14;
}

/** A look whose number has room: one that has not is not cut, since half a number reads as another one. */
export function fitting(look: CellLook, width: number): CellLook {
  if (!look.classes.includes('cell-number') || look.text.length * widestDigit < width - edges) return look;
  if (measured(look.text, look.classes.includes('cell-overridden')) <= width - edges) return look;
  return {
    ...look,
    text: '###',
    says: look.says === '' ? `${look.text} (the column is too narrow for it)` : look.says,
  };
}

export function columnWidths(book: Workbook, sheet: string, columns: readonly BookColumn[]): number[] {
  const most = namedSheetOf(sheet) === undefined ? widest : widestSentence;
  const least = compiledSheets.has(sheet) ? narrowest : narrowestFree;
  const records = Math.min(book.sheet(sheet).rows.length, sampled);
  return columns.map((column, position) => {
    const key = column.header === compiledSheets.get(sheet)?.declaration.key;
    let text = key && growing(sheet) ? newRecord(sheet) : '';
    for (let record = 0; record < records; record += 1) {
      const shown = cellText(book, column, { sheet, record, column: position });
      if (shown.length > text.length) text = shown;
    }
    const needed = Math.max(
      headerWidth(column),
      measured(text, key) + (key && verdictColumn(sheet) !== undefined ? markWidth : 0),
    );
    return Math.round(Math.min(most, Math.max(least, needed + padding)));
  });
}

/** The widths of a grid's columns as they are seen: the package asks all its parts for each, at every cell. */
export function widthsOf(hot: Handsontable): (column: number) => number {
  const known = new Map<number, number>();
  // Whatever changes a width, or which column stands where, is followed by a drawing.
  for (const drawing of ['beforeRender', 'beforeViewRender'] as const) hot.addHook(drawing, () => known.clear());
  return (column) => {
    const width = known.get(column) ?? hot.getColWidth(column);
    known.set(column, width);
    return width;
  };
}
