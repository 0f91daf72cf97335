import { type Content, isFormula } from '../formula/values.ts';
import { FormulaSyntaxError, tokens } from '../formula/tokens.ts';
import type { BookRow } from '../workbook/state.ts';
import { isBlank } from './same-content.ts';
import { sheetRow } from '../formula/address.ts';

/** Records of a sheet, to be found again in the same sheet of another book. */
export interface RowList {
  readonly rows: readonly BookRow[];
  /** What each is known by; '' for one without a name. */
  readonly keys: readonly string[];
  /** The columns that both books have, each at the place that it has in the other list as well. */
  readonly columns: readonly number[];
  /** Which of these columns name a record. */
  readonly naming: readonly number[];
}

/** No partner, and none to be looked for. */
export const alone = -1;
export const settled = -2;

interface RowPairs {
  /** By row of the one list, that of the other; `alone` for none. */
  readonly forth: number[];
  readonly back: number[];
  /** Pairs that were found without a name that only they have. */
  readonly byContent: number;
}

/** Rows of the one list and of the other. */
type RenamedPairs = readonly (readonly [number, number])[];

/** Filled cells, beside its name, that make a record known by its contents alone. Ours. */
const fewestToKnow = 3;

/** A formula with the rows of its own sheet counted from its own, so that one that was copied down reads the same. */
function relative(formula: string, record: number): string {
  try {
    return tokens(formula.slice(1))
      .map(({ type, text }) =>
        type === 'reference' && !text.includes('!')
          ? text.replaceAll(/(?<![$\d])\d+/g, (row) => `[${Number(row) - sheetRow(record)}]`)
          : text,
      )
      .join(' ');
  } catch (error) {
    if (error instanceof FormulaSyntaxError) return formula;
    throw error;
  }
}

/** A formula without where it leads: records that it leads to may have moved, or gone. */
function leadless(formula: string): string {
  try {
    return tokens(formula.slice(1))
      .map(({ type, text }) => (type === 'reference' || text === '#REF!' ? '@' : text))
      .join(' ');
  } catch (error) {
    if (error instanceof FormulaSyntaxError) return formula;
    throw error;
  }
}

/** A content as a text that another book has for the same; '' for none. Numbers lose what a change of units adds. */
function piece(content: Content, record: number): string {
  if (isBlank(content)) return '';
  if (typeof content === 'number') return `n${Number(content.toPrecision(12))}`;
  return isFormula(content) ? `=${relative(content, record)}` : `${typeof content}${content}`;
}

/** A list whose rows are asked for their contents again and again. */
class KnownRows {
  readonly list: RowList;
  readonly #pieces: (readonly string[])[] = [];
  readonly #texts: string[] = [];

  constructor(list: RowList) {
    this.list = list;
  }

  key(row: number): string {
    return this.list.keys[row] ?? '';
  }

