import { withShownMark } from '../units/shown-mark.ts';
import type { Content } from '../formula/values.ts';
import { withUnit } from '../sheet/words.ts';
import { counted } from '../units/phrases.ts';
import { isDay, isoDate } from '../units/dates.ts';
import { type QuantityKind, unitOf, type UnitSystem } from '../units/quantities.ts';
import { formatWords, sameFormat } from './own-column-facts.ts';
import type { Change, ItemCell, MergeItem, Three } from './merge-item.ts';

/** What differs, in words for people. */

/** Digits that a number keeps on its way through a change of units. */
const sureDigits = 12;

/** A content as people read it, its number whole and with its unit. */
export function shownContent(content: Content, kind: QuantityKind, units: UnitSystem): string {
  if (content === null) return 'empty';
  if (typeof content !== 'number') return typeof content === 'string' ? `"${content}"` : String(content);
  if (kind === 'date' && isDay(content)) return isoDate(Math.floor(content));
  return withUnit(withShownMark(String(Number(content.toPrecision(sureDigits)))), unitOf(kind, units));
}

/** What an item is about: sheet, record and column. */
export function subjectOf({ level, of = 'records', fact = '', sheet, record, column }: MergeItem): string {
  switch (level) {
    case 'book':
      return `Book, ${column}`;
    case 'order':
      return `${sheet === '' ? 'Book' : sheet}, order of ${of}`;
    case 'column':
      return `${sheet}, own column "${column}"`;
    case 'fact':
      return `${sheet}, own column "${column}", ${fact}`;
    case 'view':
      return `${sheet}, view "${column}"`;
    case 'sheet':
      return `Sheet ${sheet}`;
    default:
      return [sheet, record, column].filter((text) => text !== '').join(', ');
  }
}

const changeWords: Readonly<Record<Change, string>> = { new: 'new in', gone: 'gone from', changed: 'changed in' };

/** A cell in words; its remark and how it shows its number only where these differ. */
function cellWords(cell: ItemCell, { cells, kind }: MergeItem, units: UnitSystem): string {
  const { content, note, format } = cell;
  const others = cells === undefined ? [] : [cells.base, cells.mine, cells.theirs];
  const words = [shownContent(content, kind, units)];
  if (others.some((other) => other.note !== note))
    words.push(note === undefined ? 'without a remark' : `with the remark "${note}"`);
  if (others.some((other) => !sameFormat(other.format, format)))
    words.push(`shown as ${format === undefined ? 'its column is' : formatWords(format, units)}`);
  return words.join(' ');
}

/** What each book says of an item; `names` are those of the books, and two alike are the same book. */
export function statesOf(item: MergeItem, names: Three<string>, units: UnitSystem): string {
  const { cells, here, there } = item;
  if (cells !== undefined) {
    const of = (book: keyof Three<unknown>): string => `${cellWords(cells[book], item, units)} in ${names[book]}`;
    return [of('mine'), of('theirs'), ...(names.base === names.mine ? [] : [of('base')])].join(', ');
  }
  return [
    ...(here === undefined ? [] : [`${changeWords[here]} ${names.mine}`]),
    ...(there === undefined ? [] : [`${changeWords[there]} ${names.theirs}`]),
  ].join(', ');
}

export const itemWords = (item: MergeItem, names: Three<string>, units: UnitSystem): string =>
  `${subjectOf(item)}: ${statesOf(item, names, units)}`;

const levels: Readonly<Record<MergeItem['level'], string>> = {
  book: 'fact of the book',
  sheet: 'sheet',
  column: 'own column',
  fact: 'fact of an own column',
  record: 'record',
  cell: 'cell',
  order: 'order',
  view: 'view',
};

const plural = (level: MergeItem['level']): string => levels[level].replace(/^fact\b|$/, (end) => `${end}s`);

/** "3 records new, 1 record gone, 12 cells changed" of what one side made. */
export function countWords(items: readonly MergeItem[], change: (item: MergeItem) => Change | undefined): string {
  const counts = new Map<string, { readonly level: MergeItem['level']; readonly change: Change; count: number }>();
  for (const item of items) {
    const made = change(item);
    if (made === undefined) continue;
    const known = counts.get(`${item.level} ${made}`);
    if (known === undefined) counts.set(`${item.level} ${made}`, { level: item.level, change: made, count: 1 });
    else known.count += 1;
  }
  const order = Object.keys(levels);
  return [...counts.values()]
    .toSorted((one, other) => order.indexOf(one.level) - order.indexOf(other.level))
    .map(({ level, change: made, count }) => `${counted(count, levels[level], plural(level))} ${made}`)
    .join(', ');
}
