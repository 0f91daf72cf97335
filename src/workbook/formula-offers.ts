import { quotedSheet } from '../formula/address.ts';

/** What may be typed next in a formula: names that begin as the text before the caret does, and what a call takes. */

export interface OfferedFunction {
  readonly name: string;
  /** With what each takes, where that is known. */
  readonly parameters: readonly { readonly name: string; readonly doc: string }[];
  /** The last parameter may be given again and again. */
  readonly rest: boolean;
  readonly does: string;
}

interface Described {
  readonly name: string;
  readonly does: string;
}

export interface Offerable {
  readonly functions: readonly OfferedFunction[];
  readonly values: readonly Described[];
  readonly sheets: readonly (Described & { readonly columns: readonly Described[] })[];
  /** The sheet that the formula stands on. */
  readonly sheet: string;
}

export interface Offer {
  readonly name: string;
  readonly does: string;
  /** What takes the place of the text that was begun. */
  readonly text: string;
}

export interface Offers {
  readonly list: readonly Offer[];
  /** How many characters before the caret an offer takes the place of. */
  readonly begun: number;
  readonly call: { readonly definition: OfferedFunction; readonly argument: number } | undefined;
}

const mostOffers = 9;

/**
 * The innermost open call before the caret, and which of its arguments the caret is in. For tests: half a formula is
 * read.
 */
export function openCall(before: string): { readonly name: string; readonly argument: number } | undefined {
  const open: { name: string; argument: number }[] = [];
  const pieces =
    before.match(/"(?:[^"]|"")*"?|'(?:[^']|'')*'?|[A-Za-z_][\w.]*\s*\(|[(),;]|[^"'A-Za-z_(),;]+|[A-Za-z_][\w.]*/g) ??
    [];
  for (const piece of pieces) {
    const last = open.at(-1);
    if (piece.endsWith('(') && !piece.startsWith('"'))
      open.push({ name: piece.slice(0, -1).trim().toUpperCase(), argument: 0 });
    else if (piece === ')') open.pop();
    else if ((piece === ',' || piece === ';') && last !== undefined) last.argument += 1;
  }
  return open.at(-1);
}

const withinText = (before: string): boolean => (before.match(/"/g)?.length ?? 0) % 2 === 1;

const begins = (name: string, begun: string): boolean => name.toLowerCase().startsWith(begun.toLowerCase());

/** Names that begin so, then names in which a later word does. */
function matching<Item extends Described>(items: readonly Item[], begun: string): Item[] {
  const inside = items.filter(
    ({ name }) =>
      !begins(name, begun) && name.split(/(?=[A-Z])| /).some((word) => begun.length > 1 && begins(word.trim(), begun)),
  );
  return [...items.filter(({ name }) => begins(name, begun)), ...inside];
}

/** Columns for an open bracket: of the sheet that is named before it, else of the formula's own. */
function columnOffers(before: string, { sheets, sheet }: Offerable): Offers | undefined {
  const match = /((?:'(?:[^']|'')+'|[\p{L}_][\p{L}\p{N}_.]*)?)\[@?([^\][]*)$/u.exec(before);
  if (match === null) return undefined;
  const [, written = '', begun = ''] = match;
  const name = written === '' ? sheet : written.replace(/^'(.*)'$/su, '$1').replaceAll("''", "'");
  const target = sheets.find((item) => item.name.toLowerCase() === name.toLowerCase());
  const list = matching(target?.columns ?? [], begun)
    .slice(0, mostOffers)
    .map((column) => ({ ...column, text: `${column.name}]` }));
  return { list, begun: begun.length, call: undefined };
}

function namedOffers(begun: string, { functions, values, sheets, sheet }: Offerable): Offer[] {
  if (begun.length < 2) return [];
  const own = sheets.find(({ name }) => name === sheet)?.columns ?? [];
  const upper = begun.toUpperCase();
  return [
    ...functions
      .filter(({ name }) => name.startsWith(upper) && name !== upper)
      .map(({ name, does }) => ({ name, does, text: `${name}(` })),
    ...matching(values, begun).map((item) => ({ ...item, text: item.name })),
    ...matching(sheets, begun).map((item) => ({ ...item, text: `${quotedSheet(item.name)}!` })),
    ...matching(own, begun).map((item) => ({ ...item, text: `[${item.name}]` })),
  ].filter(({ text }) => text !== begun);
}

/** Some of each kind, so that many functions do not push the columns out of the list. */
function shared(list: readonly Offer[]): Offer[] {
  const kindOf = ({ text }: Offer): string => (text.startsWith('[') ? '[' : (/[(!]$/.exec(text)?.[0] ?? ''));
  const counts = new Map<string, number>();
  const first = list.filter((offer) => {
    const count = (counts.get(kindOf(offer)) ?? 0) + 1;
    counts.set(kindOf(offer), count);
    return count <= 3;
  });
  const chosen = new Set([...first, ...list].slice(0, mostOffers));
  return list.filter((offer) => chosen.has(offer));
}

/** What can be offered for a text with the caret in it; undefined when it is no formula or there is nothing to say. */
export function offersFor(text: string, caret: number, offerable: Offerable): Offers | undefined {
  if (!text.startsWith('=')) return undefined;
  const before = text.slice(0, caret);
  if (withinText(before)) return undefined;
  const columns = columnOffers(before, offerable);
  if (columns !== undefined) return columns.list.length === 0 ? undefined : columns;
  const begun = /(?:^|[=(,;+\-*/^&<>:{ ])([\p{L}_][\p{L}\p{N}_.]*)$/u.exec(before)?.[1] ?? '';
  const list = shared(namedOffers(begun, offerable));
  const open = openCall(before);
  const definition = open === undefined ? undefined : offerable.functions.find(({ name }) => name === open.name);
  if (list.length === 0 && definition === undefined) return undefined;
  return {
    list,
    begun: begun.length,
    call: definition === undefined || open === undefined ? undefined : { definition, argument: open.argument },
  };
}
