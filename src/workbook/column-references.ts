import { quotedSheet, sheetRow } from '../formula/address.ts';
import { referencesIn, referenceText } from '../formula/reference-text.ts';
import { shownHeader } from '../sheet/header.ts';
import { nearest } from '../units/nearest.ts';
import { bookColumn, bookColumns, columnNamed } from './declared.ts';
import type { CellPlace } from './place.ts';
import type { BookState, SheetState } from './state.ts';

/**
 * Columns by their names in formulas, as people type them: `[Width]` is this row's cell of the column, `Belts[Width]`
 * all records' cells of it. Cells keep ordinary references, which every spreadsheet program reads.
 */

/** A name between brackets that stands for no column: where, why, and what was probably meant. */
interface UnknownColumn {
  readonly at: number;
  readonly says: string;
  /** The formula with the nearest name in its place. */
  readonly fix: string | undefined;
}

const bracket = /"(?:[^"]|"")*"?|((?:'(?:[^']|'')+'|[\p{L}_][\p{L}\p{N}_.]*)?)\[([^\][]*)\]/gu;

/** Whether a text names columns between brackets. */
const named = (formula: string): boolean => formula.includes('[');

const plainSheet = (written: string): string => written.replace(/^'(.*)'$/su, '$1').replaceAll("''", "'");

/** All columns that a formula names between brackets, and where. */
function brackets(formula: string): { at: number; text: string; sheet: string | undefined; header: string }[] {
  return [...formula.matchAll(bracket)].flatMap(({ 0: text, 1: sheet, 2: header, index }) =>
    header === undefined
      ? []
      : // A table's own way of naming its present row means the same.
        [{ at: index, text, sheet: sheet === '' ? undefined : sheet, header: header.replace(/^@/u, '').trim() }],
  );
}

const sheetCalled = ({ sheets }: BookState, written: string): SheetState | undefined =>
  sheets.find(({ name }) => name.toLowerCase() === plainSheet(written).toLowerCase());

/** The cells that a named column stands for in a formula at a place. */
function cells(sheet: SheetState, column: number, place: CellPlace, whole: boolean): string {
  const corner = (row: number, rowFixed: boolean): Parameters<typeof referenceText>[0]['from'] => ({
    row: row - 1,
    rowFixed,
    column,
    columnFixed: true,
  });
  if (!whole) return referenceText({ from: corner(sheetRow(place.record), false) });
  return referenceText({
    sheet: sheet.name === place.sheet ? undefined : sheet.name,
    from: corner(sheetRow(0), true),
    to: corner(sheetRow(Math.max(0, sheet.rows.length - 1)), true),
  });
}

/** A formula with cells in place of columns' names; those that it does not know stay. */
export function withCellsOfColumns(formula: string, place: CellPlace, state: BookState): string {
  if (!named(formula)) return formula;
  let text = '';
  let done = 0;
  for (const { at, text: written, sheet, header } of brackets(formula)) {
    const target = sheetCalled(state, sheet ?? place.sheet);
    const column = target === undefined ? undefined : columnNamed(target, header);
    if (target === undefined || column === undefined) continue;
    text += formula.slice(done, at) + cells(target, column, place, sheet !== undefined);
    done = at + written.length;
  }
  return text + formula.slice(done);
}

/** Where a formula names columns, and the cells that they stand for. */
export function columnsNamedIn(
  formula: string,
  place: CellPlace,
  state: BookState,
): { readonly start: number; readonly end: number; readonly cells: NamedCells }[] {
  if (!named(formula)) return [];
  return brackets(formula).flatMap(({ at, text, sheet, header }) => {
    const target = sheetCalled(state, sheet ?? place.sheet);
    const column = target === undefined ? undefined : columnNamed(target, header);
    if (target === undefined || column === undefined) return [];
    const [top, bottom] = sheet === undefined ? [place.record, place.record] : [0, Math.max(0, target.rows.length - 1)];
    return [
      { start: at, end: at + text.length, cells: { sheet: target.name, top, bottom, left: column, right: column } },
    ];
  });
}

interface NamedCells {
  readonly sheet: string;
  readonly top: number;
  readonly bottom: number;
  readonly left: number;
  readonly right: number;
}

/** A header that can stand between brackets. */
const bracketed = (header: string | undefined): header is string => header !== undefined && !/[\][@]/u.test(header);

/**
 * A formula with columns' names in place of the cells that they stand for: what `withCellsOfColumns` made of names
 * comes back as it was typed.
 */
export function withColumnNames(formula: string, place: CellPlace, state: BookState): string {
  let text = '';
  let done = 0;
  for (const { reference, start, end } of referencesIn(formula)) {
    const { from, to } = reference;
    const sheet = sheetCalled(state, reference.sheet ?? place.sheet);
    const column = from.column === undefined || sheet === undefined ? undefined : bookColumn(sheet, from.column);
    if (sheet === undefined || column === undefined) continue;
    const header = shownHeader(column, state.units);
    const one =
      reference.sheet === undefined &&
      to === undefined &&
      from.row === sheetRow(place.record) - 1 &&
      !from.rowFixed &&
      from.columnFixed;
    const last = sheetRow(Math.max(0, sheet.rows.length - 1)) - 1;
    const all =
      to?.column === from.column &&
      from.columnFixed &&
      to?.columnFixed === true &&
      from.row === 1 &&
      from.rowFixed &&
      to.row === last &&
      to.rowFixed;
    if (!(one || all) || !bracketed(header)) continue;
    text += `${formula.slice(done, start)}${one ? '' : quotedSheet(sheet.name)}[${header}]`;
    done = end;
  }
  return text + formula.slice(done);
}

/** The first name between brackets that stands for no column. */
export function unknownColumn(formula: string, sheet: string, state: BookState): UnknownColumn | undefined {
  if (!named(formula)) return undefined;
  for (const { at, text, sheet: written, header } of brackets(formula)) {
    const instead = (name: string): string => formula.slice(0, at) + name + formula.slice(at + text.length);
    const target = sheetCalled(state, written ?? sheet);
    if (target === undefined) {
      const [near] = nearest(
        plainSheet(written ?? ''),
        state.sheets.map(({ name }) => name),
        1,
      );
      return {
        at,
        says: `There is no sheet ${plainSheet(written ?? '')}.`,
        fix: near === undefined ? undefined : instead(`${quotedSheet(near)}[${header}]`),
      };
    }
    if (columnNamed(target, header) !== undefined) continue;
    const [near] = nearest(
      header,
      bookColumns(target).map((column) => column.header),
      1,
    );
    return {
      at,
      says: `${target.name} has no column ${header}.`,
      fix: near === undefined ? undefined : instead(`${written ?? ''}[${near}]`),
    };
  }
  return undefined;
}
