import { readUnit, type Unit } from '../../units/reading.ts';
import { headerWords, telling } from './header-words.ts';

/** A column's header as it stands in a list: its own cell, and titles above it that span several columns. */
export interface HeaderText {
  readonly own: string;
  readonly above: readonly string[];
}

/** One way to read a header. */
export interface HeaderForm {
  readonly words: readonly string[];
  /** What its unit may be; empty without one. */
  readonly unit: readonly Unit[];
  /** What this way of reading is worth, 0 to 1. */
  readonly strength: number;
  /** Words of titles that this reading leaves out. */
  readonly above: readonly string[];
}

const brackets = /\(([^()]*)\)|\[([^[\]]*)\]/g;

/**
 * A text parted into name and unit, in every way that it can be: "Speed m/s", "Width [in]", "Thickness, mm", "W in mm".
 */
function parted(text: string): { readonly name: string; readonly unit: readonly Unit[] }[] {
  const forms: { name: string; unit: readonly Unit[] }[] = [];
  for (const match of text.matchAll(brackets)) {
    const unit = readUnit(match[1] ?? match[2] ?? '');
    if (unit.length === 0) continue;
    const name = `${text.slice(0, match.index)} ${text.slice(match.index + match[0].length)}`;
    forms.push({ name, unit });
    // "HP [hp]" is a unit and nothing more, said twice.
    if (readUnit(name).length > 0) forms.push({ name: '', unit });
  }
  if (forms.length > 0) return forms;
  forms.push({ name: text, unit: [] });
  const words = [...text.matchAll(/[^\s,;:_]+/g)];
  for (let count = Math.min(4, words.length); count >= 1; count -= 1) {
    const start = words[words.length - count]?.index ?? 0;
    const unit = readUnit(text.slice(start).trim());
    // "Width in" ends in inches, "Date in" hardly: what the name then means decides.
    if (unit.length > 0)
      forms.push({ name: text.slice(0, start).replace(/[\s,;:_–-]+(?:in|en|em)?[\s,;:_–-]*$/i, ''), unit });
  }
  return forms;
}

/** Names in two languages or spellings beside each other: "Width / Breite". */
const sides = (text: string): string[] => {
  const parts = text
    .split(/\s+[/|–-]\s+|\s*\n\s*|(?<=\p{L}{4})\/(?=\p{L}{4})/u)
    .map((part) => part.trim())
    .filter((part) => part !== '');
  return parts.length > 1 ? parts : [];
};

/** A header's texts in one, by which what it comes to is kept. */
export const headerMark = ({ own, above }: HeaderText): string => [own, ...above].join('\0');

/** Headers that are kept. Ours: a list has some hundred texts that may be one. */
const mostKept = 2000;

const kept = new Map<string, readonly HeaderForm[]>();

/** Every way to read a header, the plainest first; each declared sheet asks for it anew. */
export function headerForms(text: HeaderText): readonly HeaderForm[] {
  const mark = headerMark(text);
  const known = kept.get(mark);
  if (known !== undefined) return known;
  if (kept.size >= mostKept) kept.clear();
  const forms = formsOf(text);
  kept.set(mark, forms);
  return forms;
}

function formsOf({ own, above }: HeaderText): HeaderForm[] {
  const titles = above.join(' ');
  const aboveWords = telling(headerWords(titles));
  const forms = (text: string, strength: number, left: readonly string[]): HeaderForm[] =>
    parted(text.trim()).map(({ name, unit }) => ({ words: headerWords(name), unit, strength, above: left }));
  return [
    ...(titles === '' ? [] : forms(`${titles} ${own}`, 0.99, [])),
    ...forms(own.replaceAll(/\s*\n\s*/g, ' '), 1, aboveWords),
    ...sides(own).flatMap((side) => forms(side, 0.97, aboveWords)),
  ];
}
