/**
 * Patterns with * and ?, as spreadsheets know them, matched in time that grows with text times pattern.
 *
 * As a regular expression every * may try every length, one within the other: "*a*a*a*b" over a long text takes longer
 * than anyone waits. But the pieces between asterisks can be taken one after the other, each where it first stands:
 * what comes later then has the most room. "~" keeps the character after it from being a wildcard.
 *
 * Source: OpenFormula 1.3, wildcards in criteria (from memory).
 */

/** A character that must stand there, or any one. */
type Piece = readonly (string | null)[];

function pieces(pattern: string): readonly Piece[] {
  const found: (string | null)[][] = [[]];
  for (let at = 0; at < pattern.length; at += 1) {
    const letter = pattern.charAt(at);
    if (letter === '*') found.push([]);
    else if (letter === '?') found.at(-1)?.push(null);
    else if (letter === '~' && '*?~'.includes(pattern.charAt(at + 1)) && at + 1 < pattern.length)
      found.at(-1)?.push(pattern.charAt((at += 1)));
    else found.at(-1)?.push(letter);
  }
  return found;
}

const standsAt = (piece: Piece, text: string, start: number): boolean =>
  start + piece.length <= text.length &&
  piece.every((letter, index) => letter === null || letter === text.charAt(start + index));

/** The first place from `from` on at which a piece stands; below 0 when there is none. */
function placeOf(piece: Piece, text: string, from: number): number {
  if (piece.every((letter) => letter !== null)) return text.indexOf(piece.join(''), from);
  for (let start = from; start + piece.length <= text.length; start += 1)
    if (standsAt(piece, text, start)) return start;
  return -1;
}

/** Where a pattern stands in a text, and how far it reaches at least; undefined when it does not. */
function found(parts: readonly Piece[], text: string): { readonly start: number; readonly end: number } | undefined {
  let start = 0;
  let end = 0;
  for (const [index, piece] of parts.entries()) {
    const place = placeOf(piece, text, end);
    if (place < 0) return undefined;
    if (index === 0) start = place;
    end = place + piece.length;
  }
  return { start, end };
}

interface Wildcards {
  /** Whether the whole text, or with `part` some part of it, is as the pattern says. */
  readonly test: (text: string) => boolean;
  /** Where the pattern stands first. */
  readonly exec: (text: string) => { readonly index: number } | null;
}

export function wildcards(pattern: string, whole: boolean): Wildcards {
  const parts = pieces(pattern);
  const [first = [], ...later] = parts;
  const last = later.at(-1);
  const matchesWhole = (text: string): boolean => {
    if (!standsAt(first, text, 0)) return false;
    if (last === undefined) return text.length === first.length;
    const middle = found([[], ...later.slice(0, -1)], text.slice(first.length));
    return (
      middle !== undefined &&
      first.length + middle.end + last.length <= text.length &&
      standsAt(last, text, text.length - last.length)
    );
  };
  const place = (text: string): { readonly index: number } | null => {
    if (whole) return matchesWhole(text) ? { index: 0 } : null;
    const at = found(parts, text);
    return at === undefined ? null : { index: at.start };
  };
  return { test: (text) => place(text) !== null, exec: place };
}
