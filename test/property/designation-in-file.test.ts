import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isFault } from '../../src/formula/values.ts';
import { designationFormulas, differencesFrom, headers, placeOf, readByFunctions } from './designation-columns.ts';
import { anyDesignation } from './designation-texts.ts';
import { evaluatedRows } from './row-formulas.ts';

/** What a file works out of a belt's designation, column by column, against the functions that read it. */

test('is what the functions read, of any text', () => {
  const texts = fc.sample(anyDesignation, { seed: 18, numRuns: 240 });
  const rows = evaluatedRows(texts, designationFormulas);
  const found = differencesFrom(texts, (index, header) => {
    const value = rows[index]?.[placeOf(header)] ?? null;
    return isFault(value) ? '#N/A' : value;
  });
  expect(found).toEqual([]);
  const read = texts.map(readByFunctions);
  for (const header of headers) {
    const answered = read.filter((answers) => !['', '#N/A'].includes(String(answers[header]))).length;
    expect(answered, header).toBeGreaterThan(texts.length / 10);
    expect(answered, header).toBeLessThan(texts.length * 0.95);
  }
});
