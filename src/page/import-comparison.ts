import type { MergeBook } from '../merge/merge-plan.ts';
import { counted } from '../units/phrases.ts';
import type { BookState } from '../workbook/state.ts';
import { coveredColumns } from '../xlsx/import/covered-columns.ts';
import type { ImportResult } from '../xlsx/import/import-model.ts';
import type { Comparing } from './comparing.ts';
import type { Desk } from './desk.ts';
import type { DiskFile } from './library/disk-file.ts';
import { FileComparison } from './library/file-comparison.ts';
import type { GivenFile } from './library/known-file.ts';
import type { FileMemory } from './library/library-store.ts';

/** A file that was read, beside what the open book remembers of files. */

export interface ReadFile {
  readonly name: string;
  /** Of its bytes. */
  readonly digest: string;
  readonly headers: string;
  readonly result: ImportResult;
  readonly onDisk: DiskFile | undefined;
}

function mergeBook({ state, report }: ImportResult): MergeBook {
  const covers = coveredColumns(report);
  return { state, ...(covers === undefined ? {} : { covers }) };
}

const given = ({ name, digest, headers, result: { report } }: ReadFile): GivenFile => ({
  name,
  digest,
  mark: report.mark,
  whole: report.ours,
  headers: report.ours ? '' : headers,
});

export const comparisonOf = (desk: Desk, file: ReadFile): Promise<FileComparison> =>
  FileComparison.of(desk.book.state, mergeBook(file.result), given(file), desk.library?.past);

/** Remembers a file that has come into the open book, and how the book was before and is now. */
export function rememberRead(desk: Desk, file: ReadFile, step: string, before: BookState): void {
  const { library } = desk;
  if (library === undefined) return;
  void library.past.keepAround(step, before);
  void remember(desk, file);
  if (file.onDisk !== undefined && file.result.report.ours) void library.store.setFile(library.id, file.onDisk);
}

/** Remembers a file that was written, as it reads. */
export const rememberWritten = (desk: Desk, file: ReadFile): Promise<void> =>
  remember(desk, file, undefined, 'written');

async function remember(
  { library }: Desk,
  file: ReadFile,
  id?: string,
  how: FileMemory['how'] = 'read',
): Promise<void> {
  const { name, digest, mark, whole, headers } = given(file);
  const memory = { file: name, how, fileDigest: digest, mark, whole, headers };
  await library?.past.remember(memory, mergeBook(file.result), id);
}

/** Stores a file as a book of its own beside the open one, and opens it. */
export async function addAsBook(desk: Desk, file: ReadFile): Promise<void> {
  const { library } = desk;
  if (library === undefined) return;
  try {
    const id = await library.add(file.result.state);
    await remember(desk, file, id);
    if (file.onDisk !== undefined && file.result.report.ours) await library.store.setFile(id, file.onDisk);
    await library.open(id);
  } catch (error) {
    desk.say(`The book could not be stored: ${error instanceof Error ? error.message : String(error)}`, 'problem');
  }
}

/** How many cells of a file were not understood, for the reader; '' for none. */
export const unreadWords = ({ notUnderstood: { length } }: ImportResult['report']): string =>
  length === 0
    ? ''
    : ` ${length === 1 ? 'One cell was' : `${length} cells were`} not understood: marked in the grid and listed in ` +
      `Findings.`;

/** What was taken of another book, for the reader. */
export function takenWords({ taken, offered, conflicts }: Comparing): string {
  const of = counted(offered.length + conflicts.length, 'difference');
  return taken === 0
    ? `Nothing was taken of ${of}. The file is remembered as it was read.`
    : `${taken} of ${of} taken; undo brings the book before back.`;
}
