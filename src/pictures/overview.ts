import { belts } from '../../sheets/belts/index.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import { numberIn, textIn } from '../formula/values.ts';
import type { Table } from '../sheet/table.ts';
import { rounded } from '../sheet/words.ts';
import { isDay, isoDate } from '../units/dates.ts';
import { counted } from '../units/phrases.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { beltRecords, leftOutWords, namesOf, verdictAt } from './belt-figures.ts';
import type { Bar, PictureOf } from './picture.ts';
import { verdictOrder } from './verdict-marks.ts';

/** The fleet at a glance: verdicts by area, what is due and spent when. */

type BarPicture = PictureOf<'bars'>;

export const noArea = 'no area';
const otherAreas = 'other areas';
/** Areas that have a bar of their own; further ones share one. */
const mostAreas = 12;

interface Group {
  readonly name: string;
  readonly records: readonly number[];
}

/** Belts by area, the most belts first; small ones beyond what can be drawn together. */
export function beltsByArea(book: Workbook): readonly Group[] {
  const found = new Map<string, { name: string; records: number[] }>();
  for (const record of beltRecords(book)) {
    const name = textIn(book.read(belts.name, record, 'Area')).trim() || noArea;
    const group = found.get(name.toLowerCase()) ?? { name, records: [] };
    group.records.push(record);
    found.set(name.toLowerCase(), group);
  }
  const all = [...found.values()].toSorted(
    (one, other) => other.records.length - one.records.length || one.name.localeCompare(other.name, 'en'),
  );
  if (all.length <= mostAreas) return all;
  const rest = all.slice(mostAreas - 1);
  return [...all.slice(0, mostAreas - 1), { name: otherAreas, records: rest.flatMap(({ records }) => records) }];
}

const count = (header: string): Table['columns'][number] => ({ header, kind: 'count' });
const text = (header: string): Table['columns'][number] => ({ header, kind: 'text' });

export function verdictsByArea(book: Workbook): BarPicture {
  const groups = beltsByArea(book);
  const parts = groups.flatMap(({ name, records }, place): Bar[] => {
    let from = 0;
    return verdictOrder.flatMap((verdict): Bar[] => {
      const own = records.filter((record) => verdictAt(book, record) === verdict);
      if (own.length === 0) return [];
      const bar: Bar = {
        says: `${name}, ${verdict}: ${counted(own.length, 'belt')} (${namesOf(book, own)})`,
        records: own,
        at: [verdictOrder.indexOf(verdict), -place],
        name: place,
        from,
        to: from + own.length,
        tone: verdict,
      };
      from = bar.to;
      return [bar];
    });
  });
  const totals = verdictOrder.map((verdict) => ({
    verdict,
    count: parts.reduce((sum, { tone, records }) => sum + (tone === verdict ? records.length : 0), 0),
  }));
  const all = groups.reduce((sum, { records }) => sum + records.length, 0);
  return {
    id: 'verdicts',
    of: 'bars',
    title: 'Verdicts by area',
    says: `Of ${counted(all, 'belt')}: ${totals.map((one) => `${one.count} ${one.verdict}`).join(', ')}.`,
    leftOut: '',
    names: groups.map(({ name }) => name),
    values: { label: 'Belts', scale: 'number', whole: true },
    upright: false,
    tones: verdictOrder,
    parts,
    table: {
      name: 'Verdicts by area',
      keys: 1,
      columns: [text('Area'), ...verdictOrder.map(count), count('Belts')],
      rows: groups.map(({ name, records }, place) => [
        name,
        ...verdictOrder.map(
          (verdict) => parts.find((one) => one.name === place && one.tone === verdict)?.records.length ?? 0,
        ),
        records.length,
      ]),
    },
  };
}

/** Months that have a bar of their own; what is due after them shares one. */
const mostMonths = 18;
export const overdue = 'overdue';
export const later = 'later';

/** A day's month as a count of months, and back as it is written. */
const monthOf = (day: number): number => {
  const [year = 0, month = 1] = isoDate(Math.floor(day)).split('-').map(Number);
  return year * 12 + month - 1;
};
const monthName = (month: number): string => `${Math.floor(month / 12)}-${String((month % 12) + 1).padStart(2, '0')}`;

interface DueGroups {
  readonly groups: readonly Group[];
  readonly unknown: readonly number[];
}

