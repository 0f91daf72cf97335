import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { checkColumns } from '../../sheets/belts/check-columns.ts';
import { findings } from '../../src/checks/findings.ts';
import { exportedBook } from '../../src/xlsx/write/write.ts';
import { testFolder } from '../cli/lists.ts';
import { ran } from '../cli/program.ts';
import { recalculated } from '../xlsx/libreoffice.ts';
import { stamp } from '../xlsx/write/exported-book.ts';
import { differences } from '../xlsx/write/recalculated-values.ts';
import { misjudged, refusedBook, trials } from './refused-belts.ts';

const isFinding = (item: unknown): item is { name: string; check: string; verdict: string } =>
  typeof item === 'object' && item !== null && 'name' in item && 'check' in item && 'verdict' in item;

/** What `check --json` prints, as the verdict of each belt and check; without a finding a check fits. */
function printedVerdicts(out: string): (belt: string, check: string) => string {
  const printed: unknown = JSON.parse(out);
  const list: unknown = typeof printed === 'object' && printed !== null && 'findings' in printed && printed.findings;
  const found = new Map(
    (Array.isArray(list) ? list : [])
      .filter(isFinding)
      .map(({ name, check, verdict }) => [`${name} ${check}`, verdict] as const),
  );
  const words = new Map<string, string>(checkColumns.map(({ header, word }) => [header, word]));
  return (belt, check) => found.get(`${belt} ${words.get(check) ?? ''}`) ?? 'fits';
}

test.each(['metric', 'us'] as const)(
  'another program refuses the same belts from the exported file, and so does the command line, %s',
  { timeout: 240_000 },
  async (units) => {
    const book = refusedBook(units);
    const { bytes } = await exportedBook(book, findings(book), { stamp });
    const { compared, differing } = differences(book, await recalculated(bytes));
    expect(differing).toEqual([]);
    expect(compared).toBeGreaterThan(trials.length * 2 * 150);

    const folder = await testFolder();
    writeFileSync(join(folder, 'refused.xlsx'), bytes);
    const { code, out, err } = await ran(['check', 'refused.xlsx', '--json'], { folder });
    rmSync(folder, { recursive: true });
    expect(err).toBe('');
    expect(code).toBe(1);
    expect(misjudged(printedVerdicts(out))).toEqual([]);
    // The comparison sees what is not found.
    expect(misjudged(() => 'fits')).toHaveLength(trials.length);
  },
);
