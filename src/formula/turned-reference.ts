import { type Corner, referencesIn, referenceText } from './reference-text.ts';

/** A text with a part of it chosen. */
interface Marked {
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

/** Free, wholly fixed, its row fixed, its column fixed, and free again; where there is one of the two, that alone. */
function turned(corner: Corner): Corner {
  const { row, rowFixed, column, columnFixed } = corner;
  if (row === undefined) return { ...corner, columnFixed: !columnFixed };
  if (column === undefined) return { ...corner, rowFixed: !rowFixed };
  if (rowFixed && columnFixed) return { ...corner, columnFixed: false };
  if (rowFixed) return { ...corner, rowFixed: false, columnFixed: true };
  return columnFixed ? { ...corner, columnFixed: false } : { ...corner, rowFixed: true, columnFixed: true };
}

/**
 * A formula with the reference at the caret fixed by dollars in the next way: D7, $D$7, D$7, $D7, and D7 again. Both
 * ends of a range turn as its first one does. Undefined where no reference touches the caret.
 */
export function turnedReference(formula: string, caret: number): Marked | undefined {
  const found = referencesIn(formula).findLast(({ start, end }) => start <= caret && caret <= end);
  if (found === undefined) return undefined;
  const { reference, start, end } = found;
  const from = turned(reference.from);
  const to =
    reference.to === undefined
      ? undefined
      : { ...reference.to, rowFixed: from.rowFixed, columnFixed: from.columnFixed };
  const text = referenceText({ ...reference, from, to });
  return { text: formula.slice(0, start) + text + formula.slice(end), start, end: start + text.length };
}
