import { carcassCodes, codeFollowers, kindsOfSpace } from './designation.ts';

/** Looking for a carcass's code by standard functions. */

const places = [0, ...carcassCodes.map((code, index) => 10 * (index + 1) + code.length)].join(',');

/**
 * Where the earliest of some words stands: a hundred times its place, ten times the code's number among the codes, and
 * its length. The words are an array of a column for each code, the first of which is a word that no text holds: it
 * is found only where all of them are added, behind the text, and so stands for "none".
 */
const earliest = (by: 'FIND' | 'SEARCH', words: string, within: string): string =>
  `SUMPRODUCT(MIN(${by}(${words},${within})*100+{${places}}))`;

/** Where the earliest code stands in a text of small letters and capitals: every code with every follower. */
export function earliestCode(text: string): string {
  const words =
    `{"||",${carcassCodes.map((code) => `" ${code.toUpperCase()}"`).join(',')}}&` +
    `{${codeFollowers.map((follower) => `"${follower}"`).join(';')}}`;
  return earliest('SEARCH', words, `" "&${text}&" "&${words}`);
}

/** The same in a text of capitals that has one follower for all but the space, and no digit. */
export function earliestCodeOfCapitals(text: string, follower: string): string {
  const rows = [' ', follower].map((after) =>
    ['1', ...carcassCodes.map((code) => ` ${code.toUpperCase()}`)].map((code) => `${code}${after}`),
  );
  const words = `{${rows.map((row) => row.map((word) => `"${word}"`).join(',')).join(';')}}`;
  return earliest('FIND', words, `" "&${text}&" ${rows.flat().join('')}"`);
}

/** The code that was found; #N/A for none. */
export const codeFound = (place: string): string =>
  `CHOOSE(1+MOD(INT(${place}/10),10),NA(),${carcassCodes.map((code) => `"${code}"`).join(',')})`;

/** CHAR is the same on every system only for the signs of ASCII, and not every program has UNICHAR. */
const sign = (text: string): string => (text < '\u0080' ? `CHAR(${text.charCodeAt(0)})` : `"${text}"`);

/** A text with a space for each that is of another kind. */
export const withSpaces = (text: string): string =>
  kindsOfSpace.reduce((inner, space) => `SUBSTITUTE(${inner},${sign(space)}," ")`, text);
