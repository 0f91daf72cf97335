/** What a hidden cell of a paper says of its row, so that the paper is known again when it comes back. */

interface CellKey {
  readonly word: (name: string) => string;
  readonly figure: (name: string) => number | undefined;
}

/** A key as a cell holds it; `mark` says of which paper it is. */
export const cellKeyText = (mark: string, key: object): string => JSON.stringify([mark, key]);

/** The key that a cell holds; undefined for any other text. */
export function cellKey(mark: string, text: string): CellKey | undefined {
  let read: unknown;
  try {
    read = JSON.parse(text);
  } catch {
    return undefined;
  }
  if (!Array.isArray(read) || read[0] !== mark || typeof read[1] !== 'object' || read[1] === null) return undefined;
  const said: Readonly<Record<string, unknown>> = { ...read[1] };
  return {
    word: (name) => (typeof said[name] === 'string' ? said[name] : ''),
    figure: (name) => (typeof said[name] === 'number' ? said[name] : undefined),
  };
}
