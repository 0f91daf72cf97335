import { closeSync, openSync, readSync, type Stats, statSync } from 'node:fs';
import { basename } from 'node:path';
import type { FileLayout, MadeRows } from '../../xlsx/write/made-rows.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { emptyBook } from '../../workbook/declared.ts';
import { aboutSheetName } from '../../xlsx/about.ts';
import { UnusableList } from '../../xlsx/import/import-model.ts';
import { withoutParts } from '../../xlsx/import/kept-records.ts';
import { lendsParts } from '../../xlsx/import/list-parts.ts';
import { ListTooLong } from '../../xlsx/import/list-size.ts';
import type { UnreadableReason } from '../../xlsx/read/unreadable-file.ts';
import { textSheet } from '../../xlsx/read/delimited-text.ts';
import { openWorkbook, UnreadableFile } from '../../xlsx/read/read.ts';
import { isStoredBook } from '../../xlsx/read/stored-book.ts';
import { archiveBytes, bookParts } from '../../xlsx/read/zip-guard.ts';
import { imported } from '../list-book.ts';
import type { ListOptions } from '../list-options.ts';
import { stepBegun, stepsEnded } from '../run-progress.ts';
import { FileError } from '../usage-error.ts';
import { JoinedResults } from './joined-results.ts';
import { plannedList, type PartSizes, runsOf } from './list-plan.ts';
import { firstBytes, formBytes, longFrom, longLimits, mostBeside, ofText, partBytes } from './long-limits.ts';
import type { CalculateTask, ListData, NumberLooks, PartResult, PartWorkers, Wanted } from './part-model.ts';
import { PartWork } from './part-work.ts';
import { threads } from './part-workers.ts';
import { progress } from './progress.ts';
import { NotPlain, type RowRun } from './row-runs.ts';
import { placedText } from './text-runs.ts';

/**
 * A long list worked out part by part, in threads: what it takes does not grow with its rows, but for the file itself.
 *
 * It comes to the same as the list read whole (`list-book.ts`). Lists that are short, or whose rows depend on each
 * other, are read whole.
 */

/** How a list is dealt out. For tests: small lists in small parts, without threads. */
export interface Dealing {
  /** Bytes of a sheet from which it is dealt out at all. */
  readonly from: number;
  readonly sizes: PartSizes;
  readonly workers: (data: ListData) => PartWorkers;
  /** Bytes of a text by which its form is found. */
  readonly formBytes: number;
}

const usual: Dealing = {
  from: longFrom,
  sizes: (part) => (part === 0 ? firstBytes : partBytes),
  workers: threads,
  formBytes,
};

/** Where the belts of a file are, as far as it says so before it is read. */
type Source = Pick<ListData, 'sheet' | 'text'>;

/** A text, where it is one to be dealt out. */
function longText(file: Uint8Array, { from, formBytes: beginning }: Dealing): Source | undefined {
  if (isStoredBook(file) || file.length < from * ofText) return undefined;
  const text = placedText(archiveBytes(file, longLimits), beginning);
  return text && { sheet: { name: textSheet, hidden: false }, text };
}

/** The file's longest sheet, where it is one to be dealt out. */
function longSheet(bytes: Uint8Array, from: number): Source | undefined {
  const parts = bookParts(bytes, longLimits);
  if (parts.find('mimetype') !== undefined || parts.find('content.xml') !== undefined) return undefined;
  const { sheets } = openWorkbook(parts);
  const sized = sheets.map((sheet) => ({ sheet, size: parts.size(sheet.path) })).toSorted((a, b) => b.size - a.size);
  const [longest, ...others] = sized;
  if (longest === undefined || longest.size < from || sheets.some(({ name }) => name === aboutSheetName))
    return undefined;
  return others.reduce((sum, { size }) => sum + size, 0) > mostBeside ? undefined : { sheet: longest.sheet };
}

/** What is known of a file; why nothing is, whoever reads it whole will say. */
function statOf(file: string): Stats | undefined {
  try {
    return statSync(file);
  } catch {
    return undefined;
  }
}

/** A file's bytes in memory that threads share, and nowhere else; why they are not, whoever reads it whole will say. */
function sharedBytes(path: string, size: number): Uint8Array | undefined {
  let file: number | undefined;
  try {
    file = openSync(path, 'r');
    const bytes = new Uint8Array(new SharedArrayBuffer(size));
    for (let at = 0, count = 1; at < size && count > 0; at += count) count = readSync(file, bytes, at, size - at, at);
    return bytes;
  } catch {
    return undefined;
  } finally {
    if (file !== undefined) closeSync(file);
  }
}

