import { columnLetters, columnPosition } from '../../formula/address.ts';
import type { RawRange } from './raw-book.ts';
import { grouped, type ReadLimits } from './read-limits.ts';
import { UnreadableFile } from './unreadable-file.ts';

export interface CellPosition {
  readonly row: number;
  readonly column: number;
}

const letterCache: string[] = [];

/** Column letters, counting from 1: 1 is A, 27 is AA. */
export const columnName = (column: number): string => (letterCache[column] ??= columnLetters(column - 1));

export const positionName = ({ row, column }: CellPosition): string => `${columnName(column)}${row}`;

/** Column number of letters, counting from 1; three letters at most are exact. */
export const columnNumber = (letters: string): number => columnPosition(letters) + 1;

function outside(what: string, place: string, limits: ReadLimits): UnreadableFile {
  return new UnreadableFile(
    'outside the sheet',
    `${what} (${place}) is not on a sheet: ` +
      `rows go from 1 to ${grouped(limits.rowNumber)} and columns from A to ${columnName(limits.columnNumber)}. ` +
      'The file is damaged or was made to exhaust memory. Open it in your spreadsheet program and save it ' +
      'again as .xlsx.',
  );
}

/**
 * A cell's address as numbers; one that is no address, or off the sheet, is refused with its place.
 *
 * Read letter by letter, because a file has as many addresses as cells.
 */
export function cellPosition(text: string, place: () => string, limits: ReadLimits): CellPosition {
  let column = 0;
  let row = 0;
  let at = text.startsWith('$') ? 1 : 0;
  for (; at < text.length; at++) {
    const letter = text.charCodeAt(at) & ~32;
    if (letter < 65 || letter > 90 || column > limits.columnNumber) break;
    column = column * 26 + letter - 64;
  }
  if (text[at] === '$') at++;
  const digits = at;
  for (; at < text.length; at++) {
    const digit = text.charCodeAt(at) - 48;
    if (digit < 0 || digit > 9 || row > limits.rowNumber) break;
    row = row * 10 + digit;
  }
  if (
    at < text.length ||
    at === digits ||
    column < 1 ||
    row < 1 ||
    column > limits.columnNumber ||
    row > limits.rowNumber
  ) {
    throw outside(`Cell address "${text.slice(0, 40)}"`, place(), limits);
  }
  return { row, column };
}

export function rowNumber(text: string, place: () => string, limits: ReadLimits): number {
  const row = /^[0-9]+$/.test(text) ? Number(text) : 0;
  if (row < 1 || row > limits.rowNumber) throw outside(`Row number "${text.slice(0, 40)}"`, place(), limits);
  return row;
}

/** A position counted from the one before, when the file leaves it out. */
export function positionWithin(position: CellPosition, place: () => string, limits: ReadLimits): CellPosition {
  if (position.row > limits.rowNumber || position.column > limits.columnNumber)
    throw outside(`Row ${grouped(position.row)}, column ${grouped(position.column)}`, place(), limits);
  return position;
}

/** An area such as B2:D4, corners in any order; never more than its four numbers. */
export function cellRange(text: string, place: () => string, limits: ReadLimits): RawRange {
  const [from = '', to = from, ...more] = text.split(':');
  const first = cellPosition(from, place, limits);
  const last = cellPosition(more.length === 0 ? to : text, place, limits);
  return {
    top: Math.min(first.row, last.row),
    left: Math.min(first.column, last.column),
    bottom: Math.max(first.row, last.row),
    right: Math.max(first.column, last.column),
  };
}
