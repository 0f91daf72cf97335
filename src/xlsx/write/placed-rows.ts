import type { CellModel, Worksheet } from 'exceljs';
import type { PartPieces } from './packing.ts';

/**
 * Rows that are made apart from the spreadsheet library and put into a sheet that it writes.
 *
 * The library keeps an object or two for every cell of a book, then all of a sheet as one text: 10,000 belts took
 * 2.9 GB so. It asks a sheet for its rows twice: to number their looks and texts, and to write them. The first time it
 * is told of the notes in the rows, which it puts into parts of their own; the second time one mark stands
 * for all of the rows, in whose place `packedParts` puts them. What is replaced is not part of the library's interface,
 * and every test of a written book reads rows that came this way.
 */
export interface PlacedRows {
  /** The part of the file that they belong into. */
  readonly path: string;
  readonly pieces: PartPieces;
}

/** What stands in a part where rows belong that were made apart; no row has such a number. */
export const placedRowsMark = /<row r="placed rows"[^>]*>(?:<\/row>)?/;

/** What is said beside a cell. */
export interface CellExtra {
  readonly address: string;
  readonly note: string;
}

/** The rows of a sheet below those that the library has of it, and what it has to know of them. */
interface RowsToPlace {
  readonly pieces: PartPieces;
  readonly lastRow: number;
  readonly lastColumn: number;
  readonly extras: readonly CellExtra[];
}

interface RowModel {
  readonly number: number | string;
  readonly cells: readonly object[];
}

interface SheetModel {
  rows: { readonly length: number; forEach(take: (row: RowModel, index: number) => void): void };
  readonly dimensions: { expand(top: number, left: number, bottom: number, right: number): void };
}

/** The library's number for cells without content. */
const nothing = 0;

/** A cell as the library describes it: `scratch` is one that it may write the note on. */
function described({ address, note }: CellExtra, scratch: Worksheet): object {
  const cell = scratch.getCell(1, 1);
  cell.note = note;
  const { comment } = cell.model as CellModel & { readonly comment?: unknown };
  return { address, type: nothing, comment };
}

/** Has rows stand in a sheet below those that it has itself. */
export function placeRows(
  sheet: Worksheet,
  { pieces, lastRow, lastColumn, extras }: RowsToPlace,
  scratch: Worksheet,
): PlacedRows {
  Object.defineProperty(sheet, 'model', {
    configurable: true,
    get(): SheetModel {
      const model = Reflect.get(Object.getPrototypeOf(sheet) as object, 'model', sheet) as SheetModel;
      const before = model.rows;
      let numbered = false;
      const take = (number: (row: RowModel, index: number) => void): void => {
        before.forEach(number);
        if (numbered) return number({ number: 'placed rows', cells: [] }, before.length);
        numbered = true;
        for (const extra of extras) number({ number: 0, cells: [described(extra, scratch)] }, before.length);
      };
      if (lastColumn > 0) model.dimensions.expand(lastRow, 1, lastRow, lastColumn);
      model.rows = { length: before.length + 1, forEach: take };
      return model;
    },
  });
  return { path: `xl/worksheets/sheet${sheet.id}.xml`, pieces };
}
