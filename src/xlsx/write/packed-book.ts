import { unzipSync } from 'fflate';
import { version } from '../../../package.json';
import { programName } from '../../workbook/legal-notice.ts';
import { joinedBytes, type PackedPart, type Packing, PartPieces } from './packing.ts';
import { type PlacedRows, placedRowsMark } from './placed-rows.ts';
import { type ZipPart, zipFile } from './zip-file.ts';

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

/** A part of the writer's archive with its changes, and the rows that were made for it in their place. */
async function partPieces(
  path: string,
  bytes: Uint8Array,
  rows: PlacedRows | undefined,
  packing: Packing,
): Promise<PackedPart> {
  const part = changes.filter((change) => change.path.test(path)).reduce(changed, Uint8Array.from(bytes));
  const pieces = new PartPieces(packing);
  if (rows === undefined) {
    pieces.add(part);
    return pieces.packed();
  }
  const [before, after, ...more] = new TextDecoder().decode(part).split(placedRowsMark);
  if (before === undefined || after === undefined || more.length > 0)
    throw new Error(`${path} has no place for its rows`);
  pieces.add(marks.encode(before));
  await pieces.append(rows.pieces);
  pieces.add(marks.encode(after));
  return pieces.packed();
}

/**
 * The writer's archive packed anew: fixed dates, this program's name as its maker's, and
 * the rows that were made beside it.
 */
export async function packedParts(
  archive: Uint8Array,
  rows: readonly PlacedRows[] = [],
  packing: Packing = {},
): Promise<readonly ZipPart[]> {
  const parts: ZipPart[] = [];
  for (const [path, bytes] of Object.entries(unzipSync(archive)))
    parts.push({
      path,
      part: await partPieces(
        path,
        bytes,
        rows.find((one) => one.path === path),
        packing,
      ),
    });
  return parts;
}

/** A small book's file. */
export const packedBook = async (archive: Uint8Array): Promise<Uint8Array<ArrayBuffer>> =>
  joinedBytes([...zipFile(await packedParts(archive))]);

const marks = new TextEncoder();

/** A part with its change, read as text only when it holds the mark. */
function changed(bytes: Uint8Array<ArrayBuffer>, { mark, pattern, instead }: Change): Uint8Array<ArrayBuffer> {
  return holds(bytes, marks.encode(mark))
    ? marks.encode(new TextDecoder().decode(bytes).replace(pattern, instead))
    : bytes;
}

/** Whether bytes hold others. */
function holds(bytes: Uint8Array, wanted: Uint8Array): boolean {
  for (let at = bytes.length - wanted.length; at >= 0; at -= 1) {
    let same = 0;
    while (same < wanted.length && bytes[at + same] === wanted[same]) same += 1;
    if (same === wanted.length) return true;
  }
  return false;
}
