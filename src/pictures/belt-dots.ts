import { isFault } from '../formula/values.ts';
import { beltTitle } from '../records/belt.ts';
import { counted } from '../units/phrases.ts';
import type { BookColumn } from '../workbook/declared.ts';
import type { Workbook } from '../workbook/workbook.ts';
import {
  axisLabel,
  beltRecords,
  cellOf,
  figureWords,
  holdsWords,
  leftOutWords,
  nameOf,
  numberAxis,
  tableColumn,
  verdictAt,
} from './belt-figures.ts';
import type { Axis, Dot, PictureOf } from './picture.ts';
import { verdictOrder } from './verdict-marks.ts';

/** One column of Belts against another, a dot a belt. */

/** Dots that are drawn; of more belts as many, evenly through the list. For tests: more are asked for. */
export const mostDots = 2000;
/** Different words that an axis has room for. */
const mostNames = 24;

/** What cannot be drawn, in a sentence for a planner. */
export class PictureRefused extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'PictureRefused';
  }
}

interface Scale {
  readonly axis: Axis;
  /** Where a belt stands on it; undefined where that is not known. */
  readonly place: (record: number) => number | undefined;
  readonly words: (record: number) => string;
}

function wordScale(book: Workbook, column: BookColumn, records: readonly number[]): Scale {
  const word = (record: number): string => {
    const value = cellOf(book, record, column);
    return value === null || isFault(value) ? '' : String(value);
  };
  const found = [...new Set(records.map(word))].filter((name) => name !== '');
  if (found.length > mostNames)
    throw new PictureRefused(
      `${column.header} holds ${found.length} different texts; an axis has room for ${mostNames}. Choose a column ` +
        `with ` +
        `numbers or fewer words.`,
    );
  const isVerdict = found.every((name) => verdictOrder.some((verdict) => verdict === name));
  const names = isVerdict
    ? verdictOrder.filter((verdict) => found.includes(verdict))
    : found.toSorted((one, other) => one.localeCompare(other, 'en', { numeric: true }));
  return {
    axis: { label: axisLabel(column, book.units), scale: 'names', names },
    place: (record) => {
      const at = names.findIndex((name) => name === word(record));
      return at < 0 ? undefined : at;
    },
    words: word,
  };
}

function numberScale(book: Workbook, column: BookColumn): Scale {
  const number = (record: number): number | undefined => {
    const value = cellOf(book, record, column);
    return typeof value === 'number' && Number.isFinite(value) ? value : undefined;
  };
  return {
    axis: numberAxis(column, book.units),
    place: number,
    words: (record) => {
      const value = number(record);
      return value === undefined ? 'not known' : figureWords(column, value, book.units);
    },
  };
}

/** Places in ascending order of a value, each its own. */
function ranks(values: readonly number[]): number[] {
  const order = values.map((value, index) => ({ value, index })).toSorted((one, other) => one.value - other.value);
  const found: number[] = values.map(() => 0);
  for (const [rank, { index }] of order.entries()) found[index] = rank;
  return found;
}

/** As many things as are wanted, evenly through a list. */
const evenly = <Thing>(list: readonly Thing[], most: number): readonly Thing[] =>
  list.length <= most
    ? list
    : Array.from({ length: most }, (_, index) => list[Math.floor((index * list.length) / most)]).filter(
        (thing) => thing !== undefined,
      );

/**
 * A column against another over all belts that have both. Throws PictureRefused for a column of more words than an axis
 * has room for.
 */
export function beltDots(book: Workbook, across: BookColumn, upward: BookColumn): PictureOf<'dots'> {
  const records = beltRecords(book);
  const scale = (column: BookColumn): Scale =>
    holdsWords(column) ? wordScale(book, column, records) : numberScale(book, column);
  const [x, y] = [scale(across), scale(upward)];
  const all = records.flatMap((record) => {
    const [at, up] = [x.place(record), y.place(record)];
    return at === undefined || up === undefined ? [] : [{ record, x: at, y: up }];
  });
  const drawn = evenly(all, mostDots);
  const [columns, rows] = [ranks(drawn.map((one) => one.x)), ranks(drawn.map((one) => one.y))];
  const placed = new Set(all.map(({ record }) => record));
  const without = records.filter((record) => !placed.has(record));
  const title = `${axisLabel(upward, book.units)} against ${axisLabel(across, book.units)}`;
  const parts = drawn
    .map((one, index): Dot => ({
      says:
        `${beltTitle(nameOf(book, one.record))}, ${verdictAt(book, one.record)}: ${across.header} ` +
        `${x.words(one.record)}, ${upward.header} ${y.words(one.record)}`,
      records: [one.record],
      at: [columns[index] ?? 0, rows[index] ?? 0],
      x: one.x,
      y: one.y,
      tone: verdictAt(book, one.record),
    }))
    .toSorted((one, other) => one.at[0] - other.at[0]);
  return {
    id: 'columns',
    of: 'dots',
    title,
    says:
      drawn.length < all.length
        ? `${counted(drawn.length, 'belt')} of ${all.length} that have both, evenly through the list.`
        : `${counted(all.length, 'belt')}.`,
    leftOut: leftOutWords(book, without, `${across.header} or ${upward.header} is not known`),
    x: x.axis,
    y: y.axis,
    tones: verdictOrder.filter((verdict) => parts.some(({ tone }) => tone === verdict)),
    parts,
    table: {
      name: title,
      keys: 1,
      columns: [
        { header: 'Belt', kind: 'text' },
        tableColumn(across, book.units),
        tableColumn(upward, book.units),
        { header: 'Verdict', kind: 'text' },
      ],
      rows: all.map(({ record }) => [
        nameOf(book, record),
        holdsWords(across) ? x.words(record) : cellOf(book, record, across),
        holdsWords(upward) ? y.words(record) : cellOf(book, record, upward),
        verdictAt(book, record),
      ]),
    },
  };
}
