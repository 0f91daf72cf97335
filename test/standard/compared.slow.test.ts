import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { isFault } from '../../src/formula/values.ts';
import { compared, notCompared, standardNames } from './compared.ts';
import { callKinds } from './standard-calls.ts';

/** Standard functions give what LibreOffice gives, or an error; the long run is `npm run bench functions`. */

const seed = Number(process.env['SKEWBOOK_SEED'] ?? 20_261_126);

test('every function that a formula may call is compared, or said why not', () => {
  const known = [...Object.keys(callKinds), ...Object.keys(notCompared)].toSorted();
  expect(standardNames()).toEqual(known);
});

describe('random calls of every function and operator', async () => {
  const results = await compared(30, seed);

  test.each(results)('$name', ({ counts, differences, name }) => {
    expect(
      differences.map(
        ({ formula, ours, theirs, error }) =>
          `=${formula}: ${isFault(ours) ? String(ours) : JSON.stringify(ours)} here, ` +
          `${error === '' ? JSON.stringify(theirs) : error} in LibreOffice`,
      ),
    ).toEqual([]);
    // A comparison of errors with errors proves nothing; NA() is nothing else.
    if (name !== 'NA') expect(counts.equal + counts.known).toBeGreaterThan(0);
  });
});

test('the committed table has every function, and no difference without a reason', () => {
  const table = readFileSync(new URL('standard-functions.md', import.meta.url), 'utf8');
  const rows = table.split('\n').filter((line) => /^\| [A-Za-z.0-9]+ \| \d/.test(line));
  expect(rows.map((line) => line.split('|')[1]?.trim())).toEqual([...Object.keys(callKinds), 'operators']);
  expect(table).toContain('Differences without a reason: 0.');
});
