import { isUtf8 } from 'node:buffer';
import { type Delimiter, wideForm } from '../../xlsx/read/delimited-text.ts';
import { type TextForm, textForm } from '../../xlsx/read/text-lines.ts';
import { NotPlain, type RowRun, type SheetFrame } from './row-runs.ts';

/**
 * A list as text cut into runs of lines, where no line goes on within quotes.
 *
 * Only the bytes are looked at, in encodings that have the letters of ASCII. What cannot be cut so safely is told as a
 * `NotPlain`: quotes that end within a field, marks that repeat the field above (each is a quote of its own), lines
 * that end in several ways. Source: RFC 4180 for quotes.
 */

const utf8Mark = Buffer.from([0xef, 0xbb, 0xbf]);

const [lineFeed, carriageReturn, quote] = [10, 13, 34];

const view = ({ buffer, byteOffset, byteLength }: Uint8Array): Buffer => Buffer.from(buffer, byteOffset, byteLength);

/** Where the list begins, and how its lines are to be read. */
export interface PlacedText {
  readonly start: number;
  readonly form: TextForm;
}

/** The letters of some lines of a text. */
export const lettersOf = (bytes: Uint8Array, { encoding }: Pick<TextForm, 'encoding'>): string =>
  encoding === 'UTF-8' ? view(bytes).toString('utf8') : new TextDecoder('windows-1252').decode(new Uint8Array(bytes));

/** How a text is to be read in parts, by so many bytes of its beginning; undefined where it cannot be. */
export function placedText(bytes: Uint8Array, beginning: number): PlacedText | undefined {
  const all = view(bytes);
  if (wideForm(bytes) !== undefined) return undefined;
  const encoding = isUtf8(bytes) ? 'UTF-8' : 'Windows-1252';
  const mark = encoding === 'UTF-8' && all.subarray(0, utf8Mark.length).equals(utf8Mark) ? utf8Mark.length : 0;
  const isAll = bytes.length <= beginning;
  const first = isAll ? all.subarray(mark) : all.subarray(mark, all.lastIndexOf(lineFeed, beginning) + 1);
  const text = lettersOf(first, { encoding });
  const form = textForm({ text, encoding }, isAll);
  return form && { start: mark + Buffer.byteLength(text.slice(0, form.before)), form };
}

/** A field that is one quote: it may stand for "as above", or begin or end a text of several lines. */
const loneQuote = (delimiter: string): RegExp => {
  const part = delimiter === '|' ? String.raw`\|` : delimiter;
  return new RegExp(`(?:^|${part})"(?=${part}|\r?$)`, 'm');
};

/** Where lines end that no quotes hold together, and how many lines end before. */
class LineEnds {
  readonly #delimiter: number;
  readonly #returns: boolean;
  #quoted = false;
  /** Whether a field begins here, or has just ended with its quotes. */
  #begins = true;
  #closed = false;
  hasQuotes = false;

  constructor(delimiter: Delimiter, newline: TextForm['newline']) {
    this.#delimiter = delimiter.charCodeAt(0);
    this.#returns = newline === '\r\n';
  }

  /** Goes from a place to the next end of a line; answers where the next one begins, or the end of the text. */
  next(bytes: Uint8Array, from: number): number {
    for (let at = from; at < bytes.length; at += 1) {
      const byte = bytes[at];
      if (this.#quoted) {
        if (byte !== quote) continue;
        if (bytes[at + 1] === quote) at += 1;
        else [this.#quoted, this.#closed] = [false, true];
      } else if (byte === lineFeed) {
        if (this.#returns && bytes[at - 1] !== carriageReturn) throw endings();
        [this.#begins, this.#closed] = [true, false];
        return at + 1;
      } else if (byte === this.#delimiter) [this.#begins, this.#closed] = [true, false];
      else if (byte === carriageReturn) {
        if (!this.#returns || bytes[at + 1] !== lineFeed) throw endings();
      } else if (this.#closed) throw new NotPlain('quotes in it end within a field');
      else if (byte === quote && this.#begins) {
        [this.#quoted, this.#begins, this.hasQuotes] = [true, false, true];
      } else this.#begins = false;
    }
    if (this.#quoted) throw new NotPlain('quotes in it have no end');
    return bytes.length;
  }
}

const endings = (): NotPlain => new NotPlain('its lines end in several ways');

/** The runs of a text's lines, each of at least so many bytes but for the last. */
export function* textRuns(
  bytes: Uint8Array,
  { start, form: { delimiter = ',', newline } }: PlacedText,
  runBytes: (run: number) => number,
): Generator<RowRun, SheetFrame> {
  const ends = new LineEnds(delimiter, newline);
  const lone = loneQuote(delimiter);
  let [at, begun, line, first, run] = [start, start, 1, 1, 0];
  while (at < bytes.length) {
    at = ends.next(bytes, at);
    line += 1;
    if (at < bytes.length && at - begun < runBytes(run)) continue;
    const rows = bytes.subarray(begun, at);
    if (ends.hasQuotes && lone.test(view(rows).toString('latin1')))
      throw new NotPlain('marks in it may repeat the cell above');
    yield { first, rows: rows.slice() };
    ends.hasQuotes = false;
    [begun, first, run] = [at, line, run + 1];
  }
  return { before: new Uint8Array(0), after: new Uint8Array(0) };
}

/** The lines of a run up to the line of a number, that line included. */
export function linesUpTo({ first, rows }: RowRun, number: number, { delimiter = ',', newline }: TextForm): Uint8Array {
  const ends = new LineEnds(delimiter, newline);
  let at = 0;
  for (let line = first; line <= number && at < rows.length; line += 1) at = ends.next(rows, at);
  return rows.subarray(0, at);
}
