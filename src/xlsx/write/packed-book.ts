import { unzipSync, Zip, ZipDeflate } from 'fflate';
import { version } from '../../../package.json';
import { programName } from '../../workbook/legal-notice.ts';
import { type LateRows, lateRowsMark } from './late-rows.ts';

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

/**
 * The writer's archive packed anew: fixed dates, links that stay in the file, this program's name as its maker's, and
 * the rows that were left out. Parts are packed piece by piece, as the largest of them is a hundred times its packed
 * size.
 */
export function packedBook(archive: Uint8Array, late: readonly LateRows[] = []): Uint8Array {
  const packed: Uint8Array[] = [];
  const zip = new Zip((error, piece) => {
    if (error !== null) throw error;
    packed.push(piece);
  });
  for (const [path, bytes] of Object.entries(unzipSync(archive))) {
    const entry = new ZipDeflate(path, { level: 6 });
    entry.mtime = partDate;
    zip.add(entry);
    const part = changes.filter((change) => change.path.test(path)).reduce<Uint8Array>(changed, bytes);
    for (const piece of withLateRows(
      part,
      late.find((rows) => rows.path === path),
    ))
      entry.push(piece);
    entry.push(new Uint8Array(), true);
  }
  zip.end();
  return joined(packed);
}

function joined(pieces: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(pieces.reduce((length, piece) => length + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

/** A part in pieces, its late rows where their mark stands. */
function withLateRows(part: Uint8Array, late: LateRows | undefined): readonly Uint8Array[] {
  if (late === undefined) return [part];
  const [before, after, ...more] = new TextDecoder().decode(part).split(lateRowsMark);
  if (after === undefined || more.length > 0) throw new Error(`${late.path} has no place for its rows`);
  return [marks.encode(before), ...late.pieces, marks.encode(after)];
}

const marks = new TextEncoder();

/** A part with its change, read as text only when it holds the mark. */
function changed(bytes: Uint8Array, { mark, pattern, instead }: Change): Uint8Array {
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
