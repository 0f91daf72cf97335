import { Deflate } from 'fflate';
import { checksum, joinedChecksum } from '../checksum.ts';

/** How the parts of an archive are packed, piece by piece, so that a large one is never there as a whole. */

/**
 * Bytes as a raw Deflate stream (RFC 1951) that ends on a whole byte and has no last block, so that other such streams
 * may stand before and behind it. Pieces may be packed beside each other, in threads.
 */
export type Pack = (bytes: Uint8Array<ArrayBuffer>) => Promise<Uint8Array<ArrayBuffer>>;

/** A piece of a part, and what is known of it before it was packed. It can be handed from thread to thread. */
export interface PackedPiece {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly size: number;
  readonly checksum: number;
}

/** Puts bytes away until they are asked for: a large book's wait on a disk. */
export type Keep = (bytes: Uint8Array<ArrayBuffer>) => () => Uint8Array<ArrayBuffer>;

const inMemory: Keep = (bytes) => () => bytes;

/** How a file's pieces are packed and kept. */
export interface Packing {
  /** Without it pieces stay as they are, and a part is packed as a whole in the end. */
  readonly pack?: Pack | undefined;
  readonly keep?: Keep | undefined;
}

/** An empty block, the last of its stream. Source: RFC 1951, 3.2.3 and 3.2.6. */
export const lastBlock = Uint8Array.of(3, 0);

/** Pieces that may wait to be packed: more would only fill memory. */
const mostWaiting = 3;

export function joinedBytes(pieces: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const whole = new Uint8Array(pieces.reduce((length, piece) => length + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

export async function packedPiece(bytes: Uint8Array<ArrayBuffer>, pack: Pack): Promise<PackedPiece> {
  const packing = pack(bytes);
  // Worked out while another thread packs.
  const sum = checksum(bytes);
  return { bytes: await packing, size: bytes.length, checksum: sum };
}

interface KeptPiece extends Omit<PackedPiece, 'bytes'> {
  readonly length: number;
  readonly read: () => Uint8Array<ArrayBuffer>;
}

/** A part as an archive takes it. */
export interface PackedPart {
  readonly size: number;
  readonly checksum: number;
  readonly packedSize: number;
  pieces(): Iterable<Uint8Array<ArrayBuffer>>;
}

/**
 * What a part of an archive, or a stretch of one, is made of. Without a way to pack pieces they stay as they are, until
 * the archive is made: the archive library can pack a stream only from its beginning to its end (what its `flush` gives
 * of version 0.8.3 can't always be unpacked).
 */
export class PartPieces {
  readonly #packing: Packing;
  /** In their order; undefined while they are being packed. */
  readonly #pieces: (KeptPiece | undefined)[] = [];
  readonly #waiting = new Set<Promise<void>>();
  #fault: unknown;

  constructor(packing: Packing = {}) {
    this.#packing = packing;
  }

  /** Takes bytes that nobody changes any more. */
  add(bytes: Uint8Array<ArrayBuffer>): void {
    if (bytes.length === 0) return;
    const { pack } = this.#packing;
    if (pack === undefined) {
      this.#pieces.push(this.#kept({ bytes, size: bytes.length, checksum: 0 }));
      return;
    }
    const at = this.#pieces.push(undefined) - 1;
    const waiting = packedPiece(bytes, pack)
      .then((piece) => void (this.#pieces[at] = this.#kept(piece)))
      // Told to whoever waits.
      .catch((error: unknown) => void (this.#fault ??= error))
      .finally(() => this.#waiting.delete(waiting));
    this.#waiting.add(waiting);
  }

  /** Takes a piece that was packed elsewhere, as this one packs. */
  addPacked(piece: PackedPiece): void {
    this.#pieces.push(this.#kept(piece));
  }

  #kept({ bytes, size, checksum: sum }: PackedPiece): KeptPiece {
    return { size, checksum: sum, length: bytes.length, read: (this.#packing.keep ?? inMemory)(bytes) };
  }

  /** Waits until few pieces are still to be packed. */
  async room(most = mostWaiting): Promise<void> {
    while (this.#waiting.size > most) await Promise.race(this.#waiting);
    if (this.#fault !== undefined) throw this.#fault;
  }

  /** All that was added, in its order, once it is packed. */
  async #all(): Promise<readonly KeptPiece[]> {
    await this.room(0);
    return this.#pieces.flatMap((piece) => piece ?? []);
  }

  /** Takes the pieces of another, which were packed alike. */
  async append(other: PartPieces): Promise<void> {
    this.#pieces.push(...(await other.#all()));
  }

  async packed(): Promise<PackedPart> {
    const pieces = await this.#all();
    if (this.#packing.pack === undefined) return packedAtOnce(pieces);
    let [sum, size, packedSize] = [0, 0, lastBlock.length];
    for (const piece of pieces) {
      sum = joinedChecksum(sum, piece.checksum, piece.size);
      size += piece.size;
      packedSize += piece.length;
    }
    return {
      size,
      checksum: sum,
      packedSize,
      *pieces() {
        for (const { read } of pieces) yield read();
        yield lastBlock;
      },
    };
  }
}

function packedAtOnce(pieces: readonly KeptPiece[]): PackedPart {
  const packed: Uint8Array<ArrayBuffer>[] = [];
  const stream = new Deflate({ level: 6 }, (piece) => void packed.push(Uint8Array.from(piece)));
  let [sum, size] = [0, 0];
  for (const { read } of pieces) {
    const bytes = read();
    sum = checksum(bytes, sum);
    size += bytes.length;
    stream.push(bytes);
  }
  stream.push(new Uint8Array(), true);
  return {
    size,
    checksum: sum,
    packedSize: packed.reduce((length, piece) => length + piece.length, 0),
    pieces: () => packed,
  };
}
