import { type Node, nodesOf } from '../../formula/syntax.ts';
import { compiledSheets, headerPosition } from '../../workbook/declared.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { fileSheets } from './file-sheets.ts';
import { type HeldColumns, heldOtherwise, type HeldOtherwise } from './held-otherwise.ts';
import type { FileSheet, WorkingColumn } from './working-columns.ts';

export interface LaidWorking extends WorkingColumn {
  /** Headers of the columns whose formulas refer to it. */
  readonly usedBy: readonly string[];
}

/** Headers of the columns of a sheet that refer to each of its working columns, by the slot of that. */
function usersOf(sheet: string, { formulas, workings }: FileSheet): ReadonlyMap<string, readonly string[]> {
  const columns = compiledSheets.get(sheet)?.columns ?? [];
  const users = new Map<string, string[]>(workings.map(({ slot }) => [slot, []]));
  const add = (tree: Node, header: string): void => {
    for (const name of new Set(nodesOf(tree).flatMap((node) => (node.type === 'placeholder' ? [node.name] : []))))
      users.get(name)?.push(header);
  };
  for (const [position, tree] of formulas) if (!('why' in tree)) add(tree, columns[position]?.header ?? '');
  for (const { formula, header } of workings) add(formula, header);
  return users;
}

/** Where the columns of a declared sheet stand in its file: its own, those of the user's, then working columns. */
export interface LaidSheet extends Omit<FileSheet, 'workings'> {
  readonly workings: readonly LaidWorking[];
  /** Of the first working column. */
  readonly width: number;
  readonly position: (header: string) => number | undefined;
}

/** The declared sheets as a file spells them, by name. Threads are handed them as they are. */
export type SpeltSheets = ReadonlyMap<string, FileSheet>;

/** Where all columns stand; `spelt` when the same file's sheets were spelt before. */
export function laidSheets(
  book: Workbook,
  held: HeldColumns,
  names: Pick<HeldOtherwise, 'checkedName' | 'hasList'>,
  spelt?: SpeltSheets,
): ReadonlyMap<string, LaidSheet> {
  const files = spelt ?? fileSheets(heldOtherwise(book, held, names));
  return new Map(
    [...files].map(([name, file]) => {
      const { length: width } = book.columns(name);
      const beside = new Map(file.workings.map(({ slot }, index) => [slot, width + index]));
      const users = usersOf(name, file);
      const workings = file.workings.map((working) => ({ ...working, usedBy: users.get(working.slot) ?? [] }));
      return [
        name,
        { ...file, workings, width, position: (header) => beside.get(header) ?? headerPosition(name, header) },
      ];
    }),
  );
}
