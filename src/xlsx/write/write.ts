import type { Finding } from '../../records/finding.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { BookFile, type FileOptions, type WrittenFile } from './book-file.ts';
import { joinedBytes } from './packing.ts';

export type { WrittenOtherwise } from './said-of-rows.ts';

/**
 * The whole book as an .xlsx file: every sheet with live formulas in standard functions and their results, then
 * Findings, Functions and About.
 */
export async function bookFile(
  book: Workbook,
  findings: readonly Finding[],
  options: FileOptions = {},
): Promise<WrittenFile> {
  const file = await BookFile.begin(book, options);
  await file.addFindings(findings);
  return file.end();
}

/** For tests: the file is read back. */
export interface ExportedBook extends Pick<WrittenFile, 'otherwise'> {
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** The same in one piece of memory. */
export async function exportedBook(
  book: Workbook,
  findings: readonly Finding[],
  options: FileOptions = {},
): Promise<ExportedBook> {
  const { pieces, otherwise } = await bookFile(book, findings, options);
  return { bytes: joinedBytes([...pieces]), otherwise };
}
