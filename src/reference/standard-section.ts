import { standardGroups } from '../formula/standard-functions.ts';
import { listed } from '../sheet/words.ts';
import type { Section } from './entry.ts';

/** The functions that any spreadsheet has, as far as cells of the book know them. */
export function standardSection(): Section {
  const count = standardGroups.reduce((sum, { functions }) => sum + functions.length, 0);
  const titles = standardGroups.map(({ title }) => title.charAt(0).toLowerCase() + title.slice(1));
  return {
    about: [
      `${count} functions of spreadsheets work in any cell, beside the engineering functions: ` +
        `${listed(titles, 'and', titles.length)}. An argument in brackets may be left out; with "…" the last ones ` +
        `may ` +
        `come again.`,
    ],
    entry: 'function',
    layout: 'table',
    groups: standardGroups.map(({ title, functions }) => ({
      title,
      entries: functions.map(({ signature, says }) => ({ name: `\`${signature}\``, says, facts: [] })),
    })),
  };
}
