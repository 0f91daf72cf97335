import { describe, expect, it, test } from 'vitest';
import { usDesignation } from '../../../src/xlsx/import/belt-designations.ts';
import { alikeCells, cellsInWords } from '../../../src/xlsx/import/alike-cells.ts';
import { imported, list, records } from './imported.ts';
import { emptyBook } from '../../../src/workbook/declared.ts';
import { acceptImport } from '../../../src/xlsx/import/acceptance.ts';
import { proposeImport } from '../../../src/xlsx/import/proposal.ts';
import { rawBook } from '../grid.ts';

/** Habits of those who write lists: marks, legends, trade names of belts, headers that are units. */

const targets = (rows: Parameters<typeof list>[0]): Record<string, string> =>
  Object.fromEntries(imported(list(rows)).table.columns.map(({ header, target }) => [header, target]));

describe('headers', () => {
  it('that are units mean the same with a row of units below them', () => {
    expect(
      targets([
        ['Belt', 'Width', 'FPM', 'H.P.', 'TPH'],
        [null, 'in', 'ft/min', 'hp', 'st/h'],
        ['C1', 36, 400, 15, 500],
        ['C2', 36, 450, 20, 600],
      ]),
    ).toEqual({ Belt: 'Belt', Width: 'Width', FPM: 'Speed', 'H.P.': 'Power', TPH: 'Capacity' });
  });
  it.each(['HP', 'hp', 'H.P.', 'hp a', 'HP p.a.'])('%s never is hours per year', (header) => {
    expect(
      targets([
        ['Belt', 'Width (in)', header],
        ['C1', 36, 15],
        ['C2', 36, 20],
        ['C3', 36, 25],
      ])[header],
    ).not.toBe('Hours per year');
  });
  it.each([
    ['Design TPH', 'Capacity'],
    ['Last Spliced', 'Installed'],
    ['Spliced on', 'Installed'],
    ['HEAD_PULL_DIA', 'Head pulley'],
    ['MIN_PULL_DIA', 'Smallest pulley'],
    ['BELT_SPD', 'Speed'],
    ['LIFT_HT', 'Lift'],
    ['TKUP_TYPE', 'Take-up type'],
    ['TKUP_TRAVEL_REM', 'Take-up travel'],
    ['SPLICE_CNT', 'Joints'],
    ['Tambor más pequeño', 'Smallest pulley'],
    ['Tambor de retorno', 'Tail pulley'],
    ['Umkehrtrommel', 'Tail pulley'],
  ])('%s is %s', (header, target) => {
    expect(
      targets([
        ['Belt', 'Width (in)', header],
        ['C1', 36, null],
      ])[header],
    ).toBe(target);
  });
});

describe('rows', () => {
  it('of subtotals, legends and signatures are no belts', () => {
    const { belts, table } = imported(
      list([
        ['Belt', 'Width (mm)', 'Thickness (mm)'],
        ['C1', 800, 10],
        ['C2', 900, 10],
        ['Subtotal Primary Crushing', 1700, null],
        ['C3', 900, 10],
        ['Legend:'],
        ['yellow = to be replaced'],
        ['Prepared by the planning office'],
        ['END'],
      ]),
    );
    expect(belts.map(({ Belt }) => Belt)).toEqual(['C1', 'C2', 'C3']);
    expect(table.skipped.map(({ what }) => what)).toEqual(['total', 'remark', 'remark', 'remark', 'remark']);
  });
  it('are left out and taken as the user says', () => {
    const rows = [
      ['Belt', 'Width (mm)'],
      ['C1', 800],
      ['Old line', 900],
      ['Total', 1700],
    ];
    const { belts, table } = imported(list(rows), { leaveOut: ['old  LINE'], takeRows: ['Total'] });
    expect(belts.map(({ Belt }) => Belt)).toEqual(['C1', 'Total']);
    expect(table.skipped).toEqual([{ row: 3, what: 'left out', text: 'Old line | 900' }]);
  });
});

