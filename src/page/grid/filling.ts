import { type Content, isFormula } from '../../formula/values.ts';
import { compiledSheets } from '../../workbook/declared.ts';
import { filledSeries } from '../../workbook/fill-series.ts';
import type { CellPlace } from '../../workbook/place.ts';
import { type CellEdit, formatAlong } from '../../workbook/state-changes.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { formulaPieces, movedFormula } from '../../xlsx/read/formula-text.ts';
import type { Desk } from '../desk.ts';
import { changeable, put } from '../editing.ts';
import type { Block } from './block.ts';

/** Filling cells from their neighbours. */

/** A content moved by rows and columns: a formula's relative references move along. */
export function moved(content: Content, rows: number, columns: number): Content {
  return isFormula(content) ? `=${movedFormula(formulaPieces(content.slice(1)), rows, columns)}` : content;
}

/** What a line of cells goes on with; undefined when it is to be repeated. */
function continued(book: Workbook, line: readonly CellPlace[]): ((position: number) => Content) | undefined {
  const key = compiledSheets.get(line[0]?.sheet ?? '')?.declaration.key;
  return filledSeries(
    line.map((place) => book.content(place)),
    {
      days: line.every((place) => book.kind(place) === 'date'),
      // Elsewhere a text with a number in it is a kind of belt or plate, of which there need not be a next one.
      counting: line.every((place) => {
        const column = book.columnAt(place);
        return column !== undefined && (column.own || column.header === key);
      }),
    },
  );
}

/** Drags a block's contents on over further cells: series go on, all else is repeated, formulas move along. */
export function fillBlock(desk: Desk, source: Block, target: Block, backwards: boolean): void {
  const { book } = desk;
  const down = target.columns.length === source.columns.length && target.columns[0] === source.columns[0];
  const [along, across] = down ? [source.records, source.columns] : [source.columns, source.records];
  const ahead = down ? target.records : target.columns;
  const cell = (sheet: string, length: number, breadth: number): CellPlace =>
    down ? { sheet, record: length, column: breadth } : { sheet, record: breadth, column: length };
  const edits = across.flatMap((breadth): CellEdit[] => {
    const line = along.map((length) => cell(source.sheet, length, breadth));
    const series = continued(book, line);
    return ahead.flatMap((length, index): CellEdit[] => {
      const place = cell(target.sheet, length, breadth);
      if (!changeable(place, book.state)) return [];
      const position = backwards ? index - ahead.length : line.length + index;
      const from = line[((position % line.length) + line.length) % line.length];
      if (from === undefined) return [];
      const format = formatAlong(book.state, from, place);
      if (series !== undefined) return [{ ...place, content: series(position), format }];
      const content = moved(book.content(from), place.record - from.record, place.column - from.column);
      return [{ ...place, content, format }];
    });
  });
  put(desk, edits, 'fill');
}
