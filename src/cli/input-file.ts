import { type Stats, readFileSync, statSync } from 'node:fs';
import { grouped, readLimits } from '../xlsx/read/read-limits.ts';
import type { RawBook } from '../xlsx/read/raw-book.ts';
import { readBook, UnreadableFile } from '../xlsx/read/read.ts';
import { fileFault } from './file-fault.ts';
import { FileError } from './usage-error.ts';

/** A file's size; 0 of one that can't be looked at, which reading it tells. */
export function fileBytes(path: string): number {
  try {
    return statSync(path).size;
  } catch {
    return 0;
  }
}

/** Reads a workbook file, having looked at its size first. Every refusal names the file. */
export function inputBook(path: string): RawBook {
  let found: Stats;
  try {
    found = statSync(path);
  } catch (error) {
    throw fileFault(path, 'read', error);
  }
  if (found.isDirectory())
    throw new FileError(`${path} could not be read: it is a folder, not a file. Give the .xlsx file in it.`);
  if (!found.isFile())
    throw new FileError(`${path} could not be read: it is not a file on disk. Save the list as an .xlsx file first.`);
  if (found.size > readLimits.fileBytes) {
    throw new FileError(
      `${path} could not be used: it has ${grouped(found.size)} bytes; at most ${grouped(readLimits.fileBytes)} can ` +
        `be read. Save the list of belts in a workbook of its own.`,
      { cause: new UnreadableFile('file too large', 'the file is larger than is read') },
    );
  }
  let bytes: Uint8Array;
  try {
    bytes = readFileSync(path);
  } catch (error) {
    throw fileFault(path, 'read', error);
  }
  try {
    return readBook(bytes);
  } catch (error) {
    if (error instanceof UnreadableFile)
      throw new FileError(`${path} could not be used: ${error.message}`, { cause: error });
    throw error;
  }
}
