import { correction, generate, mode } from 'lean-qr';

/**
 * A QR code as its squares, dark ones true, row by row; the white margin of four squares that readers ask for is not in
 * it.
 *
 * Letters beyond ASCII are marked as UTF-8 (extended channel interpretation 26): a reader that must guess takes
 * Cyrillic, Arabic and Chinese names for Japanese ones. Source: ISO/IEC 18004, from memory.
 */
function qrSquares(text: string): readonly (readonly boolean[])[] {
  const code = generate(text, {
    minCorrectionLevel: correction.M,
    modes: [mode.numeric, mode.alphaNumeric, mode.ascii, mode.utf8],
  });
  const places = Array.from({ length: code.size }, (_, at) => at);
  return places.map((down) => places.map((right) => code.get(right, down)));
}

export const qrMargin = 4;

/**
 * Longest text that a card puts into a code, in UTF-8 bytes: more makes squares too small for a camera to tell apart on
 * a card.
 */
const most = 120;

/** The code of a belt's name; undefined for a belt without one, or with one too long. */
export const beltCode = (belt: string): readonly (readonly boolean[])[] | undefined =>
  belt === '' || new TextEncoder().encode(belt).length > most ? undefined : qrSquares(belt);

/** Dark squares of a row that touch, as one: where they begin and how many. */
export function darkRuns(row: readonly boolean[]): { readonly from: number; readonly count: number }[] {
  const runs: { from: number; count: number }[] = [];
  row.forEach((dark, at) => {
    const last = runs.at(-1);
    if (!dark) return;
    if (last !== undefined && last.from + last.count === at) last.count += 1;
    else runs.push({ from: at, count: 1 });
  });
  return runs;
}
