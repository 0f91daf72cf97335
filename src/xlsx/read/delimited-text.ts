import Papa from 'papaparse';
import { type DecimalMark, decimalShown } from '../../units/numbers.ts';
import { dateSerial } from './date-serial.ts';
import { filledRows } from './filled-rows.ts';
import type { RawBook, RawCell } from './raw-book.ts';
import { grouped, type ReadLimits } from './read-limits.ts';
import { UnreadableFile } from './unreadable-file.ts';

/**
 * Lists as text: .csv, .tsv, and what is copied out of a spreadsheet or an e-mail.
 *
 * A text says neither its encoding nor what parts its columns nor its decimal mark. All three are found, and told with
 * the import, so that a wrong one shows. Numbers whose separator may be read two ways stay text, for the column's
 * reader to decide or refuse. Source: RFC 4180 for quotes; the rest common practice, no source.
 */

const delimiters = { '\t': 'tabs', ';': 'semicolons', ',': 'commas', '|': 'vertical bars' } as const;
export type Delimiter = keyof typeof delimiters;
export const candidates = Object.keys(delimiters) as Delimiter[];

/** Fields of a text, blank ones too, to filled cells. */
const mostFields = 2;

/** Lines that the delimiter is looked for in. */
export const lookedAt = 300;

export interface Decoded {
  readonly text: string;
  readonly encoding: string;
}

const startsWith = (bytes: Uint8Array, ...start: readonly number[]): boolean =>
  start.every((byte, index) => bytes[index] === byte);

/**
 * The form of two bytes a letter that a text has, by its byte order mark or by its first letters: a letter of ASCII has
 * a zero byte there, which no other text holds. Source: the Unicode Standard, 3.10 (encoding schemes).
 */
export function wideForm(bytes: Uint8Array): 'utf-16le' | 'utf-16be' | undefined {
  if (startsWith(bytes, 0xff, 0xfe)) return 'utf-16le';
  if (startsWith(bytes, 0xfe, 0xff)) return 'utf-16be';
  const [first = 0, second = 0, third = 0, fourth = 0] = bytes;
  if (first > 0 && second === 0 && third > 0 && fourth === 0 && bytes.length > 3) return 'utf-16le';
  return first === 0 && second > 0 && third === 0 && fourth > 0 ? 'utf-16be' : undefined;
}

/** A text's letters: two bytes each where it shows them, else UTF-8 when it is, else Western Windows' code page. */
export function decodedText(bytes: Uint8Array): Decoded {
  const as = (label: string, name: string): Decoded => ({ text: new TextDecoder(label).decode(bytes), encoding: name });
  const wide = wideForm(bytes);
  if (wide !== undefined) return as(wide, 'UTF-16');
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes), encoding: 'UTF-8' };
  } catch {
    return as('windows-1252', 'Windows-1252');
  }
}

export const parsed = (text: string, delimiter: Delimiter, preview = 0): string[][] =>
  Papa.parse<string[]>(text, { delimiter, preview, skipEmptyLines: false }).data;

/**
 * The fields of all lines, refused as soon as there are more than are read: blank ones cost as much as others here.
 * Lines of a part of a text end as those of all of it do.
 */
export function boundedRows(
  text: string,
  delimiter: Delimiter,
  limits: ReadLimits,
  newline?: '\n' | '\r\n',
): readonly string[][] {
  const rows: string[][] = [];
  let fields = 0;
  Papa.parse<string[]>(text, {
    delimiter,
    ...(newline === undefined ? {} : { newline }),
    skipEmptyLines: false,
    step({ data }) {
      fields += data.length;
      if (fields > mostFields * limits.cells)
        throw new UnreadableFile(
          'too much content',
          `The text has more than ${grouped(mostFields * limits.cells)} fields, the maximum that can be read; line ` +
            `${grouped(rows.length + 1)} exceeds that. Delete lines that the list of belts does not need.`,
        );
      rows.push(data);
    },
  });
  return rows;
}

