import { Refusal } from '../formula/define.ts';
import { carcassFactors } from './tables.ts';

/** Reading a belt's designation: "EP 400/3 4+2", "1000 EP 630/4 6/2 Y", "St1250 8+6". */

type CarcassCode = (typeof carcassFactors)[number]['code'];

export const carcassCodes: readonly CarcassCode[] = carcassFactors.map(({ code }) => code);

/** What may follow a code; the end of the text counts as a space. */
export const codeFollowers = [' ', '0', '1', '2', '3', '4', '5', '6', '7', '8', '9', '/', '-', ',', ':'];

/** What counts as a space: lists that come from pages, and cells of several lines, hold them. */
export const kindsOfSpace = ['\u00A0', '\t', '\n', '\r'];

/** What counts as a space behind the code, and what does from the strength on. */
export const spacesBehindCode = ['(', ')', ';'];
export const spacesFromStrength = ['-'];

/** What may stand between the code and the strength, once, with spaces around it. */
export const strengthMarks = ['-', '/', ':', ','];

/** Between a number of plies and a code, or a strength and a number of plies: a strength per ply. */
export const perPlyMarks = ['X', '×', '*'];
/** Without plies after a slash: right before the code the same, elsewhere perhaps ("EP 200 per ply"). */
export const plyWords = ['PLY', 'PLIES'];

const anyOf = (characters: readonly string[]): string =>
  `[${characters.join('').replace(/[\]\\-]/g, String.raw`\$&`)}]`;
const anyCode = `(${carcassCodes.map((code) => code.toUpperCase()).join('|')})`;

/** The first word that is a code of a carcass, or begins with one and goes on with a follower. */
const codeWord = new RegExp(`(?:^| )${anyCode}(?=$|${anyOf(codeFollowers)})`);

/** Type strengths outside these are slips of the pen (from memory: belts are made from about 100 to 7500 N/mm). */
export const leastStrength = 50;
export const mostStrength = 10000;
/** The thickest cover that is taken for one, mm (from memory: covers end at about 30). */
export const mostCover = 50;

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
}

const strengthPart = /^([1-9]\d{1,4})(?!\d|\.\d)/;
const pliesPart = /^\/(\d{1,2})(?!\d)/;
const afterPlies = /^[.+/]\d/;
/** Not more digits than LEFT(…,9) of the form in standard functions takes. */
const cover = String.raw`(\d{1,4}(?:\.\d{1,4})?)(?: ?MM)?`;
const coversPart = new RegExp(String.raw`^ ${cover}[+/]${cover}(?! ?MM)(?= |$|[+/](?!\d))`);
const widthPart = /(?:^|[ ,;])(\d{3,4}) ?(?:MM)?[ ,;-]*$/;
const perPly = new RegExp(String.raw`\d ?${anyOf(perPlyMarks)} ?$`);
const pliesBefore = new RegExp(String.raw`(?:(?:^| )\d{1,2}|${plyWords.join('|')})$`);
const pliesByMark = new RegExp(`^ ?${anyOf(perPlyMarks)} ?\\d`);
/** "EP 150 (3)": plies of a belt of 150 N/mm, or of three plies of 150 N/mm; "EP 400 4 mm" is no number of plies. */
const pliesAlone = /^ \d{1,2} (?!MM)/;
const pliesInWords = new RegExp(plyWords.join('|'));
const secondCarcass = new RegExp(String.raw`[ /+]${anyCode}[ /+]?\d\d`);

const refusal = (must: string): Refusal => new Refusal('construction', must, '#N/A');
const perPlyRefusal = (): Refusal =>
  refusal(
    'must give the strength of the whole belt after the material, as in "EP 400/3"; a strength per ply is not read',
  );

const pliesRefusal = (): Refusal =>
  refusal(
    'must give the plies behind a slash, as in "EP 400/3"; otherwise it may be meant that the strength is one of a ply',
  );

const spaced = (text: string, spaces: readonly string[]): string =>
  text.replaceAll(new RegExp(anyOf(spaces), 'g'), ' ').replaceAll(/ +/g, ' ');

const trimmed = (text: string): string => text.replaceAll(/^ +| +$/g, '');

/** The code of the carcass and what stands on its either side, in capitals. Throws a Refusal of 'construction'. */
export function carcassPart(text: string): {
  readonly before: string;
  readonly material: CarcassCode;
  readonly after: string;
} {
  const capitals = trimmed(spaced(text, kindsOfSpace)).toUpperCase();
  const found = codeWord.exec(capitals);
  const material = carcassCodes.find((code) => code.toUpperCase() === found?.[1]);
  if (found === null || material === undefined) {
    throw refusal(`must hold ${carcassCodes.join(', ')} as a word or before a number, as in "EP 400/3" or "St1250"`);
  }
  return { before: capitals.slice(0, found.index), material, after: capitals.slice(found.index + found[0].length) };
}

