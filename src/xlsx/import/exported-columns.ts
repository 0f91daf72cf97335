import type { Content } from '../../formula/values.ts';
import { headerWithUnit, shownHeader } from '../../sheet/header.ts';
import type { QuantityKind } from '../../units/quantities.ts';
import { declarationOf } from '../../workbook/declared.ts';
import type { Renamed } from '../../workbook/earlier-names.ts';
import type { UserColumn } from '../../workbook/state.ts';
import { type About, type AboutSheet, formulaMark } from '../about.ts';
import { textContent } from './cell-content.ts';
import { fileText } from '../write/file-text.ts';
import { checkedHeader } from '../write/working-columns.ts';
import type { RawCell, RawSheet, SharedFormula } from '../read/raw-book.ts';
import { cellAt, cellText, hasFormula } from '../read/raw-cells.ts';
import { unescaped } from '../read/xml-text.ts';
import { rowPieces } from './row-formulas.ts';

/**
 * Columns and cells of a sheet that this program exported, as they stand after the file may have been worked on in
 * another program.
 */

export interface ExportedColumns {
  /** Position in the book's sheet by column of the file. */
  readonly position: ReadonlyMap<number, number>;
  readonly userColumns: readonly UserColumn[];
  /** Declared columns that the file no longer has, and columns that it has gained. */
  readonly missing: readonly string[];
  readonly added: readonly string[];
  /** Working columns of the file: the position of the column whose checked numbers they hold, if any. */
  readonly workings: ReadonlyMap<number, number | undefined>;
  /** Declared columns that the file has by an earlier name. */
  readonly renamed: readonly Renamed[];
}

/** What a column without a header is called that a file has gained. */
export const namelessHeader = (column: number): string => `Column ${column}`;

/** Which column of the file is which of the book's, by header; most stand where they were written. */
export function exportedColumns(
  sheet: RawSheet,
  { name, workings: besides = [] }: AboutSheet,
  about: About,
): ExportedColumns {
  const declared = declarationOf(name)?.columns ?? [];
  const user = about.columns.filter((column) => column.sheet === name).toSorted((a, b) => a.position - b.position);
  // As it is read: what a file can hold of it, no longer as the file spells it.
  const inFile = (header: string, kind: QuantityKind, unit?: string): string =>
    unescaped(fileText(headerWithUnit(header, kind, about.units, unit)).text);
  // The names that a column's header may have in the file, the present one first.
  const expected: readonly (readonly string[])[] = [
    ...declared.map(({ header, formerly = header, kind }) =>
      [shownHeader({ header }, about.units), header, formerly].map((name) => inFile(name, kind)),
    ),
    ...user.map(({ column: { header, kind, unit } }) => [inFile(header, kind, unit)]),
  ];
  const headerAt = (column: number): string => {
    const cell = cellAt(sheet, 1, column);
    return cell === undefined ? '' : cellText(cell);
  };
  const filled = new Set([...sheet.rows.values()].flatMap((cells) => cells.map(({ column }) => column)));
  const position = new Map<number, number>();
  const missing: string[] = [];
  expected.forEach((headers, index) => {
    if (headers.includes(headerAt(index + 1))) position.set(index + 1, index);
  });
  expected.forEach((headers, index) => {
    if (position.get(index + 1) === index) return;
    const [header = ''] = headers;
    const moved = [...filled].find((column) => !position.has(column) && headers.includes(headerAt(column)));
    if (moved !== undefined) position.set(moved, index);
    else if (header !== '' || index < declared.length) missing.push(header);
    else position.set(index + 1, index);
  });
  const userColumns: UserColumn[] = user.map(({ column }) => column);
  const added: string[] = [];
  const workings = new Map<number, number | undefined>();
  for (const column of [...filled].toSorted((a, b) => a - b)) {
    if (position.has(column)) continue;
    const header = headerAt(column).trim();
    if (besides.includes(header)) {
      const of = declared.findIndex((other) => checkedHeader(other.header) === header);
      workings.set(column, of < 0 ? undefined : of);
      continue;
    }
    position.set(column, declared.length + userColumns.length);
    userColumns.push({ header: header === '' ? namelessHeader(column) : header, kind: 'text' });
    added.push(header);
  }
  const renamed = declared.flatMap(({ header, formerly }, index) => {
    const at = [...position].find(([, place]) => place === index)?.[0];
    const before = expected[index]?.[2];
    return formerly !== undefined && at !== undefined && headerAt(at) === before
      ? [{ before: formerly, now: header }]
      : [];
  });
  return { position, userColumns, missing, added, renamed, workings };
}

/** What a computed cell of the file holds of the user's: null where it is the sheet's own formula or its value. */
interface ComputedCells {
  /** Whether a cell is another formula or value than its column's. */
  readonly differs: (cell: RawCell) => boolean;
}

/** The first and the last cell of a column that share a formula, by that. */
function sharingEnds(cells: readonly RawCell[]): ReadonlyMap<SharedFormula, readonly RawCell[]> {
  const ends = new Map<SharedFormula, readonly RawCell[]>();
  for (const cell of cells)
    if (cell.shared !== undefined) ends.set(cell.shared, [ends.get(cell.shared)?.[0] ?? cell, cell]);
  return ends;
}

/**
 * Whether a cell's formula is one that differs only in its row. Formulas that are shared down a column move by as many
 * rows as their cells: where two of them agree, all do.
 */
function agreeing(
  pieces: readonly string[],
  ends: ReadonlyMap<SharedFormula, readonly RawCell[]>,
): (cell: RawCell) => boolean {
  const agrees = (cell: RawCell): boolean => cell.formula === pieces.join(String(cell.row));
  const shared = new Map([...ends].map(([formula, cells]) => [formula, cells.every(agrees)] as const));
  return (cell) => (cell.shared === undefined ? agrees(cell) : (shared.get(cell.shared) ?? agrees(cell)));
}

/** How most cells of a computed column are filled: by one formula that differs only in its row, or by values. */
export function computedCells(cells: readonly RawCell[]): ComputedCells {
  const formulas = cells.filter(hasFormula);
  if (formulas.length * 2 < cells.length) return { differs: () => false };
  const samples = [formulas[0], formulas[Math.floor(formulas.length / 2)], formulas.at(-1)].flatMap((cell) =>
    cell === undefined ? [] : [rowPieces(cell.formula ?? '', cell.row)],
  );
  const ends = sharingEnds(formulas);
  const [best] = samples
    .map((pieces) => {
      const agrees = agreeing(pieces, ends);
      return { agrees, share: formulas.filter(agrees).length };
    })
    .toSorted((a, b) => b.share - a.share);
  // Where no formula is the rule, another program has rewritten them all, and none tells the user's.
  if (best === undefined || best.share * 2 <= formulas.length) return { differs: () => false };
  return { differs: (cell) => (hasFormula(cell) ? !best.agrees(cell) : cell.value !== null) };
}

/** A cell's content as typed: the formula of the About row where the cell still holds what was written for it. */
export function typedContent(
  cell: RawCell,
  typed: { readonly text: string; readonly written: string } | undefined,
  led: (formula: string) => string,
): Content {
  const { formula } = cell;
  if (typed !== undefined && (formula === undefined ? typed.written === '' : formulaMark(formula) === typed.written))
    return typed.text;
  if (formula !== undefined) return led(`=${formula}`);
  if (cell.error !== undefined) return cell.error;
  return typeof cell.value === 'string' ? textContent(cell.value) : cell.value;
}
