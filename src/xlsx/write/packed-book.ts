import { unzipSync, type Zippable, zipSync } from 'fflate';

/** The first moment that an archive can date its parts with; a fixed one makes the same book the same bytes. */
const partDate = new Date(1980, 0, 1);

const linkPart = /^xl\/worksheets\/sheet\d+\.xml$/;
const relationPart = /^xl\/worksheets\/_rels\/sheet\d+\.xml\.rels$/;

/**
 * The writer's archive packed anew: fixed dates, and links that stay in the file.
 *
 * The writer gives a link to a cell of the same book a target outside it too, at which other programs look for a file.
 */
export function packedBook(archive: Uint8Array): Uint8Array {
  const parts: Zippable = {};
  for (const [path, bytes] of Object.entries(unzipSync(archive))) {
    const changed = linkPart.test(path)
      ? inside(bytes, / r:id="rId\d+"(?= location=")/g, '<hyperlinks>')
      : relationPart.test(path)
        ? inside(
            bytes,
            /<Relationship [^>]*relationships\/hyperlink"[^>]*TargetMode="External"\/>/g,
            'relationships/hyperlink',
          )
        : bytes;
    parts[path] = changed;
  }
  return zipSync(parts, { level: 6, mtime: partDate });
}

const marks = new TextEncoder();

/** A part without what a pattern finds, read as text only when it holds the mark. */
function inside(bytes: Uint8Array, pattern: RegExp, mark: string): Uint8Array {
  return holds(bytes, marks.encode(mark)) ? marks.encode(new TextDecoder().decode(bytes).replace(pattern, '')) : bytes;
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
