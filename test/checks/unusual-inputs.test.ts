import { afterAll, describe, expect, test } from 'vitest';
import { usualRanges } from '../../sheets/belts/usual-ranges.ts';
import { recordFindings } from '../../src/checks/findings.ts';
import { unusual } from '../../src/records/unusual-inputs.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** A number that is allowed and hardly ever meant is asked about, and nothing else comes of it. */

const books = { metric: new Workbook(demoBook('metric')), us: new Workbook(demoBook('us')) };
afterAll(() => {
  books.metric.destroy();
  books.us.destroy();
});
const place = (book: Workbook): { sheet: string; record: number; column: number } => ({
  sheet: 'Belts',
  record: 0,
  column: book.column('Belts', 'Width'),
});

describe('an unusual width', () => {
  test('is asked about, with what is usual', () => {
    const book = books.metric;
    book.edit([{ ...place(book), content: 1e8 }]);
    expect(unusual(book, place(book))).toMatch(/^Width is .*: is this meant\? Usual are 100 mm to 4.?000 mm\.$/u);
    const [finding] = recordFindings(book, 0).filter(({ message }) => message.includes('is this meant?'));
    expect(finding).toMatchObject({ verdict: 'compare', check: 'input', column: 'Width', cell: 'Belts!D2' });
    book.undo();
    expect(unusual(book, place(book))).toBeUndefined();
  });

  test('in the units of the book', () => {
    const book = books.us;
    book.edit([{ ...place(book), content: 800 }]);
    expect(unusual(book, place(book))).toContain('Usual are 3.937 in to 157.48 in');
    book.edit([{ ...place(book), content: 48 }]);
    expect(unusual(book, place(book))).toBeUndefined();
    book.undo();
    book.undo();
  });

  test('that is not allowed at all is refused, not asked about', () => {
    const book = books.metric;
    book.edit([{ ...place(book), content: -5 }]);
    expect(unusual(book, place(book))).toBeUndefined();
    book.undo();
  });
});

test('the demo has none in either system, and each range has room', () => {
  for (const book of Object.values(books))
    for (const record of book.sheet('Belts').rows.keys())
      expect(recordFindings(book, record).filter(({ message }) => message.includes('is this meant?'))).toEqual([]);
  for (const { min, max } of Object.values(usualRanges)) expect(max).toBeGreaterThan(min);
});
