import { closeSync, mkdtempSync, openSync, readSync, rmdirSync, unlinkSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const pieceBytes = 256 * 1024;

/**
 * Text that is written before all of it may be told, on disk meanwhile.
 *
 * Its file has no name once it is open, so that nothing stays behind however the run ends.
 */
export class Spool {
  readonly #file: number;
  #length = 0;

  constructor() {
    const folder = mkdtempSync(join(tmpdir(), 'book-'));
    const path = join(folder, 'answer');
    this.#file = openSync(path, 'wx+', 0o600);
    unlinkSync(path);
    rmdirSync(folder);
  }

  add(text: string): void {
    const bytes = Buffer.from(text);
    for (let written = 0; written < bytes.length;)
      written += writeSync(this.#file, bytes, written, bytes.length - written, this.#length + written);
    this.#length += bytes.length;
  }

  /** The text but for so many of its last characters, which must be of one byte each. */
  *pieces(without = 0): Generator<string> {
    const decoder = new TextDecoder();
    const bytes = Buffer.alloc(pieceBytes);
    const end = Math.max(0, this.#length - without);
    for (let at = 0; at < end;) {
      const count = readSync(this.#file, bytes, 0, Math.min(pieceBytes, end - at), at);
      if (count === 0) break;
      at += count;
      yield decoder.decode(bytes.subarray(0, count), { stream: true });
    }
    yield decoder.decode();
  }

  get isEmpty(): boolean {
    return this.#length === 0;
  }

  close(): void {
    closeSync(this.#file);
  }
}
