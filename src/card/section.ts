import type { DrawnStanding } from '../drawing/drawing-warnings.ts';
import type { JointGeometry } from '../drawing/joint.ts';
import type { LengthUnit } from '../drawing/tape.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { spelt } from '../units/spelling.ts';

/** What a card's sections are made of, however it is shown. */

export interface Line {
  readonly text: string;
  readonly bold?: true;
}

/** Lines of text, or room to write: a box to tick, or one to sign. */
export type Cell = readonly Line[] | { readonly blank: 'tick' | 'sign' | 'value' };

export interface TableColumn {
  readonly title: string;
  /** Of the table's breadth, in any unit. */
  readonly width: number;
  readonly align?: 'end';
}

export type Section =
  | {
      readonly type: 'head';
      readonly title: string;
      readonly belt: string;
      readonly code: readonly (readonly boolean[])[] | undefined;
    }
  | { readonly type: 'title'; readonly text: string }
  /** `strong` stands in a frame. */
  | { readonly type: 'note'; readonly text: string; readonly strong?: true }
  | { readonly type: 'pairs'; readonly pairs: readonly { readonly name: string; readonly value: string }[] }
  | { readonly type: 'blanks'; readonly names: readonly string[] }
  | { readonly type: 'table'; readonly columns: readonly TableColumn[]; readonly rows: readonly (readonly Cell[])[] }
  | { readonly type: 'ticks'; readonly labels: readonly string[] }
  | {
      readonly type: 'drawing';
      readonly joint: JointGeometry;
      readonly unit: LengthUnit;
      readonly belt: string;
      readonly series: string;
      readonly standing: DrawnStanding;
    };

export type DrawingSection = Extract<Section, { readonly type: 'drawing' }>;

export const plain = (...texts: readonly string[]): Cell => texts.map((text) => ({ text }));
export const bold = (text: string): Cell => [{ text, bold: true }];

/**
 * A section's own words as a book's users spell; names of belts and what stands beside a heading's names are theirs.
 */
export function spelledSection(section: Section, units: UnitSystem): Section {
  const text = (said: string): string => spelt(said, units);
  switch (section.type) {
    case 'title':
    case 'note':
      return { ...section, text: text(section.text) };
    case 'pairs':
      return { ...section, pairs: section.pairs.map(({ name, value }) => ({ name: text(name), value })) };
    case 'blanks':
      return { ...section, names: section.names.map(text) };
    case 'ticks':
      return { ...section, labels: section.labels.map(text) };
    case 'table':
      return {
        ...section,
        columns: section.columns.map((column) => ({ ...column, title: text(column.title) })),
        rows: section.rows.map((row) =>
          row.map((cell) => ('blank' in cell ? cell : cell.map((line) => ({ ...line, text: text(line.text) })))),
        ),
      };
    default:
      return section;
  }
}
