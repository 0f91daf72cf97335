import { Inflate } from 'fflate';
import { checksum } from '../checksum.ts';
import { decodedText } from './delimited-text.ts';
import { otherFile, otherPackage } from './other-files.ts';
import { grouped, type ReadLimits, sized } from './read-limits.ts';
import { copyAgain, saveAgain, UnreadableFile } from './unreadable-file.ts';
import { packedBytes, type ZipEntry, zipDirectory } from './zip-directory.ts';
import type { BookParts, PieceParts } from './zip-parts.ts';

/** Packed bytes unpacked at a time: 1,032 times as many at most come out, which bounds the memory of one step. */
const packedStep = 32 * 1024;
const unpackedStep = 64 * 1024;

/** Part names match without regard to case; some writers put backslashes. Source: ECMA-376 Part 2, section 6.2.2.3. */
const key = (path: string): string => path.replaceAll('\\', '/').replace(/^\/+/, '').toLowerCase();

function* inflated(packed: Uint8Array, path: string): Generator<Uint8Array> {
  let out: Uint8Array[] = [];
  const stream = new Inflate((bytes) => out.push(bytes));
  let at = 0;
  do {
    const end = Math.min(at + packedStep, packed.length);
    try {
      stream.push(packed.subarray(at, end), end === packed.length);
    } catch {
      throw new UnreadableFile(
        'damaged',
        'The file is damaged: ' +
          `part ${path} cannot be unpacked after ${grouped(at)} of its ${grouped(packed.length)} packed bytes. ` +
          `${copyAgain}`,
      );
    }
    at = end;
    yield* out;
    out = [];
  } while (at < packed.length);
}

function refuseEntry(entry: ZipEntry, limits: ReadLimits): void {
  const { path, size, packedSize } = entry;
  if (entry.encrypted) {
    throw new UnreadableFile(
      'password',
      `The file is protected by a password: part ${path} is encrypted. Save a copy without a password and open that.`,
    );
  }
  if (entry.method !== 0 && entry.method !== 8) {
    throw new UnreadableFile(
      'unknown compression',
      `Part ${path} is packed by method ${entry.method}; workbook files store (0) or deflate (8). ${saveAgain}`,
    );
  }
  if (size > limits.ratioFrom && size > limits.ratio * packedSize) {
    throw new UnreadableFile(
      'too large inside',
      `Part ${path} unpacks from ${sized(packedSize)} to ${sized(size)}; ` +
        `parts above ${sized(limits.ratioFrom)} may grow at most ${limits.ratio} times. ` +
        `A file made to exhaust memory looks like this. If it is yours, delete unused rows and columns and save it ` +
        `again as .xlsx.`,
    );
  }
}

function wrongSize(entry: ZipEntry, comparison: string): UnreadableFile {
  return new UnreadableFile(
    'wrong size',
    `Part ${entry.path} holds ${comparison} than the ${grouped(entry.size)} bytes that the file's list of parts ` +
      `says. ${copyAgain}`,
  );
}

/** The bytes, when they can be a workbook's archive at all. */
export function archiveBytes(file: Uint8Array, limits: ReadLimits): Uint8Array {
  const bytes = new Uint8Array(file.buffer, file.byteOffset, file.byteLength);
  if (bytes.length === 0)
    throw new UnreadableFile(
      'empty file',
      'The file is empty (0 bytes). Choose a saved .xlsx workbook, or copy or download this one again.',
    );
  if (bytes.length > limits.fileBytes) {
    throw new UnreadableFile(
      'file too large',
      `The file is ${sized(bytes.length)}; at most ${sized(limits.fileBytes)} are read. ` +
        'Remove pictures and sheets that the list of belts does not need, and save it again as .xlsx.',
    );
  }
  const other = otherFile(bytes);
  if (other) throw other;
  return bytes;
}

