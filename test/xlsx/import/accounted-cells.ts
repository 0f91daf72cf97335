import type { Content } from '../../../src/formula/values.ts';
import { bookColumns } from '../../../src/workbook/declared.ts';
import type { BookState } from '../../../src/workbook/state.ts';
import type { ImportReport, TableReport } from '../../../src/xlsx/import/import-model.ts';
import { recordRows } from '../../../src/xlsx/import/list-rows.ts';
import { columnName, positionName } from '../../../src/xlsx/read/cell-address.ts';
import type { RawBook, RawCell, RawSheet } from '../../../src/xlsx/read/raw-book.ts';
import { cellText, shownBook, spreadMerges, turned } from '../../../src/xlsx/read/raw-cells.ts';

/**
 * The cells of a file that neither the book holds nor the report speaks of: a mistake that nobody is told of.
 *
 * A cell is understood (its record holds what it says), kept (in a column or sheet of the user's own), refused (in the
 * report with its text), or left out (with its row, column or sheet, in the report).
 */
export function unaccountedCells(file: RawBook, report: ImportReport, state: BookState): string[] {
  const said = new Set(
    [...report.notUnderstood, ...report.remarks].map(({ sheet, cell, given }) => `${sheet} ${cell} ${given.trim()}`),
  );
  const before = new Map<string, number>();
  const readers = report.tables.map((table) => {
    const first = before.get(table.target) ?? 0;
    before.set(table.target, first + table.records);
    return { table, first };
  });
  return shownBook(file).sheets.flatMap((sheet) => {
    const own = readers.filter(({ table }) => table.sheet === sheet.name);
    // Sheets that stay the user's, or are left out by name, are told whole.
    if (own.length > 0 && own.every(({ table }) => ['free', 'ignore', 'Assumptions'].includes(table.target))) return [];
    return cellsOf(sheet).flatMap((cell) =>
      own.some(({ table, first }) => isAccounted(cell, sheet, table, first, said, state))
        ? []
        : [`${sheet.name} ${positionName(cell)} "${cellText(cell)}"`],
    );
  });
}

const cellsOf = ({ rows }: RawSheet): readonly RawCell[] => [...rows.values()].flat();

const plain = (text: string): string => text.trim().replaceAll(/\s+/g, ' ').toLowerCase();

function isAccounted(
  original: RawCell,
  sheet: RawSheet,
  table: TableReport,
  first: number,
  said: ReadonlySet<string>,
  state: BookState,
): boolean {
  const cell = table.turned ? { ...original, row: original.column, column: original.row } : original;
  const text = plain(cellText(cell));
  const column = table.columns.find(
    ({ letter }) => letter === (table.turned ? String(cell.column) : columnName(cell.column)),
  );
  if (table.skipped.some(({ row, text: passed }) => row === cell.row && plain(passed).includes(text))) return true;
  if (cell.row >= table.headerTop && cell.row <= table.headerRow)
    return table.columns.some(({ header }) => plain(header).includes(text));
  if (cell.row === table.unitsRow)
    return column !== undefined && (column.target !== 'own' || plain(column.header).includes(text));
  const facing = spreadMerges(table.turned ? turned(sheet) : sheet, table.headerRow + 1);
  const record = recordRows(facing, table).indexOf(cell.row);
  if (record < 0) return false;
  if (column?.target === 'ignore') return true;
  return holds(
    state,
    table.target,
    first + record,
    column,
    cell,
    said.has(`${sheet.name} ${positionName(original)} ${cellText(cell).trim()}`),
  );
}

function holds(
  state: BookState,
  target: string,
  record: number,
  column: TableReport['columns'][number] | undefined,
  cell: RawCell,
  told: boolean,
): boolean {
  const sheet = state.sheets.find(({ name }) => name === target);
  if (sheet === undefined) return false;
  const headers = bookColumns(sheet).map(({ header }) => header);
  const own = column === undefined || column.target === 'own';
  const names = own
    ? [column?.header ?? '', `${column?.header ?? ''} (as listed)`, `Column ${columnName(cell.column)}`]
    : [column.target];
  const contents = names.map((name): Content => sheet.rows[record]?.cells[headers.indexOf(name)] ?? null);
  const kept = contents.find((content) => content !== null);
  if (kept === undefined) return told;
  // What the user's own columns hold is what the cell says; a declared column holds what was read of it.
  return (
    !own ||
    told ||
    kept === cell.value ||
    plain(String(kept)).replace(/^'/, '') === plain(cellText(cell)) ||
    cell.formula !== undefined
  );
}
