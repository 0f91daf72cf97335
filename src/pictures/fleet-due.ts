import { groupedText } from '../units/shown-mark.ts';
import { belts } from '../../sheets/belts/index.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import { numberIn, textIn } from '../formula/values.ts';
import type { Table } from '../sheet/table.ts';
import { isDay, isoDate } from '../units/dates.ts';
import { counted } from '../units/phrases.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { beltRecords, type BeltGroup, leftOutWords, namesOf } from './belt-figures.ts';
import type { Bar, PictureOf } from './picture.ts';

/** The fleet over time: which joints are due when, and what they then cost. */

type BarPicture = PictureOf<'bars'>;

const count = (header: string): Table['columns'][number] => ({ header, kind: 'count' });
const text = (header: string): Table['columns'][number] => ({ header, kind: 'text' });

/** For tests: what is overdue is compared with the review date. */
export const overdue = 'overdue';
const later = 'later';
/** Years after the months that have a bar of their own; what is due after them shares one. */
const mostYears = 10;

/** A day's month, counted from the year 0. */
const monthOf = (day: number): number => {
  const [year = 0, month = 1] = isoDate(Math.floor(day)).split('-').map(Number);
  return year * 12 + month - 1;
};
const yearOf = (month: number): number => Math.floor(month / 12);
const monthName = (month: number): string => `${yearOf(month)}-${String((month % 12) + 1).padStart(2, '0')}`;

interface DueGroups {
  readonly groups: readonly BeltGroup[];
  readonly unknown: readonly number[];
}

/**
 * Belts by when their joints are due, counted from the review date: before it they are overdue, to the end of the next
 * year each month stands by itself, then each year. Months and years in which nothing is due stand among the others.
 * For tests: each belt is counted once.
 */
export function beltsByDue(book: Workbook): DueGroups {
  const review = numberIn(book.named('ReviewDate'));
  const [known, unknown]: [{ record: number; day: number }[], number[]] = [[], []];
  for (const record of beltRecords(book)) {
    const day = numberIn(book.read(belts.name, record, 'Due'));
    if (day === undefined || !isDay(day)) unknown.push(record);
    else known.push({ record, day });
  }
  if (known.length === 0) return { groups: [], unknown };
  const start = review !== undefined && isDay(review) ? review : Math.min(...known.map(({ day }) => day));
  const first = monthOf(start);
  const last = known.reduce((latest, { day }) => Math.max(latest, monthOf(day)), first);
  const monthly = Math.min(last, (yearOf(first) + 2) * 12 - 1);
  const years = Math.min(mostYears, yearOf(last) - yearOf(monthly));
  const named = (name: string, holds: (day: number) => boolean): BeltGroup => ({
    name,
    records: known.flatMap(({ record, day }) => (holds(day) ? [record] : [])),
  });
  const groups = [
    named(overdue, (day) => day < start),
    ...Array.from({ length: monthly - first + 1 }, (_, index) =>
      named(monthName(first + index), (day) => day >= start && monthOf(day) === first + index),
    ),
    ...Array.from({ length: years }, (_, index) => {
      const year = yearOf(monthly) + 1 + index;
      return named(String(year), (day) => yearOf(monthOf(day)) === year);
    }),
    named(later, (day) => yearOf(monthOf(day)) > yearOf(monthly) + years),
  ];
  return {
    groups: groups.filter(({ name, records }) => records.length > 0 || (name !== overdue && name !== later)),
    unknown,
  };
}

export function jointsDue(book: Workbook): BarPicture {
  const { groups, unknown } = beltsByDue(book);
  const known = groups.reduce((sum, { records }) => sum + records.length, 0);
  const late = groups.find(({ name }) => name === overdue)?.records.length ?? 0;
  return {
    id: 'due',
    of: 'bars',
    title: 'Joints due',
    says: `Due dates of ${counted(known, 'belt')}; ${late === 0 ? 'none is' : `${late} are`} overdue.`,
    leftOut: leftOutWords(book, unknown, 'Due is not known'),
    names: groups.map(({ name }) => name),
    values: { label: 'Belts', scale: 'number', whole: true },
    upright: true,
    tones: [],
    parts: groups.flatMap(({ name, records }, place): Bar[] =>
      records.length === 0
        ? []
        : [
            {
              says: `${name}: ${counted(records.length, 'belt')} due (${namesOf(book, records)})`,
              records,
              at: [place, 0],
              name: place,
              from: 0,
              to: records.length,
              tone: name === overdue ? 'over' : 'plain',
            },
          ],
    ),
    table: {
      name: 'Joints due',
      keys: 1,
      columns: [text('Due'), count('Belts'), text('Which')],
      rows: groups.map(({ name, records }) => [name, records.length, namesOf(book, records)]),
    },
  };
}

/** What the joints of a belt cost when they are replaced; undefined when one of both is not known. */
function spendOf(book: Workbook, record: number): number | undefined {
  const [cost, joints] = (['Joint cost', 'Joints'] as const satisfies readonly BeltHeader[]).map((header) =>
    numberIn(book.read(belts.name, record, header)),
  );
  return cost === undefined || joints === undefined ? undefined : cost * joints;
}

const money = (value: number): string => groupedText(Math.round(value));

export function spendDue(book: Workbook): BarPicture {
  const { groups, unknown } = beltsByDue(book);
  const currency = textIn(book.named('BookCurrency'));
  const sums = groups.map(({ name, records }) => {
    const known = records.flatMap((record) => {
      const spend = spendOf(book, record);
      return spend === undefined ? [] : [{ record, spend }];
    });
    return {
      name,
      records: known.map(({ record }) => record),
      sum: known.reduce((total, { spend }) => total + spend, 0),
      without: records.filter((record) => spendOf(book, record) === undefined),
    };
  });
  const total = sums.reduce((all, { sum }) => all + sum, 0);
  const without = [...unknown, ...sums.flatMap((one) => one.without)];
  const unit = currency === '' ? '' : ` ${currency}`;
  return {
    id: 'spend',
    of: 'bars',
    title: 'Spend when due',
    says: `Joint cost times Joints: ${money(total)}${unit} in all.`,
    leftOut: leftOutWords(book, without, 'Due, Joint cost or Joints is not known'),
    names: sums.map(({ name }) => name),
    values: { label: currency === '' ? 'Cost' : `Cost (${currency})`, scale: 'number' },
    upright: true,
    tones: [],
    parts: sums.flatMap(({ name, records, sum }, place): Bar[] =>
      sum <= 0
        ? []
        : [
            {
              says: `${name}: ${money(sum)}${unit} for ${counted(records.length, 'belt')} (${namesOf(book, records)})`,
              records,
              at: [place, 0],
              name: place,
              from: 0,
              to: sum,
              tone: name === overdue ? 'over' : 'plain',
            },
          ],
    ),
    table: {
      name: 'Spend when due',
      keys: 1,
      columns: [text('Due'), { header: 'Cost', kind: 'money', digits: 2 }, count('Belts'), text('Which')],
      rows: sums.map(({ name, records, sum }) => [name, sum, records.length, namesOf(book, records)]),
    },
  };
}
