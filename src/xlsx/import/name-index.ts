import { type BeltHeader } from '../../../sheets/index.ts';
import { type Column, isComputed, type SheetDeclaration } from '../../sheet/declaration.ts';
import { usSpelling } from '../../units/spelling.ts';
import { barest, headerWords, isEveryday, oneSlip, wordKey, wordWeight } from './header-words.ts';

/** What the columns of a sheet are called, and how well the words of a header agree with each. */

/** Less is no reason to suggest a column. */
export const leastSuggestion = 0.4;

/** Letters of a name that is known joined as well: fewer are an abbreviation, which may stand for something else. */
const leastJoined = 5;

/** A word that makes one think of a column without saying it. */
const remindsOf: Readonly<Record<string, BeltHeader>> = { diameter: 'Smallest pulley' };

interface Name {
  readonly column: number;
  readonly text: string;
  readonly words: readonly string[];
  readonly weight: number;
  readonly official: boolean;
  /** What an exact agreement is worth. */
  readonly worth: number;
}

export interface NameIndex {
  readonly columns: readonly Column[];
  readonly names: readonly Name[];
  readonly inOrder: ReadonlyMap<string, readonly Name[]>;
  readonly anyOrder: ReadonlyMap<string, readonly Name[]>;
  readonly together: ReadonlyMap<string, readonly Name[]>;
  readonly vocabulary: ReadonlySet<string>;
  /** Places of the names that hold a word, in their order. */
  readonly holding: ReadonlyMap<string, readonly number[]>;
  /** Words of names that a word may be short or mistyped for; found when it is first asked for. */
  readonly near: Map<string, readonly string[]>;
  /** Words of all the names of a column. */
  readonly ownWords: readonly ReadonlySet<string>[];
}

/** What a column is called: as declared, as earlier versions declared it, and what lists call it. */
const namesOf = ({ header, formerly, alsoCalled = [] }: Column): { readonly text: string; readonly rank: number }[] => [
  ...[header, usSpelling(header), ...(formerly === undefined ? [] : [formerly])].map((text) => ({ text, rank: 0 })),
  ...alsoCalled.map((text, place) => ({ text, rank: place + 1 })),
];

const indexes = new WeakMap<SheetDeclaration, NameIndex>();

const weightOf = (words: readonly string[]): number => words.reduce((sum, word) => sum + wordWeight(word), 0);

export function nameIndex(sheet: SheetDeclaration): NameIndex {
  const kept = indexes.get(sheet);
  if (kept !== undefined) return kept;
  const names = sheet.columns.flatMap((column, index) =>
    namesOf(column).map(({ text, rank }): Name => {
      const words = headerWords(text);
      const official = rank === 0;
      // A list's own figure under the name of a computed column is not an input of ours, unless an input is called so
      // too.
      const worth = official ? (isComputed(column) ? 0.94 : 1) : 0.95 - Math.min(rank, 50) * 0.0005;
      return { column: index, text, words, weight: weightOf(words), official, worth };
    }),
  );
  const by = (key: (name: Name) => string): Map<string, Name[]> => {
    const found = new Map<string, Name[]>();
    for (const name of names) {
      const text = key(name);
      const alike = found.get(text);
      if (alike === undefined) found.set(text, [name]);
      else alike.push(name);
    }
    return found;
  };
  const index: NameIndex = {
    columns: sheet.columns,
    names,
    inOrder: by(({ words }) => words.join(' ')),
    anyOrder: by(({ words }) => wordKey(words)),
    together: by(({ words }) => words.join('')),
    vocabulary: new Set(names.flatMap(({ words }) => words)),
    holding: holdingNames(names),
    near: new Map(),
    ownWords: wordsOfColumns(sheet.columns.length, names),
  };
  indexes.set(sheet, index);
  return index;
}

function wordsOfColumns(columns: number, names: readonly Name[]): ReadonlySet<string>[] {
  const found = Array.from({ length: columns }, () => new Set<string>());
  for (const { column, words } of names) for (const word of words) found[column]?.add(word);
  return found;
}

function holdingNames(names: readonly Name[]): ReadonlyMap<string, readonly number[]> {
  const found = new Map<string, number[]>();
  names.forEach(({ words }, place) => {
    for (const word of new Set(words)) {
      const places = found.get(word);
      if (places === undefined) found.set(word, [place]);
      else places.push(place);
    }
  });
  return found;
}

/** A list has a few hundred words. */
const mostNear = 5000;

