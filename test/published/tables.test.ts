import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { quantities, type QuantityKind } from '../../src/units/quantities.ts';
import { answer } from '../evaluation.ts';
import { table, tolerance } from './table.ts';

const files = readdirSync(new URL('.', import.meta.url)).filter(
  (name) => name.endsWith('.csv') && name !== 'units.csv',
);

test('there are tables to check against', () => {
  expect(files.length).toBeGreaterThan(5);
});

describe.each(files)('%s', (file) => {
  const { rows } = table(file);
  test.each(rows.map((row) => [row.formula ?? '', row]))('%s', (formula, { printed = '', print = '' }) => {
    const difference = Math.abs(answer(formula) - Number(printed));
    expect(difference, `${formula} against ${printed}`).toBeLessThanOrEqual(tolerance(printed, print));
  });
});

describe('units.csv', () => {
  const isKind = (word: string): word is QuantityKind => Object.hasOwn(quantities, word);
  test.each(table('units.csv').rows.map((row) => [row.kind ?? '', row]))(
    '%s',
    (kind, { printed = '', print = '', metric, us }) => {
      if (!isKind(kind)) throw new Error(`no quantity ${kind}`);
      const quantity = quantities[kind];
      expect([quantity.metric, quantity.us]).toEqual([metric, us]);
      expect(Math.abs(quantity.metricPerUs - Number(printed))).toBeLessThanOrEqual(tolerance(printed, print));
    },
  );
});
