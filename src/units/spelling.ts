import type { UnitSystem } from './quantities.ts';

/** How books in US customary units spell: the same columns and texts, as their readers write them. */

const usWords: Readonly<Record<string, string>> = {
  centre: 'center',
  centres: 'centers',
  labour: 'labor',
  metre: 'meter',
  metres: 'meters',
  grey: 'gray',
};

const british = new RegExp(`\\b(?:${Object.keys(usWords).join('|')})\\b`, 'gi');

const cased = (word: string, pattern: string): string =>
  pattern.charAt(0) === pattern.charAt(0).toUpperCase() ? word.charAt(0).toUpperCase() + word.slice(1) : word;

export const usSpelling = (text: string): string =>
  text.replaceAll(british, (word) => cased(usWords[word.toLowerCase()] ?? word, word));

/** A text in the spelling of a unit system's users. */
export const spelt = (text: string, units: UnitSystem): string => (units === 'us' ? usSpelling(text) : text);
