import { afterAll, describe, expect, it } from 'vitest';
import { contentText, copiedText, entryText } from '../../src/page/cell-text.ts';
import { habitEdit } from '../../src/page/habit-setting.ts';
import { cellText } from '../../src/page/cell-text.ts';
import { looseEntry } from '../../src/records/loose-entry.ts';
import { habitsOf, understood } from '../../src/records/typed-entry.ts';
import { emptyBook } from '../../src/workbook/declared.ts';
import type { CellPlace } from '../../src/workbook/place.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** Numbers, shares, prices and days as they are typed where nothing says what a cell holds. */

const nothing = {};

describe('a text in a cell of the user’s own', () => {
  it.each([
    ['10%', { content: 0.1, format: { kind: 'number', digits: 0, percent: true } }],
    ['7 %', { content: 0.07, format: { kind: 'number', digits: 0, percent: true } }],
    ['12.5%', { content: 0.125, format: { kind: 'number', digits: 1, percent: true } }],
    ['1,250.00', { content: 1250, format: { kind: 'number', digits: 2 } }],
    ['1.250,5', { content: 1250.5, format: { kind: 'number', digits: 1 } }],
    ['1e999', { content: '1e999' }],
    ['1 250', { content: 1250 }],
    ['12,5', { content: 12.5 }],
    ['$1,250.00', { content: 1250, format: { kind: 'money', digits: 2 }, currency: '$' }],
    ['12.50 €', { content: 12.5, format: { kind: 'money', digits: 2 }, currency: '€' }],
    ['2026-03-04', { content: 46085, format: { kind: 'date' } }],
    ['13/4/2026', { content: 46125, format: { kind: 'date' } }],
    ['4 March 2026', { content: 46085, format: { kind: 'date' } }],
    ['-5', { content: -5 }],
    ['1e3', { content: 1000 }],
    ['5.', { content: 5 }],
    ['.5', { content: 0.5 }],
    ['TRUE', { content: true }],
    ['007', { content: '007' }],
    ['3/4', { content: '3/4' }],
    ['1.2.3', { content: '1.2.3' }],
    ['2x75 kW', { content: '2x75 kW' }],
    ['May 2026', { content: 'May 2026' }],
    ['1,250', { content: '1,250', asks: 'decimal' }],
    ['1.250', { content: '1.250', asks: 'decimal' }],
    ['3/4/2026', { content: '3/4/2026', asks: 'dates' }],
  ])('"%s"', (text, wanted) => expect(looseEntry(text, nothing, false)).toEqual(wanted));

  it('is read by the habits of the book', () => {
    expect(looseEntry('1,250', { decimal: 'point' }, false)).toEqual({ content: 1250 });
    expect(looseEntry('1,250', { decimal: 'comma' }, false)).toEqual({ content: 1.25 });
    expect(looseEntry('1.250', { decimal: 'comma' }, false)).toEqual({ content: 1250 });
    expect(looseEntry('12.5', { decimal: 'comma' }, false)).toEqual({ content: 12.5 });
    expect(looseEntry('12,5', { decimal: 'point' }, false)).toEqual({ content: 12.5 });
    expect(looseEntry('3/4/2026', { dates: 'day first' }, false).content).toBe(46115);
    expect(looseEntry('3/4/2026', { dates: 'month first' }, false).content).toBe(46085);
    expect(looseEntry('13/4/2026', { dates: 'month first' }, false).content).toBe(46125);
  });

  it('is per cent where the cell shows it so', () => expect(looseEntry('5', nothing, true)).toEqual({ content: 0.05 }));
});

