import type { Finding } from '../../../src/records/finding.ts';
import type { Workbook } from '../../../src/workbook/workbook.ts';
import { exportedBook } from '../../../src/xlsx/write/write.ts';

/** A book's file alone, without what stands otherwise in it. */
export const writtenBook = async (
  book: Workbook,
  findings: readonly Finding[],
  options?: Parameters<typeof exportedBook>[2],
): Promise<Uint8Array> => (await exportedBook(book, findings, options)).bytes;
