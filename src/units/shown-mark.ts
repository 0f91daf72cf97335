import type { DecimalMark } from './numbers.ts';

/**
 * The decimal mark of numbers in texts for people. It is one for the whole program, as its language is: what shows a
 * book says once how that writes numbers. Formulas, files that other programs read, and what is drawn have a point
 * whatever it is, and do not pass here.
 */
let mark: DecimalMark = 'point';

export function showMark(chosen: DecimalMark): void {
  mark = chosen;
}

export const shownMark = (): DecimalMark => mark;

/** A number that was written with a decimal point, and with commas between thousands if any, as people read it. */
export const withShownMark = (text: string, chosen: DecimalMark = mark): string =>
  chosen === 'point' ? text : text.replaceAll(/[.,]/g, (found) => (found === '.' ? ',' : '.'));

/** A number with so many digits after the mark. */
export const fixedText = (value: number, digits: number): string => withShownMark(value.toFixed(digits));

/** A number with no more digits than it needs, and at most so many after the mark. */
export const shortText = (value: number, digits: number): string =>
  withShownMark(String(Number(value.toFixed(digits))));

/** An angle as it is, with its sign. */
export const degreesText = (value: number): string => `${withShownMark(String(value))}°`;

/** A number whose thousands are parted. */
export const groupedText = (value: number, digits: Intl.NumberFormatOptions = {}): string =>
  withShownMark(value.toLocaleString('en-US', digits));

/** What stands in a text of a number format: only marks between digits are of the number. */
export const formattedMark = (text: string): string =>
  mark === 'point' ? text : text.replaceAll(/(?<=\d)[.,](?=\d)/g, (found) => (found === '.' ? ',' : '.'));
