import { afterEach, describe, expect, it } from 'vitest';
import { contentText, copiedText, entryText, numberText, valueText } from '../../src/page/cell-text.ts';
import { habitsOf, understood } from '../../src/records/typed-entry.ts';
import { amount, share } from '../../src/sheet/words.ts';
import { groupedText, showMark } from '../../src/units/shown-mark.ts';
import { typedMark } from '../../src/what-if/typed-change.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { demoBook } from '../../src/workbook/demo.ts';

/** Numbers for people who write a decimal comma: shown so, and read back as they are shown. */

afterEach(() => showMark('point'));

describe('with a decimal comma', () => {
  it('all that writes numbers for people has it, and thousands stay told from decimals', () => {
    showMark('comma');
    expect(numberText(1234567.25, 2, false)).toBe('1\u202f234\u202f567,25');
    expect(valueText(-0.125, 'length', { digits: 3 }, 'metric', true)).toBe('\u22120,125');
    expect(valueText(0.125, 'number', { percent: true, digits: 1 }, 'metric', true)).toBe('12,5\u202f%');
    expect(contentText(457.2, 'length')).toBe('457,2');
    expect(copiedText(457.2, 'length')).toBe('457,2');
    expect(amount(12.75, { kind: 'length', digits: 2 }, 'metric')).toBe('12,75 mm');
    expect(share(0.0004)).toBe('0,04 %');
    expect(groupedText(1250.5, { minimumFractionDigits: 2 })).toBe('1.250,50');
  });

  it('what a cell shows for typing, and what is copied from it, comes back as the same number', () => {
    const book = new Workbook(demoBook('metric'));
    const [record, column] = [book.sheet('Assumptions').rows.findIndex(({ cells }) => cells[0] === 'DecimalMark'), 1];
    book.edit([{ sheet: 'Assumptions', record, column, content: 'comma' }]);
    const { decimal = 'point' } = habitsOf(book);
    showMark(decimal);
    const place = { sheet: 'Belts', record: 0, column: book.column('Belts', 'Thickness') };
    for (const number of [1.234, 1234, 0.5, 12.75, 1e-7, 1234567.891, 1.5e21]) {
      book.edit([{ ...place, content: number }]);
      expect(understood(book, place, entryText(book, place)).content).toBe(number);
      expect(understood(book, place, copiedText(number, 'length')).content).toBe(number);
    }
    book.destroy();
  });

  it('questions read a comma alone as it is shown', () => {
    expect(typedMark('1,234')).toBeUndefined();
    showMark('comma');
    expect(['1,234', '1.234', '1.234,5'].map(typedMark)).toEqual(['comma', 'point', undefined]);
  });
});
