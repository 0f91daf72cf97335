import { expect, test } from 'vitest';
import type { BeltHeader } from '../../sheets/index.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { figuresPutIn } from '../../src/workbook/put-in-figures.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { belts } from '../../sheets/belts/index.ts';
import { isComputed } from '../../src/sheet/declaration.ts';

const book = new Workbook(demoBook('metric'));
const record = book.sheet('Belts').rows.findIndex(({ cells }) => cells[0] === 'Q3');
const put = (header: BeltHeader): ReturnType<typeof figuresPutIn> =>
  figuresPutIn(book, { sheet: 'Belts', record, column: book.column('Belts', header) });

test('cells and named values stand there with their figures', () => {
  expect(put('Cut length')).toEqual({ text: 'SKEWLENGTH(1000,45)', table: undefined });
  expect(put('Verdict')).toBeUndefined();
  expect(put('Width')).toBeUndefined();
});

test('tables are told by their name, and the lines between which they were read', () => {
  const factor = put('Length factor');
  // Q3 is 118 m between its pulleys: 1.78 at 100 m, 1.58 at 150 m.
  expect(factor?.table).toBe('length factor at 118 m, between 100 and 150 m');
  expect(factor?.text).toContain('1.78');
  expect(factor?.text).not.toContain('IF(');
});

test('the term that governs a MAX or MIN is marked, once in each', () => {
  const marked = belts.columns.filter(isComputed).flatMap(({ header }) => {
    const text = put(header)?.text ?? '';
    return text.includes('▸') ? [[header, text] as const] : [];
  });
  expect(marked.length).toBeGreaterThan(3);
  for (const [header, text] of marked)
    expect({ header, marks: text.split('▸').length - 1 }).toEqual({
      header,
      marks: text.match(/\b(?:MAX|MIN)\(/g)?.length ?? 0,
    });
});
