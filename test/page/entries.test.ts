import { describe, expect, it } from 'vitest';
import { Workbook } from '../../src/workbook/workbook.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { dateText, entryText, numberText } from '../../src/page/cell-text.ts';
import { Desk } from '../../src/page/desk.ts';
import { enter, put } from '../../src/page/editing.ts';
import { valueColumn } from '../../src/sheet/named-values.ts';
import { understood } from '../../src/records/typed-entry.ts';
import { pressed } from '../../src/page/keyboard.ts';
import type { BeltHeader } from '../../sheets/index.ts';

/** What typed texts become, and how values are written, without a browser. */

const metric = new Workbook(demoBook('metric'));
const us = new Workbook(demoBook('us'));
const place = (book: Workbook, header: BeltHeader, record = 0): { sheet: string; record: number; column: number } => ({
  sheet: 'Belts',
  record,
  column: book.column('Belts', header),
});
const content = (book: Workbook, header: BeltHeader, text: string): unknown =>
  understood(book, place(book, header), text).content;

describe('a typed text', () => {
  it.each<[BeltHeader, string, unknown]>([
    ['Width', '650', 650],
    ['Width', '18 in', 457.2],
    ['Width', '457,2 mm', 457.2],
    ['Width', '1.2 m', 1200],
    ['Power', '2 x 75 kW', 150],
    ['Installed', '2026-03-31', 46112],
    ['Installed', '31 March 2026', 46112],
    ['Skew', '22.5°', 22.5],
    ['Plate series', 'heron', 'Heron'],
    ['Service', 'FOOD; magnet', 'food, magnet'],
    ['Width', '', null],
    ['Width', '=1+1', '=1+1'],
    ['Belt', "'007", '007'],
  ])('in %s, "%s", is %s', (header, text, wanted) => expect(content(metric, header, text)).toBe(wanted));

  it('is in inches where the book is', () => expect(content(us, 'Width', '508 mm')).toBeCloseTo(20, 12));

  it.each<[BeltHeader, string]>([
    ['Width', 'about so'],
    ['Width', '1,234'],
    ['Width', '600 - 650'],
    ['Installed', '03/04/2026'],
    ['Width', '40 kW'],
  ])('in %s, "%s", is kept as it is, with the reason', (header, text) => {
    const { content: kept, refusal } = understood(metric, place(metric, header), text);
    expect(kept).toBe(text);
    expect(refusal?.reason).not.toBe('');
    expect(refusal?.allowed).not.toBe('');
  });

  it("is no override when it is the sheet's own formula", () => {
    const cut = place(metric, 'Cut length');
    expect(understood(metric, cut, entryText(metric, cut)).content).toBeNull();
    expect(understood(metric, cut, '=1').content).toBe('=1');
  });
});

describe('edits beyond the last record', () => {
  it('add records, one step to undo', () => {
    const book = new Workbook(demoBook('metric'));
    const { length } = book.sheet('Belts').rows;
    const column = book.column('Belts', 'Width');
    put(
      new Desk(book),
      [
        { sheet: 'Belts', record: length - 1, column, content: 500 },
        { sheet: 'Belts', record: length + 1, column, content: 600 },
      ],
      'paste',
    );
    expect(book.sheet('Belts').rows).toHaveLength(length + 2);
    expect(book.content({ sheet: 'Belts', record: length - 1, column })).toBe(500);
    expect(book.content({ sheet: 'Belts', record: length + 1, column })).toBe(600);
    book.undo();
    expect(book.sheet('Belts').rows).toHaveLength(length);
  });
});

describe('what no book could hold is refused, and the book is as it was', () => {
  const at = place(metric, 'Belt');
  it.each<[string, { sheet: string; record: number; column: number; content: string }, string]>([
    [
      'a row too far down',
      { ...at, record: 100_000, content: 'x' },
      'Belts would have 100,001 rows; the maximum is 100,000',
    ],
    ['a column too far out', { ...at, column: 30_000, content: 'x' }, 'own columns; the maximum is 800,000 such cells'],
    [
      'a text',
      { ...at, content: 'x'.repeat(32_768) },
      'in Belts A2 was refused, and the book is unchanged: a text has 32,768',
    ],
  ])('%s', (_name, edit, words) => {
    const { state } = metric;
    const desk = new Desk(metric);
    put(desk, [edit], 'paste');
    expect(desk.notices.map(({ text }) => text).join(' ')).toContain(words);
    expect(metric.state).toBe(state);
  });
});

describe('a number on show', () => {
  it.each([
    [1200, 0, true, '1200'],
    [457.25, 0, true, '457.25'],
    [457.256, 0, false, '457'],
    [13.6, 1, true, '13.6'],
    [6, 1, true, '6.0'],
    [16_000, 0, false, '16\u202f000'],
    [-6, 1, true, '\u22126.0'],
    [0.0012, undefined, true, '0.0012'],
    [1e-9, 2, false, '1e-9'],
  ])('%s with %s digits, entered %s, is %s', (value, digits, entered, text) =>
    expect(numberText(value, digits, entered)).toBe(text),
  );

  it('is a day when it counts days', () => {
    expect(dateText(46112)).toBe('2026-03-31');
    expect(dateText(-5)).toBe('-5');
  });
});

describe('a key', () => {
  const event = (key: string, code: string, more: Partial<KeyboardEvent> = {}): KeyboardEvent =>
    ({ key, code, ctrlKey: false, metaKey: false, altKey: false, shiftKey: false, ...more }) as KeyboardEvent;
  it('is named by what it types, or by its place where Alt changes that', () => {
    expect(pressed(event('z', 'KeyY', { ctrlKey: true }))).toBe('Ctrl+Z');
    expect(pressed(event('Î', 'KeyJ', { altKey: true, shiftKey: true }))).toBe('Alt+Shift+J');
    expect(pressed(event('F6', 'F6'))).toBe('F6');
  });
});

it('tells of the exchange rates that are left when the book counts in another currency', () => {
  const desk = new Desk(metric);
  const said: string[] = [];
  desk.say = (text) => void said.push(text);
  const record = metric.sheet('Assumptions').rows.findIndex(({ cells }) => cells[0] === 'BookCurrency');
  enter(desk, [{ sheet: 'Assumptions', record: record + 1, column: valueColumn, text: '1' }]);
  metric.undo();
  expect(said.join()).not.toContain('exchange rates');
  enter(desk, [{ sheet: 'Assumptions', record, column: valueColumn, text: 'USD' }]);
  metric.undo();
  expect(said.join()).toMatch(/still those of before: one GBP is 1\.\d+, .*\. Enter what each is worth in USD/);
});
