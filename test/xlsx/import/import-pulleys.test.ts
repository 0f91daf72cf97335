import { describe, expect, it } from 'vitest';
import { demoBook } from '../../../src/workbook/demo.ts';
import { Workbook } from '../../../src/workbook/workbook.ts';
import { bookOf, loopOf, soundBelt } from '../../workbook/books.ts';
import { imported, list, records } from './imported.ts';
import { date } from '../grid.ts';

/** Lists of pulleys beside lists of belts: read where they clearly are such lists, never in place of the belts. */

const belts = list(
  [
    ['Conveyor', 'Width (mm)', 'Speed (m/s)', 'Min. pulley (mm)', 'Date fitted'],
    ['C1', 800, 2.5, 400, date(45900)],
    ['C2', 1000, 3, 500, date(45950)],
  ],
  { name: 'Conveyors' },
);

describe('a second sheet of pulleys', () => {
  it('is read as Pulleys, words in other languages and all, and the belts as before', () => {
    const alone = imported(belts);
    const {
      state,
      report,
      belts: read,
    } = imported([
      belts,
      list(
        [
          ['Conveyor', 'Drum', 'Drum type', 'x (m)', 'y (m)', 'Drum diameter (mm)', 'Side', 'Arc of contact (°)'],
          ['C1', 'D1', 'Antriebstrommel', 50, 3, 630, 'Laufseite', 200],
          ['C1', 'D2', 'tail', 0, 0, 500, 'pulley side', 180],
          ['C1', 'D3', 'snub', 48.5, 2.2, 400, 'dirty side', 25],
          ['C2', 'D1', 'head', 80, 5, 800, null, 210],
        ],
        { name: 'Drums' },
      ),
    ]);
    expect(read).toEqual(alone.belts);
    expect(report.tables.map(({ sheet, target }) => [sheet, target])).toEqual([
      ['Conveyors', 'Belts'],
      ['Drums', 'Pulleys'],
    ]);
    expect(records(state, 'Pulleys')).toEqual([
      {
        Belt: 'C1',
        Pulley: 'D1',
        'Pulley type': 'drive',
        x: 50,
        y: 3,
        Diameter: 630,
        'Belt side': 'pulley side',
        'Wrap angle': 200,
      },
      {
        Belt: 'C1',
        Pulley: 'D2',
        'Pulley type': 'tail',
        x: 0,
        y: 0,
        Diameter: 500,
        'Belt side': 'pulley side',
        'Wrap angle': 180,
      },
      {
        Belt: 'C1',
        Pulley: 'D3',
        'Pulley type': 'snub',
        x: 48.5,
        y: 2.2,
        Diameter: 400,
        'Belt side': 'carrying side',
        'Wrap angle': 25,
      },
      { Belt: 'C2', Pulley: 'D1', 'Pulley type': 'head', x: 80, y: 5, Diameter: 800, 'Wrap angle': 210 },
    ]);
    // A drum's name comes again under another belt, which is no slip; the same one twice under a belt is.
    expect(report.remarks.filter(({ what }) => what.includes('twice'))).toEqual([]);
    expect(report.notUnderstood).toEqual([]);
    expect(new Workbook(state).read('Belts', 0, 'Pulleys listed')).toBe(3);
  });

  it('says which pulley stands twice under its belt', () => {
    const { report } = imported([
      belts,
      list(
        [
          ['Belt', 'Pulley', 'Pulley type', 'Diameter (mm)'],
          ['C1', 'D1', 'head', 630],
          ['C1', 'd1', 'tail', 500],
        ],
        { name: 'Drums' },
      ),
    ]);
    expect(report.remarks).toEqual([
      expect.objectContaining({
        sheet: 'Drums',
        cell: 'B3',
        what: expect.stringContaining('the name is already used in'),
      }),
    ]);
  });

  it('may have numbers for its belts', () => {
    const numbered = list([
      ['Belt', 'Width (mm)', 'Speed (m/s)'],
      [101, 800, 2],
      [102, 650, 2],
      [103, 650, 2],
    ]);
    const { state } = imported([
      numbered,
      list(
        [
          ['Belt', 'Pulley', 'Pulley type', 'Diameter (mm)'],
          [101, 1, 'head', 630],
          [101, 2, 'tail', 500],
          [102, 1, 'head', 500],
          [103, 1, 'head', 400],
        ],
        { name: 'Drums' },
      ),
    ]);
    const book = new Workbook(state);
    expect([0, 1, 2].map((record) => book.read('Belts', record, 'Pulleys listed'))).toEqual([2, 1, 1]);
  });

  it('is read from other units into those of the book', () => {
    const { state } = imported([
      belts,
      list(
        [
          ['Belt', 'Pulley', 'Pulley type', 'x (ft)', 'Diameter (in)'],
          ['C1', 'H', 'head', 100, 30],
          ['C1', 'T', 'tail', 0, 24],
        ],
        { name: 'Drums' },
      ),
    ]);
    expect(records(state, 'Pulleys')[0]).toMatchObject({ x: 30.48, Diameter: 762 });
  });

  it.each([
    ['has neither kind nor place', ['Conveyor', 'Pulley', 'Diameter (mm)'], ['C1', 'D1', 630]],
    ['names no belt', ['Pulley', 'Pulley type', 'Diameter (mm)'], ['D1', 'head', 630]],
    ['names no pulley and no diameter', ['Conveyor', 'Pulley type', 'x (m)', 'y (m)'], ['C1', 'head', 10, 2]],
  ])("stays the user's own where it %s", (_, head, row) => {
    const { state, report } = imported([belts, list([head, row], { name: 'Drums' })]);
    expect(report.tables.find(({ sheet }) => sheet === 'Drums')?.target).not.toBe('Pulleys');
    expect(records(state, 'Pulleys')).toEqual([]);
  });
});

