import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { beltDots, mostDots, PictureRefused } from '../../src/pictures/belt-dots.ts';
import { beltColumnNamed, beltRecords } from '../../src/pictures/belt-figures.ts';
import { beltsByArea, expectedFailing, noArea, verdictsByArea } from '../../src/pictures/fleet-areas.ts';
import { beltsByDue, jointsDue, overdue, spendDue } from '../../src/pictures/fleet-due.ts';
import { beltHistogram, pulleyUsed, ratingUsed } from '../../src/pictures/histogram.ts';
import type { BookColumn } from '../../src/workbook/declared.ts';
import { emptyBook } from '../../src/workbook/declared.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { isoDate } from '../../src/units/dates.ts';
import { randomBooks } from '../workbook/books.ts';

/** What pictures show of a fleet, against plain loops over the book's values. */

const columnOf = (book: Workbook, header: string): BookColumn => {
  const column = beltColumnNamed(book, header);
  if (column === undefined) throw new Error(`there is no column ${header}`);
  return column;
};

/** The demo in both systems of units, and whole books with odd cells. */
const books = [
  demoBook('metric'),
  demoBook('us'),
  ...fc.sample(randomBooks({ belts: 10, series: 5, named: 3 }), 8),
].map((state) => new Workbook(state));

function overBooks(holds: (book: Workbook) => void): void {
  for (const book of books) holds(book);
}

const each = <Key>(keys: readonly Key[]): Map<Key, number> => {
  const found = new Map<Key, number>();
  for (const key of keys) found.set(key, (found.get(key) ?? 0) + 1);
  return found;
};

describe('verdicts by area', () => {
  test('count every belt once, as a loop over the sheet does', () => {
    overBooks((book) => {
      const picture = verdictsByArea(book);
      const loop = each(
        [...book.sheet('Belts').rows.keys()].map((record) => {
          const area = book.read('Belts', record, 'Area');
          const verdict = book.read('Belts', record, 'Verdict');
          const named = area === null || typeof area === 'object' ? '' : String(area).trim();
          return `${named.toLowerCase() || noArea}|${typeof verdict === 'string' ? verdict : 'not known'}`;
        }),
      );
      const drawn = new Map(
        picture.parts.map((part) => [
          `${(picture.names[part.name] ?? '').toLowerCase()}|${part.tone}`,
          part.records.length,
        ]),
      );
      expect(drawn).toEqual(loop);
      for (const [name] of picture.names.entries()) {
        const own = picture.parts.filter((part) => part.name === name);
        expect(own.map(({ from }) => from)).toEqual([0, ...own.map(({ to }) => to)].slice(0, -1));
      }
      const rows = picture.table.rows.map((row) =>
        row.slice(1, -1).reduce((sum: number, cell) => sum + Number(cell), 0),
      );
      expect(rows).toEqual(picture.table.rows.map((row) => row.at(-1)));
    });
  });

  test('of more areas than can be drawn put the smallest together', () => {
    const state = emptyBook('metric');
    const book = new Workbook(state);
    book.addRecords(
      'Belts',
      0,
      Array.from({ length: 60 }, (_, record) => [`B${record}`, `Area ${record % 20}`]),
    );
    const groups = beltsByArea(book);
    expect(groups).toHaveLength(12);
    expect(groups.at(-1)?.name).toBe('other areas');
    expect(groups.flatMap(({ records }) => records).toSorted((one, other) => one - other)).toEqual(
      Array.from({ length: 60 }, (_, record) => record),
    );
  });
});

describe('what is due', () => {
  test('has every belt with a due date once, under the month or year of that date', () => {
    overBooks((book) => {
      const { groups, unknown } = beltsByDue(book);
      const records = groups.flatMap((group) => group.records);
      expect([...records, ...unknown].toSorted((one, other) => one - other)).toEqual(beltRecords(book));
      const review = book.named('ReviewDate');
      for (const group of groups)
        for (const record of group.records) {
          const due = Number(book.read('Belts', record, 'Due'));
          if (group.name === overdue) expect(due).toBeLessThan(Number(review));
          else if (group.name !== 'later') expect(isoDate(Math.floor(due))).toMatch(new RegExp(`^${group.name}\\b`));
        }
    });
  });

  test('costs what the joints of these belts cost', () => {
    overBooks((book) => {
      const picture = spendDue(book);
      let loop = 0;
      for (const record of beltsByDue(book).groups.flatMap(({ records }) => records)) {
        const [cost, joints] = [book.read('Belts', record, 'Joint cost'), book.read('Belts', record, 'Joints')];
        if (typeof cost === 'number' && typeof joints === 'number') loop += cost * joints;
      }
      const sum = picture.table.rows.reduce((total, row) => total + Number(row[1]), 0);
      expect(sum).toBeCloseTo(loop, 6);
    });
  });
});

