import { expect, test } from 'vitest';
import { convertedBook } from '../../src/workbook/conversion.ts';
import { headerPosition } from '../../src/workbook/declared.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { demoCounts, demoRecords } from '../../src/workbook/demo-records.ts';
import { sheetOf } from '../../src/workbook/state.ts';
import { withContents } from '../../src/workbook/state-changes.ts';
import { imported } from '../xlsx/import/imported.ts';

/** A demo never stands in for a user's figures: its records are told from theirs until they are replaced. */

const demo = demoBook('metric');

test('every record of the demo but the standard steps is known again, through both unit systems', () => {
  const there = convertedBook(convertedBook(demo, 'us').state, 'metric').state;
  for (const state of [demo, there, demoBook('us')]) {
    const counts = new Map(demoCounts(state));
    expect(counts.get('Belts')).toBe(36);
    for (const name of ['Plate series', 'Strips', 'Suppliers', 'Offers', 'Shelf', 'Crews', 'Windows', 'Areas'])
      expect([name, counts.get(name)]).toEqual([name, sheetOf(state, name).rows.length]);
    expect(counts.get('Steps') ?? counts.get('Assumptions')).toBeUndefined();
  }
});

test("a record is the demo's while half of it is, and the user's once most was entered anew", () => {
  const column = headerPosition('Suppliers', 'Supplier');
  const filled = (sheetOf(demo, 'Suppliers').rows[0]?.cells ?? []).flatMap((content, at) =>
    content === null || at === column ? [] : [at],
  );
  const changed = (count: number): boolean =>
    demoRecords(
      withContents(
        demo,
        filled.slice(0, count).map((at) => ({ sheet: 'Suppliers', record: 0, column: at, content: 987 })),
      ),
      'Suppliers',
    ).has(0);
  expect([changed(0), changed(1), changed(Math.ceil(filled.length / 2) + 1), changed(filled.length)]).toEqual([
    true,
    true,
    false,
    false,
  ]);
});

test("a list with its own series over the demo stays invented while suppliers and crews are the demo's", () => {
  const sheets = [
    {
      name: 'Belts',
      rows: [
        ['Belt', 'Width (mm)', 'Thickness (mm)'],
        ['B1', 800, 12],
      ],
    },
    {
      name: 'Plate series',
      rows: [
        ['Plate series', 'Supplier'],
        ['Own', 'Ours'],
      ],
    },
    {
      name: 'Strips',
      rows: [
        ['Strip', 'Supplier'],
        ['Own strip', 'Ours'],
      ],
    },
  ];
  const { state } = imported(sheets, {}, demo);
  expect(new Map(demoCounts(state)).get('Suppliers')).toBe(sheetOf(demo, 'Suppliers').rows.length);
  expect(state.invented).toBe(true);
  expect(imported(sheets).state.invented).toBe(false);
});
