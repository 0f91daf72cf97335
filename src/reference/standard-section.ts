import { standardFunctions } from '../formula/engine-standard-functions.ts';
import { listed } from '../sheet/words.ts';
import type { Section } from './entry.ts';

/** The functions that any spreadsheet has, as far as cells of the book know them. */
export function standardSection(): Section {
  const known = standardFunctions();
  const categories = [...new Set(known.map(({ category }) => category))];
  return {
    about: [
      `${known.length} functions of spreadsheets work in any cell, beside the engineering functions: ` +
        `${listed(categories, 'and', categories.length)}. The lines are the words of the formula engine, HyperFormula.`,
    ],
    entry: 'function',
    layout: 'table',
    groups: categories.map((category) => ({
      title: category,
      entries: known
        .filter((item) => item.category === category)
        .map(({ signature, does }) => ({ name: `\`${signature}\``, says: does, facts: [] })),
    })),
  };
}
