/**
 * What the reference is made of: sections that a file, a page and a search can show alike. In its texts what is typed
 * stands between backticks, as in Markdown.
 */

/** One thing that is said of an entry, under a label: its unit, its source, a parameter. */
interface Fact {
  readonly label: string;
  readonly text: string;
}

/** A function, column, check, named value, command, option, field or key. */
export interface Entry {
  readonly name: string;
  readonly says: string;
  readonly facts: readonly Fact[];
}

export interface Group {
  /** '' for a section of one group. */
  readonly title: string;
  readonly about?: string;
  readonly entries: readonly Entry[];
}

export interface Section {
  readonly about: readonly string[];
  /** What an entry is, as the head of a table's first column. */
  readonly entry: string;
  /** Short facts stand in a table, a column a label; long ones below each other. */
  readonly layout: 'table' | 'blocks';
  /** The label of the fact that is worth seeing before an entry is opened. */
  readonly first?: string;
  readonly groups: readonly Group[];
}

/** Facts without those that say nothing. */
export const facts = (...all: readonly Fact[]): readonly Fact[] => all.filter(({ text }) => text !== '');
