import { belts } from '../../../sheets/belts/index.ts';
import { joinedBooks } from '../../order/joined-books.ts';
import { type HashedInput, sha256Of } from '../../purchase/audit.ts';
import { emptyBook } from '../../workbook/declared.ts';
import { reviewedToday } from '../../workbook/lent-sheets.ts';
import type { BookState } from '../../workbook/state.ts';
import { Workbook } from '../../workbook/workbook.ts';
import { acceptImport } from '../../xlsx/import/acceptance.ts';
import { UnusableList } from '../../xlsx/import/import-model.ts';
import { proposeImport } from '../../xlsx/import/proposal.ts';
import { readBook, UnreadableFile } from '../../xlsx/read/read.ts';

/** The books of further sites, read and joined with the open one: beside the page, since it may take long. */

export interface SiteFile {
  readonly name: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** Where a row of the joined book stands in its own. */
interface SiteRow {
  /** Place of its book: 0 is the open one. */
  readonly book: number;
  readonly record: number;
}

export interface SiteBooks {
  readonly state: BookState;
  /** Names of the sites, that of the open book first. */
  readonly sites: readonly string[];
  /** Rows by sheet. */
  readonly rows: Readonly<Record<string, readonly SiteRow[]>>;
  /** What must be known of how they were joined, a sentence each. */
  readonly told: readonly string[];
  /** What the books say differently of one series or strip: with these no order is made. */
  readonly conflicts: readonly string[];
  /** The added files, hashed. */
  readonly inputs: readonly HashedInput[];
}

/** The book of a file; throws an Error that says of which file it is, and what to do. */
function siteBook({ name, bytes }: SiteFile): Workbook {
  try {
    const raw = readBook(bytes);
    const { state, report } = acceptImport(raw, proposeImport(raw, {}), emptyBook('metric'), {
      title: name.replace(/\.[^.]*$/, ''),
      baseName: 'an empty book',
    });
    if (!report.ours && !report.tables.some(({ target }) => target === belts.name))
      throw new UnusableList('it lists no belts: choose the book of a site, or its list of belts');
    return new Workbook(report.ours ? state : reviewedToday(state));
  } catch (error) {
    if (error instanceof UnusableList || error instanceof UnreadableFile)
      throw new Error(`${name} could not be used: ${error.message}`, { cause: error });
    throw error;
  }
}

/**
 * The open book with those of files, joined as the command line joins them. `ownFigures`: where they say different
 * things of a series or strip, what the open book says counts for all.
 */
export async function siteBooks(
  open: BookState,
  openName: string,
  files: readonly SiteFile[],
  ownFigures: boolean,
): Promise<SiteBooks> {
  const books = files.map((file) => ({ file: file.name, book: siteBook(file) }));
  const first = { file: openName, book: new Workbook(open) };
  const joined = joinedBooks([first, ...books], ownFigures ? { file: openName, state: open } : undefined);
  const { state, sites, conflicts, placeOf, told } = joined;
  const rows = state.sheets.map(({ name, rows: own }): [string, SiteRow[]] => [
    name,
    own.map((_, record) => placeOf(name, record) ?? { book: 0, record }),
  ]);
  for (const { book } of [first, ...books]) book.destroy();
  return {
    state,
    sites,
    conflicts,
    told: told.map((text) => `${text}.`),
    rows: Object.fromEntries(rows),
    inputs: await Promise.all(files.map(async ({ name, bytes }) => ({ name, sha256: await sha256Of(bytes) }))),
  };
}
