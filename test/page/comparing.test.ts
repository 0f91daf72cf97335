import { expect, test } from 'vitest';
import { Comparing } from '../../src/page/comparing.ts';
import { packed, unpacked } from '../../src/page/library/packed-book.ts';
import { headerPosition } from '../../src/workbook/declared.ts';
import { type BookState, sheetOf } from '../../src/workbook/state.ts';
import { withContents } from '../../src/workbook/state-changes.ts';
import { bookOf, soundBelt } from '../workbook/books.ts';

/** The open book beside a file: nothing is settled by itself, and a book packed away comes back as it was. */

const base = bookOf({ belts: ['B1', 'B2', 'B3'].map((Belt) => ({ ...soundBelt, Belt, Width: 800 })) });
const width = headerPosition('Belts', 'Width');
const withWidths = (...widths: readonly number[]): BookState =>
  withContents(
    base,
    widths.map((content, record) => ({ sheet: 'Belts', record, column: width, content })),
  );
const widths = (state: BookState): unknown[] => sheetOf(state, 'Belts').rows.map(({ cells }) => cells[width]);

test('three-way, what both changed stays open until it is decided, and what is only mine is not asked', () => {
  const comparing = new Comparing(withWidths(700, 650, 800), { state: withWidths(900, 800, 850) }, { state: base });
  expect([comparing.offered.length, comparing.conflicts.length, comparing.own, comparing.alike]).toEqual([1, 1, 1, 0]);
  expect([comparing.taken, comparing.undecided]).toEqual([1, 1]);
  expect(() => comparing.merged()).toThrow('a conflict is not decided');
  comparing.take(comparing.conflicts, true);
  expect(widths(comparing.merged())).toEqual([900, 650, 850]);
  comparing.take(comparing.conflicts, false);
  comparing.take(comparing.offered, false);
  expect(widths(comparing.merged())).toEqual([700, 650, 800]);
});

test('two-way, all that differs is offered, and nobody is said to have changed it', () => {
  const comparing = new Comparing(withWidths(700, 650, 800), { state: withWidths(900, 800, 800) });
  expect([comparing.threeWay, comparing.offered.length, comparing.conflicts.length, comparing.own]).toEqual([
    false,
    2,
    0,
    0,
  ]);
  expect(widths(comparing.merged())).toEqual([900, 800, 800]);
});

test('a book comes back from its pack as it was, smaller there; of a list the columns that it has', async () => {
  const covers = new Map([['Belts', new Set(['Belt', 'Width'])]]);
  const pack = await packed({ state: withWidths(700), covers });
  expect(await unpacked(pack)).toEqual({ state: withWidths(700), covers });
  expect(pack.bytes.byteLength * 4).toBeLessThan(JSON.stringify(base).length);
  expect((await packed({ state: withWidths(700) })).digest).toBe(pack.digest);
  expect((await packed({ state: withWidths(701) })).digest).not.toBe(pack.digest);
});

test('a pack of a later version or a damaged one is refused in words', async () => {
  const pack = await packed({ state: base });
  await expect(unpacked({ ...pack, format: pack.format + 1 })).rejects.toThrow('a later version of Skewbook stored it');
  const bytes = pack.bytes.slice();
  bytes.fill(7, 40, 60);
  await expect(unpacked({ ...pack, bytes })).rejects.toThrow('what is stored of it is damaged');
  await expect(unpacked({ ...pack, bytes: bytes.slice(0, 30) })).rejects.toThrow('damaged');
});
