import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, test } from 'vitest';
import { checked } from '../../src/cli/check.ts';
import { importLines } from '../../src/cli/import-report.ts';
import { listBook } from '../../src/cli/list-book.ts';
import type { ListOptions } from '../../src/cli/list-options.ts';
import { type Dealing, longList } from '../../src/cli/long/long-list.ts';
import type { Wanted } from '../../src/cli/long/part-model.ts';
import { withoutThreads } from '../../src/cli/long/part-workers.ts';
import { FileError } from '../../src/cli/usage-error.ts';
import { demoFile, demoRows, listFile, type Row, testFolder } from './lists.ts';

/** A list read in parts comes to the same as the list read whole: findings, report, exit code and JSON. */

const whole: Dealing = { from: Infinity, sizes: () => 0, workers: withoutThreads };
const inParts: Dealing = { from: 0, sizes: (part) => (part === 0 ? 7000 : 3000), workers: withoutThreads };

const plain: ListOptions = { choices: {}, date: 46_000, set: [], variants: [] };

async function answered(file: string, options: ListOptions, wanted: Wanted, dealing: Dealing): Promise<string> {
  try {
    const { answer, fails, close } = await checked(file, options, wanted, dealing);
    const text = [...answer].join('');
    close();
    return `${fails ? 'fails' : 'passes'}\n${text}`;
  } catch (error) {
    if (error instanceof FileError) return error.message;
    throw error;
  }
}

/** Whether the list was read in parts; compares what both ways come to. */
async function compared(file: string, options: ListOptions = plain): Promise<boolean> {
  for (const wanted of ['lines', 'json'] as const)
    expect(await answered(file, options, wanted, inParts)).toBe(await answered(file, options, wanted, whole));
  const results = await longList(file, options, 'lines', inParts).catch((error: unknown) => {
    if (error instanceof FileError) return undefined;
    throw error;
  });
  if (results === undefined) return false;
  const { report } = listBook(file, options);
  const joined = results.report;
  results.close();
  if (joined === undefined) throw new Error('there is no report');
  expect(importLines(file, joined)).toEqual(importLines(file, report));
  return true;
}

const lists = fileURLToPath(new URL('../xlsx/lists/', import.meta.url));

let folder = '';
beforeAll(async () => {
  folder = await testFolder();
  await demoFile(join(folder, 'plates.xlsx'));
});

test.each(readdirSync(lists).filter((name) => name.endsWith('.xlsx')))('%s', async (name) => {
  await compared(join(lists, name));
});

const headed = (rows: readonly Row[]): { readonly head: Row; readonly belts: readonly Row[] } => {
  const [head = [], ...belts] = rows;
  return { head, belts };
};

describe('the demo', () => {
  const { head, belts } = headed(demoRows());
  const at = (header: string): number => head.findIndex((text) => String(text).startsWith(header));
  const named = (row: Row, name: string): Row => row.with(0, name);

  test.each<[string, readonly Row[], Partial<ListOptions>]>([
    ['as it is', belts, {}],
    ['with filled blanks', belts, { choices: { fill: [{ column: 'Wrap angle', value: '180' }] } }],
    ['in the other system', belts, { choices: { units: 'us' } }],
    ['counted to today', belts, {}],
    ['with names twice', [...belts, ...belts.slice(3, 30)], {}],
    [
      'with names that differ in case',
      [...belts, ...belts.map((row) => named(row, ` ${String(row[0]).toLowerCase()} `))],
      {},
    ],
    ['with belts without a name', belts.map((row, index) => (index % 5 === 2 ? row.with(0, null) : row)), {}],
    [
      'with a remark and a total',
      [...belts, ['Total', belts.length], [], ['Prepared by the planner of the shift']],
      {},
    ],
    [
      'with headings',
      belts.flatMap((row, index) => (index % 9 === 4 ? [[`Area ${'abcdefgh'[index % 7]}`], row] : [row])),
      {},
    ],
    ['with blank lines', belts.flatMap((row, index) => (index % 4 === 3 ? [[], row] : [row])), {}],
    [
      'with damage',
      belts.map((row, index) =>
        row.with(1 + ((index * 5) % (row.length - 1)), ['??', '#N/A', -4, 'x"y', 1e9][index % 5] ?? ''),
      ),
      {},
    ],
    [
      'with a day that is none',
      belts.map((row, index) => (index === 30 ? row.with(at('Last joint'), 'soon') : row)),
      {},
    ],
    ['with units in late cells', belts.map((row, index) => (index > 25 ? row.with(at('Width'), '36 in') : row)), {}],
    [
      'with series that nobody knows',
      belts.map((row, index) => (index % 3 === 1 ? row.with(at('Plate series'), 'None such') : row)),
      {},
    ],
    ['without a column', belts.map((row) => row.with(at('Thickness'), null)), {}],
  ])('%s', async (title, rows, options) => {
    const file = await listFile(join(folder, `${title}.xlsx`), { Fleet: [head, ...rows], Notes: [['a note'], [1, 2]] });
    const series = join(folder, 'plates.xlsx');
    expect(await compared(file, { ...plain, series, ...options })).toBe(true);
    if (title === 'with names twice') expect(await compared(file)).toBe(true);
  });

  test.each<[string, Readonly<Record<string, readonly Row[]>>]>([
    [
      'another list below',
      { Fleet: [head, ...belts, [], head, ...belts.map((row) => named(row, `${String(row[0])}x`))] },
    ],
    ['marks that repeat', { Fleet: [head, ...belts.map((row, index) => (index % 3 === 2 ? row.with(2, '"') : row))] }],
    [
      'belts in two sheets',
      { Fleet: [head, ...belts], More: [head, ...belts.slice(0, 3).map((row) => named(row, `${String(row[0])}x`))] },
    ],
  ])('what rows tell only together is read whole: %s', async (title, sheets) => {
    expect(await compared(await listFile(join(folder, `${title}.xlsx`), sheets))).toBe(false);
  });
});
