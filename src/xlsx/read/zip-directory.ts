import { grouped, type ReadLimits } from './read-limits.ts';
import { copyAgain, saveAgain, UnreadableFile } from './unreadable-file.ts';

/** One file in an archive, as its directory declares it. */
export interface ZipEntry {
  readonly path: string;
  readonly encrypted: boolean;
  /** 0 stored, 8 deflated; anything else is refused when the part is needed. */
  readonly method: number;
  readonly checksum: number;
  readonly packedSize: number;
  readonly size: number;
  /** Where the entry's own header stands. */
  readonly header: number;
}

const signature = {
  entry: 0x02014b50,
  end: 0x06054b50,
  wideEnd: 0x06064b50,
  wideLocator: 0x07064b50,
  header: 0x04034b50,
};
const endLength = 22;
const entryLength = 46;
const headerLength = 30;
const longestComment = 0xffff;
/** Names of workbook parts have some twenty letters. */
const longestName = 1000;
/** A 32-bit field that says "look in the wide record". */
const wide = 0xffffffff;

const damaged = (what: string): UnreadableFile =>
  new UnreadableFile('damaged', `The file is damaged: ${what}. ${copyAgain}`);

const viewOf = (bytes: Uint8Array): DataView => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);

/** A 64-bit size; one beyond exact numbers is larger than any file and fails the next check. */
const wideNumber = (view: DataView, at: number): number => Number(view.getBigUint64(at, true));

function endRecord(view: DataView): number {
  const first = Math.max(0, view.byteLength - endLength - longestComment);
  for (let at = view.byteLength - endLength; at >= first; at--) {
    if (view.getUint32(at, true) === signature.end) return at;
  }
  throw new UnreadableFile(
    'cut off',
    'The file is cut off: a workbook file ends with a list of its parts, ' +
      `and this one stops after ${grouped(view.byteLength)} bytes without it. ${copyAgain}`,
  );
}

interface Extent {
  readonly count: number;
  readonly start: number;
  readonly end: number;
}

function directoryExtent(view: DataView): Extent {
  const at = endRecord(view);
  let count = view.getUint16(at + 10, true);
  let length = view.getUint32(at + 12, true);
  let start = view.getUint32(at + 16, true);
  let limit = at;
  if (at >= 20 && view.getUint32(at - 20, true) === signature.wideLocator) {
    const record = wideNumber(view, at - 12);
    if (record + 56 > at || view.getUint32(record, true) !== signature.wideEnd)
      throw damaged('the end of its list of parts points nowhere');
    count = wideNumber(view, record + 32);
    length = wideNumber(view, record + 40);
    start = wideNumber(view, record + 48);
    limit = record;
  }
  if (start + length > limit) throw damaged('its list of parts reaches beyond the end of the file');
  return { count, start, end: start + length };
}

/** Sizes and place from the wide field, which holds only those of them that did not fit. Source: APPNOTE 4.5.3. */
function widened(
  view: DataView,
  extra: number,
  extraEnd: number,
  narrow: readonly [number, number, number],
): readonly [number, number, number] {
  for (let at = extra; at + 4 <= extraEnd;) {
    const kind = view.getUint16(at, true);
    const fieldEnd = at + 4 + view.getUint16(at + 2, true);
    if (kind === 1 && fieldEnd <= extraEnd) {
      let field = at + 4;
      const next = (value: number): number => {
        if (value !== wide || field + 8 > fieldEnd) return value;
        field += 8;
        return wideNumber(view, field - 8);
      };
      return [next(narrow[0]), next(narrow[1]), next(narrow[2])];
    }
    at = fieldEnd;
  }
  return narrow;
}

/**
 * The archive's list of parts, read without unpacking anything.
 *
 * Nothing in it is believed beyond this: the sizes are checked again while a part is unpacked.
 *
 * Source: PKWARE APPNOTE 6.3, sections 4.3.12 to 4.3.16.
 */
export function zipDirectory(bytes: Uint8Array, limits: ReadLimits): readonly ZipEntry[] {
  const view = viewOf(bytes);
  const extent = directoryExtent(view);
  if (extent.count > limits.parts) {
    throw new UnreadableFile(
      'too many parts',
      `The file claims to hold ${grouped(extent.count)} parts; ` +
        `at most ${grouped(limits.parts)} can be read, and a list of belts needs about ten. ${saveAgain}`,
    );
  }
  const names = new TextDecoder();
  const entries: ZipEntry[] = [];
  let at = extent.start;
  for (let index = 0; index < extent.count; index++) {
    if (at + entryLength > extent.end || view.getUint32(at, true) !== signature.entry)
      throw damaged(`part ${index + 1} of ${extent.count} is missing in its list of parts`);
    const nameEnd = at + entryLength + view.getUint16(at + 28, true);
    const extraEnd = nameEnd + view.getUint16(at + 30, true);
    const next = extraEnd + view.getUint16(at + 32, true);
    if (next > extent.end || nameEnd - at - entryLength > longestName)
      throw damaged(`part ${index + 1} of ${extent.count} reaches beyond its list of parts, or its name is too long`);
    const narrow = [
      view.getUint32(at + 24, true),
      view.getUint32(at + 20, true),
      view.getUint32(at + 42, true),
    ] as const;
    const [size, packedSize, header] = narrow.includes(wide) ? widened(view, nameEnd, extraEnd, narrow) : narrow;
    entries.push({
      path: names.decode(bytes.subarray(at + entryLength, nameEnd)),
      encrypted: (view.getUint16(at + 8, true) & 1) === 1,
      method: view.getUint16(at + 10, true),
      checksum: view.getUint32(at + 16, true),
      packedSize,
      size,
      header,
    });
    at = next;
  }
  return entries;
}

/** The entry's packed bytes, behind its own header. */
export function packedBytes(bytes: Uint8Array, entry: ZipEntry): Uint8Array {
  const view = viewOf(bytes);
  if (entry.header + headerLength > bytes.length || view.getUint32(entry.header, true) !== signature.header) {
    throw damaged(`part ${entry.path} is not where its list of parts says`);
  }
  const start =
    entry.header + headerLength + view.getUint16(entry.header + 26, true) + view.getUint16(entry.header + 28, true);
  if (start + entry.packedSize > bytes.length) throw damaged(`part ${entry.path} reaches beyond the end of the file`);
  return bytes.subarray(start, start + entry.packedSize);
}
