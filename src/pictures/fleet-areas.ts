import { belts } from '../../sheets/belts/index.ts';
import { textIn } from '../formula/values.ts';
import type { Table } from '../sheet/table.ts';
import { rounded } from '../sheet/words.ts';
import { counted } from '../units/phrases.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { type BeltGroup, beltRecords, leftOutWords, namesOf, verdictAt } from './belt-figures.ts';
import type { Bar, PictureOf } from './picture.ts';
import { verdictOrder } from './verdict-marks.ts';

/** The fleet by area: verdicts, and how many belts may fail. */

type BarPicture = PictureOf<'bars'>;

/** For tests: belts without an area are counted. */
export const noArea = 'no area';
const otherAreas = 'other areas';
/** Areas that have a bar of their own; further ones share one. */
const mostAreas = 12;

/**
 * Belts by area, the most belts first; small ones beyond what can be drawn together. For tests: each belt is counted
 * once.
 */
export function beltsByArea(book: Workbook): readonly BeltGroup[] {
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
    says: `${counted(all, 'belt')}; ${totals.map((one) => `${one.verdict}: ${one.count}`).join(', ')}.`,
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

/** The chance that each belt fails, by record. */
type Chances = ReadonlyMap<number, number>;

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
      `Expected number: ${rounded(all, 1)}, with inputs and assumptions off within their tolerances (${draws} draws ` +
      `a belt).`,
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
