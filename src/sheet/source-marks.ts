/** Where a figure comes from and how sure it is: each word with what it means. */
export const markMeanings = {
  entered: 'typed in or imported',
  'your formula': 'calculated by your own formula',
  'over the formula': "your override of the sheet's formula",
  supplier: "a supplier's figure, as entered",
  assumption: 'a named value used by the whole book: you can change it',
  standard: 'from a published standard or law',
  derived: 'follows by geometry, counting, arithmetic or definition',
  'our choice, on the safe side': 'chosen by this program, on the safe side',
  'our choice, not on the safe side': 'chosen by this program, not on the safe side: enter your own',
  'our choice': 'chosen by this program or its user; no effect on safety',
  'common practice': 'common in the trade; no source can be named',
  'from memory': 'recalled, not looked up: check it before you rely on it',
  invented: 'made up for the demo: enter your own',
  'no source named': 'no known source is named: find one before you rely on it',
} as const;

export type Mark = keyof typeof markMeanings;

/** What the words of a source say of it, the least sure first. */
const wordings: readonly (readonly [pattern: RegExp, mark: Mark])[] = [
  [/\binvented\b/i, 'invented'],
  [/\bfrom memory\b/i, 'from memory'],
  [/\bcommon practice\b/i, 'common practice'],
  // "Chosen" is the word of earlier books, whose sheets of named values hold their sources as they were.
  [/\bour choice, not on the safe side\b|\bchosen, not cautious\b/i, 'our choice, not on the safe side'],
  [/\bour choice, on the safe side\b|\bchosen, cautious\b/i, 'our choice, on the safe side'],
  [/\bour choice\b(?!, (?:not )?on the safe side\b)|\bchosen\b(?!, (?:not )?cautious\b)/i, 'our choice'],
  [/\bentered by the user\b/i, 'entered'],
  [/\bsupplier/i, 'supplier'],
  [/\b(?:ISO|DIN|EN|GB|CFR|NIST|ECMA|EN ISO)\b/, 'standard'],
  // Names of what can be followed without looking anything up.
  [/\b(?:geometry|trigonometry|counting|arithmetic|definition|theorem|equilibrium)\b/i, 'derived'],
  [/\b(?:rotation of the axes|area of a ring)\b/i, 'derived'],
  [/\b(?:Euler-Eytelwein|Poisson distribution|normal demand|Julian year)\b/, 'derived'],
];

/** The marks of a source; one whose words say nothing that is known here names none. */
export function sourceMarks(source: string): readonly Mark[] {
  const found = wordings.flatMap(([pattern, mark]) => (pattern.test(source) ? [mark] : []));
  return found.length === 0 ? ['no source named'] : [...new Set(found)];
}

const weak: readonly Mark[] = [
  'no source named',
  'invented',
  'from memory',
  'common practice',
  'our choice, not on the safe side',
];

/** Whether a mark says that the figure should be looked at before it is relied on. */
export const isWeak = (mark: Mark): boolean => weak.includes(mark);
