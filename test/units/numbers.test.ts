import { expect, test } from 'vitest';
import { leadingNumber } from '../../src/units/numbers.ts';

test('a number that is too large is named with its power of ten', () => {
  expect(leadingNumber('-1e999 mm')).toEqual({ reason: '"-1e999" is too large to be a number' });
  expect(leadingNumber('1e308 mm')).toMatchObject({ value: 1e308 });
});
