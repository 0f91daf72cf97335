import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { beforeAll, expect, test } from 'vitest';
import { demoFile, listFile, testFolder, textFile } from './lists.ts';
import {
  damagedRows,
  damages,
  difference,
  isInParts,
  plain,
  textStyles,
  togetherLists,
  uncutTexts,
} from './lists-in-parts.ts';

/**
 * A list read in parts comes to the same as the list read whole: findings, report, exit code, JSON and written cells.
 */

const lists = fileURLToPath(new URL('../xlsx/lists/', import.meta.url));

let folder = '';
beforeAll(async () => {
  folder = await testFolder();
  await demoFile(join(folder, 'plates.xlsx'));
});

test('lists in the shapes that people have', async () => {
  const names = readdirSync(lists).filter((name) => /\.(?:xlsx|csv|tsv|txt)$/.test(name) && !name.includes('.report'));
  expect(names.length).toBeGreaterThan(25);
  for (const name of names) expect(await difference(join(lists, name), plain, ['lines']), name).toBe('');
});

test('the demo with slips, filled and converted', async () => {
  const file = await listFile(join(folder, 'demo.xlsx'), {
    Fleet: damagedRows(['slips']),
    Notes: [['a note'], [1, 2]],
  });
  const options = {
    ...plain,
    series: join(folder, 'plates.xlsx'),
    choices: { units: 'us', fill: [{ column: 'Wrap angle', value: '180' }] },
  } as const;
  expect(await isInParts(file, options)).toBe(true);
  expect(await difference(file, options, ['book'])).toBe('');
});

test('a list with all that lists may have', async () => {
  const names = Object.keys(damages).filter((name) => !['a blank column', 'names in another case'].includes(name));
  const file = await listFile(join(folder, 'damaged.xlsx'), { Fleet: damagedRows(names) });
  expect(await isInParts(file)).toBe(true);
  expect(await difference(file, { ...plain, series: join(folder, 'plates.xlsx') }, ['json'])).toBe('');
});

test.each(Object.entries(togetherLists))('what rows tell only together is read whole: %s', async (title, sheets) => {
  expect(await isInParts(await listFile(join(folder, `${title}.xlsx`), sheets))).toBe(false);
});

test.each(textStyles)('a text is read in parts: $title', async ({ title, style }) => {
  const rows = damagedRows(['names twice', 'a total', 'headings', 'fields of several lines']);
  const file = textFile(join(folder, `${title}.csv`), rows, style);
  expect(await isInParts(file)).toBe(true);
  expect(await difference(file, plain, [style.delimiter === ';' ? 'book' : 'json'])).toBe('');
});

test('a text whose last lines alone show a decimal mark', async () => {
  // Lines so long that as many as tell a text's form have no mark yet.
  const named = (index: number): string => `${'A belt of the quarry '.repeat(2)}${index}`;
  const rows = Array.from({ length: 400 }, (_, index) => [named(index), index < 380 ? 800 : `${index},5`]);
  const file = textFile(join(folder, 'late.csv'), [['Belt', 'Width (mm)'], ...rows], { delimiter: ';' });
  expect(await isInParts(file)).toBe(true);
  expect(await difference(file, plain, ['json'])).toBe('');
});

test.each(Object.entries(uncutTexts))('a text that may be cut at a wrong place is read whole: %s', async (_, made) => {
  const file = made(folder);
  expect(await isInParts(file)).toBe(false);
  expect(await difference(file, plain, ['lines'])).toBe('');
});
