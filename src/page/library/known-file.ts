import type { FileMemory } from './library-store.ts';

/** Which of the files that a book has read or written a file comes from. */

export interface GivenFile {
  readonly name: string;
  readonly digest: string;
  readonly mark: string | undefined;
  readonly whole: boolean;
  readonly headers: string;
}

/**
 * For tests: a file's name has many endings. A file's name without its ending and without what programs add to a copy
 * of it.
 */
export const plainFile = (name: string): string =>
  name
    .toLowerCase()
    .replace(/\.[^.]*$/, '')
    .replace(/(?:\s*\(\d+\)|[-_ ]+(?:copy|kopie|copie|copia))+$/, '')
    .trim();

interface KnownFiles {
  readonly memories: readonly FileMemory[];
  /** By what they were known again, for the reader. */
  readonly why: string;
}

/**
 * What a file may have been when the book last read or wrote it, by the surest sign that there is: the same content,
 * the mark that an export carries through other programs, the name, and for lists the same headers.
 */
export function knownFiles(newestFirst: readonly FileMemory[], given: GivenFile): KnownFiles | undefined {
  const signs: readonly (readonly [why: string, fits: (memory: FileMemory) => boolean])[] = [
    ['the content is the same', ({ fileDigest }) => fileDigest === given.digest],
    ['it carries the mark of that export', ({ mark }) => mark !== undefined && mark === given.mark],
    [
      'it has the same name',
      // An export whose mark nobody knows comes from another one, whatever it is called.
      ({ file, whole }) =>
        given.mark === undefined && whole === given.whole && plainFile(file) === plainFile(given.name),
    ],
    [
      'it has the same headers',
      ({ headers, whole }) => !whole && !given.whole && headers !== '' && headers === given.headers,
    ],
  ];
  for (const [why, fits] of signs) {
    const memories = newestFirst.filter(fits);
    if (memories.length > 0) return { memories, why };
  }
  return undefined;
}
