import type { Row, Worksheet } from 'exceljs';
import { type Pack, PartPieces } from './packing.ts';

/**
 * Rows that are made only while the file is written, each turned into the file's text and let go before the next.
 *
 * The spreadsheet library keeps an object or two for every cell of a book, then all of a sheet as one text: 10,000
 * belts took 2.9 GB so. It asks a sheet for its rows twice: to number their looks and texts, and to write them. The
 * first time rows come one by one and leave with their numbers, as text, which is packed where that can be; the second
 * time one mark stands for all of them, in whose place `packedBook` puts the text. What is replaced is not part of the
 * library's interface, so `lateRows` fails when a row has no model, and every test of a written book reads rows that
 * came this way.
 *
 * Source of the elements: ECMA-376 Part 1, 18.3.1.4 (c), 18.3.1.40 (f), 18.3.1.73 (row).
 */
export interface LateRows {
  /** The part of the file that they belong into. */
  readonly path: string;
  /** Filled while the file is written. */
  readonly pieces: PartPieces;
}

/** What stands in a part where late rows belong; no row has such a number. */
export const lateRowsMark = /<row r="late rows"[^>]*>(?:<\/row>)?/;

type Result = number | string | boolean | { readonly error: string } | null | undefined;

/** A cell as the library describes it, once it has numbered its look and its text. */
interface CellModel {
  readonly address: string;
  readonly type: number;
  readonly value?: Result;
  readonly styleId?: number;
  /** The number of its text among the book's. */
  readonly ssId?: number;
  readonly formula?: string;
  readonly result?: Result;
  readonly shareType?: 'array' | 'shared';
  readonly ref?: string;
  readonly si?: number;
}

interface RowModel {
  readonly number: number | string;
  readonly cells: readonly CellModel[];
  readonly min?: number;
  readonly max?: number;
  readonly height?: number;
  readonly styleId?: number;
  readonly hidden?: boolean;
}

interface SheetModel {
  rows: { readonly length: number; forEach(take: (row: RowModel, index: number) => void): void };
  readonly dimensions: { expand(top: number, left: number, bottom: number, right: number): void };
}

/** The library's numbers for what a cell holds. */
const types = { nothing: 0, formula: 6 };

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&apos;',
};

/** A text as XML holds it, without the control characters for which it has no place. */
const escaped = (text: string): string =>
  text.replaceAll(/[&<>"']|[^\P{Cc}\t\n\r\u0080-\u009F]/gu, (sign) => entities[sign] ?? '');

/** The t attribute of a value and the text of its v element. */
function valueParts(value: Result): readonly [type: string, text: string] {
  if (typeof value === 'boolean') return [' t="b"', value ? '1' : '0'];
  if (typeof value === 'string') return [' t="str"', escaped(value)];
  return typeof value === 'object' && value !== null ? [' t="e"', value.error] : ['', String(value)];
}

function formulaText({ formula, result, shareType, ref, si }: CellModel): readonly [type: string, inner: string] {
  const attributes =
    shareType === 'array'
      ? ` t="array" ref="${ref ?? ''}"`
      : si === undefined
        ? ''
        : ` t="shared"${ref === undefined ? '' : ` ref="${ref}"`} si="${si}"`;
  const f = formula === undefined ? `<f${attributes}/>` : `<f${attributes}>${escaped(formula)}</f>`;
  if (result === null || result === undefined) return ['', f];
  const [type, text] = valueParts(result);
  return [type, `${f}<v>${text}</v>`];
}

function cellElement(cell: CellModel): string {
  const { address, type, styleId, ssId, value } = cell;
  const start = `<c r="${address}"${styleId === undefined ? '' : ` s="${styleId}"`}`;
  if (type === types.nothing) return styleId === undefined ? '' : `${start}/>`;
  if (ssId !== undefined) return `${start} t="s"><v>${ssId}</v></c>`;
  const [kind, inner] = type === types.formula ? formulaText(cell) : valueParts(value);
  return `${start}${kind}>${type === types.formula ? inner : `<v>${inner}</v>`}</c>`;
}

function rowElement({ number, cells, min = 0, max = 0, height, styleId, hidden }: RowModel): string {
  const attributes = [
    height === undefined ? '' : ` ht="${height}" customHeight="1"`,
    min > 0 && max >= min ? ` spans="${min}:${max}"` : '',
    styleId === undefined ? '' : ` s="${styleId}" customFormat="1"`,
    hidden === true ? ' hidden="1"' : '',
  ];
  return `<row r="${number}"${attributes.join('')}>${cells.map(cellElement).join('')}</row>`;
}

const encoder = new TextEncoder();

/** A row's description, taken from the sheet so that its cells are not kept. */
function taken(sheet: Worksheet, row: Row): RowModel {
  const model = row.model as unknown as RowModel | null;
  if (model === null) return { number: row.number, cells: [] };
  (Reflect.get(sheet, '_rows') as (Row | undefined)[])[row.number - 1] = undefined;
  return model;
}

/** Characters of rows that are packed together: enough for what repeats from row to row to be found. */
const packedTogether = 500_000;

/** Has a sheet's rows made when the file is written: below those that it has, in their order, each once. */
export function lateRows(sheet: Worksheet, rows: () => Iterable<Row>, pack: Pack | undefined): LateRows {
  const pieces = new PartPieces(pack);
  Object.defineProperty(sheet, 'model', {
    configurable: true,
    get(): SheetModel {
      const model = Reflect.get(Object.getPrototypeOf(sheet) as object, 'model', sheet) as SheetModel;
      const before = model.rows;
      let numbered = false;
      const take = (number: (row: RowModel, index: number) => void): void => {
        before.forEach(number);
        if (numbered) return number({ number: 'late rows', cells: [] }, before.length);
        numbered = true;
        let index = before.length;
        let text = '';
        for (const row of rows()) {
          const own = taken(sheet, row);
          number(own, index);
          if (own.max !== undefined && own.max > 0)
            model.dimensions.expand(row.number, own.min ?? 1, row.number, own.max);
          text += rowElement(own);
          index += 1;
          if (text.length < packedTogether) continue;
          pieces.add(encoder.encode(text));
          text = '';
        }
        pieces.add(encoder.encode(text));
      };
      model.rows = { length: before.length + 1, forEach: take };
      return model;
    },
  });
  return { path: `xl/worksheets/sheet${sheet.id}.xml`, pieces };
}
