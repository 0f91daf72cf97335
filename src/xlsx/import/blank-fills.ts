import { belts } from '../../../sheets/belts/index.ts';
import { recordSheets } from '../../../sheets/index.ts';
import type { Column } from '../../sheet/declaration.ts';
import type { UnitSystem } from '../../units/quantities.ts';
import type { SheetState } from '../../workbook/state.ts';
import type { CountedNote } from './counted-notes.ts';
import { columnReader } from './cell-reading.ts';
import { type ImportProposal, UnusableList } from './import-model.ts';

/** The names that a column's cells choose from in another sheet, by their small letters. */
export function choiceWords(
  { choices }: Column,
  sheets: readonly SheetState[],
): ReadonlyMap<string, string> | undefined {
  if (choices === undefined || !('sheet' in choices)) return undefined;
  const sheet = sheets.find(({ name }) => name === choices.sheet);
  const columns = recordSheets.find(({ name }) => name === choices.sheet)?.columns ?? [];
  const at = columns.findIndex(({ header }) => header === choices.header);
  const names = sheet?.rows.flatMap(({ cells }) => (typeof cells[at] === 'string' ? [cells[at]] : [])) ?? [];
  return new Map(names.map((name) => [name.trim().toLowerCase(), name]));
}

/**
 * The belts with what the user said in place of blank cells, and how many cells that were. Throws when it can't stand
 * there.
 */
export function filledBlanks(
  sheet: SheetState,
  fill: ImportProposal['fill'],
  units: UnitSystem,
  sheets: readonly SheetState[],
): { readonly sheet: SheetState; readonly told: readonly CountedNote[] } {
  let rows = sheet.rows;
  const told = fill.flatMap(({ column: header, value }): CountedNote[] => {
    const at = belts.columns.findIndex((column) => column.header === header);
    const column = belts.columns[at];
    if (column === undefined) return [];
    const reader = columnReader(column, belts, {
      system: units,
      listSystem: units,
      decimal: 'point',
      words: choiceWords(column, sheets),
    });
    const { content, issue } = reader.read({ row: 0, column: 0, value });
    if (issue !== undefined || content === null) {
      const [why, allowed] = [issue?.why ?? 'the value is empty', issue?.allowed ?? 'a value'];
      throw new UnusableList(`Blank cells of ${header} cannot be filled with "${value}": ${why}. Allowed: ${allowed}.`);
    }
    const blank = (cells: (typeof rows)[number]['cells']): boolean => (cells[at] ?? null) === null;
    const count = rows.filter(({ cells }) => blank(cells)).length;
    rows = rows.map((row) => (blank(row.cells) ? { ...row, cells: row.cells.with(at, content) } : row));
    return [{ what: 'filled', header, content: String(content), count }];
  });
  return { sheet: told.length === 0 ? sheet : { ...sheet, rows }, told };
}
