import { describe, expect, test } from 'vitest';
import { crewsAndWindows } from '../../src/outage/crews-and-windows.ts';
import { momentText } from '../../src/outage/moments.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import type { CellEdit } from '../../src/workbook/state-changes.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { columnOf } from '../workbook/books.ts';

const put = (book: Workbook, sheet: string, record: number, header: string, content: CellEdit['content']): void =>
  book.edit([{ sheet, record, column: columnOf(book, sheet, header), content }]);

describe('crews and windows to choose among', () => {
  test('are those of the book, with when they are there', () => {
    const { crews, windows, rows, remarks } = crewsAndWindows(new Workbook(demoBook('metric')));
    expect(
      crews.map(({ name, people, area, shift, from, to }) => [
        name,
        people,
        area,
        shift,
        from === undefined ? undefined : momentText(from),
        to === undefined ? undefined : momentText(to),
      ]),
    ).toEqual([
      ['Day crew', 4, undefined, '06:00 to 18:00', undefined, undefined],
      ['Night crew', 3, undefined, '18:00 to 06:00', undefined, undefined],
      ['Crusher fitters', 3, 'Crusher', '06:00 to 14:00', undefined, undefined],
      ['Hired crew', 5, undefined, undefined, '2027-01-02 06:00', '2027-01-04 06:00'],
    ]);
    expect(windows.map(({ name, area, lossShare }) => [name, area, lossShare])).toEqual([
      ['New Year stop', undefined, 0.25],
      ['Crusher day', 'Crusher', undefined],
      ['Quay night', 'Quay', 0.5],
      ['Spring stop', undefined, 0],
    ]);
    expect(rows).toEqual({ crews: 4, windows: 4 });
    expect(remarks).toEqual([]);
  });

  test('leave out rows that can not be used, and tell the cells', () => {
    const book = new Workbook(demoBook('metric'));
    put(book, 'Crews', 0, 'People', 'some');
    put(book, 'Crews', 1, 'Shift to', null);
    put(book, 'Crews', 2, 'Shift to', 24);
    put(book, 'Windows', 0, 'End', 44_000);
    const { crews, windows, rows, remarks } = crewsAndWindows(book);
    expect(crews.map(({ name, shift }) => [name, shift])).toEqual([
      ['Crusher fitters', '06:00 to 24:00'],
      ['Hired crew', undefined],
    ]);
    expect(windows.map(({ name }) => name)).toEqual(['Crusher day', 'Quay night', 'Spring stop']);
    expect(rows).toEqual({ crews: 4, windows: 4 });
    expect(remarks.map(({ cell }) => cell)).toEqual(expect.arrayContaining(['Crews!B2', 'Crews!E3', 'Windows!C2']));
    book.destroy();
  });
});
