import type { PackedPart } from './packing.ts';

/** An archive of parts whose sizes are known, piece by piece. */

/** A part and its path in the archive. */
export interface ZipPart {
  readonly path: string;
  readonly part: PackedPart;
}

const signature = {
  header: 0x04034b50,
  entry: 0x02014b50,
  end: 0x06054b50,
  wideEnd: 0x06064b50,
  wideLocator: 0x07064b50,
};

/** The versions of the format that plain and wide archives need. Source: PKWARE APPNOTE 6.3, 4.4.3. */
const version = { plain: 20, wide: 45 };
/** Names in UTF-8, and a part packed by Deflate. Source: PKWARE APPNOTE 6.3, 4.4.4 (bit 11), 4.4.5. */
const [utf8, deflated] = [0x0800, 8];
/** The first day that an archive can date its parts with, 1 January 1980: the same book gives the same bytes. */
const date = 0x0021;
/** What 32 and 16 bits hold when the true number stands in a wide record. */
const [wide, wideCount] = [0xffffffff, 0xffff];

/** Numbers from which wide records are written; smaller ones make small archives of the wide form. */
export interface WideFrom {
  readonly bytes: number;
  readonly parts: number;
}

const asNeeded: WideFrom = { bytes: wide, parts: wideCount };

/** Writes numbers one behind the other, the lowest byte first. */
class Fields {
  readonly #view: DataView<ArrayBuffer>;
  #at = 0;

  constructor(length: number) {
    this.#view = new DataView(new ArrayBuffer(length));
  }

  short(...values: readonly number[]): this {
    for (const value of values) {
      this.#view.setUint16(this.#at, value, true);
      this.#at += 2;
    }
    return this;
  }

  long(...values: readonly number[]): this {
    for (const value of values) {
      this.#view.setUint32(this.#at, value, true);
      this.#at += 4;
    }
    return this;
  }

  wide(...values: readonly number[]): this {
    for (const value of values) {
      this.#view.setBigUint64(this.#at, BigInt(value), true);
      this.#at += 8;
    }
    return this;
  }

  bytes(bytes: Uint8Array): this {
    new Uint8Array(this.#view.buffer).set(bytes, this.#at);
    this.#at += bytes.length;
    return this;
  }

  get taken(): Uint8Array<ArrayBuffer> {
    return new Uint8Array(this.#view.buffer);
  }
}

const narrow = (value: number, { bytes }: WideFrom): number => (value >= bytes ? wide : value);

/** The field that holds the numbers which 32 bits do not, in their order. Source: PKWARE APPNOTE 6.3, 4.5.3. */
function wideField(values: readonly number[], { bytes }: WideFrom): Uint8Array {
  const large = values.filter((value) => value >= bytes);
  if (large.length === 0) return new Uint8Array();
  return new Fields(4 + 8 * large.length).short(1, 8 * large.length).wide(...large).taken;
}

interface Entry extends ZipPart {
  readonly name: Uint8Array;
  readonly at: number;
}

function header({ name, part: { checksum, size, packedSize } }: Entry, { bytes }: WideFrom): Uint8Array<ArrayBuffer> {
  // Before a part both sizes stand in the wide field, or neither does.
  const isWide = Math.max(size, packedSize) >= bytes;
  const extra = isWide ? new Fields(20).short(1, 16).wide(size, packedSize).taken : new Uint8Array();
  return new Fields(30 + name.length + extra.length)
    .long(signature.header)
    .short(isWide ? version.wide : version.plain, utf8, deflated, 0, date)
    .long(checksum, isWide ? wide : packedSize, isWide ? wide : size)
    .short(name.length, extra.length)
    .bytes(name)
    .bytes(extra).taken;
}

function directoryEntry({ name, at, part }: Entry, from: WideFrom): Uint8Array<ArrayBuffer> {
  const { checksum, size, packedSize } = part;
  const extra = wideField([size, packedSize, at], from);
  const needs = extra.length > 0 ? version.wide : version.plain;
  return new Fields(46 + name.length + extra.length)
    .long(signature.entry)
    .short(needs, needs, utf8, deflated, 0, date)
    .long(checksum, narrow(packedSize, from), narrow(size, from))
    .short(name.length, extra.length, 0, 0, 0)
    .long(0, narrow(at, from))
    .bytes(name)
    .bytes(extra).taken;
}

function* ending(count: number, start: number, length: number, from: WideFrom): Generator<Uint8Array<ArrayBuffer>> {
  const narrowCount = count >= from.parts ? wideCount : count;
  if (narrowCount === wideCount || start >= from.bytes || length >= from.bytes)
    yield new Fields(56 + 20)
      .long(signature.wideEnd)
      .wide(44)
      .short(version.wide, version.wide)
      .long(0, 0)
      .wide(count, count, length, start)
      .long(signature.wideLocator, 0)
      .wide(start + length)
      .long(1).taken;
  yield new Fields(22)
    .long(signature.end)
    .short(0, 0, narrowCount, narrowCount)
    .long(narrow(length, from), narrow(start, from))
    .short(0).taken;
}

/**
 * The bytes of an archive. Its headers hold every size, as the format has it where a file is not written in one go:
 * readers that unpack it from beginning to end need no look at its directory. What passes 4 GB is said in wide fields;
 * for tests from fewer bytes or parts on.
 *
 * Source: PKWARE APPNOTE 6.3, 4.3.7 (header), 4.3.12 (directory), 4.3.14 to 4.3.16 (endings).
 */
export function* zipFile(parts: Iterable<ZipPart>, from = asNeeded): Generator<Uint8Array<ArrayBuffer>> {
  const names = new TextEncoder();
  const entries: Entry[] = [];
  let at = 0;
  for (const part of parts) {
    const entry = { ...part, name: names.encode(part.path), at };
    entries.push(entry);
    const before = header(entry, from);
    yield before;
    yield* part.part.pieces();
    at += before.length + part.part.packedSize;
  }
  const start = at;
  for (const entry of entries) {
    const bytes = directoryEntry(entry, from);
    yield bytes;
    at += bytes.length;
  }
  yield* ending(entries.length, start, at - start, from);
}
