import { belts } from '../../sheets/belts/index.ts';
import type { ImportProposal, ImportResult } from '../xlsx/import/import-model.ts';
import { readLimits, sized } from '../xlsx/read/read-limits.ts';
import type { BookState } from '../workbook/state.ts';
import type { FileComparison } from './library/file-comparison.ts';

/**
 * One import, from choosing a file to accepting what was read. The open book stays as it is until then.
 */
export type Stage =
  | { readonly name: 'choose'; readonly problem?: string }
  | { readonly name: 'wait'; readonly doing: string }
  | {
      readonly name: 'look';
      readonly proposal: ImportProposal;
      readonly result?: ImportResult;
      readonly problem?: string;
    }
  | {
      readonly name: 'compare';
      readonly comparison: FileComparison;
      /** What stands in the place of the comparison when one goes back. */
      readonly before: Stage & { readonly name: 'look' };
    };

/** What the open book lends to a file, which is copied for it: not its belts, where the file has belts. */
export const lent = (book: BookState, { tables, ours }: ImportProposal): BookState => ({
  ...book,
  sheets: book.sheets.map((sheet) =>
    sheet.name === belts.name && (ours || tables.some(({ target }) => target === belts.name))
      ? { ...sheet, rows: [] }
      : sheet,
  ),
});

/** Before a file that is too large is read. */
export const tooLarge = ({ name, size }: File): Stage => ({
  name: 'choose',
  problem:
    `${name} has ${sized(size)}; the maximum is ${sized(readLimits.fileBytes)}, so that reading it fits into memory. ` +
    `Save the list of belts in a workbook of its own.`,
});
