import { Deflate } from 'fflate';
import { checksum, joinedChecksum } from '../checksum.ts';
import { PackedStream, storedBlocks } from './stream-packing.ts';

/** How the parts of an archive are packed, piece by piece, so that a large one is never there as a whole. */

/**
 * A piece of a part as a raw Deflate stream (RFC 1951) that ends on a whole byte and has no last block, so that other
 * such streams may stand before and behind it. It can be handed from thread to thread.
 */
export interface PackedPiece {
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Of the bytes before they were packed. */
  readonly size: number;
  readonly checksum: number;
}

/**
 * Packs a piece, maybe beside others in threads of its own. `before` are bytes that will stand right before it, in
 * which it may find what it repeats.
 */
export type Pack = (bytes: Uint8Array<ArrayBuffer>, before?: Uint8Array<ArrayBuffer>) => Promise<PackedPiece>;

/** How far back a packed piece can refer. Source: RFC 1951, 2. */
const farthest = 32_768;

/** Packs pieces that stand one behind the other. */
export class PackInTurn {
  readonly #pack: Pack;
  #before: Uint8Array<ArrayBuffer> | undefined;

  constructor(pack: Pack) {
    this.#pack = pack;
  }

  packed(bytes: Uint8Array<ArrayBuffer>): Promise<PackedPiece> {
    const before = this.#before;
    // A copy, so that the rest of the piece need not stay.
    this.#before = bytes.slice(-farthest);
    return before === undefined ? this.#pack(bytes) : this.#pack(bytes, before);
  }

  /** Something else comes between the last piece and the next. */
  interrupted(): void {
    this.#before = undefined;
  }
}

/** Puts bytes away until they are asked for: a large book's wait on a disk. */
type Keep = (bytes: Uint8Array<ArrayBuffer>) => () => Uint8Array<ArrayBuffer>;

const inMemory: Keep = (bytes) => () => bytes;

/** How a file's pieces are packed and kept. */
export interface Packing {
  /** Without it pieces stay as they are, and a part is packed as a whole in the end. */
  readonly pack?: Pack | undefined;
  /** Bytes from which rows without `pack` are packed as they come, by the browser. */
  readonly streamsFrom?: number | undefined;
  readonly keep?: Keep | undefined;
}

/** An empty block, the last of its stream. Source: RFC 1951, 3.2.3 and 3.2.6. */
const lastBlock = Uint8Array.of(3, 0);

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
 * What a part of an archive, or a stretch of one, is made of.
 *
 * Without a way to pack pieces they stay as they are until the archive is made: a browser can pack a stream only from
 * its beginning to its end, and so can the archive library (what its `flush` gives of version 0.8.3 can't always be
 * unpacked). Rows that are too many to stay are such a stream, to which what stands behind them is added in the end;
 * what stands before them, known only then, is put there as it is.
 */
export class PartPieces {
  readonly #packing: Packing;
  /** In their order; undefined while they are being packed. */
  readonly #pieces: (KeptPiece | undefined)[] = [];
  readonly #waiting = new Set<Promise<void>>();
  #fault: unknown;
  #stream: PackedStream | undefined;
  readonly #turn: PackInTurn | undefined;

  constructor(packing: Packing = {}) {
    this.#packing = packing;
    this.#turn = packing.pack && new PackInTurn(packing.pack);
  }

  /** Takes bytes that nobody changes any more. */
  add(bytes: Uint8Array<ArrayBuffer>): void {
    if (bytes.length === 0) return;
    if (this.#stream !== undefined) {
      this.#stream.add(bytes);
      return;
    }
    if (this.#turn === undefined) {
      this.#pieces.push(this.#kept({ bytes, size: bytes.length, checksum: 0 }));
      return;
    }
    const at = this.#pieces.push(undefined) - 1;
    const waiting = this.#turn
      .packed(bytes)
      .then((piece) => void (this.#pieces[at] = this.#kept(piece)))
      // Told to whoever waits.
      .catch((error: unknown) => void (this.#fault ??= error))
      .finally(() => this.#waiting.delete(waiting));
    this.#waiting.add(waiting);
  }

  /** Takes a piece that was packed elsewhere, as this one packs. */
  addPacked(piece: PackedPiece): void {
    this.#turn?.interrupted();
    this.#pieces.push(this.#kept(piece));
  }

  #kept({ bytes, size, checksum: sum }: PackedPiece): KeptPiece {
    return { size, checksum: sum, length: bytes.length, read: (this.#packing.keep ?? inMemory)(bytes) };
  }

  /** Waits until few pieces are still to be packed. */
  async room(most = mostWaiting): Promise<void> {
    while (this.#waiting.size > most) await Promise.race(this.#waiting);
    if (this.#fault !== undefined) throw this.#fault;
    this.#streamLarge();
    await this.#stream?.room();
  }

  /** Turns rows that are too many to stay as they are into a stream. */
  #streamLarge(): void {
    const { pack, streamsFrom = Infinity } = this.#packing;
    if (pack !== undefined || this.#stream !== undefined) return;
    if (this.#pieces.reduce((size, piece) => size + (piece?.size ?? 0), 0) < streamsFrom) return;
    this.#stream = new PackedStream();
    for (const piece of this.#pieces.splice(0)) if (piece !== undefined) this.#stream.add(piece.read());
  }

  /** All that was added, in its order, once it is packed. */
  async #all(): Promise<readonly KeptPiece[]> {
    while (this.#waiting.size > 0) await Promise.race(this.#waiting);
    if (this.#fault !== undefined) throw this.#fault;
    return this.#pieces.flatMap((piece) => piece ?? []);
  }

  /** Takes the pieces of another, which were packed alike; it is of no use afterwards. */
  async append(other: PartPieces): Promise<void> {
    this.#stream = other.#stream;
    this.#turn?.interrupted();
    // One by one: a million rows have more pieces than a call may have arguments.
    for (const piece of await other.#all()) this.#pieces.push(piece);
  }

  async packed(): Promise<PackedPart> {
    const pieces = await this.#all();
    if (this.#stream !== undefined) return packedStream(pieces, this.#stream);
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

/** A stream, and before it what is known only now. */
async function packedStream(before: readonly KeptPiece[], stream: PackedStream): Promise<PackedPart> {
  const bytes = joinedBytes(before.map(({ read }) => read()));
  const pieces = [...storedBlocks(bytes), ...(await stream.ended())];
  return {
    size: bytes.length + stream.size,
    checksum: joinedChecksum(checksum(bytes), stream.checksum, stream.size),
    packedSize: pieces.reduce((length, piece) => length + piece.length, 0),
    pieces: () => pieces,
  };
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
