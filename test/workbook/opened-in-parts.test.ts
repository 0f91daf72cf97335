import { expect, test } from 'vitest';
import { belts } from '../../sheets/belts/index.ts';
import { headerPosition } from '../../src/workbook/declared.ts';
import { workbookInParts } from '../../src/workbook/opened-in-parts.ts';
import { blockSize } from '../../src/workbook/record-blocks.ts';
import { withContents } from '../../src/workbook/state-changes.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { fleet } from '../bench/fleet.ts';

const count = blockSize + 20;

/** With a formula of the user's in an input and a computed cell that is overridden. */
const state = withContents(fleet(count), [
  { sheet: belts.name, record: 3, column: headerPosition('Belts', 'Lift'), content: '=Belts!D2/100' },
  { sheet: belts.name, record: blockSize + 1, column: headerPosition('Belts', 'Verdict'), content: 'fits' },
]);

const valuesOf = (made: Workbook): unknown[] =>
  made.state.sheets.flatMap(({ name, rows }) =>
    rows.flatMap((_, record) => made.columns(name).map((__, column) => made.value({ sheet: name, record, column }))),
  );

test('a book worked out in slices rests between them and has the values of one worked out in one go', async () => {
  const whole = new Workbook(state);
  let [rests, clock, largest] = [0, 0, 0];
  let since = 0;
  const opened = await workbookInParts(
    state,
    () => {
      rests += 1;
      largest = Math.max(largest, clock - since);
      since = clock;
      return Promise.resolve();
    },
    // Each look at the clock stands for a part that took a millisecond.
    () => (clock += 1),
  );
  expect(valuesOf(opened)).toEqual(valuesOf(whole));
  // Two blocks of all computed columns of Belts alone; no slice has more parts than the clock allows.
  expect(rests).toBeGreaterThan((2 * belts.columns.filter(({ formula }) => formula !== undefined).length) / 20);
  expect(largest).toBeLessThan(20);
});

test('it takes edits like any other', async () => {
  const opened = await workbookInParts(fleet(3), () => Promise.resolve());
  opened.edit([{ sheet: belts.name, record: 1, column: opened.column('Belts', 'Lift'), content: 12 }]);
  expect(valuesOf(opened)).toEqual(valuesOf(new Workbook(opened.state)));
});
