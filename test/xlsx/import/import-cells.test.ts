import { describe, expect, it } from 'vitest';
import type { Content } from '../../../src/formula/values.ts';
import type { ImportChoices } from '../../../src/xlsx/import/import-model.ts';
import { date, formatted, formula, type GridValue } from '../grid.ts';
import { imported, list, records } from './imported.ts';

/** One column of a list beside the belts' names: what its cells become, and what is said of them. */
function column(
  header: string,
  cells: readonly GridValue[],
  choices: ImportChoices = {},
): {
  readonly contents: (Content | undefined)[];
  readonly issues: string[];
  readonly remarks: string[];
  readonly assumed: string;
} {
  const { belts, report, table } = imported(
    list([['Belt', 'Width (mm)', header], ...cells.map((cell, index) => [`C${index}`, 800, cell])]),
    choices,
  );
  const target = table.columns.find(({ letter }) => letter === 'C')?.target ?? '';
  return {
    contents: belts.map((belt) => belt[target === 'own' ? header : target]),
    issues: report.notUnderstood.map(({ cell, why }) => `${cell}: ${why}`),
    remarks: report.remarks.filter(({ column: name }) => name === target).map(({ cell, what }) => `${cell}: ${what}`),
    assumed: report.assumed.join('\n'),
  };
}

const plates = (rows: readonly (readonly GridValue[])[]) => list(rows, { name: 'Plates' });

describe('units', () => {
  it.each<[string, string, readonly GridValue[], number]>([
    ['the header', 'Thickness [in]', [0.5, 1], 25.4],
    ['the header in words', 'Belt thickness in inches', [0.5, 1], 25.4],
    ['the cells', 'Thickness', ['1/2 in', '1"'], 25.4],
    ['the number format', 'Thickness', [formatted(0.5, '0.0" in"'), formatted(1, '0.0\\ \\i\\n')], 25.4],
    ['the cells against the header', 'Thickness (mm)', ['0.5 in', 25.4], 25.4],
    ['the number format against the header', 'Thickness (cm)', [1, formatted(25.4, '0.0" mm"')], 25.4],
  ])('come from %s', (_, header, cells, second) => expect(column(header, cells).contents[1]).toBeCloseTo(second, 9));

  it('come from a row below the header', () => {
    const { belts } = imported(
      list([
        ['Belt', 'Width', 'Pulley centres', 'Power'],
        ['', 'in', 'ft', 'hp'],
        ['C1', 36, 300, 50],
      ]),
      { units: 'metric' },
    );
    expect(belts[0]).toEqual({ Belt: 'C1', Width: 914.4, 'Pulley centres': 91.44, Power: expect.closeTo(37.28499, 4) });
  });
  it('are those of most columns where a column names none', () => {
    const { report, belts } = imported(
      list([
        ['Belt', 'Width (in)', 'Speed (fpm)', 'Lift', 'Capacity (tph)'],
        ['C1', 36, 400, 20, 500],
      ]),
    );
    expect(report.units).toBe('us');
    expect(belts[0]).toEqual({ Belt: 'C1', Width: 36, Speed: 400, Lift: 20, Capacity: 500 });
    const assumed = report.assumed.join('\n');
    expect(assumed).toMatch(
      /Lift: no unit is given; "ft" is assumed, because most columns of the list are US customary/,
    );
    expect(assumed).toMatch(/US customary[^]*"ton\/h" is read as short ton\/h/);
  });
  it.each<[string, readonly (readonly number[])[], 'metric' | 'us']>([
    [
      'metric',
      [
        [650, 10, 320, 120],
        [800, 12, 400, 300],
        [1200, 16, 630, 80],
      ],
      'metric',
    ],
    [
      'US customary',
      [
        [24, 0.375, 16, 400],
        [36, 0.5, 20, 900],
        [48, 0.625, 30, 260],
      ],
      'us',
    ],
  ])('are told by plausible sizes in a list without any: %s', (_, sizes, units) => {
    const { report, belts } = imported(
      list([
        ['Belt', 'Width', 'Thickness', 'Smallest pulley', 'Pulley centres'],
        ...sizes.map((row, index) => [`C${index}`, ...row]),
      ]),
    );
    expect(report.units).toBe(units);
    expect(belts.map(({ Width, Thickness }) => [Width, Thickness])).toEqual(
      sizes.map(([width, thickness]) => [width, thickness]),
    );
    expect(report.assumed.join()).toContain('no unit is given');
  });
  it("are told by plausible sizes where a column is plainly not in the list's own", () => {
    const { contents, assumed } = column('Smallest pulley', [16, 20, 24, 18]);
    expect(contents[0]).toBeCloseTo(406.4, 9);
    expect(assumed).toMatch(/Smallest pulley: no unit is given; "in" is assumed: 100 %/);
  });
  it("keep a column whose unit measures something else as the user's own, with a hint", () => {
    const { table, belts } = imported(
      list([
        ['Belt', 'Width (mm)', 'Tension (kN)'],
        ['C1', 800, 30],
      ]),
    );
    expect(table.columns[2]).toMatchObject({ target: 'own', suggestions: [{ target: 'Known tension' }] });
    expect(belts[0]).toEqual({ Belt: 'C1', Width: 800, 'Tension (kN)': 30 });
  });
  it('follow the choice of the user', () => {
    const { state, belts } = imported(
      list([
        ['Belt', 'Width (mm)', 'Speed (m/s)'],
        ['C1', 914.4, 2.032],
      ]),
      { units: 'us' },
    );
    expect(state.units).toBe('us');
    expect(belts[0]).toEqual({ Belt: 'C1', Width: 36, Speed: 400 });
  });
});

