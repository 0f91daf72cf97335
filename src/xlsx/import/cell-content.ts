import type { Content } from '../../formula/values.ts';
import type { Column } from '../../sheet/declaration.ts';
import { allowedFor } from '../../units/reading.ts';
import type { RawCell } from '../read/raw-book.ts';
import { cellText } from '../read/raw-cells.ts';

/** What a cell of a list becomes in the book, and what is said of it. */

export interface CellReading {
  readonly content: Content;
  /** Why the content is no value of the column, and what would be. */
  readonly issue?: { readonly why: string; readonly allowed: string };
  /** What a value that was understood leaves unsaid. */
  readonly remark?: string;
  /** The currency that a price names: in its cell, its number format or its heading. */
  readonly currency?: string;
}

/** A text as a content: never taken for a formula. */
export const textContent = (text: string): string => (text.startsWith('=') && text.length > 1 ? `'${text}` : text);

/** A cell as it stands, for columns of the user's own and for what was not understood. */
export function verbatim(cell: RawCell): Content {
  if (cell.error !== undefined || cell.date === true || (cell.value === null && cell.formula !== undefined))
    return textContent(cellText(cell));
  return typeof cell.value === 'string' ? textContent(cell.value) : cell.value;
}

export const issue = (cell: RawCell, why: string, allowed: string): CellReading => ({
  content: verbatim(cell),
  issue: { why, allowed },
});

/** What may stand in a column, for a message. */
export function allowedIn({ kind, choices, several }: Column): string {
  if (choices !== undefined && !('sheet' in choices))
    return `${several === true ? 'one or more of' : 'one of'} ${choices.join(', ')}`;
  if (kind === 'date') return 'a date, best as 2023-05-14';
  return kind === 'text' ? 'a text' : allowedFor(kind);
}