describe('a histogram over belts', () => {
  test('has each number in the bin that holds it', () => {
    overBooks((book) => {
      for (const header of ['Working tension', 'Plates', 'Due', 'Rating used']) {
        const column = columnOf(book, header);
        const picture = beltHistogram(book, column);
        const numbers = beltRecords(book).flatMap((record) => {
          const value = book.value({ sheet: 'Belts', record, column: book.findColumn('Belts', header) ?? -1 });
          return typeof value === 'number' ? [{ record, value }] : [];
        });
        expect(picture.parts.reduce((sum, { count }) => sum + count, 0)).toBe(numbers.length);
        for (const part of picture.parts) {
          const last = part === picture.parts.at(-1);
          expect(part.records).toEqual(
            numbers
              .filter(({ value }) => value >= part.from && (value < part.to || (last && value <= part.to)))
              .map(({ record }) => record),
          );
        }
        const middle = picture.marks.find(({ name }) => name === 'middle');
        const sorted = numbers.map(({ value }) => value).toSorted((one, other) => one - other);
        if (sorted.length > 0)
          expect(middle?.at).toBeCloseTo(
            ((sorted[Math.floor((sorted.length - 1) / 2)] ?? NaN) +
              (sorted[Math.ceil((sorted.length - 1) / 2)] ?? NaN)) /
              2,
            9,
          );
      }
    });
  });

  test('of what is used of a limit marks those beyond it, as their checks do', () => {
    const book = new Workbook(demoBook('metric'));
    const failing = (header: 'Tension check' | 'Pulley check'): number[] =>
      beltRecords(book).filter((record) => book.read('Belts', record, header) === 'fails');
    for (const [picture, header] of [
      [ratingUsed(book), 'Tension check'],
      [pulleyUsed(book), 'Pulley check'],
    ] as const) {
      const over = picture.parts.filter(({ tone }) => tone === 'over').flatMap(({ records }) => records);
      expect(over.length).toBeGreaterThan(0);
      expect(over.toSorted((one, other) => one - other)).toEqual(failing(header));
    }
  });
});

describe('a column against another', () => {
  test('has a dot where both are known, at their values', () => {
    overBooks((book) => {
      const picture = beltDots(book, columnOf(book, 'Width'), columnOf(book, 'Joint cost'));
      const loop = beltRecords(book).flatMap((record) => {
        const [x, y] = [book.read('Belts', record, 'Width'), book.read('Belts', record, 'Joint cost')];
        return typeof x === 'number' && typeof y === 'number' ? [[record, x, y]] : [];
      });
      expect(
        picture.parts
          .map(({ records, x, y }) => [records[0], x, y])
          .toSorted((one, other) => Number(one[0]) - Number(other[0])),
      ).toEqual(loop);
    });
  });

  test('puts words at their places, verdicts from bad to good, and refuses too many', () => {
    const book = new Workbook(demoBook('metric'));
    const picture = beltDots(book, columnOf(book, 'Area'), columnOf(book, 'Verdict'));
    expect(picture.y.names).toEqual(['fails', 'not known', 'tight', 'fits']);
    for (const { records, x, y } of picture.parts) {
      expect(picture.x.names?.[x]).toBe(book.read('Belts', records[0] ?? -1, 'Area'));
      expect(picture.y.names?.[y]).toBe(book.read('Belts', records[0] ?? -1, 'Verdict'));
    }
    expect(() => beltDots(book, columnOf(book, 'Belt'), columnOf(book, 'Width'))).toThrow(PictureRefused);
  });

  test('draws so many of many belts, and lists all', () => {
    const book = new Workbook(emptyBook('metric'));
    const width = book.column('Belts', 'Width');
    const speed = book.column('Belts', 'Speed');
    book.addRecords(
      'Belts',
      0,
      Array.from({ length: 2500 }, (_, record) => {
        const cells: (string | number | null)[] = [`B${record}`];
        cells[width] = 500 + record;
        cells[speed] = 1 + (record % 7) / 10;
        return Array.from(cells, (cell) => cell ?? null);
      }),
    );
    const picture = beltDots(book, columnOf(book, 'Width'), columnOf(book, 'Speed'));
    expect(picture.parts).toHaveLength(mostDots);
    expect(new Set(picture.parts.flatMap(({ records }) => records)).size).toBe(mostDots);
    expect(picture.table.rows).toHaveLength(2500);
    expect(picture.says).toContain('2000 belts of 2500');
  });
});

test('expected failing belts are the sum of their chances', () => {
  const book = new Workbook(demoBook('metric'));
  const chances = new Map(beltRecords(book).map((record) => [record, (record % 5) / 4] as const));
  const picture = expectedFailing(book, chances, 100);
  const loop = [...chances.values()].reduce((sum, chance) => sum + chance, 0);
  expect(picture.parts.reduce((sum, { to }) => sum + to, 0)).toBeCloseTo(loop, 9);
  expect(picture.parts.flatMap(({ records }) => records).toSorted((one, other) => one - other)).toEqual(
    [...chances].flatMap(([record, chance]) => (chance > 0 ? [record] : [])),
  );
});

test('an empty book has pictures without parts that say so', () => {
  const book = new Workbook(emptyBook('metric'));
  for (const picture of [
    verdictsByArea(book),
    jointsDue(book),
    spendDue(book),
    ratingUsed(book),
    pulleyUsed(book),
    beltHistogram(book, columnOf(book, 'Width')),
    beltDots(book, columnOf(book, 'Width'), columnOf(book, 'Area')),
  ]) {
    expect(picture.parts).toEqual([]);
    expect(picture.says).not.toMatch(/NaN|undefined|Infinity/);
  }
});