/**
 * What parts the columns: under it most lines have one and the same number of fields, and more than one.
 *
 * Decimal commas part numbers too, but not the header, so the semicolon wins there. A first line "sep=;" says it.
 */
export function delimiterOf(text: string): Delimiter | undefined {
  let best: { readonly delimiter: Delimiter; readonly worth: number } | undefined;
  for (const delimiter of candidates) {
    const lines = parsed(text, delimiter, lookedAt).filter((fields) => fields.some((field) => field.trim() !== ''));
    const counts = new Map<number, number>();
    for (const { length } of lines) if (length > 1) counts.set(length, (counts.get(length) ?? 0) + 1);
    const [width = 0, alike = 0] = [...counts].toSorted((a, b) => b[1] - a[1] || b[0] - a[0])[0] ?? [];
    if (alike === 0) continue;
    const worth = alike / lines.length + Math.min(width, 20) / 1000;
    if (best === undefined || worth > best.worth + 1e-9) best = { delimiter, worth };
  }
  return best?.delimiter;
}

/** The decimal marks that numbers of a text show. */
export function decimalsOf(rows: readonly (readonly string[])[]): ReadonlySet<DecimalMark> {
  const marks = new Set<DecimalMark>();
  for (const row of rows)
    for (const field of row) {
      if (!/^\s*[+-]?\d[\d.,\s]*[.,]\d+\s*$/.test(field)) continue;
      const mark = decimalShown(field);
      if (mark !== undefined) marks.add(mark);
    }
  return marks;
}

/** The mark that all numbers of a text agree on; undefined when they show none or contradict each other. */
export function soleDecimal(marks: ReadonlySet<DecimalMark>): DecimalMark | undefined {
  const [mark] = marks;
  return marks.size === 1 ? mark : undefined;
}

/**
 * A text whose ditto marks are fields: a mark that begins a field, right before the next separator, stands for "as
 * above" and begins no quoted text, which would swallow the lines below. Such marks are quoted themselves.
 *
 * Only where all marks that begin a field of the line stand so, and no quoted text of a line above goes on in it.
 */
function withQuotedDittos(text: string, delimiter: Delimiter): string {
  if (!text.includes('"')) return text;
  const part = delimiter === '|' ? String.raw`\|` : delimiter;
  const opening = new RegExp(`(?:^|${part})"`, 'g');
  const alone = new RegExp(`(^|${part})"(?=${part}|\r?$)`, 'g');
  let quoted = false;
  const lines = text.split('\n').map((line) => {
    const [opened, dittos] = [opening, alone].map((form) => line.match(form)?.length ?? 0);
    if (!quoted && opened !== undefined && opened > 0 && opened === dittos) return line.replaceAll(alone, '$1""""');
    // A mark within a field that has no quotes around it opens nothing.
    if ((quoted || opened !== 0) && (line.split('"').length - 1) % 2 === 1) quoted = !quoted;
    return line;
  });
  return lines.join('\n');
}

const plainNumber = { point: /^[+-]?(?:0|[1-9]\d*)(?:\.\d+)?$/, comma: /^[+-]?(?:0|[1-9]\d*)(?:,\d+)?$/ } as const;
const wholeNumber = /^[+-]?(?:0|[1-9]\d{0,14})$/;
const isoDay = /^\d{4}-\d{2}-\d{2}(?:[T ]\d{2}:\d{2}(?::\d{2})?)?$/;

/** The format that shows a number as it is written: "1.10" may be the name of another belt than "1.1". */
function endingInZeros(text: string): Pick<RawCell, 'format'> {
  const decimals = /[.,](\d*0)$/.exec(text)?.[1];
  return decimals === undefined ? {} : { format: `0.${'0'.repeat(decimals.length)}` };
}