describe('numbers', () => {
  it('are read with the decimal comma that other cells show', () => {
    expect(column('Thickness (mm)', ['12,5', '1,234', '14'])).toMatchObject({
      contents: [12.5, 1.234, 14],
      issues: [],
    });
    expect(column('Pulley centres (m)', ['1,234.5', '1,234', '98'])).toMatchObject({
      contents: [1234.5, 1234, 98],
      issues: [],
    });
  });
  it('are read with the mark that other columns show', () => {
    const { belts } = imported(
      list([
        ['Belt', 'Width (mm)', 'Thickness (mm)', 'Pulley centres (m)'],
        ['C1', 800, '12,5', '1,234'],
        ['C2', 800, 13, '98'],
      ]),
    );
    expect(belts[0]).toMatchObject({ Thickness: 12.5, 'Pulley centres': 1.234 });
  });
  it('are refused when nothing decides, and taken with a choice', () => {
    const { contents, issues } = column('Pulley centres (m)', ['1,234', '98']);
    expect(contents).toEqual(['1,234', 98]);
    expect(issues).toEqual([
      expect.stringMatching(/C2: "1,234" is 1234 with a decimal point and 1.234 with a decimal comma/),
    ]);
    expect(column('Pulley centres (m)', ['1,234', '98'], { decimal: 'comma' }).contents).toEqual([1.234, 98]);
  });
  it('must each be clear by themselves where cells contradict each other', () => {
    const { contents, issues } = column('Pulley centres (m)', ['12,5', '13.5', '1,234']);
    expect(contents).toEqual([12.5, 13.5, '1,234']);
    expect(issues).toHaveLength(1);
  });
  it('keep text that says no number, marked and reported', () => {
    const { state, report } = imported(
      list([
        ['Belt', 'Width (mm)', 'Lift (m)'],
        ['C1', '600-650', 'steep'],
        ['C2', -800, 1],
      ]),
    );
    expect(state.sheets[0]?.rows[0]).toMatchObject({
      cells: expect.arrayContaining(['600-650', 'steep']),
      notes: { 3: expect.stringContaining('a range is given'), 13: expect.stringContaining('"steep"') },
    });
    expect(report.notUnderstood).toEqual([
      {
        sheet: 'Sheet1',
        cell: 'B2',
        column: 'Width',
        given: '600-650',
        why: 'a range is given, not one value',
        allowed: expect.stringContaining('mm'),
      },
      expect.objectContaining({ cell: 'C2', given: 'steep' }),
    ]);
    expect(records(state, 'Belts')[1]).toEqual({ Belt: 'C2', Width: -800, Lift: 1 });
  });
  it('are taken with a remark when approximate, as blank when nothing is known', () => {
    const { contents, remarks } = column('Lift (m)', ['≈ 5', 'ca. 6,5', 'n/a', '-', 'TBC']);
    expect(contents).toEqual([5, 6.5, undefined, undefined, undefined]);
    expect(remarks).toHaveLength(5);
  });
  it('are no dates, errors or truths', () => {
    const { contents, issues } = column('Top cover (mm)', [date(45359), { error: '#DIV/0!' }, true, 4, 3]);
    expect(contents).toEqual(['2024-03-08', '#DIV/0!', true, 4, 3]);
    expect(issues).toEqual([
      expect.stringMatching(/C2: the cell holds a date/),
      expect.stringMatching(/C3: the cell holds the error #DIV\/0!/),
      expect.stringMatching(/C4:/),
    ]);
  });
  it('of a life in years need the hours per year', () => {
    const { belts, report } = imported(
      list([
        ['Belt', 'Width (mm)', 'Hours per year', 'Joint life (years)'],
        ['C1', 800, 6000, 3],
        ['C2', 800, null, 3],
      ]),
    );
    expect(belts.map((belt) => belt['Joint life'])).toEqual([18000, 3]);
    expect(report.notUnderstood).toEqual([
      expect.objectContaining({ cell: 'D3', why: expect.stringContaining('hours per year') }),
    ]);
  });
  it('of prices must be in one currency', () => {
    const { state, report } = imported([
      list([
        ['Belt', 'Width (mm)'],
        ['C1', 800],
      ]),
      plates([
        ['Series', 'Pitch (mm)', 'Minimum thickness (mm)', 'Pack price (€)'],
        ['A', 40, 8, 12.5],
        ['B', 40, 8, '€ 13'],
        ['C', 40, 8, '$ 14'],
      ]),
    ]);
    expect(records(state, 'Plate series').map((row) => row['Pack price'])).toEqual([12.5, 13, '$ 14']);
    expect(report.notUnderstood).toEqual([
      expect.objectContaining({ given: '$ 14', why: expect.stringContaining('€') }),
    ]);
  });
  it("of prices must be in their row's currency", () => {
    const { state, report } = imported([
      list([
        ['Belt', 'Width (mm)'],
        ['C1', 800],
      ]),
      {
        name: 'Offers',
        rows: [
          ['Article', 'Sold by', 'Kind', 'Item', 'Pieces in pack', 'Price'],
          ['A-1', 'North', 'consumable', 'Chalk', 12, '£ 30.00'],
          ['A-2', 'South', 'consumable', 'Chalk', 12, '30.00 €'],
          ['A-3', 'North', 'consumable', 'Chalk', 12, '€ 31.00'],
        ],
      },
      {
        name: 'Suppliers',
        rows: [
          ['Supplier', 'Currency', 'Exchange rate', 'Freight', 'Minimum order'],
          ['North', 'EUR', null, 20, 50],
          ['South', 'GBP', 1.2, 20, 50],
        ],
      },
    ]);
    expect(records(state, 'Offers').map((row) => row['Price'])).toEqual(['£ 30.00', '30.00 €', 31]);
    expect(report.notUnderstood.map(({ given, why }) => [given, why])).toEqual([
      ['£ 30.00', 'the price is in £, and the row counts in EUR'],
      ['30.00 €', 'the price is in €, and the row counts in GBP'],
    ]);
    expect(state.sheets.find(({ name }) => name === 'Offers')?.rows[0]?.notes).toBeDefined();
  });
});

describe('skew', () => {
  it('is explained when 90 stands for a square joint', () => {
    const { contents, issues } = column('Skew', [90, 45, 0]);
    expect(contents).toEqual([90, 45, 0]);
    expect(issues).toEqual([
      expect.stringMatching(/C2: Skew is measured from the square line.*a square joint is 90 degrees.*Skew from edge/),
    ]);
  });
  it.each<[string, ImportChoices]>([
    ['Skew from edge (°)', {}],
    ['Joint angle to belt edge', {}],
    ['Schrägwinkel zur Kante', {}],
    ['Kantenmaß, zur Kante', { map: [{ header: 'C', to: 'Skew' }] }],
    ['Skew', { skewFrom: 'edge' }],
  ])('is turned round when counted from the edge: %s %j', (header, choices) => {
    const { belts, table } = imported(
      list([
        ['Belt', 'Width (mm)', header],
        ['C1', 800, 90],
        ['C2', 800, '45°'],
        ['C3', 800, 60],
      ]),
      choices,
    );
    expect(belts.map(({ Skew }) => Skew)).toEqual([0, 45, 30]);
    expect(table.columns[2]?.skewFrom).toBe('edge');
  });
  it('may be said in words', () =>
    expect(column('Joint angle', ['square', 'sq', 'Sq.', '45 deg', 22.5]).contents).toEqual([0, 0, 0, 45, 22.5]));
});

describe('dates', () => {
  it('are read in every usual form', () => {
    const { contents, issues } = column('Installed', [
      date(45060),
      '2023-05-14',
      '14.05.2023',
      '14 May 2023',
      '05/14/2023',
      45060,
    ]);
    expect(contents).toEqual([45060, 45060, 45060, 45060, 45060, 45060]);
    expect(issues).toEqual([]);
  });
  it('are told apart by the other cells of the column', () =>
    expect(column('Date installed', ['03/04/2023', '25/12/2022']).contents).toEqual([45019, 44920]));
  it('are refused when nothing decides, and taken with a choice', () => {
    const cells = ['03/04/2023', '01/02/2023'];
    expect(column('Installed', cells)).toMatchObject({
      contents: cells,
      issues: [expect.stringContaining('3 April 2023 or 4 March 2023'), expect.anything()],
    });
    expect(column('Installed', cells, { dateOrder: 'month first' }).contents).toEqual([44989, 44928]);
  });
  it('need a day', () =>
    expect(column('Installed', ['2021', 'May 2021', 2021, 'last year', date(45000)]).issues).toHaveLength(4));
});

describe('words', () => {
  it('of service are those of the trade', () => {
    const { contents, issues } = column('Service', [
      'UG',
      'u/g, FRAS',
      'Underground; magnet',
      'fire resistant + food grade',
      'None',
      'metal detector',
      'n/a',
    ]);
    expect(contents).toEqual([
      'underground',
      'underground, fire-rated',
      'underground, magnet',
      'fire-rated, food',
      'none',
      'metal detector',
      undefined,
    ]);
    expect(issues).toEqual([]);
  });
  it('of service that are not sure stay as they are, with a hint', () => {
    const { contents, issues } = column('Service', ['stainless required', 'none', 'wet']);
    expect(contents).toEqual(['stainless required', 'none', 'wet']);
    expect(issues).toEqual([
      expect.stringMatching(/C2: "stainless required" is not a known service.*did you mean corrosive/),
      expect.stringMatching(/C4/),
    ]);
  });
  it('for yes and no are read in several languages', () => {
    const { state, report } = imported([
      list([
        ['Belt', 'Width (mm)'],
        ['C1', 800],
      ]),
      plates([
        ['Series', 'Pitch (mm)', 'Minimum thickness (mm)', 'Flame resistant', 'Food grade'],
        ['A', 40, 8, 'x', 'nein'],
        ['B', 40, 8, true, false],
        ['C', 40, 8, 'maybe', null],
      ]),
    ]);
    expect(records(state, 'Plate series').map((row) => [row['Flame resistant'], row['Food grade']])).toEqual([
      ['yes', 'no'],
      ['yes', 'no'],
      ['maybe', undefined],
    ]);
    expect(report.notUnderstood).toEqual([
      expect.objectContaining({ column: 'Flame resistant', given: 'maybe', allowed: 'one of yes, no' }),
    ]);
  });
  it('of constructions stay letter by letter', () =>
    expect(column('Belt type', ['1000 EP 630/4  6/2 Y', ' EP 400/3 4+2']).contents).toEqual([
      '1000 EP 630/4  6/2 Y',
      ' EP 400/3 4+2',
    ]));
  it('of names that are numbers are texts, with the zeros that show', () => {
    const { belts } = imported(
      list([
        ['Belt', 'Width (mm)'],
        [101, 800],
        [formatted(7, '000'), 800],
      ]),
    );
    expect(belts.map(({ Belt }) => Belt)).toEqual(['101', '007']);
  });
  it('of names that became dates are marked', () => {
    const { belts, report } = imported(
      list([
        ['Belt', 'Width (mm)'],
        [date(45353), 800],
        ['C2', 800],
      ]),
    );
    expect(belts[0]?.Belt).toBe('2024-03-02');
    expect(report.notUnderstood).toEqual([
      expect.objectContaining({ cell: 'A2', why: expect.stringContaining('the cell holds a date') }),
    ]);
  });
  it('that begin with an equals sign are no formulas', () =>
    expect(
      imported(
        list([
          ['Belt', 'Width (mm)', 'Remark'],
          ['=C1', 800, '=HYPERLINK("x")'],
        ]),
      ).belts[0],
    ).toEqual({ Belt: "'=C1", Width: 800, Remark: '\'=HYPERLINK("x")' }));
  it('of plate series that the book does not have are told', () => {
    const { report, belts } = imported(
      list([
        ['Belt', 'Width (mm)', 'Plate series'],
        ['C1', 800, 'Nowhere'],
        ['C2', 800, 'Nowhere'],
      ]),
    );
    expect(belts[0]?.['Plate series']).toBe('Nowhere');
    expect(report.remarks).toEqual([
      expect.objectContaining({ cell: 'C2', what: expect.stringMatching(/no "Nowhere", and 1 more/) }),
    ]);
  });
});

describe('formulas', () => {
  const grid = list([
    [
      'Belt',
      'Width (mm)',
      'Smallest pulley (mm)',
      'Tension (kN/m)',
      'Rating (kN/m)',
      'Use',
      'Length (ft)',
      'Head room',
    ],
    ['C1', 800, formula('B2/2', 400), formula('E2*0.8', 32), 40, formula('D2/E2', 0.8), 300, formula('G2*2', 600)],
    [
      'C2',
      1000,
      formula('$B3/2', 500),
      formula('SUM(E2:E3)', 80),
      40,
      formula('D3/E3', 2),
      formula('50*6', 300),
      formula('Rates!A1', 7),
    ],
  ]);
  const { belts, table } = imported(grid, { map: [{ header: 'Rating (kN/m)', to: 'Belt rating' }] });
  it("over the record's own cells live on, moved to where the cells are", () => {
    expect(belts[0]).toMatchObject({ 'Smallest pulley': '=D2/2', 'Known tension': '=I2*0.8', Use: '=T2/I2' });
    expect(belts[1]).toMatchObject({ 'Smallest pulley': '=$D3/2', Use: '=T3/I3' });
  });
  it('that look elsewhere, or at what was converted, give their values', () => {
    expect(belts[1]).toMatchObject({ 'Known tension': 80, 'Head room': 7, 'Pulley centres': 91.44 });
    expect(belts[0]?.['Head room']).toBe(600);
    expect(table.columns.map(({ letter, formulas, values }) => [letter, formulas, values])).toEqual([
      ['A', 0, 0],
      ['B', 0, 0],
      ['C', 2, 0],
      ['D', 1, 1],
      ['E', 0, 0],
      ['F', 2, 0],
      ['G', 0, 1],
      ['H', 0, 2],
    ]);
    expect(table.columns[3]).toMatchObject({ valuesWhy: 'it refers to E2:E3', firstValue: 'D3' });
  });
  it('without a stored result live on or are told', () => {
    const { belts: read, report } = imported(
      list([
        ['Belt', 'Width (mm)', 'Lift (m)', 'Twice'],
        ['C1', formula('400*2'), formula('Other!B2'), formula('B2*2')],
      ]),
    );
    expect(read[0]).toEqual({ Belt: 'C1', Width: '=400*2', Lift: "'=Other!B2", Twice: '=D2*2' });
    expect(report.notUnderstood).toEqual([
      expect.objectContaining({ cell: 'C2', why: expect.stringContaining('no result') }),
    ]);
  });
  it('of unknown functions or names give their values', () => {
    const { belts: read } = imported(
      list([
        ['Belt', 'Width (mm)', 'Remark'],
        ['C1', formula('Standard', 800), formula('XLOOKUP(A2,A:A,B:B)', 'x')],
      ]),
    );
    expect(read[0]).toEqual({ Belt: 'C1', Width: 800, Remark: 'x' });
  });
});

describe('columns', () => {
  it("that nothing is known of stay the user's own, headers as they are", () => {
    const { state } = imported(
      list([
        ['Belt', 'Width (mm)', 'Idler spacing [m]', 'Idler spacing [m]', 'Last look'],
        ['C1', 800, 1.2, 1.5, date(45000)],
      ]),
    );
    expect(state.sheets[0]?.userColumns).toEqual([
      { header: 'Idler spacing [m]', kind: 'text' },
      { header: 'Idler spacing [m] 2', kind: 'text' },
      { header: 'Last look', kind: 'date' },
    ]);
  });
  it('that the book computes itself stay beside, as listed', () => {
    const { belts } = imported(
      list([
        ['Belt', 'Width (mm)', 'Plates', 'Verdict', 'Due'],
        ['C1', 800, 20, 'ok', date(46000)],
        ['C2', 900, 22, 'ok', date(46001)],
        ['C3', 900, 22, 'ok', date(46001)],
      ]),
    );
    expect(belts[0]).toEqual({
      Belt: 'C1',
      Width: 800,
      'Plates (as listed)': 20,
      'Verdict (as listed)': 'ok',
      'Due (as listed)': 46000,
    });
  });
  it("follow the user's choices", () => {
    const { belts, table } = imported(
      list([
        ['Belt', 'Width (mm)', 'Pulley dia', 'Secret', 'Area'],
        ['C1', 800, 500, 'x', 'north'],
      ]),
      {
        map: [
          { header: 'pulley  dia', to: 'smallest pulley' },
          { header: 'D', to: 'ignore' },
          { header: 'Area', to: 'own' },
        ],
      },
    );
    expect(belts[0]).toEqual({ Belt: 'C1', Width: 800, 'Smallest pulley': 500, 'Area (as listed)': 'north' });
    expect(table.columns.map(({ target }) => target)).toEqual(['Belt', 'Width', 'Smallest pulley', 'ignore', 'own']);
  });
  it('that could mean two things are only suggested', () => {
    const { table } = imported(
      list([
        ['Belt', 'Width (mm)', 'Pulley dia (mm)', 'Tension', 'T1'],
        ['C1', 800, 500, 30, 31],
      ]),
    );
    expect(table.columns[2]).toMatchObject({
      target: 'own',
      suggestions: [{ target: 'Smallest pulley' }, { target: 'Head pulley' }, { target: 'Tail pulley' }],
    });
    expect(table.columns.slice(3).map(({ target, why }) => [target, why])).toEqual([
      ['own', '"T1" could be Known tension as well'],
      ['own', expect.any(String)],
    ]);
  });
  it('are told by what stands in them', () => {
    const rows = [
      ['C1', 'EP 400/3 4+2', 800],
      ['C2', 'EP 400/3 4+2', 900],
      ['C3', 'EP 400/3 4+2', 1000],
    ];
    expect(imported(list([['Conveyor', 'Belt', 'Width (mm)'], ...rows])).belts[0]).toMatchObject({
      Belt: 'C1',
      Width: 800,
    });
    expect(imported(list([['Belt', 'Carcass', 'Width (mm)'], ...rows])).belts[0]).toEqual({
      Belt: 'C1',
      Construction: 'EP 400/3 4+2',
      Width: 800,
    });
    expect(
      imported(
        list([
          ['Belt', 'Carcass', 'Width (mm)'],
          ['C1', 4.5, 800],
          ['C2', 4, 800],
          ['C3', 4, 900],
        ]),
      ).belts[0],
    ).toEqual({ Belt: 'C1', 'Carcass thickness': 4.5, Width: 800 });
  });
  it('are filled only when asked, and told', () => {
    const { belts, report } = imported(
      list([
        ['Belt', 'Width (mm)', 'Skive depth (mm)'],
        ['C1', 800, 1.5],
        ['C2', 800, null],
        ['C3', 800, 'some'],
      ]),
      { fill: [{ column: 'skive', value: '0' }] },
    );
    expect(belts.map((belt) => belt['Skive depth'])).toEqual([1.5, 0, 'some']);
    expect(report.assumed).toContain('Skive depth: 1 blank cells filled with 0, as you chose');
  });
});

describe('what the file does not hold', () => {
  it('comes from the open book, in the units of the new one, and is told', () => {
    const base = imported([
      list([
        ['Belt', 'Width (mm)'],
        ['C1', 800],
      ]),
      plates([
        ['Series', 'Pitch (mm)', 'Minimum thickness (mm)'],
        ['Heron', 25.4, 8],
      ]),
    ]).state;
    const { state, report } = imported(
      list([
        ['Belt', 'Width (in)'],
        ['C9', 36],
      ]),
      {},
      { ...base, invented: true },
    );
    expect(records(state, 'Plate series')).toEqual([
      { Series: 'Heron', Pitch: 1, 'Minimum thickness': expect.closeTo(8 / 25.4, 9) },
    ]);
    expect(state.invented).toBe(true);
    expect(report.assumed.join('\n')).toMatch(
      /Plate series: not in the file; the 1 of the open book are kept, which are invented/,
    );
  });
});
