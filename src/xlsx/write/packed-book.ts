import { unzipSync, Zip, ZipDeflate, type ZipInputFile } from 'fflate';
import { version } from '../../../package.json';
import { programName } from '../../workbook/legal-notice.ts';
import { type LateRows, lateRowsMark } from './late-rows.ts';
import { joinedBytes, lastBlock, type Pack, PartPieces } from './packing.ts';

/** The first moment that an archive can date its parts with; a fixed one makes the same book the same bytes. */
const partDate = new Date(1980, 0, 1);

/**
 * The program's version as files give it, XX.YYYY: minor and patch in two digits each. Source: ECMA-376 Part 1, 22.2.2
 * (extended properties), the form from memory.
 *
 * For tests: the file is asked for it.
 */
export function applicationVersion(version: string): string {
  const [major = '', minor = '', patch = ''] = version.split(/[.-]/).map((part) => part.padStart(2, '0'));
  return `${major}.${minor}${patch}`;
}

/** What the writer puts into parts of which paths, and what stands there instead. */
interface Change {
  readonly path: RegExp;
  /** A part without it is left as it is. */
  readonly mark: string;
  readonly pattern: RegExp;
  readonly instead: string;
}

const changes: readonly Change[] = [
  // A link to a cell of the same book gets a target outside it too, at which other programs look for a file.
  {
    path: /^xl\/worksheets\/sheet\d+\.xml$/,
    mark: '<hyperlinks>',
    pattern: / r:id="rId\d+"(?= location=")/g,
    instead: '',
  },
  {
    path: /^xl\/worksheets\/_rels\/sheet\d+\.xml\.rels$/,
    mark: 'relationships/hyperlink',
    pattern: /<Relationship [^>]*relationships\/hyperlink"[^>]*TargetMode="External"\/>/g,
    instead: '',
  },
  // Another program's name as that of the one that wrote the book, and nobody's as that of the notes' author.
  { path: /^docProps\/app\.xml$/, mark: '<Application>', pattern: /(?<=<Application>)[^<]*/, instead: programName },
  {
    path: /^docProps\/app\.xml$/,
    mark: '<AppVersion>',
    pattern: /(?<=<AppVersion>)[^<]*/,
    instead: applicationVersion(version),
  },
  { path: /^xl\/comments\d+\.xml$/, mark: '<author>', pattern: /(?<=<author>)[^<]*/g, instead: programName },
];

/** The number by which an archive says that a part is packed by Deflate. Source: PKWARE APPNOTE 6.3, 4.4.5. */
const deflated = 8;

/** A part as the archive takes it, and what gives it its content. */
function entryOf(
  path: string,
  { pieces, checksum, size }: PartPieces,
  isPacked: boolean,
): readonly [ZipInputFile, () => void] {
  if (!isPacked) {
    const entry = new ZipDeflate(path, { level: 6 });
    entry.mtime = partDate;
    return [
      entry,
      () => {
        for (const piece of pieces) entry.push(piece);
        entry.push(new Uint8Array(), true);
      },
    ];
  }
  const entry: ZipInputFile = { filename: path, size, crc: checksum, compression: deflated, mtime: partDate };
  return [
    entry,
    () => {
      for (const piece of pieces) entry.ondata?.(null, piece, false);
      entry.ondata?.(null, lastBlock, true);
    },
  ];
}

/**
 * The writer's archive packed anew: fixed dates, links that stay in the file, this program's name as its maker's, and
 * the rows that were left out. Parts are packed piece by piece, as the largest of them is a hundred times its packed
 * size.
 */
export function packedBook(
  archive: Uint8Array,
  { late = [], pack }: { readonly late?: readonly LateRows[]; readonly pack?: Pack | undefined } = {},
): Uint8Array {
  const packed: Uint8Array[] = [];
  const zip = new Zip((error, piece) => {
    if (error !== null) throw error;
    packed.push(piece);
  });
  for (const [path, bytes] of Object.entries(unzipSync(archive))) {
    const part = changes.filter((change) => change.path.test(path)).reduce(changed, Uint8Array.from(bytes));
    const rows = late.find((one) => one.path === path);
    const pieces = new PartPieces(pack);
    if (rows === undefined) pieces.add(part);
    else addWithRows(pieces, part, rows);
    const [entry, give] = entryOf(path, pieces, pack !== undefined);
    zip.add(entry);
    give();
  }
  zip.end();
  return joinedBytes(packed);
}

/** Packs a part, its late rows where their mark stands. */
function addWithRows(pieces: PartPieces, part: Uint8Array<ArrayBuffer>, { path, pieces: own }: LateRows): void {
  const [before, after, ...more] = new TextDecoder().decode(part).split(lateRowsMark);
  if (before === undefined || after === undefined || more.length > 0)
    throw new Error(`${path} has no place for its rows`);
  pieces.add(marks.encode(before));
  pieces.append(own);
  pieces.add(marks.encode(after));
}

const marks = new TextEncoder();

/** A part with its change, read as text only when it holds the mark. */
function changed(bytes: Uint8Array<ArrayBuffer>, { mark, pattern, instead }: Change): Uint8Array<ArrayBuffer> {
  return holds(bytes, marks.encode(mark))
    ? marks.encode(new TextDecoder().decode(bytes).replace(pattern, instead))
    : bytes;
}

/** Whether bytes hold others; looked for from the end, where links stand. */
function holds(bytes: Uint8Array, wanted: Uint8Array): boolean {
  for (let at = bytes.length - wanted.length; at >= 0; at -= 1) {
    let same = 0;
    while (same < wanted.length && bytes[at + same] === wanted[same]) same += 1;
    if (same === wanted.length) return true;
  }
  return false;
}
