import Papa from 'papaparse';
import type { DecimalMark } from '../../units/numbers.ts';
import {
  boundedRows,
  candidates,
  decimalsOf,
  type Decoded,
  type Delimiter,
  delimiterOf,
  linesBook,
  lookedAt,
  parsed,
  refuseWideLines,
  soleDecimal,
  textBeginning,
} from './delimited-text.ts';
import type { RawBook } from './raw-book.ts';
import type { ReadLimits } from './read-limits.ts';

/**
 * Lines of a long text, read apart from it, as they would be in it (`delimited-text.ts`): they were cut where none goes
 * on within quotes, and hold no mark that repeats a field above.
 */

/** How a text's lines are to be read. */
export interface TextForm {
  readonly encoding: string;
  /** Undefined where there is one column only. */
  readonly delimiter: Delimiter | undefined;
  /** What ends its lines. */
  readonly newline: '\n' | '\r\n';
  /** Characters before the first line. */
  readonly before: number;
  /** The decimal mark of its beginning; all of it may show another too. */
  readonly decimal: DecimalMark | undefined;
}

/**
 * How the lines of a text are to be read, by its beginning; undefined where that is too short to say, or where lines
 * end otherwise. The reader of a whole text finds the same.
 */
export function textForm({ text, encoding }: Decoded, isAll: boolean): TextForm | undefined {
  const { length: before, said } = textBeginning(text);
  const body = text.slice(before);
  if (!isAll && candidates.some((candidate) => parsed(body, candidate, lookedAt + 1).length <= lookedAt))
    return undefined;
  const delimiter = said ?? delimiterOf(body);
  const { linebreak: newline } = Papa.parse<string[]>(body, { delimiter: delimiter ?? ',', preview: 1 }).meta;
  if (newline !== '\n' && newline !== '\r\n') return undefined;
  const decimal = soleDecimal(decimalsOf(parsed(body, delimiter ?? ',')));
  return { encoding, delimiter, newline, before, decimal };
}

/** Lines that follow each other. */
interface TextLines {
  /** Number of the first. */
  readonly first: number;
  readonly text: string;
}

/** Lines as a book of one sheet, by the decimal mark of the whole text, and the marks that they show themselves. */
export function readLines(
  lines: readonly TextLines[],
  { encoding, delimiter, newline }: TextForm,
  decimal: DecimalMark | undefined,
  limits: ReadLimits,
): { readonly book: RawBook; readonly decimals: ReadonlySet<DecimalMark> } {
  const fields = lines.map(({ first, text }) => {
    refuseWideLines(text, limits);
    return { first, rows: boundedRows(text, delimiter ?? ',', limits, newline) };
  });
  return {
    book: linesBook(fields, { encoding, delimiter, decimal }, limits),
    decimals: decimalsOf(fields.flatMap(({ rows }) => rows)),
  };
}
