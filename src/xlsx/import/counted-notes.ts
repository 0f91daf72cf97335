import { counted } from '../../units/phrases.ts';

/** What is assumed of a number of records. The counts of a list's parts add up to those of the whole. */
export type CountedNote =
  | { readonly what: 'designations'; readonly sheet: string; readonly header: string; readonly count: number }
  | { readonly what: 'filled'; readonly header: string; readonly content: string; readonly count: number }
  | {
      readonly what: 'hidden';
      readonly sheet: string;
      readonly record: string;
      readonly count: number;
      /** The first of them. */
      readonly rows: readonly number[];
    };

/** Rows that a sentence names. */
export const namedRows = 10;

export function countedWords(note: CountedNote): string {
  const { what, count } = note;
  if (what === 'filled') return `${note.header}: ${count} blank cells filled with ${note.content}, as you chose`;
  if (what === 'designations')
    return (
      `${note.sheet}, ${note.header}: taken from the designation of ${counted(count, 'belt')}, as "3 ply 330 PIW ` +
      `3/16 x 1/16" says a rated tension of 330 lbf/in and covers of 3/16 in on top and 1/16 in below`
    );
  const more = count - note.rows.length;
  return (
    `${note.sheet}: ${counted(count, `hidden ${note.record}`)} counted and shown like the others: row ` +
    `${note.rows.join(', ')}${more > 0 ? ` and ${more} more` : ''}`
  );
}
