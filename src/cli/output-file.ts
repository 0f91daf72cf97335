import { createHash } from 'node:crypto';
import {
  accessSync,
  closeSync,
  constants,
  fsyncSync,
  lstatSync,
  openSync,
  readdirSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { hostname } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { fileFault, nameFault } from './file-fault.ts';
import { writingOutput } from './run-progress.ts';
import { FileError } from './usage-error.ts';

/** Bytes of a file's name on the file systems in use (POSIX NAME_MAX, from memory). */
const longestName = 255;

/** Output that never touches its input and is written whole or not at all. */

/** The ending of a path among those that a command writes; undefined when it is none of them. */
export const endingOf = <Ending extends string>(path: string, endings: readonly Ending[]): Ending | undefined =>
  endings.find((ending) => path.toLowerCase().endsWith(`.${ending}`));

/**
 * Refuses, before any work is done, a path that can't become the output: an input under any name, a folder, another
 * kind of file.
 */
export function checkOutput(path: string, inputs: readonly string[], endings: readonly string[] = ['xlsx']): void {
  if (endingOf(path, endings) === undefined) {
    throw new FileError(
      `${path} could not be written: ${
        endings.length === 1
          ? `the book is an .${endings.join('')} file, so its ` + `name ` + `must end in .${endings.join('')}`
          : `its name must end in ${endings.map((ending) => `.${ending}`).join(', ')}`
      }.`,
    );
  }
  const folder = statSync(dirname(path), { throwIfNoEntry: false });
  if (folder?.isDirectory() !== true)
    throw new FileError(`${path} could not be written: there is no folder ${dirname(path)}.`);
  if (Buffer.byteLength(basename(path)) > longestName)
    throw new FileError(`${path.slice(0, 80)}… could not be written: its name is too long. Give it a shorter one.`);
  const there = statSync(path, { throwIfNoEntry: false, bigint: true });
  if (there === undefined) {
    const fault = nameFault(path);
    if (fault !== undefined) throw new FileError(`${path} could not be written: ${fault}.`);
    if (lstatSync(path, { throwIfNoEntry: false })?.isSymbolicLink() === true)
      throw new FileError(
        `${path} could not be written: it is a link to a file that is not there. Remove it, or name that file.`,
      );
    return;
  }
  if (!there.isFile())
    throw new FileError(
      `${path} could not be written: it is ${there.isDirectory() ? 'a folder' : 'not a file on disk'}.`,
    );
  writable(path);
  for (const input of inputs) {
    const read = statSync(input, { throwIfNoEntry: false, bigint: true });
    // Links and other spellings of a path lead to the same file: its number on its disk tells.
    if (read !== undefined && read.dev === there.dev && read.ino === there.ino) {
      throw new FileError(
        `${path} could not be written: it is the same file as the input ${input}, which is never changed. Give the ` +
          `output another name.`,
      );
    }
  }
}

/**
 * Refuses to replace a file that is kept from being written: putting another in its place needs rights to the folder
 * only.
 */
function writable(path: string): void {
  const mayWrite = (statSync(path).mode & 0o222) !== 0;
  try {
    accessSync(path, constants.W_OK);
    if (mayWrite) return;
  } catch {
    // Told below, as of a file that nobody may write.
  }
  throw new FileError(
    `${path} could not be written: the existing file is read-only. Give the output another name, or allow writing ` +
      `to it.`,
  );
}

/** Whether a file of that name is there already and will be replaced. */
export const replaces = (path: string): boolean => statSync(path, { throwIfNoEntry: false }) !== undefined;

/** Letters that tell machines apart that write into the same folder; short, as names of files are. */
const machine = createHash('sha256').update(hostname()).digest('hex').slice(0, 8);

const draftName = new RegExp(`^\\.book\\.${machine}\\.(\\d+)\\.\\d+\\.part$`);

function isRunning(number: number): boolean {
  try {
    process.kill(number, 0);
    return true;
  } catch (error) {
    // One that belongs to somebody else may not be asked, and is there.
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}

/** Takes away what runs of this machine that were killed while they wrote have left in a folder. */
function sweep(folder: string): void {
  let names: readonly string[] = [];
  try {
    names = readdirSync(folder);
  } catch {
    // A folder may be written into and not be read.
  }
  for (const name of names) {
    const number = draftName.exec(name)?.[1];
    if (number !== undefined && !isRunning(Number(number))) rmSync(join(folder, name), { force: true });
  }
}

/**
 * Writes beside the output first, and puts it in place in one step once all of it is on disk. A run that is asked to
 * end meanwhile ends after it.
 */
export function writeWhole(path: string, bytes: Uint8Array): void {
  writePieces(path, [bytes]);
}

/** The same for what is there piece by piece. */
export function writePieces(path: string, pieces: Iterable<Uint8Array>): void {
  writingOutput(() => writeInOneStep(path, pieces));
}

function writeInOneStep(path: string, pieces: Iterable<Uint8Array>): void {
  const place = replaces(path) ? realpathSync(path) : path;
  // Short, so that a name as long as a name may be has room for a draft beside it.
  const draft = join(dirname(place), `.book.${machine}.${process.pid}.${Date.now()}.part`);
  try {
    sweep(dirname(place));
    const file = openSync(draft, 'wx', replaces(place) ? statSync(place).mode : 0o666);
    try {
      for (const bytes of pieces)
        for (let written = 0; written < bytes.length;) written += writeSync(file, bytes, written);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    renameSync(draft, place);
  } catch (error) {
    if (!(error instanceof Error && 'code' in error && error.code === 'EEXIST')) rmSync(draft, { force: true });
    throw fileFault(path, 'written', error);
  }
}
