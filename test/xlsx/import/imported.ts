import type { Content } from '../../../src/formula/values.ts';
import { bookColumns, emptyBook } from '../../../src/workbook/declared.ts';
import type { BookState } from '../../../src/workbook/state.ts';
import { acceptImport } from '../../../src/xlsx/import/acceptance.ts';
import type { ImportChoices, ImportReport, TableReport } from '../../../src/xlsx/import/import-model.ts';
import { proposeImport } from '../../../src/xlsx/import/proposal.ts';
import { type GridSheet, rawBook } from '../grid.ts';

/** What an import of small grids gives, as records by header. */
export interface Imported {
  readonly state: BookState;
  readonly report: ImportReport;
  /** Filled cells of each belt by header. */
  readonly belts: readonly Readonly<Record<string, Content>>[];
  readonly table: TableReport;
}

export const records = (state: BookState, name: string): Record<string, Content>[] => {
  const sheet = state.sheets.find((item) => item.name === name);
  if (sheet === undefined) throw new Error(`there is no sheet ${name}`);
  const columns = bookColumns(sheet);
  return sheet.rows.map(({ cells }) =>
    Object.fromEntries(
      cells.flatMap((content, index) => (content === null ? [] : [[columns[index]?.header ?? '', content]])),
    ),
  );
};

export function imported(
  sheets: GridSheet | readonly GridSheet[],
  choices: ImportChoices = {},
  base: BookState = emptyBook('metric'),
): Imported {
  const book = rawBook(...('rows' in sheets ? [sheets] : sheets));
  const { state, report } = acceptImport(book, proposeImport(book, choices), base);
  const table = report.tables.find(({ target }) => target === 'Belts');
  if (table === undefined) throw new Error('no list of belts was found');
  return { state, report, belts: records(state, 'Belts'), table };
}

export const list = (rows: GridSheet['rows'], rest: Partial<GridSheet> = {}): GridSheet => ({ rows, ...rest });
