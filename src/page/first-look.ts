/**
 * What the first rows of a book look like, as texts: kept with the book, so that there is something to read while a
 * large one is worked out.
 */
export interface FirstLook {
  readonly sheet: string;
  readonly headers: readonly string[];
  readonly rows: readonly { readonly row: number; readonly cells: readonly string[] }[];
}

/** What is stored of a look, where it can be read. */
export function readFirstLook(stored: unknown): FirstLook | undefined {
  if (typeof stored !== 'object' || stored === null) return undefined;
  const { sheet, headers, rows } = stored as Partial<Record<keyof FirstLook, unknown>>;
  const isTexts = (list: unknown): list is string[] =>
    Array.isArray(list) && list.every((text) => typeof text === 'string');
  if (typeof sheet !== 'string' || !isTexts(headers) || !Array.isArray(rows)) return undefined;
  const read = rows.flatMap((one: unknown) => {
    const { row, cells } = (one ?? {}) as { readonly row?: unknown; readonly cells?: unknown };
    return typeof row === 'number' && isTexts(cells) ? [{ row, cells }] : [];
  });
  return { sheet, headers, rows: read };
}