/** Words of names that stand for a word that is none of them. */
function nearWords(word: string, { vocabulary, near }: NameIndex): readonly string[] {
  const known = near.get(word);
  if (known !== undefined) return known;
  const found = [...vocabulary].filter((other) => isNear(word, other));
  if (near.size >= mostNear) near.clear();
  near.set(word, found);
  return found;
}

/** The names that have anything in common with words, in their order: all others agree in nothing. */
function relatedNames(words: readonly string[], index: NameIndex): Name[] {
  const places = new Set<number>();
  for (const word of words)
    for (const other of index.vocabulary.has(word) ? [word] : nearWords(word, index))
      for (const place of index.holding.get(other) ?? []) places.add(place);
  return [...places].toSorted((one, other) => one - other).flatMap((place) => index.names[place] ?? []);
}

/** A belt's own date or hours are not those of its joint, so there the word counts in full. */
const ofTime = (column: Column | undefined): boolean => column?.kind === 'date' || column?.kind === 'hours';

export interface Scored {
  readonly score: number;
  readonly why: string;
  readonly everyday: boolean;
}

/** Words of a header against those of a name, each word used once; 0 to 1. */
function agreement(words: readonly string[], name: Name, { vocabulary, columns }: NameIndex): number {
  const full = ofTime(columns[name.column]);
  const rest = [...name.words];
  let shared = 0;
  let weight = 0;
  for (const word of words) {
    const same = rest.indexOf(word);
    const known = vocabulary.has(word);
    weight += same < 0 && full && known ? 1 : wordWeight(word) * (known ? 1 : 0.8);
    const near = same >= 0 || known ? same : rest.findIndex((other) => isNear(word, other));
    if (near < 0) continue;
    const other = rest.splice(near, 1)[0] ?? '';
    shared += same >= 0 ? wordWeight(other) : wordWeight(other) * 0.85;
  }
  return weight + name.weight === 0 ? 0 : (2 * shared) / (weight + name.weight);
}

const shortened = (word: string, other: string): boolean =>
  word.length >= 3 && other.length > word.length + 1 && other.startsWith(word);

const isNear = (word: string, other: string): boolean =>
  shortened(word, other) || (word.length >= 5 && other.length >= 5 && oneSlip(word, other));

/** Scores of a header's words for every column that they could mean. */
export function scoresOf(words: readonly string[], index: NameIndex): Map<number, Scored> {
  const scores = new Map<number, Scored>();
  const offer = (column: number, score: number, why: string, everyday = false): void => {
    if (score > (scores.get(column)?.score ?? 0)) scores.set(column, { score, why, everyday });
  };
  const exact = (names: readonly Name[] | undefined, loss: number, how: string): void => {
    for (const { column, text, words: own, official, worth } of names ?? []) {
      offer(column, worth - loss, official ? `same name${how}` : `also called "${text}"${how}`, isEveryday(own));
    }
  };
  exact(index.inOrder.get(words.join(' ')), 0, '');
  exact(index.anyOrder.get(wordKey(words)), 0.03, ', in another order');
  const together = words.join('');
  exact(index.together.get(together), together.length < leastJoined ? 0.2 : 0.03, ', joined or separated');
  const bare = barest(words);
  if (bare.length > 0 && bare.length < words.length)
    exact(index.anyOrder.get(wordKey(bare)), 0.06, ', with filler words');
  const reminded = words.length === 1 ? remindsOf[words[0] ?? ''] : undefined;
  const place = index.columns.findIndex(({ header }) => header === reminded);
  if (place >= 0) offer(place, leastSuggestion + 0.05, `some lists mean ${reminded}`);
  for (const name of relatedNames(words, index)) {
    if (name.words.length < 2 && !name.official) {
      // A single everyday word is a name only by itself; mistyped it may still be one.
      if (words.length === 1) offerSlip(words[0] ?? '', name, index, offer);
      continue;
    }
    const share = agreement(words, name, index);
    if (share >= leastSuggestion)
      offer(
        name.column,
        share * (name.official ? 0.92 : 0.9) * Math.min(1, name.worth + 0.06),
        `most words of "${name.text}"`,
      );
  }
  return scores;
}

function offerSlip(
  word: string,
  name: Name,
  index: NameIndex,
  offer: (column: number, score: number, why: string, everyday: boolean) => void,
): void {
  const [only = ''] = name.words;
  if (word.length >= 5 && only.length >= 5 && !index.vocabulary.has(word) && oneSlip(word, only))
    offer(name.column, 0.78, `nearly "${name.text}"`, isEveryday(name.words));
}
