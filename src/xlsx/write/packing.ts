import { checksum, joinedChecksum } from '../checksum.ts';

/** How the parts of an archive are packed, piece by piece, so that a large one is never there as a whole. */

/**
 * Bytes as a raw Deflate stream (RFC 1951) that ends on a whole byte and has no last block, so that other such streams
 * may stand before and behind it.
 */
export type Pack = (bytes: Uint8Array) => Uint8Array<ArrayBuffer>;

/** An empty block, the last of its stream. Source: RFC 1951, 3.2.3 and 3.2.6. */
export const lastBlock = Uint8Array.of(3, 0);

export function joinedBytes(pieces: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const whole = new Uint8Array(pieces.reduce((length, piece) => length + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

/**
 * What a part of an archive, or a stretch of one, is made of. Without a way to pack pieces they stay as they are, until
 * the archive is made: the archive library can pack a stream only from its beginning to its end (what its `flush` gives
 * of version 0.8.3 can't always be unpacked).
 */
export class PartPieces {
  readonly #pack: Pack | undefined;
  readonly pieces: Uint8Array<ArrayBuffer>[] = [];
  /** Of the bytes before they were packed; kept only where they are packed. */
  size = 0;
  checksum = 0;

  constructor(pack: Pack | undefined) {
    this.#pack = pack;
  }

  add(bytes: Uint8Array<ArrayBuffer>): void {
    if (bytes.length === 0) return;
    if (this.#pack === undefined) {
      this.pieces.push(bytes);
      return;
    }
    this.pieces.push(this.#pack(bytes));
    this.checksum = checksum(bytes, this.checksum);
    this.size += bytes.length;
  }

  /** Takes the pieces of another, which were packed alike. */
  append({ pieces, checksum: after, size }: PartPieces): void {
    this.pieces.push(...pieces);
    this.checksum = joinedChecksum(this.checksum, after, size);
    this.size += size;
  }
}