  pieces(row: number): readonly string[] {
    const cells = this.list.rows[row]?.cells ?? [];
    return (this.#pieces[row] ??= this.list.columns.map((column) => piece(cells[column] ?? null, row)));
  }

  /** All that a row holds; '' for a blank one. */
  text(row: number): string {
    return (this.#texts[row] ??= this.pieces(row).every((text) => text === '') ? '' : this.pieces(row).join('\n'));
  }

  /** All that a row holds beside its name; '' where that is too little to know it by. */
  figures(row: number): string {
    const { columns, naming, rows } = this.list;
    const rest = columns
      .filter((column) => !naming.includes(column))
      .map((column) => {
        const content = rows[row]?.cells[column] ?? null;
        return isFormula(content) ? `=${leadless(content)}` : piece(content, row);
      });
    return rest.filter((text) => text !== '').length < fewestToKnow ? '' : rest.join('\n');
  }
}

/** Whether at least half of what either row holds is the same in the other. */
function alike(one: readonly string[], other: readonly string[]): boolean {
  let [same, filled] = [0, 0];
  one.forEach((text, place) => {
    if (text === '' && other[place] === '') return;
    filled += 1;
    if (text === other[place]) same += 1;
  });
  return same * 2 >= filled;
}

type WordOf = (rows: KnownRows, row: number) => string;

class Alignment {
  readonly forth: number[];
  readonly back: number[];
  readonly #one: KnownRows;
  readonly #other: KnownRows;
  byContent = 0;

  constructor(one: RowList, other: RowList, forth: number[], back: number[]) {
    this.#one = new KnownRows(one);
    this.#other = new KnownRows(other);
    this.forth = forth;
    this.back = back;
  }

  run(): void {
    this.#pairSingles((rows, row) => rows.key(row));
    if (!this.forth.includes(alone) || !this.back.includes(alone)) return;
    const before = this.#count();
    this.#pairSingles((rows, row) => (rows.text(row) === '' ? '' : `${rows.key(row)}\n${rows.text(row)}`));
    this.#grow((one, other) => this.#one.text(one) === this.#other.text(other));
    this.#grow((one, other) => alike(this.#one.pieces(one), this.#other.pieces(other)));
    this.#pairInOrder((rows, row) => (rows.key(row) === '' ? rows.text(row) : rows.key(row)));
    this.#grow((one) => this.#one.key(one) === '');
    this.byContent = this.#count() - before;
  }

  /** Pairs records with names that differ in these alone. */
  pairRenamed(): RenamedPairs {
    return this.#pairSingles((rows, row) => (rows.key(row) === '' ? '' : rows.figures(row)));
  }

  /** Pairs of rows that hold something. */
  #count(): number {
    return this.forth.filter((other, one) => other >= 0 && this.#one.text(one) !== '').length;
  }

  #pair(one: number, other: number): void {
    this.forth[one] = other;
    this.back[other] = one;
  }

  #groups(rows: KnownRows, partners: readonly number[], wordOf: WordOf): Map<string, number[]> {
    const groups = new Map<string, number[]>();
    partners.forEach((partner, row) => {
      if (partner !== alone) return;
      const word = wordOf(rows, row);
      if (word === '') return;
      const group = groups.get(word);
      if (group === undefined) groups.set(word, [row]);
      else group.push(row);
    });
    return groups;
  }

  /** Pairs rows with a word that one row of each list has. */
  #pairSingles(wordOf: WordOf): (readonly [number, number])[] {
    const others = this.#groups(this.#other, this.back, wordOf);
    const pairs: (readonly [number, number])[] = [];
    for (const [word, [one, second]] of this.#groups(this.#one, this.forth, wordOf)) {
      const [other, third] = others.get(word) ?? [];
      if (one === undefined || other === undefined || second !== undefined || third !== undefined) continue;
      this.#pair(one, other);
      pairs.push([one, other]);
    }
    return pairs;
  }

  /** Pairs the first rows of a word with each other, then the second ones. */
  #pairInOrder(wordOf: WordOf): void {
    const others = this.#groups(this.#other, this.back, wordOf);
    for (const [word, group] of this.#groups(this.#one, this.forth, wordOf))
      group.forEach((one, index) => {
        const other = others.get(word)?.[index];
        if (other !== undefined) this.#pair(one, other);
      });
  }

  /** Pairs the neighbours of paired rows, below them and then above, with the same key where a test holds. */
  #grow(fits: (one: number, other: number) => boolean): void {
    for (const step of [1, -1]) {
      const ends: readonly [number, number] = step > 0 ? [-1, -1] : [this.forth.length, this.back.length];
      const starts = [ends, ...this.forth.flatMap((other, one) => (other >= 0 ? [[one, other] as const] : []))];
      for (const start of starts) {
        let [one, other] = [start[0] + step, start[1] + step];
        while (
          this.forth[one] === alone &&
          this.back[other] === alone &&
          this.#one.key(one) === this.#other.key(other) &&
          fits(one, other)
        ) {
          this.#pair(one, other);
          one += step;
          other += step;
        }
      }
    }
  }
}

/**
 * Which records of two lists are the same.
 *
 * By the name that only they have; else by contents: equal ones, then neighbours of rows that are known, then in order.
 * At last, records that differ in their name alone. The other way round the same pairs come out. `forth` and `back`
 * hold what is known already; they are filled in.
 */
export function alignedRows(
  one: RowList,
  other: RowList,
  forth: number[] = one.rows.map(() => alone),
  back: number[] = other.rows.map(() => alone),
): RowPairs {
  const alignment = new Alignment(one, other, forth, back);
  alignment.run();
  return alignment;
}

/**
 * The records of two lists, as far as they have no partner yet, that differ in their name alone. They are paired in
 * `forth` and `back`.
 */
export const renamedRows = (one: RowList, other: RowList, forth: number[], back: number[]): RenamedPairs =>
  new Alignment(one, other, forth, back).pairRenamed();
