import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { importLines } from '../../../src/cli/import-report.ts';
import { emptyBook } from '../../../src/workbook/declared.ts';
import { acceptImport } from '../../../src/xlsx/import/acceptance.ts';
import type { ImportResult } from '../../../src/xlsx/import/import-model.ts';
import { proposeImport } from '../../../src/xlsx/import/proposal.ts';
import type { RawBook } from '../../../src/xlsx/read/raw-book.ts';
import { readBook } from '../../../src/xlsx/read/read.ts';
import { unaccountedCells } from './accounted-cells.ts';

/** Lists in shapes that people have, as several programs wrote them, each with the report that it is to get. */

const folder = new URL('../lists/', import.meta.url);
const files = readdirSync(folder).filter(
  (name) => /\.(?:xlsx|ods|csv|tsv|txt)$/.test(name) && !name.includes('.report.'),
);

const read = (name: string): RawBook => readBook(new Uint8Array(readFileSync(new URL(name, folder))));

function imported(file: RawBook): ImportResult {
  return acceptImport(file, proposeImport(file), emptyBook('metric'));
}

test('there are enough of them, by every writer', () => {
  expect(files.length).toBeGreaterThanOrEqual(25);
  expect(new Set(files.map((name) => name.split('.').at(-1)))).toEqual(new Set(['xlsx', 'ods', 'csv', 'tsv', 'txt']));
});

describe.each(files)('%s', (name) => {
  const file = read(name);
  const result = imported(file);

  test('gets the report that it is to get', async () => {
    const lines = importLines(name, result.report).join('\n');
    await expect(`${lines}\n`).toMatchFileSnapshot(new URL(`${name}.report.txt`, folder).pathname);
  });

  test('has no cell that nobody is told of', () => {
    expect(unaccountedCells(file, result.report, result.state)).toEqual([]);
  });
});

test('a cell that the book lost is found', () => {
  const file = read('us-clean.xlsx');
  const { report, state } = imported(file);
  const [belts, ...rest] = state.sheets;
  if (belts === undefined) throw new Error('there is no list of belts');
  const [first, ...rows] = belts.rows;
  if (first === undefined) throw new Error('there is no belt');
  const planted = {
    ...state,
    sheets: [{ ...belts, rows: [{ ...first, cells: first.cells.with(0, null) }, ...rows] }, ...rest],
  };
  expect(unaccountedCells(file, report, planted)).toEqual([expect.stringContaining('A2 "CV-101"')]);
});
