import { checksum } from '../checksum.ts';

/**
 * Packing by what browsers bring along: a stream from its beginning to its end, several times as fast as a script.
 *
 * Source: WHATWG, Compression Standard ("deflate-raw").
 */
export class PackedStream {
  readonly #writer: WritableStreamDefaultWriter<Uint8Array<ArrayBuffer>>;
  readonly #packed: Uint8Array<ArrayBuffer>[] = [];
  readonly #reading: Promise<void>;
  /** Of the bytes before they are packed. */
  size = 0;
  checksum = 0;
  #last: Promise<unknown> = Promise.resolve();
  #fault: unknown;

  constructor() {
    const { writable, readable } = new CompressionStream('deflate-raw');
    this.#writer = (writable as WritableStream<Uint8Array<ArrayBuffer>>).getWriter();
    this.#reading = this.#read(readable.getReader());
    // Told to whoever waits.
    this.#reading.catch((error: unknown) => void (this.#fault ??= error));
  }

  async #read(reader: ReadableStreamDefaultReader<Uint8Array>): Promise<void> {
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return;
      this.#packed.push(Uint8Array.from(value));
    }
  }

  add(bytes: Uint8Array<ArrayBuffer>): void {
    this.checksum = checksum(bytes, this.checksum);
    this.size += bytes.length;
    this.#last = this.#writer.write(bytes).catch((error: unknown) => void (this.#fault ??= error));
  }

  /**
   * Waits until what was added has been packed. The stream's own word that it has room is no help: some count what
   * waits by pieces, not by bytes, and take thousands of them.
   */
  async room(): Promise<void> {
    await this.#last;
    if (this.#fault !== undefined) throw this.#fault;
  }

  /** All of it; nothing can be added any more. */
  async ended(): Promise<readonly Uint8Array<ArrayBuffer>[]> {
    await this.#writer.close();
    await this.#reading;
    if (this.#fault !== undefined) throw this.#fault;
    return this.#packed;
  }
}

/** Bytes that a block can hold which is not packed. */
const mostStored = 0xffff;

/** Bytes as blocks of a Deflate stream that are not packed, none of them the last. Source: RFC 1951, 3.2.4. */
export function* storedBlocks(bytes: Uint8Array): Generator<Uint8Array<ArrayBuffer>> {
  for (let at = 0; at < bytes.length; at += mostStored) {
    const piece = bytes.subarray(at, at + mostStored);
    const block = new Uint8Array(5 + piece.length);
    const { length } = piece;
    block.set([0, length & 0xff, length >> 8, ~length & 0xff, (~length >> 8) & 0xff]);
    block.set(piece, 5);
    yield block;
  }
}
