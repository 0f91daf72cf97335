import { escaped } from '../sheet/words.ts';
import type { Interval } from './moments.ts';

/** Sizes of a plan's picture, and what all of its parts write with. */

/** Breadth of a letter, as most are. */
export const letter = 6.7;
export const laneHeight = 34;
/** Room for the title and the axis. */
export const head = 74;

export const at = (value: number): string => String(Number(value.toFixed(2)));
export const hoursOf = ({ start, end }: Interval): number => (end - start) / 60;
export const shortened = (text: string, letters: number): string =>
  text.length <= letters ? text : `${text.slice(0, Math.max(0, letters - 1))}…`;

export const label = (x: number, y: number, text: string, more = ''): string =>
  `<text x="${at(x)}" y="${at(y)}" fill="currentColor" ` +
  `stroke="none"${more === '' ? '' : ` ${more}`}>${escaped(text)}</text>`;