/** The file as plain text, when it is no archive and no other kind of file that is known; refuses those by name. */
export function plainText(file: Uint8Array, limits: ReadLimits): ReturnType<typeof decodedText> | undefined {
  const bytes = archiveBytes(file, limits);
  return bytes[0] === 0x50 && bytes[1] === 0x4b ? undefined : decodedText(bytes);
}

/** The parts by their keys, when they do not declare more than is read. */
function entriesByKey(entries: readonly ZipEntry[], limits: ReadLimits): ReadonlyMap<string, ZipEntry> {
  const total = entries.reduce((sum, entry) => sum + entry.size, 0);
  if (total > limits.inflatedBytes) {
    throw new UnreadableFile(
      'too large inside',
      `The file's parts unpack to ${sized(total)}; at most ${sized(limits.inflatedBytes)} are read. ` +
        'Remove sheets and pictures that the list of belts does not need, and save it again as .xlsx.',
    );
  }
  const byKey = new Map<string, ZipEntry>();
  for (const entry of entries) {
    const name = key(entry.path);
    if (byKey.has(name)) {
      throw new UnreadableFile(
        'damaged',
        `The file holds part ${entry.path} twice, so it is unclear which one applies. ${saveAgain}`,
      );
    }
    byKey.set(name, entry);
  }
  return byKey;
}

class Archive implements BookParts, PieceParts {
  readonly limits: ReadLimits;
  readonly #bytes: Uint8Array;
  readonly #entries: ReadonlyMap<string, ZipEntry>;
  /** Of all parts so far. */
  #unpacked = 0;

  constructor(bytes: Uint8Array, entries: ReadonlyMap<string, ZipEntry>, limits: ReadLimits) {
    this.limits = limits;
    this.#bytes = bytes;
    this.#entries = entries;
  }

  find(path: string): string | undefined {
    return this.#entries.get(key(path))?.path;
  }

  size(path: string): number {
    return this.#entries.get(key(path))?.size ?? 0;
  }

  *pieces(path: string): Generator<Uint8Array> {
    const entry = this.#entries.get(key(path));
    if (!entry) throw new UnreadableFile('part missing', `Part ${path} is missing in the file. ${saveAgain}`);
    refuseEntry(entry, this.limits);
    const packed = packedBytes(this.#bytes, entry);
    let size = 0;
    let sum = 0;
    for (const piece of entry.method === 0 ? [packed] : inflated(packed, entry.path)) {
      size += piece.length;
      if (size > entry.size) throw wrongSize(entry, 'more');
      this.#count(piece.length);
      sum = checksum(piece, sum);
      for (let at = 0; at < piece.length; at += unpackedStep) yield piece.subarray(at, at + unpackedStep);
    }
    if (size < entry.size) throw wrongSize(entry, 'less');
    if (sum !== entry.checksum) {
      throw new UnreadableFile(
        'damaged',
        `The file is damaged: the bytes of part ${entry.path} do not match their checksum, ` +
          `so its cells cannot be trusted. ${copyAgain}`,
      );
    }
  }

  unpack(path: string, take: (bytes: Uint8Array) => void): void {
    for (const piece of this.pieces(path)) take(piece);
  }

  #count(bytes: number): void {
    this.#unpacked += bytes;
    if (this.#unpacked > this.limits.inflatedBytes) {
      throw new UnreadableFile(
        'too large inside',
        `The parts that hold the cells unpack to more than ${sized(this.limits.inflatedBytes)}, the most that is ` +
          `read. ${saveAgain}`,
      );
    }
  }
}

/**
 * Opens a workbook file's archive; refuses everything else by name.
 *
 * Sizes are checked as declared, and counted again while unpacking, so a directory that lies gains nothing. Parts that
 * nobody asks for, such as pictures, are never unpacked.
 */
export function bookParts(file: Uint8Array, limits: ReadLimits): PieceParts {
  const bytes = archiveBytes(file, limits);
  const entries = zipDirectory(bytes, limits);
  const parts = new Archive(bytes, entriesByKey(entries, limits), limits);
  const wrong = otherPackage(parts, entries);
  if (wrong) throw wrong;
  return parts;
}
