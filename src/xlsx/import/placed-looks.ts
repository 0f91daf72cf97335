import type { Unkept } from '../read/raw-look.ts';
import type { PlacedSheet } from './kept-layouts.ts';
import { lostCommentsAt } from './not-kept.ts';

/** The sheets of a file whose looks went into the book, and what found no place there. */
export class PlacedLooks {
  readonly sheets: PlacedSheet[] = [];
  readonly #comments = new Map<string, readonly string[]>();
  readonly #headers = new Map<string, readonly Unkept[]>();

  /** Of several lists in one sheet, each may hold cells with comments. */
  add(placed: PlacedSheet, lostComments: readonly string[], headers: readonly Unkept[]): void {
    const { name } = placed.raw;
    const before = this.#comments.get(name);
    this.sheets.push(placed);
    this.#comments.set(
      name,
      before === undefined ? lostComments : before.filter((cell) => lostComments.includes(cell)),
    );
    this.#headers.set(name, [...(this.#headers.get(name) ?? []), ...headers]);
  }

  /** What the book does not keep, by sheet of the file. */
  get lost(): ReadonlyMap<string, readonly Unkept[]> {
    return new Map(
      [...this.#headers].map(([name, headers]) => [
        name,
        [...lostCommentsAt(this.#comments.get(name) ?? []), ...headers],
      ]),
    );
  }
}