/** What a list is dealt out with; undefined where it is read whole. */
function listData(file: string, options: ListOptions, wanted: Wanted, dealing: Dealing): ListData | undefined {
  const { choices, series, date, set, variants } = options;
  const { from } = dealing;
  if (set.length + variants.length > 0) return undefined;
  const found = statOf(file);
  if (found?.isFile() !== true || found.size > longLimits.fileBytes || found.size < from / 400) return undefined;
  const bytes = sharedBytes(file, found.size);
  if (bytes === undefined) return undefined;
  const isArchive = bytes[0] === 0x50 && bytes[1] === 0x4b;
  const source = isArchive ? longSheet(bytes, from) : longText(bytes, dealing);
  if (source === undefined) return undefined;
  const none = emptyBook(choices.units ?? 'metric');
  const other = series === undefined ? undefined : imported(series, {}, none, 'an empty book').state;
  const base = other === undefined ? none : withoutParts(other);
  if (lendsParts(base.sheets)) return undefined;
  return {
    bytes,
    file,
    title: basename(file).replace(/\.[^.]*$/, ''),
    ...source,
    choices,
    base,
    baseName: series ?? 'an empty book',
    other,
    date,
    wanted,
  };
}

/** A book that the belts become rows of. */
export interface Book {
  /** Begins it by one that has the first of the belts; answers what threads have to know of its file. */
  readonly begin: (
    sample: Workbook,
    belts: { readonly count: number; readonly patterned: ReadonlySet<string> },
  ) => Promise<FileLayout>;
  readonly numbers: NumberLooks;
  /** Takes the belts of a part, in their order, and what their checks found, as lines of data. */
  readonly add: (made: MadeRows, found: string) => Promise<void>;
}

/** Works a long list out; where it has to be read whole, answers why, or nothing of a short one. */
export async function longList(
  file: string,
  options: ListOptions,
  wanted: Wanted,
  dealing: Dealing = usual,
  into?: Book,
): Promise<JoinedResults | string | undefined> {
  let data: ListData | undefined;
  try {
    data = listData(file, options, wanted, dealing);
  } catch (error) {
    // Told by whoever reads it whole.
    if (error instanceof UnreadableFile) return undefined;
    throw error;
  }
  if (data === undefined) return undefined;
  const workers = dealing.workers(data);
  const results = new JoinedResults(data.sheet.name, into === undefined);
  try {
    await dealt(data, dealing.sizes, workers, results, into);
    return results;
  } catch (error) {
    results.close();
    if (error instanceof NotPlain) return error.message;
    if (error instanceof UnusableList || error instanceof UnreadableFile)
      throw new FileError(`${file} could not be used: ${error.message}`, { cause: error });
    throw error;
  } finally {
    progress('');
    stepsEnded();
    await workers.end();
  }
}

async function dealt(
  data: ListData,
  sizes: PartSizes,
  workers: PartWorkers,
  results: JoinedResults,
  into: Book | undefined,
): Promise<void> {
  const { file } = data;
  const work = new PartWork(data);
  const step = (doing: string): void => stepBegun(`${doing} ${file}`, workers.count + 1);
  const runs = runsOf(work, data.text === undefined ? sizes : (part) => sizes(part) * ofText);
  step('reading');
  const { plan, firstRun, records, total, patterned } = await plannedList(data, work, runs, workers, (rows) => {
    step('reading');
    progress(`${file}: ${rows.toLocaleString('en-US')} rows read`);
  });
  const taskOf = ({ first, rows }: RowRun, part: number): CalculateTask => ({
    do: 'calculate',
    part,
    firstRow: first,
    rows,
    records: records[part] ?? 0,
  });
  const layout = await into?.begin(work.book(plan, taskOf(firstRun, 0)).book, { count: total, patterned });
  await workers.plan({ do: 'plan', plan: { ...plan, ...(layout === undefined ? {} : { layout }) } });
  const pending: Promise<PartResult>[] = [];
  let done = 0;
  const settle = async (left: number): Promise<void> => {
    while (pending.length > left) {
      const part = await pending.shift();
      if (part === undefined) return;
      results.add(part);
      if (part.made !== undefined) await into?.add(part.made, part.checked.text);
      step('calculating');
      done += part.counts.belts;
      progress(`${file}: ${done.toLocaleString('en-US')} of ${total.toLocaleString('en-US')} belts calculated`);
    }
  };
  let index = 0;
  for (const run of runs(() => undefined)) {
    const part = workers.calculate(taskOf(run, index), (looks) => into?.numbers(looks) ?? []);
    // One that fails is told when it is waited for.
    part.catch(() => undefined);
    pending.push(part);
    index += 1;
    await settle(2 * workers.count);
  }
  await settle(0);
}

/** Reads a list whole; one that is too large for that is told why it could not be read in parts. */
export async function readWhole<Read>(why: string | undefined, read: () => Read | Promise<Read>): Promise<Read> {
  try {
    return await read();
  } catch (error) {
    if (why === undefined || !(error instanceof FileError) || !isTooLong(error.cause)) throw error;
    throw new FileError(
      `${error.message} A longer list is read where no row depends on another; this one is not, because ${why}.`,
      { cause: error },
    );
  }
}

const sizes: ReadonlySet<UnreadableReason> = new Set(['file too large', 'too large inside', 'too much content']);

const isTooLong = (cause: unknown): boolean =>
  cause instanceof ListTooLong || (cause instanceof UnreadableFile && sizes.has(cause.reason));
