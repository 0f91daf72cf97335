import type { RawBook, RawCell, RawRange, RawSheet } from '../../src/xlsx/read/raw-book.ts';

/** Raw books from small literal grids. */

export type GridValue =
  | string
  | number
  | boolean
  | null
  | (Omit<RawCell, 'row' | 'column' | 'value'> & { readonly value?: RawCell['value'] });

export interface GridSheet {
  readonly name?: string;
  readonly hidden?: boolean;
  readonly rows: readonly (readonly GridValue[])[];
  /** Areas as "A1:C1". */
  readonly merges?: readonly string[];
}

export const date = (value: number): GridValue => ({ value, date: true, format: 'yyyy-mm-dd' });
export const formula = (text: string, value: RawCell['value'] = null): GridValue => ({ formula: text, value });
export const formatted = (value: number, format: string): GridValue => ({ value, format });

export function rawSheet({ name = 'Sheet1', hidden = false, rows, merges = [] }: GridSheet): RawSheet {
  const filled = new Map<number, RawCell[]>();
  let lastColumn = 0;
  rows.forEach((values, index) => {
    const cells = values.flatMap((value, at): RawCell[] => {
      if (value === null) return [];
      const place = { row: index + 1, column: at + 1 };
      return [typeof value === 'object' ? { value: null, ...value, ...place } : { ...place, value }];
    });
    if (cells.length === 0) return;
    filled.set(index + 1, cells);
    lastColumn = Math.max(lastColumn, cells.at(-1)?.column ?? 0);
  });
  return { name, hidden, rows: filled, merges: merges.map(range), lastRow: Math.max(0, ...filled.keys()), lastColumn };
}

const corner = (text: string): { row: number; column: number } => {
  const [, letters = '', digits = ''] = /^([A-Z]+)(\d+)$/.exec(text) ?? [];
  return { row: Number(digits), column: [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) };
};

function range(text: string): RawRange {
  const [from = '', to = from] = text.split(':');
  const [first, last] = [corner(from), corner(to)];
  return { top: first.row, left: first.column, bottom: last.row, right: last.column };
}

export const rawBook = (...sheets: GridSheet[]): RawBook => ({ sheets: sheets.map(rawSheet), names: [] });
