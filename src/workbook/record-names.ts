import { sheetRow } from '../formula/address.ts';
import { type Content, isFormula } from '../formula/values.ts';
import { declarationOf, headerPosition } from './declared.ts';
import type { SheetState } from './state.ts';

/** What a book calls its records. */

const word = (content: Content | undefined): string =>
  content === null || content === undefined || isFormula(content) ? '' : String(content).trim();

/** The columns that name a sheet's records: of a part, that of the whole first; none in a sheet of the user's. */
export function namingColumns(sheet: string): readonly number[] {
  const declaration = declarationOf(sheet);
  if (declaration === undefined) return [];
  const { key, partOf } = declaration;
  return [...(partOf === undefined ? [] : [partOf.header]), key].map((header) => headerPosition(sheet, header));
}

/**
 * What a record of a sheet is known by, without case; '' for one without a name. A name that a formula makes is none:
 * it may be another tomorrow.
 */
export const recordKey = ({ name, rows }: Pick<SheetState, 'name' | 'rows'>, record: number): string =>
  keyIn(namingColumns(name), rows[record]?.cells ?? []);

function keyIn(columns: readonly number[], cells: readonly Content[]): string {
  const key = columns.at(-1);
  return key === undefined || word(cells[key]) === ''
    ? ''
    : columns.map((column) => word(cells[column]).toLowerCase()).join('\n');
}

/** What each record of a sheet is known by. */
export function recordKeys({ name, rows }: SheetState): string[] {
  const columns = namingColumns(name);
  return rows.map(({ cells }) => keyIn(columns, cells));
}

/** A record as people call it: its name, with that of the whole before it; else its row. */
export function recordName({ name, rows }: SheetState, record: number): string {
  const words = namingColumns(name).map((column) => word(rows[record]?.cells[column]));
  return (words.at(-1) ?? '') === '' ? `row ${sheetRow(record)}` : words.filter((text) => text !== '').join(', ');
}
