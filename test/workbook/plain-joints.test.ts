import { expect, test } from 'vitest';
import { fleet } from '../bench/fleet.ts';
import { PlainFleet } from '../oracles/plain-fleet.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** The bench's plain loops are written without the program's functions: they are a second opinion on every figure. */

test('every computed column agrees with plain arithmetic, within a relative 1e-9', () => {
  const book = new Workbook(fleet(360));
  expect(new PlainFleet(book).disagreements(book)).toEqual([]);
});

test('the comparison sees a figure that is wrong', () => {
  const book = new Workbook(fleet(36));
  const plain = new PlainFleet(book);
  book.edit([{ sheet: 'Belts', record: 2, column: book.column('Belts', 'Width'), content: 1000.00001 }]);
  expect(plain.disagreements(book).map((line) => line.split(':')[0])).toContain('Belts, B00003, Cut length');
});
