import { headerPosition } from '../../workbook/declared.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { fileSheets } from './file-sheets.ts';
import { heldOtherwise, type HeldOtherwise } from './held-otherwise.ts';
import type { FileSheet } from './working-columns.ts';

/** Where the columns of a declared sheet stand in its file: its own, those of the user's, then working columns. */
export interface LaidSheet extends FileSheet {
  /** Of the first working column. */
  readonly width: number;
  readonly position: (header: string) => number | undefined;
}

export function laidSheets(
  book: Workbook,
  names: Pick<HeldOtherwise, 'checkedName' | 'hasList'>,
): ReadonlyMap<string, LaidSheet> {
  const files = fileSheets(heldOtherwise(book, names));
  return new Map(
    [...files].map(([name, file]) => {
      const { length: width } = book.columns(name);
      const beside = new Map(file.workings.map(({ slot }, index) => [slot, width + index]));
      return [name, { ...file, width, position: (header) => beside.get(header) ?? headerPosition(name, header) }];
    }),
  );
}
