import type { SheetDeclaration } from '../../sheet/declaration.ts';
import type { BookState } from '../../workbook/state.ts';
import { grouped, readLimits } from '../read/read-limits.ts';
import { type TableProposal, UnusableList } from './import-model.ts';
import { mostPlaces } from './near-cells.ts';

/** How large a list may be before it is refused: what a book of it takes to compute and to write grows with both. */

/** Records of one sheet of a book that is calculated and written in one piece. Ours. */
export const mostRecords = 20_000;

/** A list of more records than a book holds. */
export class ListTooLong extends UnusableList {}

/** Refuses a list with more records than a sheet holds beside those that it has. */
export function refuseMany(
  { sheet }: TableProposal,
  { record }: SheetDeclaration,
  present: number,
  records: number,
  most: number,
): void {
  if (present + records <= most) return;
  throw new ListTooLong(
    `${sheet} has ${grouped(records)} ${record}s; a book holds at most ${grouped(most)}. Split the list into ` +
      `several files.`,
  );
}

/** Refuses a list with more cells in columns of its own than a book holds. */
export function refuseWide({ sheet }: TableProposal, columns: number, records: number): void {
  if (columns * records <= mostPlaces) return;
  throw new UnusableList(
    `${sheet} has ${grouped(columns)} columns of its own in ${grouped(records)} rows; a book holds at most ` +
      `${grouped(mostPlaces)} such cells. Delete columns that the book does not need.`,
  );
}

/**
 * Refuses a book whose texts come to more than a file's may: one text of a merged area, or one that cells share, stands
 * in each of its cells, and whatever hands the book on writes it out as often.
 */
export function refuseLong({ sheets }: BookState): void {
  let characters = 0;
  for (const { name, rows } of sheets)
    for (const { cells } of rows) {
      for (const content of cells) if (typeof content === 'string') characters += content.length;
      if (characters > readLimits.cellCharacters)
        throw new UnusableList(
          `The texts of the book would come to more than ${grouped(readLimits.cellCharacters)} characters; the sheet ` +
            `${name} exceeds that. Shorten its long texts, or unmerge cells that hold them.`,
        );
    }
}
