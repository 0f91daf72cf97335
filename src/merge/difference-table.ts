import type { Content } from '../formula/values.ts';
import type { Table, TableCell } from '../sheet/table.ts';
import { isDay, isoDate } from '../units/dates.ts';
import { unitOf } from '../units/quantities.ts';
import { statesOf, subjectOf } from './item-words.ts';
import type { MergeItem, Three } from './merge-item.ts';
import type { MergePlan } from './merge-plan.ts';

/** Where an item stands in one of the books' files, as people find it. */
type PlaceOf = (item: MergeItem, book: 'mine' | 'theirs') => string;

/** A content as a cell of a table: numbers stay numbers, days are written out. */
const cellOf = (content: Content, { kind }: MergeItem): TableCell =>
  kind === 'date' && typeof content === 'number' && isDay(content) ? isoDate(Math.floor(content)) : content;

/** The differences between two books as a table for a file; `names` are those of the files. */
export function differenceTable({ items, units }: MergePlan, names: Three<string>, placeOf: PlaceOf): Table {
  const words = ['Sheet', 'Record', 'Column', 'Change', names.mine, names.theirs, 'Unit', 'Place', 'In words'];
  return {
    name: 'Differences',
    columns: words.map((header) => ({ header, kind: 'text' })),
    keys: 3,
    rows: items.map((item): TableCell[] => [
      item.sheet,
      item.record,
      item.column,
      item.there ?? item.here ?? '',
      item.cells === undefined ? null : cellOf(item.cells.mine.content, item),
      item.cells === undefined ? null : cellOf(item.cells.theirs.content, item),
      unitOf(item.kind, units),
      [placeOf(item, 'mine'), placeOf(item, 'theirs')].filter((text) => text !== '').join('; '),
      `${subjectOf(item)}: ${statesOf(item, names, units)}`,
    ]),
  };
}