/** A field as the cell that a spreadsheet would hold; what is not plainly a number, a day or yes and no stays text. */
function cellOf(field: string, decimal: DecimalMark | undefined): Pick<RawCell, 'value' | 'date' | 'format'> {
  const text = field.trim();
  if (wholeNumber.test(text)) return { value: Number(text) };
  if (decimal !== undefined && text.length < 18 && plainNumber[decimal].test(text))
    return { value: Number(text.replace(',', '.')), ...endingInZeros(text) };
  if (isoDay.test(text)) {
    const serial = dateSerial(text);
    if (serial !== undefined) return { value: serial, date: true, format: 'yyyy-mm-dd' };
  }
  if (/^(?:true|false)$/i.test(text)) return { value: text.toLowerCase() === 'true' };
  return { value: field };
}

/**
 * Refuses a line with more separators of one kind than a sheet has columns. Those within quotes count too: no list has
 * a text with so many, and what parts the fields would have held them all before anybody could count them.
 */
export function refuseWideLines(text: string, { columnNumber }: ReadLimits): void {
  const counts = new Map(candidates.map((delimiter) => [delimiter.charCodeAt(0), 0]));
  let line = 1;
  for (let at = 0; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    const count = counts.get(code);
    if (count !== undefined) {
      if (count >= columnNumber) throw tooWide(line, columnNumber);
      counts.set(code, count + 1);
    } else if (code === lineFeed || code === carriageReturn) {
      if (code === lineFeed) line += 1;
      for (const delimiter of counts.keys()) counts.set(delimiter, 0);
    }
  }
}

const [lineFeed, carriageReturn] = [10, 13];

const tooWide = (line: number, columns: number): UnreadableFile =>
  new UnreadableFile(
    'outside the sheet',
    `Line ${grouped(line)} of the text has more than ${grouped(columns)} columns.`,
  );

/** The sheet that a text is. */
export const textSheet = 'Text';

/** The line that says what parts the columns, which is none of the list's. */
const saidLine = /^"?sep=([\t;,|])"?\r?\n/;

/** What a text begins with before its first line, and the delimiter that is said there. */
export function textBeginning(text: string): { readonly length: number; readonly said: Delimiter | undefined } {
  const mark = text.startsWith('\uFEFF') ? 1 : 0;
  const said = saidLine.exec(text.slice(mark, mark + 10));
  return { length: mark + (said?.[0].length ?? 0), said: candidates.find((item) => item === said?.[1]) };
}

/** Lines of a text that follow each other, as their fields; `first` is the number of the first. */
interface LineFields {
  readonly first: number;
  readonly rows: readonly (readonly string[])[];
}

interface ReadAs {
  readonly encoding: string;
  readonly delimiter: Delimiter | undefined;
  readonly decimal: DecimalMark | undefined;
}

/** Lines as a book of one sheet. */
export function linesBook(
  lines: readonly LineFields[],
  { encoding, delimiter, decimal }: ReadAs,
  limits: ReadLimits,
): RawBook {
  const filled = filledRows(textSheet, limits, { cells: 0, merges: 0, characters: 0, texts: 0, links: 0 });
  for (const { first, rows } of lines)
    rows.forEach((fields, index) => {
      fields.forEach((field, at) => {
        if (field.trim() === '') return;
        if (at >= limits.columnNumber) throw tooWide(first + index, limits.columnNumber);
        filled.add({ row: first + index, column: at + 1, ...cellOf(field, decimal) });
      });
    });
  return {
    sheets: [{ name: textSheet, hidden: false, merges: [], ...filled.taken() }],
    names: [],
    text: {
      encoding,
      ...(delimiter === undefined ? {} : { delimiter: delimiters[delimiter] }),
      ...(decimal === undefined ? {} : { decimal }),
    },
  };
}

/** A text with its columns as a book of one sheet. */
export function textBook({ text, encoding }: Decoded, limits: ReadLimits): RawBook {
  const { length, said } = textBeginning(text);
  const body = text.slice(length);
  refuseWideLines(body, limits);
  const delimiter = said ?? delimiterOf(body);
  const rows = boundedRows(withQuotedDittos(body, delimiter ?? ','), delimiter ?? ',', limits);
  return linesBook([{ first: 1, rows }], { encoding, delimiter, decimal: soleDecimal(decimalsOf(rows)) }, limits);
}