/** From the strength on: one space where there are any, none around "/" and "+", a point before decimals. */
function fromStrength(text: string): string {
  const marked = spaced(text, spacesFromStrength).replaceAll(':', '+').replaceAll(',', '.');
  return trimmed(spaced(`${marked} `.replaceAll('. ', ' '), [' '])).replaceAll(/ ?([+/]) ?/g, '$1');
}

/** The two covers at the head of what follows the plies; nothing when no covers stand there. */
function covers(text: string): Pick<Designation, 'topCover' | 'bottomCover'> {
  const found = coversPart.exec(text);
  if (found === null) return {};
  const [topCover, bottomCover] = [Number(found[1]), Number(found[2])];
  if (topCover > mostCover || bottomCover > mostCover)
    throw refusal(`must give covers of at most ${mostCover} mm, top and bottom, as in "EP 400/3 4+2"`);
  return { topCover, bottomCover };
}

/** The strength, N/mm, and what follows it. */
function strengthOf(material: CarcassCode, text: string): { readonly strength: number; readonly rest: string } {
  const [found = '', digits] = strengthPart.exec(text) ?? [];
  const strength = Number(digits);
  if (!(strength >= leastStrength && strength <= mostStrength)) {
    throw refusal(
      `must give a strength from ${leastStrength} to ${mostStrength} N/mm after ${material}, as in "${material} ` +
        `${material === 'St' ? '1250' : '400/3'}"`,
    );
  }
  return { strength, rest: text.slice(found.length) };
}

/**
 * A belt's designation, read into its parts.
 *
 * Width (if it stands first), carcass, type strength of the whole belt in N/mm, plies after a slash, covers in mm with
 * "+", "/" or ":" between them; what follows, as the grade, is not read. Carcass and strength must be there; the rest
 * may be missing. Decimal points and commas are the same, since no figure of a designation reaches a thousand with
 * decimals. Brackets, semicolons and hyphens are spaces. Refused, since they can be read in two ways: a strength per
 * ply ("3 x EP 125"; without plies after a slash also "3 EP 125" and "EP 125x3"), plies without a slash ("EP 150 (3)",
 * "EP 160 4 ply"), plies run into covers ("EP 400/3+2"), two carcasses. A strength of four digits may not be parted by
 * a point, and none begins with 0.
 *
 * Exported books do the same in standard functions, step by step (`designation-in-file.ts` of the sheet Belts).
 *
 * Throws a Refusal of the argument 'construction'.
 * Source: designations in the manner of ISO 14890 ("EP 400/3 4+2") and DIN 22102 ("1000 EP 630/4 6/2 Y"), from memory.
 */
export function readDesignation(text: string): Designation {
  const { before, material, after } = carcassPart(text);
  if (perPly.test(before)) throw perPlyRefusal();
  const behind = spaced(after, spacesBehindCode);
  const digit = behind.search(/\d|$/);
  const mark = trimmed(behind.slice(0, digit));
  const figures = mark === '' || strengthMarks.includes(mark) ? fromStrength(behind.slice(digit)) : '';
  const { strength, rest } = strengthOf(material, figures);
  const [pliesFound = '', digits] = pliesPart.exec(rest) ?? [];
  const behindPlies = rest.slice(pliesFound.length);
  const plies = digits === undefined ? undefined : Number(digits);
  if (plies === undefined && material !== 'St') {
    if (pliesBefore.test(before) || pliesByMark.test(rest)) throw perPlyRefusal();
    if (pliesAlone.test(`${rest} `) || pliesInWords.test(`${before} ${rest.slice(0, 99)}`)) throw pliesRefusal();
  }
  if (plies === 0) throw refusal('must have at least one ply after the slash, as in "EP 400/3"');
  if (plies !== undefined && afterPlies.test(behindPlies))
    throw refusal('must separate the plies from the covers by a space, as in "EP 400/3 4+2"');
  if (secondCarcass.test(figures)) throw refusal(`must name one carcass; ${material} comes before another one`);
  const width = widthPart.exec(before)?.[1];
  return {
    ...(width === undefined ? {} : { width: Number(width) }),
    material,
    strength,
    ...(plies === undefined ? {} : { plies }),
    ...covers(behindPlies),
  };
}
