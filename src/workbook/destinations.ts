import { cellArea } from '../formula/references.ts';
import { nearest } from '../units/nearest.ts';
import { bookColumns, columnNamed, declarationOf, headerPosition, namedSheetOf } from './declared.ts';
import type { CellPlace } from './place.ts';
import type { BookState, SheetState } from './state.ts';

/** Where a typed text leads: a cell, a column, a record, a named value or a sheet, by what people call them. */

const alike = (one: unknown, other: string): boolean =>
  typeof one === 'string' || typeof one === 'number' ? String(one).trim().toLowerCase() === other.toLowerCase() : false;

const keyOf = ({ name }: SheetState): number | undefined => {
  const declaration = declarationOf(name);
  return declaration === undefined ? undefined : headerPosition(name, declaration.key);
};

/** The present sheet first, then the others in their order. */
const inOrder = ({ sheets }: BookState, first: string): SheetState[] => [
  ...sheets.filter(({ name }) => name === first),
  ...sheets.filter(({ name }) => name !== first),
];

/** What a record is called by where its name alone reads as a cell: "belt Q4". */
const calledOut = (sheet: string, name: string): string =>
  cellArea(name) === undefined ? name : `${declarationOf(sheet)?.record ?? 'row'} ${name}`;

/** A record by its name; in sheets of named values that name's value. */
function recordCalled(sheet: SheetState, text: string): CellPlace | undefined {
  const key = keyOf(sheet);
  if (key === undefined) return undefined;
  const word = `${declarationOf(sheet.name)?.record ?? ''} `;
  const name = text.toLowerCase().startsWith(word) ? text.slice(word.length).trim() : text;
  const record = sheet.rows.findIndex(({ cells }) => alike(cells[key], text) || alike(cells[key], name));
  if (record < 0) return undefined;
  return { sheet: sheet.name, record, column: namedSheetOf(sheet.name) === undefined ? key : 1 };
}

function cellCalled(text: string, state: BookState, here: CellPlace): CellPlace | undefined {
  const area = cellArea(text);
  const sheet = state.sheets.find(({ name }) => name.toLowerCase() === (area?.sheet ?? here.sheet).toLowerCase());
  if (area === undefined || sheet === undefined) return undefined;
  const [record, column] = [Math.max(area.top, 1) - 1, area.left];
  // A whole column is gone to in the row that one is in.
  const there = area.top === 0 && area.bottom === Infinity ? here.record : record;
  if ((area.top === 0 && area.bottom === 0) || column >= bookColumns(sheet).length) return undefined;
  return there <= sheet.rows.length ? { sheet: sheet.name, record: there, column } : undefined;
}

/** Cells that a free sheet may be enlarged to by going to one of them; ours. */
const mostCells = 500_000;

/** A cell beyond the last row or column of one of the user's sheets, which can grow; undefined for any other text. */
export function cellBeyond(text: string, state: BookState, here: CellPlace): CellPlace | undefined {
  const area = cellArea(text.trim());
  const name = area?.sheet ?? here.sheet;
  const sheet = state.sheets.find((one) => one.name.toLowerCase() === name.toLowerCase());
  if (area === undefined || sheet === undefined || declarationOf(sheet.name) !== undefined) return undefined;
  if (area.top < 1 || area.bottom === Infinity || area.right === Infinity) return undefined;
  return area.top * (area.left + 1) > mostCells
    ? undefined
    : { sheet: sheet.name, record: area.top - 1, column: area.left };
}

/** A column by its name, of its own sheet or of one that is named before it: "Width", "Belts[Width]". */
function columnCalled(text: string, state: BookState, here: CellPlace): CellPlace | undefined {
  const [, written, bracketed] = /^'?([^'[\]]*)'?\[([^\][]+)\]$/u.exec(text) ?? [];
  const header = bracketed ?? text;
  const sheets =
    written === undefined || written === ''
      ? inOrder(state, here.sheet)
      : state.sheets.filter(({ name }) => name.toLowerCase() === written.toLowerCase());
  for (const sheet of sheets) {
    const column = columnNamed(sheet, header);
    if (column !== undefined) return { sheet: sheet.name, record: sheet.name === here.sheet ? here.record : 0, column };
  }
  return undefined;
}

/** Where a text leads from a cell; undefined when it is the name of nothing. */
export function destination(text: string, state: BookState, here: CellPlace): CellPlace | undefined {
  const wanted = text.trim();
  if (wanted === '') return undefined;
  // A belt may be called C1, and row 1 holds no cell of anybody's; one called C7 is asked for as "belt C7".
  const cell = cellCalled(wanted, state, here);
  if (cell !== undefined) return cell;
  for (const sheet of inOrder(state, here.sheet)) {
    const record = recordCalled(sheet, wanted);
    if (record !== undefined) return record;
  }
  const column = columnCalled(wanted, state, here);
  if (column !== undefined) return column;
  const sheet = state.sheets.find(({ name }) => alike(name, wanted));
  return sheet === undefined ? undefined : { sheet: sheet.name, record: 0, column: 0 };
}

/**
 * Names that lead somewhere from a sheet: its columns, its records, named values and sheets; of each sheet no more than
 * the first so many.
 */
export function destinationNames(state: BookState, sheet: string, most = Infinity): string[] {
  const names = inOrder(state, sheet).flatMap((item) => {
    const own = item.name === sheet;
    const headers = own ? bookColumns(item).map(({ header }) => header) : [];
    const key = own || namedSheetOf(item.name) !== undefined ? keyOf(item) : undefined;
    const records =
      key === undefined
        ? []
        : item.rows.slice(0, most).map(({ cells }) => calledOut(item.name, String(cells[key] ?? '')));
    return [...headers, ...records];
  });
  return [...new Set([...names, ...state.sheets.map(({ name }) => name)])].filter((name) => name !== '');
}

/** The names nearest to one that leads nowhere. */
export const nearDestinations = (text: string, state: BookState, sheet: string): string[] =>
  nearest(text, destinationNames(state, sheet), 2);
