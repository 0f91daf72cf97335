import { Refusal } from '../formula/define.ts';
import { carcassFactors } from './tables.ts';

/** Reading a belt's designation: "EP 400/3 4+2", "1000 EP 630/4 6/2 Y", "St1250 8+6". */

type CarcassCode = (typeof carcassFactors)[number]['code'];

export const carcassCodes: readonly CarcassCode[] = carcassFactors.map(({ code }) => code);

/** What may follow a code; the end of the text counts as a space. */
export const codeFollowers = [' ', '0', '1', '2', '3', '4', '5', '6', '7', '8', '9', '/', '-', ',', ':'];

const anyCode = `(${carcassCodes.join('|')})`;

/** The first word that is a code of a carcass, or begins with one and goes on with a follower. */
const codeWord = new RegExp(`(?:^| )${anyCode}(?=$|[${codeFollowers.join('').replace('-', '\\-')}])`, 'i');

/** Type strengths outside these are slips of the pen (from memory: belts are made from about 100 to 7500 N/mm). */
const leastStrength = 50;
const mostStrength = 10000;
/** The thickest cover that is taken for one, mm (from memory: covers end at about 30). */
const mostCover = 50;

export interface Designation {
  /** Of the belt, mm. */
  readonly width?: number;
  readonly material: CarcassCode;
  /** Type strength of the whole belt, N/mm. */
  readonly strength: number;
  readonly plies?: number;
  /** Covers, mm: the carrying side first. */
  readonly topCover?: number;
  readonly bottomCover?: number;
  /** The words that follow, as written: "Y", "M24". */
  readonly grade?: string;
  /** What stands at the end and could not be placed. */
  readonly unread?: string;
}

const number = String.raw`\d+(?:[.,]\d+)?`;
const strengthPart = /^[\s\-,:/]*(\d+)(?![\d.,]*\d)/;
const pliesPart = /^\s*\/\s*(\d{1,2})(?!\d)/;
const afterPlies = /^(?:[.,]\d|\s*[+/:])/;
const coversPart = new RegExp(
  String.raw`^[\s,;(-]*(${number})\s*(?:mm)?\s*[+/:]\s*(${number})\s*(?:mm)?(?![\w+/:]|[.,]\d)\)?`,
  'i',
);
const widthPart = /(?:^|[\s,;])(\d{3,4})\s*(?:mm)?[\s,;-]*$/i;
const perPly = /\d\s*[x×*]\s*$/i;
const secondCarcass = new RegExp(String.raw`(?:^|\s)${anyCode}[\s\-:]*\d{2,}`, 'i');

const decimal = (text: string): number => Number(text.replace(',', '.'));

const refusal = (must: string): Refusal => new Refusal('construction', must, '#N/A');

/** The code of the carcass and what stands on its either side. Throws a Refusal of 'construction'. */
export function carcassPart(text: string): {
  readonly before: string;
  readonly material: CarcassCode;
  readonly after: string;
} {
  const found = codeWord.exec(text);
  const word = found?.[1]?.toUpperCase();
  const material = carcassCodes.find((code) => code.toUpperCase() === word);
  if (found === null || material === undefined) {
    throw refusal(`must hold ${carcassCodes.join(', ')} as a word or before a number, as in "EP 400/3" or "St1250"`);
  }
  return { before: text.slice(0, found.index), material, after: text.slice(found.index + found[0].length) };
}

/** The two covers at the head of what follows the plies, and the rest; nothing when no covers stand there. */
function covers(
  text: string,
): { readonly topCover: number; readonly bottomCover: number; readonly rest: string } | undefined {
  const found = coversPart.exec(text);
  if (found?.[1] === undefined || found[2] === undefined) return undefined;
  const [topCover, bottomCover] = [decimal(found[1]), decimal(found[2])];
  if (topCover > mostCover || bottomCover > mostCover)
    throw refusal(`must give covers of at most ${mostCover} mm, top and bottom, as in "EP 400/3 4+2"`);
  return { topCover, bottomCover, rest: text.slice(found[0].length) };
}

/**
 * A belt's designation, read into its parts.
 *
 * Width (if it stands first), carcass, type strength of the whole belt in N/mm, plies after a slash, covers in mm with
 * "+", "/" or ":" between them, then the grade. Carcass and strength must be there; the rest may be missing. Decimal
 * points and commas are the same, since no figure of a designation reaches a thousand with decimals. Refused, since
 * they can be read in two ways: a strength per ply ("3 x EP 125"), plies run into covers ("EP 400/3+2"), two carcasses.
 * A strength of four digits may not be parted by a point.
 *
 * Throws a Refusal of the argument 'construction'.
 * Source: designations in the manner of ISO 14890 ("EP 400/3 4+2") and DIN 22102 ("1000 EP 630/4 6/2 Y"), from memory.
 */
export function readDesignation(text: string): Designation {
  const { before, material, after } = carcassPart(text);
  if (perPly.test(before))
    throw refusal(
      'must give the strength of the whole belt after the material, as in "EP 400/3"; a strength per ply is not read',
    );
  const strengthFound = strengthPart.exec(after);
  const strength = Number(strengthFound?.[1]);
  if (strengthFound === null || strength < leastStrength || strength > mostStrength) {
    throw refusal(
      `must give a strength from ${leastStrength} to ${mostStrength} N/mm after ${material}, as in "${material} ` +
        `${material === 'St' ? '1250' : '400/3'}"`,
    );
  }
  const behindStrength = after.slice(strengthFound[0].length);
  const pliesFound = pliesPart.exec(behindStrength);
  const behindPlies = behindStrength.slice(pliesFound?.[0].length ?? 0);
  const plies = pliesFound === null ? undefined : Number(pliesFound[1]);
  if (plies === 0) throw refusal('must have at least one ply after the slash, as in "EP 400/3"');
  if (pliesFound !== null && afterPlies.test(behindPlies))
    throw refusal('must separate the plies from the covers by a space, as in "EP 400/3 4+2"');
  if (secondCarcass.test(behindPlies)) throw refusal(`must name one carcass; ${material} comes before another one`);
  const layers = covers(behindPlies);
  const rest = (layers?.rest ?? behindPlies).replace(/^[\s,;()-]+|\s+$/g, '');
  const width = widthPart.exec(before)?.[1];
  return {
    ...(width === undefined ? {} : { width: Number(width) }),
    material,
    strength,
    ...(plies === undefined ? {} : { plies }),
    ...(layers === undefined ? {} : { topCover: layers.topCover, bottomCover: layers.bottomCover }),
    ...(rest === '' ? {} : /^[A-Za-z]/.test(rest) ? { grade: rest } : { unread: rest }),
  };
}