describe('a list of belts', () => {
  it.each([
    [
      'with a pulley and what it is',
      ['Conveyor', 'Pulley', 'Pulley type', 'Diameter (mm)', 'Width (mm)', 'Speed (m/s)'],
      ['C1', 'H1', 'drive', 630, 800, 2],
    ],
    [
      'with wrap and diameter',
      ['Belt', 'Pulley type', 'Diameter (mm)', 'Wrap angle (°)', 'Belt width (mm)'],
      ['C1', 'drive', 630, 210, 800],
    ],
    [
      'with a tension and a diameter',
      ['Belt', 'Width (mm)', 'Pulley dia (mm)', 'Tension (N/mm)', 'T1'],
      ['C1', 800, 500, 20, 25],
    ],
  ])('%s stays one', (_, head, row) => {
    const { belts: read, report } = imported(list([head, row]));
    expect(report.tables.map(({ target }) => target)).toEqual(['Belts']);
    expect(read[0]).toMatchObject({ Belt: 'C1', Width: 800 });
  });
});

describe('a list without pulleys', () => {
  const known = bookOf({ belts: [soundBelt], pulleys: [...loopOf('c1'), ...loopOf('B1')] });

  it('keeps those of the open book that run under its belts, and says so', () => {
    const { state, report } = imported(belts, {}, known);
    expect(records(state, 'Pulleys').map((pulley) => pulley['Belt'])).toEqual(Array.from({ length: 6 }, () => 'c1'));
    expect(report.assumed).toContain(
      'Pulleys: not in the file; the 6 of the open book that belong to records of the list are kept; 6 of the open ' +
        'book, for a belt that is not in the list, are left out',
    );
  });

  it('takes none of an invented fleet, however its belts are called', () => {
    const invented = demoBook('metric');
    const name = records(invented, 'Pulleys')[0]?.['Belt'] ?? null;
    const { state, report } = imported(
      list([
        ['Belt', 'Width (mm)', 'Speed (m/s)'],
        [name as string, 800, 2],
      ]),
      {},
      invented,
    );
    expect(records(state, 'Pulleys')).toEqual([]);
    expect(report.assumed.join('\n')).toMatch(
      /Pulleys: not in the file; \d+ of the open book, which are invented, are left out/,
    );
  });
});
