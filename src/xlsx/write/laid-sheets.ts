import { headerPosition, compiledSheets } from '../../workbook/declared.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { fileSheets, type HeldOtherwise } from './file-sheets.ts';
import type { FileSheet } from './working-columns.ts';

/** Where the columns of a declared sheet stand in its file: its own, those of the user's, then working columns. */
export interface LaidSheet extends FileSheet {
  /** Of the first working column. */
  readonly width: number;
  readonly position: (header: string) => number | undefined;
}

/** Columns, "Belts.Width", in which something stands in place of their formula: numbers, or something else. */
export interface HeldColumns {
  readonly overridden: ReadonlySet<string>;
  readonly mixed: ReadonlySet<string>;
}

/** What a book holds in place of its sheets' formulas. */
export function heldColumns({ state }: Pick<Workbook, 'state'>): HeldColumns {
  const overridden = new Set<string>();
  const mixed = new Set<string>();
  for (const { name, rows } of state.sheets) {
    const plan = compiledSheets.get(name);
    if (plan === undefined) continue;
    for (const [column] of plan.trees) {
      const key = `${name}.${plan.columns[column]?.header ?? ''}`;
      for (const { cells } of rows) {
        const content = cells[column] ?? null;
        if (content === null) continue;
        overridden.add(key);
        if (typeof content !== 'number' || !Number.isFinite(content)) mixed.add(key);
      }
    }
  }
  return { overridden, mixed };
}

export function laidSheets(
  book: Workbook,
  { overridden, mixed, ...names }: HeldColumns & Pick<HeldOtherwise, 'checkedName' | 'hasList'>,
): ReadonlyMap<string, LaidSheet> {
  const files = fileSheets({
    overridden: (sheet, header) => overridden.has(`${sheet}.${header}`),
    mixed: (sheet, header) => mixed.has(`${sheet}.${header}`),
    ...names,
  });
  return new Map(
    [...files].map(([name, file]) => {
      const { length: width } = book.columns(name);
      const beside = new Map(file.workings.map(({ slot }, index) => [slot, width + index]));
      return [name, { ...file, width, position: (header) => beside.get(header) ?? headerPosition(name, header) }];
    }),
  );
}