describe('a book', () => {
  const book = new Workbook(emptyBook('metric'));
  afterAll(() => book.destroy());
  book.addSheet('Mine', 4, 6);
  book.addRecords('Belts', 0, [[]]);
  const cell = { sheet: 'Mine', record: 0, column: 0 };

  it('asks, in own cells and in those of the sheet, until it is told', () => {
    const width = { sheet: 'Belts', record: 0, column: book.column('Belts', 'Width') };
    const installed = { ...width, column: book.column('Belts', 'Installed') };
    expect(understood(book, cell, '1,250').asks).toBe('decimal');
    expect(understood(book, width, '1,250').asks).toBe('decimal');
    expect(understood(book, installed, '3/4/2026').asks).toBe('dates');
    book.edit([habitEdit(book, 'decimal', 'point'), habitEdit(book, 'dates', 'month first')]);
    expect(habitsOf(book)).toEqual({ decimal: 'point', dates: 'month first' });
    expect(understood(book, cell, '1,250').content).toBe(1250);
    expect(understood(book, width, '1,250').content).toBe(1250);
    expect(understood(book, installed, '3/4/2026').content).toBe(46085);
  });

  it('shows a share as it was typed, edits and copies it so, and reads that again as the same', () => {
    const { content, format } = understood(book, cell, '12.5%');
    book.edit([{ ...cell, content, format }]);
    const [column] = book.columns('Mine');
    if (column === undefined) throw new Error('the sheet has no column');
    expect(cellText(book, column, cell)).toBe('12.5\u202f%');
    expect(entryText(book, cell)).toBe('12.5%');
    expect(copiedText(0.125, 'number', true)).toBe('12.5%');
    expect(understood(book, cell, '12.5%').content).toBe(0.125);
    expect(contentText(0.07, 'number', true)).toBe('7%');
  });

  it('opens an editor with its decimal mark, which is read again as it was', () => {
    const width = { sheet: 'Belts', record: 0, column: book.column('Belts', 'Width') };
    book.edit([habitEdit(book, 'decimal', 'comma'), { ...width, content: 1.234 }]);
    expect(entryText(book, width)).toBe('1,234');
    expect(understood(book, width, '1,235').content).toBe(1.235);
    expect(understood(book, width, '1.235').content).toBe(1235);
    expect(understood(book, cell, '=ROUND(A2*1,5)').told?.join(' ')).toContain('write 1.5');
    expect(understood(book, cell, '=ROUND(A2, 5)&"1,5"').told).toEqual([]);
    book.edit([habitEdit(book, 'decimal', 'point')]);
    expect(entryText(book, width)).toBe('1.234');
  });

  it('takes a day’s look back when a number is typed over it', () => {
    const day = understood(book, { ...cell, record: 1 }, '2026-03-04');
    book.edit([{ ...cell, record: 1, content: day.content, format: day.format }]);
    expect(book.kind({ ...cell, record: 1 })).toBe('date');
    expect(understood(book, { ...cell, record: 1 }, '12')).toEqual({ content: 12, format: { kind: 'number' } });
  });

  it('shows a formula that gives a day as one, unless its cell says otherwise', () => {
    const place = (record: number, column = 0): CellPlace => ({ sheet: 'Mine', record, column });
    const day = { kind: 'date' };
    book.edit([{ ...place(0, 3), content: 46112, format: { kind: 'date' } }]);
    const formatOf = (formula: string, at = place(1, 1)): unknown => understood(book, at, formula).format;
    for (const formula of ['=TODAY()', '=D2', '=D2+30', '=(D2-7)', '=MAX(D2,1)', '=IF(1,D2,0)', '=EDATE(D2,3)'])
      expect([formula, formatOf(formula)]).toEqual([formula, day]);
    for (const formula of ['=D2-D2', '=TODAY()-D2', '=D3+1', '=YEAR(D2)', '=D2*2', '=SUM(', '="x"', '=ZZ99'])
      expect([formula, formatOf(formula)]).toEqual([formula, undefined]);
    book.edit([{ ...place(2, 1), content: 5, format: { kind: 'number', digits: 2 } }]);
    expect(formatOf('=D2+1', place(2, 1))).toBeUndefined();
  });
});
