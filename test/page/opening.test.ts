import { expect, test } from 'vitest';
import { formulaCells, openable, type Trial } from '../../src/page/opening.ts';
import type { Content } from '../../src/formula/values.ts';
import type { BookState } from '../../src/workbook/state.ts';
import { headerPosition } from '../../src/workbook/declared.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { bookOf, soundBelt } from '../workbook/books.ts';
import { faulty, withPlantedFault } from '../workbook/planted-fault.ts';

/** A stored book opens whatever comes of working it out, and the cell that is the cause is named. */

withPlantedFault();
const withWidths = (...widths: readonly Content[]): BookState =>
  bookOf({ belts: widths.map((width, index) => ({ ...soundBelt, Belt: `B${index}`, Width: width })) });
const widths = ({ sheets }: BookState): unknown[] =>
  (sheets.find(({ name }) => name === 'Belts')?.rows ?? []).map(({ cells }) => cells[headerPosition('Belts', 'Width')]);

const workedOut: Trial = (state) => {
  try {
    new Workbook(state).destroy();
    return Promise.resolve(undefined);
  } catch (error) {
    return Promise.resolve(String(error));
  }
};

test('a book that can be worked out is opened as it is', async () => {
  const state = withWidths(800, '=D2');
  expect(await openable(state, workedOut)).toEqual({ state, told: undefined });
});

test('the formulas at fault stand as texts, are named and marked; the others stay', async () => {
  const state = withWidths(800, '=D2', faulty, '=D3', faulty);
  const { state: opened, told } = await openable(state, workedOut);
  expect(told).toContain('The cause is Belts D4, Belts D6: its formula');
  expect(opened === undefined ? [] : widths(opened)).toEqual([800, '=D2', ` ${faulty}`, '=D3', ` ${faulty}`]);
  expect(opened?.sheets[0]?.rows[2]?.notes?.[3]).toContain('stopped the book from opening');
});

test('a search that takes too long ends with all formulas as texts', async () => {
  const state = withWidths('=D3', faulty, '=D3');
  let now = 0;
  const clock = performance.now.bind(performance);
  performance.now = () => now;
  const slow: Trial = (tried, milliseconds) => {
    const hangs = formulaCells(tried).length > 0;
    now += hangs ? milliseconds * 30 : 1;
    return Promise.resolve(hangs ? 'it took more than 2 s' : undefined);
  };
  const { state: opened, told } = await openable(state, slow);
  performance.now = clock;
  expect(told).toContain('All its 3 formulas are now text');
  expect(opened === undefined ? [] : widths(opened)).toEqual([' =D3', ` ${faulty}`, ' =D3']);
});

test('a book that fails without its formulas too is not opened, and says why', async () => {
  const failing: Trial = () => Promise.resolve('it is too large');
  expect(await openable(withWidths(800), failing)).toEqual({ state: undefined, told: 'it is too large' });
});
