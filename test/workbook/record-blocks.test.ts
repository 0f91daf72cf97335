import { expect, test } from 'vitest';
import { belts } from '../../sheets/belts/index.ts';
import { pulleys } from '../../sheets/series/pulleys.ts';
import { type Content, isFault, type Value } from '../../src/formula/values.ts';
import { randomNumbers } from '../../src/random/random-numbers.ts';
import { isComputed } from '../../src/sheet/declaration.ts';
import { computingSteps } from '../../src/workbook/declared.ts';
import { blockSize, RecordBlocks } from '../../src/workbook/record-blocks.ts';
import type { CellEdit } from '../../src/workbook/state-changes.ts';
import { wholly } from '../../src/workbook/parts.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { fleet } from '../bench/fleet.ts';

/** Records worked out block by block come to what each row comes to alone, whatever was changed in whatever order. */

const random = randomNumbers(20_261_127);
const pick = <Item>(list: readonly Item[]): Item | undefined => list[Math.floor(random() * list.length)];

const told = (value: Value): Value => (isFault(value) ? `${value.code} ${value.message}` : value);

const plain = [null, 'about 5', 0, -3, 1e9, 1e300, 12, true];
const formulas = ['=1/0', '=3*4'];

/** Cells that hold nothing, a word, another number or a formula where they should not, computed ones among them. */
function damages(book: Workbook, count: number, contents: readonly Content[]): CellEdit[] {
  return Array.from({ length: count }, () => {
    const sheet = random() < 0.8 ? belts : pulleys;
    const columns = sheet.columns.flatMap((column, at) => (isComputed(column) && random() < 0.8 ? [] : [at]));
    return {
      sheet: sheet.name,
      record: Math.floor(random() * book.sheet(sheet.name).rows.length),
      column: pick(columns) ?? 1,
      content: pick(contents) ?? null,
    };
  });
}

/** Computed cells that are not what their formula makes of the row as it is, in words. */
function disagreements(book: Workbook): string[] {
  return book.state.sheets.flatMap(({ name: sheet, rows }) => {
    const steps = computingSteps.filter(({ plan }) => plan.declaration.name === sheet);
    return rows.flatMap((_, record) =>
      steps.flatMap(({ plan, column, formula }) => {
        const place = { sheet, record, column };
        if (book.overridden(place)) return [];
        const [held, alone] = [told(book.value(place)), told(book.partValue(place, formula) ?? 0)];
        return Object.is(held, alone)
          ? []
          : [`${sheet} ${record} ${plan.columns[column]?.header ?? ''}: ${String(held)} instead of ${String(alone)}`];
      }),
    );
  });
}

const assumption = (content: number): CellEdit => ({ sheet: 'Assumptions', record: 0, column: 1, content });

test('every computed cell of a book of several blocks is what its row alone comes to', () => {
  const book = new Workbook(fleet(blockSize + 20));
  book.edit(damages(book, 300, plain));
  expect(disagreements(book)).toEqual([]);
});

test('so it is after changes of one cell, of some and of all, with formulas of the user among them', () => {
  const book = new Workbook(fleet(20));
  book.edit(damages(book, 60, [...plain, ...formulas]));
  expect(disagreements(book)).toEqual([]);
  book.edit([assumption(0.11)]);
  for (let edit = 0; edit < 6; edit += 1) book.edit(damages(book, edit * 3 + 1, [...plain, ...formulas]));
  expect(disagreements(book)).toEqual([]);
  expect(disagreements(new Workbook(book.state))).toEqual([]);
});

test('a block holds what an array of rows would', () => {
  const contents: readonly Value[] = [null, 0, -0, 1.5, 'text', '', true, false];
  const values = Array.from({ length: blockSize + 3 }, () => [1, 2, null, 'same'] as Value[]);
  const blocks = new RecordBlocks();
  wholly(blocks.loading(values.length, 4, (record, column) => values[record]?.[column] ?? null));
  for (let step = 0; step < 3000; step += 1) {
    const [record, column] = [Math.floor(random() * values.length), Math.floor(random() * 5)];
    const value = pick(contents) ?? null;
    blocks.store(record, column, value);
    const row = values[record];
    if (row !== undefined) row[column] = value;
    if (step % 100 === 0) expect(blocks.row(record)[column] ?? null).toBe(value);
  }
  const held = values.map((_, record) => [0, 1, 2, 3, 4].map((column) => blocks.value(record, column)));
  expect(held).toEqual(values.map((row) => [0, 1, 2, 3, 4].map((column) => row[column] ?? null)));
  blocks.store(values.length, 0, 5);
  expect([blocks.count, blocks.value(values.length, 0)]).toEqual([values.length, null]);
});
