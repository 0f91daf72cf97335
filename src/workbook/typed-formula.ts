import { quotedSheet } from '../formula/address.ts';
import { nodesOf, parsed } from '../formula/syntax.ts';
import { FormulaSyntaxError } from '../formula/tokens.ts';
import { nearest } from '../units/nearest.ts';
import { unknownColumn, withCellsOfColumns } from './column-references.ts';
import { compiledSheets } from './declared.ts';
import type { CellPlace } from './place.ts';
import type { BookState } from './state.ts';

/** What is wrong with a formula while it can still be put right, and what it was probably meant to be. */

export interface TypedFault {
  /** In words, with where it is. */
  readonly says: string;
  /** The formula as it was probably meant. */
  readonly fix: string | undefined;
}

/** What formulas may call, all names in their own spelling. */
export interface KnownNames {
  readonly functions: readonly string[];
  readonly values: readonly string[];
}

function syntaxError(text: string): FormulaSyntaxError | undefined {
  try {
    parsed(text);
    return undefined;
  } catch (error) {
    if (error instanceof FormulaSyntaxError) return error;
    throw error;
  }
}

const quotes = /"(?:[^"]|"")*"?|'(?:[^']|'')*'?/g;

/** The text with what stands between quotes blanked, place for place. */
const unquoted = (text: string): string => text.replaceAll(quotes, (whole) => ' '.repeat(whole.length));

const openBrackets = (text: string): number => {
  const bare = unquoted(text);
  return bare.split('(').length - bare.split(')').length;
};

/** Semicolons between arguments as commas; those between braces part the rows of an array. */
function withCommas(text: string): string {
  let depth = 0;
  return unquoted(text)
    .split('')
    .map((letter, at) => {
      depth += letter === '{' ? 1 : letter === '}' ? -1 : 0;
      return letter === ';' && depth === 0 ? ',' : text.charAt(at);
    })
    .join('');
}

/** Sheets whose names need quotes and have none. */
function withQuotedSheets(text: string, { sheets }: BookState): string {
  let quoted = text;
  for (const { name } of sheets) {
    if (quotedSheet(name) === name) continue;
    const plain = name.replaceAll(/[.*+?^${}()|[\]\\]/g, String.raw`\$&`);
    quoted = quoted.replaceAll(new RegExp(`(?<![\\w'])${plain}(?=[!\\[])`, 'gi'), quotedSheet(name));
  }
  return quoted;
}

interface Cure {
  readonly says: string;
  readonly text: string;
}

/** Ways to put a formula right that people get wrong most, each tried on what the ones before have made of it. */
function cures(text: string, state: BookState): Cure[] {
  const straight = text.replaceAll(/[\u201C\u201D\u201E\u00AB\u00BB]/g, '"').replaceAll(/[\u2018\u2019]/g, "'");
  const found: Cure[] = [];
  let now = text;
  const offer = (next: string, says: string): void => {
    if (next === now) return;
    now = next;
    found.push({ says, text: next });
  };
  offer(straight, 'Quotes in formulas are straight ones: ".');
  const sheets = withQuotedSheets(now, state);
  offer(sheets, 'A sheet name with spaces needs single quotes.');
  if ((now.match(/"/g)?.length ?? 0) % 2 === 1) offer(`${now}"`, 'A text has no closing quote.');
  offer(withCommas(now), 'Arguments are separated by commas, not semicolons.');
  const points = now.replaceAll(/(\d),(\d)/gu, (found, one: string, two: string, at: number) =>
    unquoted(now).slice(at, at + found.length) === found ? `${one}.${two}` : found,
  );
  offer(points, 'Numbers in formulas have a decimal point.');
  const open = openBrackets(now);
  const brackets = open === 1 ? 'A closing bracket is missing.' : `${open} closing brackets are missing.`;
  if (open > 0) offer(now.replace(/\s*$/u, ')'.repeat(open)), brackets);
  if (open < 0 && now.endsWith(')')) offer(now.slice(0, open), 'There is a closing bracket too many.');
  return found;
}

const where = (text: string, at: number): string =>
  at >= text.length ? 'at its end' : `at "${text.slice(at, at + 8)}", character ${at + 1}`;

/** The error in words a planner reads; the reader counts from behind the equals sign. */
function inWords(text: string, { message, position }: FormulaSyntaxError): string {
  const at = position + (text.startsWith('=') ? 1 : 0);
  const before = text.slice(0, at).trimEnd();
  if (at >= text.length && /[-+*/^&=<>,(]$/.test(before) && before.length > 1)
    return `A value is missing after "${before.at(-1)}", at the end of the formula.`;
  const first = message.charAt(0).toUpperCase() + message.slice(1).replace(/ (?:at|\()character .*$/u, '');
  return `${first.replace(/\s*\($/u, '')} (${where(text, at)}).`;
}

/** What a name that there is not is probably meant for. */
function unknownName(text: string, state: BookState, { functions, values }: KnownNames): TypedFault | undefined {
  const spelt = (name: string, known: readonly string[]): boolean =>
    known.some((other) => other.toLowerCase() === name.toLowerCase());
  for (const node of nodesOf(parsed(text))) {
    const call = node.type === 'call';
    if (!call && node.type !== 'name') continue;
    if (spelt(node.name, call ? functions : [...values, 'TRUE', 'FALSE'])) continue;
    const at = unquoted(text).search(new RegExp(`(?<![\\w.])${node.name.replaceAll('.', '\\.')}(?![\\w.])`, 'i'));
    const written = text.slice(at, at + node.name.length);
    const headers = state.sheets.flatMap(({ name }) => (name === written ? [] : [name]));
    const [near] = nearest(node.name, call ? functions : [...values, ...headers], 1);
    return {
      says:
        (call ? `There is no function ${written}` : `There is no named value ${written}`) +
        `${near === undefined ? '' : `; the nearest is ${near}`}.${call ? '' : ' Put a text in double quotes.'}`,
      fix:
        at < 0
          ? undefined
          : near !== undefined && (call || values.includes(near))
            ? text.slice(0, at) + near + text.slice(at + written.length)
            : call
              ? undefined
              : `${text.slice(0, at)}"${written}"${text.slice(at + written.length)}`,
    };
  }
  return undefined;
}

/**
 * What is wrong with a formula that is typed into a cell; undefined when it can be worked out, whatever comes of it.
 *
 * Where it stops: it reads the formula, not its figures. Arguments of the wrong kind, and what an empty cell makes of
 * it, the cell itself says once it is entered.
 */
export function typedFault(
  text: string,
  place: CellPlace,
  state: BookState,
  names: KnownNames,
): TypedFault | undefined {
  const spelled = (formula: string): string => withCellsOfColumns(formula, place, state);
  const error = syntaxError(spelled(text));
  if (error === undefined) {
    const column = unknownColumn(text, place.sheet, state);
    // The sheets' own formulas have one function more, which is spelt out where it is typed over them.
    const isOver = compiledSheets.get(place.sheet)?.trees.has(place.column) === true;
    const known = isOver ? { ...names, functions: [...names.functions, 'ISWRONG'] } : names;
    return column ?? unknownName(text.includes('[') ? spelled(text) : text, state, known);
  }
  const found = cures(text, state);
  const works = found.findIndex((cure) => syntaxError(spelled(cure.text)) === undefined);
  if (works >= 0) {
    const used = found.slice(0, works + 1);
    return { says: used.map(({ says }) => says).join(' '), fix: found[works]?.text };
  }
  const column = unknownColumn(text, place.sheet, state);
  return column ?? { says: inWords(text, error), fix: undefined };
}
