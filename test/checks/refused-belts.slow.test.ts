import { expect, test } from 'vitest';
import { findings } from '../../src/checks/findings.ts';
import { exportedBook } from '../../src/xlsx/write/write.ts';
import { recalculated } from '../xlsx/libreoffice.ts';
import { stamp } from '../xlsx/write/exported-book.ts';
import { differences } from '../xlsx/write/recalculated-values.ts';
import { refusedBook, trials } from './refused-belts.ts';

test.each(['metric', 'us'] as const)(
  'another program refuses the same belts from the exported file, %s',
  { timeout: 240_000 },
  async (units) => {
    const book = refusedBook(units);
    const { bytes } = await exportedBook(book, findings(book), { stamp });
    const { compared, differing } = differences(book, await recalculated(bytes));
    expect(differing).toEqual([]);
    expect(compared).toBeGreaterThan(trials.length * 2 * 150);
  },
);
