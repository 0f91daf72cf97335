import { withShownMark } from '../units/shown-mark.ts';
import type { Content } from '../formula/values.ts';
import type { CellPlace } from './place.ts';
import type { BookState } from './state.ts';

/** Cells that hold a text, in their content or formula; those that the book works out by what they show. */
export interface Search {
  readonly text: string;
  readonly matchCase: boolean;
  /** Undefined for the whole book. */
  readonly sheet: string | undefined;
}

const folded = (text: string, { matchCase }: Search): string => (matchCase ? text : text.toLowerCase());

const contentText = (content: Content): string =>
  typeof content === 'boolean'
    ? String(content).toUpperCase()
    : typeof content === 'number'
      ? withShownMark(String(content))
      : (content ?? '');

/**
 * The cells of a record that hold the text. `textAt` gives the text of a cell that holds no content of its own, and
 * what a cell shows where that is another than its content, as a day's is.
 */
export function foundInRecord(
  cells: readonly Content[],
  { sheet, record, width }: { readonly sheet: string; readonly record: number; readonly width: number },
  search: Search,
  textAt: (place: CellPlace) => string,
): CellPlace[] {
  if (search.text === '' || (search.sheet !== undefined && search.sheet !== sheet)) return [];
  const wanted = folded(search.text, search);
  const found: CellPlace[] = [];
  for (let column = 0; column < width; column += 1) {
    const place = { sheet, record, column };
    const own = folded(contentText(cells[column] ?? null), search);
    if (own.includes(wanted) || folded(textAt(place), search).includes(wanted)) found.push(place);
  }
  return found;
}

/** All cells that hold the text, in the order of sheets, rows and columns. For tests: searches are compared. */
export const foundCells = (
  state: BookState,
  search: Search,
  widthOf: (sheet: string) => number,
  textAt: (place: CellPlace) => string,
): CellPlace[] =>
  state.sheets.flatMap(({ name, rows }) =>
    rows.flatMap(({ cells }, record) =>
      foundInRecord(cells, { sheet: name, record, width: widthOf(name) }, search, textAt),
    ),
  );

/** A text with each place that holds the wanted one changed; undefined when there is none. */
export function replacedText(text: string, search: Search, replacement: string): string | undefined {
  const escaped = search.text.replaceAll(/[.*+?^${}()|[\]\\]/g, String.raw`\$&`);
  if (search.text === '') return undefined;
  const changed = text.replaceAll(new RegExp(escaped, search.matchCase ? 'gu' : 'giu'), () => replacement);
  return changed === text ? undefined : changed;
}
