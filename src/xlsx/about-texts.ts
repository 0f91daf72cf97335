/** Texts of any length in the cells of the About sheet. */

export type AboutCell = number | string;
export type ReadCell = AboutCell | boolean | null | undefined;

/** A cell holds 32,767 characters; longer texts go on in the next cell. */
const pieceLength = 32_000;

export const pieces = (text: string): string[] => {
  const cut: string[] = [];
  let at = 0;
  do {
    let end = at + pieceLength;
    // The two halves of a character beyond the first 65,536 stay together.
    if (/[\uDC00-\uDFFF]/.test(text.charAt(end))) end -= 1;
    cut.push(text.slice(at, end));
    at = end;
  } while (at < text.length);
  return cut;
};

export const joined = (cells: readonly ReadCell[]): string =>
  cells.map((cell) => (cell === null || cell === undefined ? '' : String(cell))).join('');
