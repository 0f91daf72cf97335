import type { MergeBook } from '../../merge/merge-plan.ts';
import { adaptedBook, presentColumns, type StoredColumns, storedFormat } from '../../workbook/adapted-book.ts';
import { presentHeader } from '../../workbook/earlier-names.ts';
import type { BookState } from '../../workbook/state.ts';
import { turnOfPage } from '../idle.ts';
import { stateText } from './state-text.ts';

/**
 * A book as it was at some moment, packed small.
 *
 * It keeps the form and the headers that it was packed with, so that a later version of the program leads it to its own
 * columns, as it does with the book that is open.
 */
export interface PackedBook {
  readonly format: number;
  readonly columns: StoredColumns;
  /** Of a list, the columns that it has: of others it says nothing. */
  readonly covers?: readonly (readonly [sheet: string, headers: readonly string[]])[];
  /** The state as JSON, by gzip. */
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** By which the same content is known again. */
  readonly digest: string;
}

/** Milliseconds of work before the page has its turn. */
const slice = 12;

type Through = 'pack' | 'unpack';

async function through(bytes: Uint8Array<ArrayBuffer>, way: Through): Promise<Uint8Array<ArrayBuffer>> {
  const stream = new Blob([bytes]).stream();
  const made = stream.pipeThrough(way === 'pack' ? new CompressionStream('gzip') : new DecompressionStream('gzip'));
  return new Uint8Array(await new Response(made).arrayBuffer());
}

/** By which the same bytes are known again: their SHA-256. */
export async function digestOf(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return [...hash].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** The book as JSON; while that of a large one is made, the page has its turn. */
async function stateBytes(state: BookState): Promise<Uint8Array<ArrayBuffer>> {
  const encoder = new TextEncoder();
  const pieces: Uint8Array<ArrayBuffer>[] = [];
  let end = performance.now() + slice;
  for (const piece of stateText(state)) {
    pieces.push(encoder.encode(piece));
    if (performance.now() < end) continue;
    await turnOfPage();
    end = performance.now() + slice;
  }
  return new Uint8Array(await new Blob(pieces).arrayBuffer());
}

export async function packed({ state, covers }: MergeBook): Promise<PackedBook> {
  const text = await stateBytes(state);
  return {
    format: storedFormat,
    columns: presentColumns(),
    ...(covers === undefined ? {} : { covers: [...covers].map(([sheet, headers]) => [sheet, [...headers]] as const) }),
    bytes: await through(text, 'pack'),
    digest: await digestOf(text),
  };
}

/** The book in the columns of this version of the program. Throws with why when it can't be had. */
export async function unpacked({ format, columns, covers, bytes }: PackedBook): Promise<MergeBook> {
  if (format > storedFormat)
    throw new Error(`a later version of Skewbook stored it, in format ${format}; this one reads ${storedFormat}`);
  let read: BookState;
  try {
    // What was packed here is a state; that it is whole is what the check sum of gzip says.
    read = JSON.parse(new TextDecoder().decode(await through(bytes, 'unpack'))) as BookState;
  } catch (error) {
    throw new Error('what is stored of it is damaged', { cause: error });
  }
  const { state } = adaptedBook(read, columns);
  if (covers === undefined) return { state };
  const led = covers.map(
    ([sheet, headers]) => [sheet, new Set(headers.map((header) => presentHeader(sheet, header) ?? header))] as const,
  );
  return { state, covers: new Map(led) };
}
