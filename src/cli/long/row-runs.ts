import type { PieceParts, BookParts } from '../../xlsx/read/zip-parts.ts';

/**
 * A sheet's part cut into runs of rows, so that a sheet of any length is read a run at a time, by several threads.
 *
 * Only the bytes are looked at. What cannot be cut so safely is told as a `NotPlain`, and whoever asked reads the sheet
 * whole: formulas (which may look at any row), comments and CDATA (in which anything may stand), rows without numbers,
 * other encodings than those that have the letters of ASCII.
 */

/** Why a list cannot be read in parts. */
export class NotPlain extends Error {
  constructor(why: string) {
    super(why);
    this.name = 'NotPlain';
  }
}

/** What stands around the rows of a sheet's part. */
export interface SheetFrame {
  /** Up to the rows. */
  readonly before: Uint8Array;
  /** From the end of the rows on. */
  readonly after: Uint8Array;
}

export interface RowRun {
  /** Number of its first row. */
  readonly first: number;
  readonly rows: Uint8Array;
}

/** What closes a sheet of which only some rows are read. */
export const shortEnd: Uint8Array = Buffer.from('</sheetData></worksheet>');

/** What may stand before the rows, and behind them. Ours: columns, validations and formats of a list have a tenth. */
const mostAround = 4 * 1024 * 1024;

const rowStart = '<row ';
const rowNumber = /<row\s(?:[^>]*?\s)?r\s*=\s*["'](\d{1,7})["']/;

function checkedRun(rows: Buffer): RowRun {
  for (const mark of ['<f>', '<f ', '<f/']) if (rows.includes(mark)) throw new NotPlain('it holds formulas');
  if (rows.includes('<!')) throw new NotPlain('its rows are written in an unusual way');
  const number = rowNumber.exec(rows.toString('latin1', 0, 1000));
  if (number?.index !== 0) throw new NotPlain('its rows are not numbered in the file');
  return { first: Number(number[1]), rows };
}

/** Gathers bytes piece by piece. */
class Gathered {
  #bytes: Buffer = Buffer.alloc(0);
  #pieces: Uint8Array[] = [];
  #length = 0;

  add(piece: Uint8Array): void {
    this.#pieces.push(piece);
    this.#length += piece.length;
  }

  get length(): number {
    return this.#bytes.length + this.#length;
  }

  get bytes(): Buffer {
    if (this.#pieces.length > 0) this.#bytes = Buffer.concat([this.#bytes, ...this.#pieces]);
    this.#pieces = [];
    this.#length = 0;
    return this.#bytes;
  }

  /** Takes the first bytes away. */
  cut(length: number): Buffer {
    const taken = this.bytes.subarray(0, length);
    this.#bytes = this.bytes.subarray(length);
    return taken;
  }
}

/**
 * The runs of a sheet's rows, each of at least so many bytes but for the last. Answers what stands around them, of
 * which `begun` is told what stands before, once it is known.
 */
export function* rowRuns(
  pieces: Iterable<Uint8Array>,
  runBytes: (run: number) => number,
  begun: (before: Uint8Array) => void,
): Generator<RowRun, SheetFrame> {
  const held = new Gathered();
  let before: Buffer | undefined;
  let [ended, run] = [false, 0];
  for (const piece of pieces) {
    held.add(piece);
    if (before === undefined) {
      const start = /<sheetData\s*>/.exec(held.bytes.toString('latin1'));
      if (start === null) {
        if (held.length > mostAround) throw new NotPlain('its rows begin late, or are written in an unusual way');
        continue;
      }
      before = held.cut(start.index + start[0].length);
      begun(before);
    }
    if (ended) {
      if (held.length > mostAround) throw new NotPlain('much follows its rows');
      continue;
    }
    if (held.length < runBytes(run)) continue;
    const end = held.bytes.indexOf('</sheetData');
    if (end >= 0) {
      ended = true;
      if (end > 0) yield checkedRun(held.cut(end));
      continue;
    }
    const last = held.bytes.lastIndexOf(rowStart);
    if (last <= 0) continue;
    run += 1;
    yield checkedRun(held.cut(last));
  }
  if (before === undefined) throw new NotPlain('it has no rows');
  if (!ended) {
    const end = held.bytes.indexOf('</sheetData');
    if (end < 0) throw new NotPlain('its rows have no end');
    if (end > 0) yield checkedRun(held.cut(end));
  }
  return { before, after: held.bytes };
}

/** The rows of a run up to the row of a number, that row included. */
export function rowsUpTo({ rows }: RowRun, number: number): Uint8Array {
  const text = Buffer.from(rows.buffer, rows.byteOffset, rows.byteLength).toString('latin1');
  for (const found of text.matchAll(new RegExp(rowNumber, 'g')))
    if (Number(found[1]) > number) return rows.subarray(0, found.index);
  return rows;
}

const pieceLength = 64 * 1024;

/** The parts of a file in which one sheet has only some of its rows. */
export class RunParts implements BookParts {
  readonly #parts: PieceParts;
  readonly #path: string;
  readonly #content: readonly Uint8Array[];

  constructor(parts: PieceParts, path: string, content: readonly Uint8Array[]) {
    this.#parts = parts;
    this.#path = path;
    this.#content = content;
  }

  get limits(): BookParts['limits'] {
    return this.#parts.limits;
  }

  find(path: string): string | undefined {
    return this.#parts.find(path);
  }

  unpack(path: string, take: (bytes: Uint8Array) => void): void {
    if (path !== this.#path) return this.#parts.unpack(path, take);
    for (const bytes of this.#content)
      for (let at = 0; at < bytes.length; at += pieceLength) take(bytes.subarray(at, at + pieceLength));
  }
}
