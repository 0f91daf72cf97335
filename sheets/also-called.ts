import type { Column } from '../src/sheet/declaration.ts';

/**
 * What lists call the columns: trade words in the languages that lists come in, the usual one first.
 *
 * Import compares them without case, accents, punctuation and order of words, and knows abbreviations ("dia", "min")
 * and plurals by itself. A name of one word must be all of a header; a longer one may be most of it. Computed columns
 * have names too, so that a list's "belt length" is not taken for the centres.
 *
 * Each header's names are one text that parts them by "|" and may go over several lines.
 */
export type Names = Readonly<Record<string, string>>;

/** Columns with their other names. Names that belong to no column do not compile. */
export function withNames<const Header extends string, Called extends NoInfer<Header>>(
  columns: readonly Column<Header>[],
  names: Readonly<Record<Called, string>>,
): readonly Column<Header>[] {
  const called: Names = names;
  return columns.map((column) => {
    const others = called[column.header];
    return others === undefined ? column : { ...column, alsoCalled: others.split('|').map((name) => name.trim()) };
  });
}