describe('cells', () => {
  it('that hold a ditto mark are those above, and say so', () => {
    const { belts, report } = imported(
      list([
        ['Belt', 'Area', 'Width (mm)'],
        ['C1', 'North', 800],
        ['C2', '"', 'ditto'],
        ['C3', '″', 'do.'],
        ['C4', 'South', 900],
      ]),
    );
    expect(belts.map(({ Area, Width }) => [Area, Width])).toEqual([
      ['North', 800],
      ['North', 800],
      ['North', 800],
      ['South', 900],
    ]);
    expect(report.remarks.map(({ cell, given }) => `${cell} ${given}`).sort()).toEqual([
      'B3 "',
      'B4 ″',
      'C3 ditto',
      'C4 do.',
    ]);
  });
  it('that say rubber are not taken for grooved rubber, nothing for bare steel is told', () => {
    const rows = [
      ['Belt', 'Width (mm)', 'Lagging'],
      ['C1', 800, 'RUBBER'],
      ['C2', 800, 'rubber'],
      ['C3', 800, 'NONE'],
      ['C4', 800, 'Grooved'],
    ];
    const { belts, report } = imported(list(rows));
    expect(belts.map((belt) => belt['Drive pulley surface'])).toEqual([
      'RUBBER',
      'rubber',
      'bare steel',
      'grooved rubber',
    ]);
    expect(report.notUnderstood.map(({ why }) => why)).toEqual([
      expect.stringContaining('does not say whether the rubber is grooved'),
      expect.stringContaining('bare steel is the cautious choice'),
    ]);
    expect(report.remarks).toEqual([expect.objectContaining({ cell: 'C4', what: 'read as bare steel' })]);
    const alike = alikeCells(report.notUnderstood);
    expect(alike.map(({ cells }) => cellsInWords(cells))).toEqual(['C2, C3']);
  });
  it('mean what the user says', () => {
    const { belts, report } = imported(
      list([
        ['Belt', 'Width (mm)', 'Lagging'],
        ['C1', 800, 'RUBBER'],
        ['C2', 800, 'type 7'],
      ]),
      {
        values: [
          { column: 'Drive pulley surface', from: 'rubber', to: 'bare steel' },
          { column: 'Drive pulley surface', from: 'Type 7', to: 'ceramic' },
        ],
      },
    );
    expect(belts.map((belt) => belt['Drive pulley surface'])).toEqual(['bare steel', 'ceramic']);
    expect(report.notUnderstood).toEqual([]);
    expect(report.remarks.map(({ what }) => what)).toEqual([
      'read as bare steel, as you chose',
      'read as ceramic, as you chose',
    ]);
  });
  test('forty-five of them that say the same are one line', () => {
    const cells = Array.from({ length: 45 }, (_, index) => `D${index + 2}`);
    const items = cells.map((cell) => ({ sheet: 'S', cell, column: 'Lagging', given: 'odd', why: 'w', allowed: '' }));
    const [group, ...rest] = alikeCells(items);
    expect(rest).toEqual([]);
    expect(cellsInWords(group?.cells ?? [])).toBe('D2, D3 and 43 more');
  });
});

describe('US designations', () => {
  // Source of the readings: common practice, no source.
  test.each([
    ['3 ply 330 PIW 3/16 x 1/16', { rating: 330, plies: 3, topCover: 0.1875, bottomCover: 0.0625 }],
    ['2-ply 220', { rating: 220, plies: 2 }],
    ['4 PLY 600# 1/4" x 1/16"', { rating: 600, plies: 4, topCover: 0.25, bottomCover: 0.0625 }],
    ['2 ply/220 .1875 x .0625', { rating: 220, plies: 2, topCover: 0.1875, bottomCover: 0.0625 }],
    ['EP 400/3 4+2', undefined],
    ['3 ply 48 in', undefined],
    ['2 ply 1200 mm', undefined],
    ['plain', undefined],
  ])('%s', (text, reading) => {
    expect(usDesignation(text)).toEqual(reading);
  });
  it('fill the rating and the top cover that the list leaves blank, told once', () => {
    const { belts, report, table } = imported(
      list([
        ['Belt', 'Width (in)', 'Belt spec', 'Belt rating (PIW)'],
        ['C1', 36, '3 ply 330 PIW 3/16 x 1/16', null],
        ['C2', 36, '2-ply 220', 150],
        ['C3', 36, 'PN 800/4', null],
      ]),
    );
    expect(belts.map((belt) => belt['Belt rating'])).toEqual([330, 150, undefined]);
    expect(belts[0]?.['Top cover']).toBeCloseTo(0.1875, 12);
    expect(belts[2]?.Construction).toBe('EP 800/4');
    expect(table.derived).toEqual(['Belt rating', 'Top cover']);
    expect(report.assumed.filter((text) => text.includes('designation of 1 belt'))).toHaveLength(2);
  });
});

test('plates come without belts', () => {
  const file = rawBook(
    list([
      ['Series', 'Pitch (mm)', 'Plate width (mm)', 'Minimum thickness (mm)', 'Maximum thickness (mm)'],
      ['A', 40, 35, 8, 12],
      ['B', 50, 45, 10, 16],
    ]),
  );
  const { state } = acceptImport(file, proposeImport(file), emptyBook('metric'));
  expect(records(state, 'Plate series').map(({ Series }) => Series)).toEqual(['A', 'B']);
  expect(records(state, 'Belts')).toEqual([]);
});

test('what most belts lack is offered once, and never taken unasked', () => {
  const { report, belts } = imported(
    list([
      ['Belt', 'Width (mm)', 'Wrap angle'],
      ['C1', 800, 210],
      ['C2', 800, null],
    ]),
  );
  const wrap = report.lacking.find(({ column }) => column === 'Wrap angle');
  expect(wrap).toBeUndefined();
  expect(report.lacking.find(({ column }) => column === 'Skive depth')).toMatchObject({ value: '0', blank: 2 });
  expect(report.lacking.find(({ column }) => column === 'Joint life')?.value).toBeUndefined();
  expect(belts.every((belt) => belt['Skive depth'] === undefined)).toBe(true);
});
