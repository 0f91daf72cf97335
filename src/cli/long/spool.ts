import { closeSync, mkdtempSync, openSync, readSync, rmdirSync, unlinkSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const pieceBytes = 256 * 1024;

/**
 * Bytes that wait on disk. Their file has no name once it is open, so that nothing stays behind however the run ends.
 */
export class KeptBytes {
  readonly #file: number;
  #length = 0;

  constructor() {
    const folder = mkdtempSync(join(tmpdir(), 'book-'));
    const path = join(folder, 'answer');
    this.#file = openSync(path, 'wx+', 0o600);
    unlinkSync(path);
    rmdirSync(folder);
  }

  get length(): number {
    return this.#length;
  }

  /** Answers where they stand. */
  add(bytes: Uint8Array): number {
    const at = this.#length;
    for (let written = 0; written < bytes.length;)
      written += writeSync(this.#file, bytes, written, bytes.length - written, at + written);
    this.#length += bytes.length;
    return at;
  }

  at(start: number, length: number): Uint8Array<ArrayBuffer> {
    const bytes = new Uint8Array(length);
    for (let read = 0; read < length;) {
      const count = readSync(this.#file, bytes, read, length - read, start + read);
      if (count === 0) throw new Error('what was put on disk is not there any more');
      read += count;
    }
    return bytes;
  }

  close(): void {
    closeSync(this.#file);
  }
}

/** Text that is written before all of it may be told, on disk meanwhile. */
export class Spool {
  readonly #kept = new KeptBytes();

  add(text: string): void {
    if (text !== '') this.#kept.add(Buffer.from(text));
  }

  /** The text but for so many of its last characters, which must be of one byte each. */
  *pieces(without = 0): Generator<string> {
    const decoder = new TextDecoder();
    const end = Math.max(0, this.#kept.length - without);
    for (let at = 0; at < end; at += pieceBytes)
      yield decoder.decode(this.#kept.at(at, Math.min(pieceBytes, end - at)), { stream: true });
    yield decoder.decode();
  }

  get isEmpty(): boolean {
    return this.#kept.length === 0;
  }

  close(): void {
    this.#kept.close();
  }
}
