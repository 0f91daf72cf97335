import { comparedBooks } from '../../merge/compared-books.ts';
import type { MergeBook } from '../../merge/merge-plan.ts';
import type { BookState } from '../../workbook/state.ts';
import { Comparing } from '../comparing.ts';
import type { BookPast } from './book-past.ts';
import { type GivenFile, knownFiles } from './known-file.ts';
import type { FileMemory } from './library-store.ts';
import { momentOf } from './library-words.ts';

const happened = ({ file, how, at }: FileMemory): string =>
  `what this book last ${how === 'read' ? 'read from' : 'wrote to'} ${file}, ${momentOf(at)}`;

/** Memories that are compared to find the nearest. */
const mostTried = 4;

/** A file beside the open book, with what the book remembers of the file as what both come from. */
export class FileComparison {
  readonly #open: BookState;
  readonly #theirs: MergeBook;
  readonly #past: BookPast | undefined;
  /** What the book remembers of files, the newest first. */
  readonly memories: readonly FileMemory[];
  comparing: Comparing;
  base: FileMemory | undefined;
  /** What both are taken to come from, in words. */
  said: string;

  private constructor(open: BookState, theirs: MergeBook, past: BookPast | undefined) {
    this.#open = open;
    this.#theirs = theirs;
    this.#past = past;
    this.memories = past?.memories ?? [];
    this.comparing = new Comparing(open, theirs);
    this.said = '';
  }

  static async of(
    open: BookState,
    theirs: MergeBook,
    given: GivenFile,
    past: BookPast | undefined,
  ): Promise<FileComparison> {
    const comparison = new FileComparison(open, theirs, past);
    const known = knownFiles(comparison.memories, given);
    await comparison.choose(known === undefined ? undefined : await comparison.#nearest(known.memories), known?.why);
    if (known === undefined)
      comparison.said =
        `This book remembers nothing of ${given.name}, so nobody knows what both come from: a difference may be a ` +
        `change of yours or one of the file's.`;
    return comparison;
  }

  /** Of several the one from which the file differs least: the newest need not be what it was made of. */
  async #nearest(memories: readonly FileMemory[]): Promise<FileMemory | undefined> {
    let best: { readonly memory: FileMemory; readonly differences: number } | undefined;
    for (const memory of memories.length === 1 ? [] : memories.slice(0, mostTried)) {
      const base = await this.#past?.content('memories', memory.key);
      if (base === undefined) continue;
      const differences = comparedBooks(base, this.#theirs).items.length;
      if (best === undefined || differences < best.differences) best = { memory, differences };
    }
    return best?.memory ?? memories[0];
  }

  /** Takes another file's memory, or none, for what both come from. */
  async choose(memory: FileMemory | undefined, why = 'you chose it'): Promise<void> {
    const base = memory === undefined ? undefined : await this.#past?.content('memories', memory.key);
    this.base = base === undefined ? undefined : memory;
    this.comparing = new Comparing(this.#open, this.#theirs, base);
    this.said =
      base === undefined || memory === undefined
        ? "Compared without what both come from: a difference may be a change of yours or one of the file's."
        : `Both come from ${happened(memory)} (${why}): changes made since then here and in the file are kept apart.`;
  }
}

export const memoryName = (memory: FileMemory): string => {
  const text = happened(memory);
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
};