/**
 * Belts by the month in which their joints are due, counted from the review date; before it they are overdue. Months in
 * which nothing is due stand among the others.
 */
export function beltsByMonthDue(book: Workbook): DueGroups {
  const review = numberIn(book.named('ReviewDate'));
  const [known, unknown]: [{ record: number; day: number }[], number[]] = [[], []];
  for (const record of beltRecords(book)) {
    const day = numberIn(book.read(belts.name, record, 'Due'));
    if (day === undefined || !isDay(day)) unknown.push(record);
    else known.push({ record, day });
  }
  if (known.length === 0) return { groups: [], unknown };
  const start = review ?? Math.min(...known.map(({ day }) => day));
  const first = monthOf(start);
  const last = Math.min(first + mostMonths - 1, Math.max(first, ...known.map(({ day }) => monthOf(day))));
  const within = (holds: (day: number) => boolean): number[] =>
    known.flatMap(({ record, day }) => (holds(day) ? [record] : []));
  const groups = [
    { name: overdue, records: within((day) => day < start) },
    ...Array.from({ length: last - first + 1 }, (_, index) => ({
      name: monthName(first + index),
      records: within((day) => day >= start && monthOf(day) === first + index),
    })),
    { name: later, records: within((day) => monthOf(day) > last) },
  ];
  return {
    groups: groups.filter(({ name, records }) => records.length > 0 || (name !== overdue && name !== later)),
    unknown,
  };
}

export function dueByMonth(book: Workbook): BarPicture {
  const { groups, unknown } = beltsByMonthDue(book);
  const known = groups.reduce((sum, { records }) => sum + records.length, 0);
  const late = groups.find(({ name }) => name === overdue)?.records.length ?? 0;
  return {
    id: 'due',
    of: 'bars',
    title: 'Joints due by month',
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
      name: 'Joints due by month',
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

const money = (value: number): string => rounded(value, 0).replace(/\B(?=(\d{3})+$)/g, ',');

export function spendByMonth(book: Workbook): BarPicture {
  const { groups, unknown } = beltsByMonthDue(book);
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
    title: 'Spend by month due',
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
      name: 'Spend by month due',
      keys: 1,
      columns: [text('Due'), { header: 'Cost', kind: 'money', digits: 2 }, count('Belts'), text('Which')],
      rows: sums.map(({ name, records, sum }) => [name, sum, records.length, namesOf(book, records)]),
    },
  };
}

/** The chance that each belt fails, by record. */
export type Chances = ReadonlyMap<number, number>;

/** How many belts are expected to fail in each area: the sum of their chances. */
export function expectedFailing(book: Workbook, chances: Chances, draws: number): BarPicture {
  const groups = beltsByArea(book).map(({ name, records }) => ({
    name,
    records: records.filter((record) => (chances.get(record) ?? 0) > 0),
    sum: records.reduce((total, record) => total + (chances.get(record) ?? 0), 0),
  }));
  const all = groups.reduce((total, { sum }) => total + sum, 0);
  const without = beltRecords(book).filter((record) => !chances.has(record));
  return {
    id: 'expected',
    of: 'bars',
    title: 'Expected failing belts by area',
    says:
      `${rounded(all, 1)} belts are expected to fail a check if inputs and assumptions are off within their ` +
      `tolerances (${draws} draws a belt).`,
    leftOut: leftOutWords(book, without, 'no chance was worked out'),
    names: groups.map(({ name }) => name),
    values: { label: 'Expected number of belts that fail', scale: 'number' },
    upright: false,
    tones: [],
    parts: groups.flatMap(({ name, records, sum }, place): Bar[] =>
      sum === 0
        ? []
        : [
            {
              says: `${name}: ${rounded(sum, 2)} of its belts fail, on average; possible for ${namesOf(book, records)}`,
              records,
              at: [0, -place],
              name: place,
              from: 0,
              to: sum,
              tone: 'over',
            },
          ],
    ),
    table: {
      name: 'Expected failing belts by area',
      keys: 1,
      columns: [
        text('Area'),
        { header: 'Expected to fail', kind: 'number', digits: 2 },
        count('May fail'),
        text('Which'),
      ],
      rows: groups.map(({ name, records, sum }) => [name, sum, records.length, namesOf(book, records)]),
    },
  };
}
