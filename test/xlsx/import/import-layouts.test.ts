import { describe, expect, it } from 'vitest';
import { UnusableList } from '../../../src/xlsx/import/import-model.ts';
import { date, formula, rawBook } from '../grid.ts';
import { imported, list, records } from './imported.ts';
import { proposeImport } from '../../../src/xlsx/import/proposal.ts';

/** Where lists stand in files: every layout gives the same two belts. */
const two = [
  { Belt: 'C1', Width: 800, Thickness: 12, Speed: 2.5 },
  { Belt: 'C2', Width: 1000, Thickness: 14, Speed: 3 },
];
const head = ['Belt', 'Width (mm)', 'Thickness (mm)', 'Speed (m/s)'];
const rows = [
  ['C1', 800, 12, 2.5],
  ['C2', 1000, 14, 3],
];

describe('where a list stands', () => {
  it.each<[string, Parameters<typeof list>[0], Parameters<typeof list>[1]?]>([
    ['the plain list', [head, ...rows]],
    ['titles and blank lines above', [['Conveyor register, north plant'], ['as of May'], [], head, ...rows]],
    ['a merged title', [['Register of belts', null, null, null], head, ...rows], { merges: ['A1:D1'] }],
    ['blank lines between and below', [head, [], rows[0] ?? [], [], [], rows[1] ?? [], [], []]],
    ['cells of spaces', [['  '], head, ['', ' ', null, ' '], ...rows, [' ']]],
    ['a list that begins in column C', [[null, null, ...head], ...rows.map((row) => [null, null, ...row])]],
    ['a units row below the header', [['Belt', 'Width', 'Thickness', 'Speed'], [null, 'mm', '(mm)', '[m/s]'], ...rows]],
    ['a units row with dashes', [['Belt', 'Width', 'Thickness', 'Speed'], ['-', 'mm', 'mm', 'm/s'], ...rows]],
    ['units after commas and in words', [['Belt', 'Width, mm', 'Thickness in millimetres', 'Speed m/s'], ...rows]],
    ['headers in capitals with underscores', [['BELT', 'BELT_WIDTH_MM', 'THICKNESS_MM', 'SPEED_M/S'], ...rows]],
    [
      'headers over two lines',
      [['Belt\nno.', 'Belt\nwidth\n(mm)', 'Total\nthickness\n(mm)', 'Belt speed\n(m/s)'], ...rows],
    ],
    ['other words in another order', [['Conveyor No.', 'Width of belt [mm]', 'Thk (mm)', 'Velocity (m/s)'], ...rows]],
    [
      'two languages',
      [['Belt / Band', 'Width / Breite (mm)', 'Thickness / Dicke (mm)', 'Speed / Geschwindigkeit (m/s)'], ...rows],
    ],
    ['German', [['Förderband', 'Gurtbreite [mm]', 'Gurtdicke [mm]', 'Geschwindigkeit [m/s]'], ...rows]],
    ['Spanish', [['Cinta', 'Ancho (mm)', 'Espesor (mm)', 'Velocidad (m/s)'], ...rows]],
    ['French', [['Convoyeur', 'Largeur en mm', 'Épaisseur en mm', 'Vitesse en m/s'], ...rows]],
    ['Dutch', [['Transportband', 'Bandbreedte (mm)', 'Dikte (mm)', 'Snelheid (m/s)'], ...rows]],
    [
      'a merged group over sub-headers',
      [['Belt', 'Size', null, 'Speed (m/s)'], [null, 'Width (mm)', 'Thickness (mm)', null], ...rows],
      { merges: ['A1:A2', 'B1:C1', 'D1:D2'] },
    ],
    [
      'a group that spreads without a merge',
      [['', 'Belt', null, null], ['Belt', 'Width (mm)', 'Thickness (mm)', 'Speed (m/s)'], ...rows],
    ],
    ['a total below', [head, ...rows, ['Total', null, null, 5.5]]],
    ['a total that is a formula', [head, ...rows, [null, null, null, formula('SUM(D2:D3)', 5.5)]]],
    ['an average and a count below', [head, ...rows, ['Average', 900, 13, 2.75], ['Number of belts: 2']]],
    ['sums without a word or a formula', [head, ...rows, [null, 1800, 26]]],
    ['German and French totals', [head, ...rows, ['Summe', 1800], ['Moyenne', 900]]],
    [
      'remarks below',
      [
        head,
        ...rows,
        [],
        ['* measured in May'],
        ['Note: all sizes as built'],
        ['Prepared by the planner, checked by nobody, and printed on every last Friday'],
      ],
    ],
    ['a header repeated for printing', [head, rows[0] ?? [], head, rows[1] ?? []]],
    [
      'a header and units row repeated',
      [
        ['Belt', 'Width', 'Thickness', 'Speed'],
        [null, 'mm', 'mm', 'm/s'],
        rows[0] ?? [],
        ['Belt', 'Width', 'Thickness', 'Speed'],
        [null, 'mm', 'mm', 'm/s'],
        rows[1] ?? [],
      ],
    ],
    ['a row that numbers the columns', [head, [1, 2, 3, 4], ...rows]],
    ['numbers and dates that are all texts', [head, ...rows.map((row) => row.map(String))]],
    [
      'rows of formulas that answer nothing',
      [
        head,
        ...rows,
        [null, null, null, formula('IF(B4="","",B4/2)', '')],
        [null, null, formula('B5*2', 0), formula('B5/2', 0)],
      ],
    ],
    [
      'records in columns',
      [
        ['Belt', 'C1', 'C2'],
        ['Width (mm)', 800, 1000],
        ['Thickness (mm)', 12, 14],
        ['Speed (m/s)', 2.5, 3],
      ],
    ],
    [
      'records in columns under a title, units beside',
      [
        ['Register of belts'],
        ['Belt', '', 'C1', 'C2'],
        ['Width', 'mm', 800, 1000],
        ['Thickness', 'mm', 12, 14],
        ['Speed', 'm/s', 2.5, 3],
      ],
    ],
  ])('%s', (_, grid, rest) => {
    const { belts, report } = imported(list(grid, rest));
    expect(belts).toEqual(two);
    expect(report.notUnderstood).toEqual([]);
  });

  it('says which rows are no records', () => {
    const { table } = imported(list([['Register'], head, ...rows, ['Total', null, null, 5.5], ['Note: as built']]));
    expect(table.skipped.map(({ row, what }) => [row, what])).toEqual([
      [1, 'title'],
      [5, 'total'],
      [6, 'remark'],
    ]);
    expect(table).toMatchObject({ headerTop: 2, headerRow: 2, records: 2 });
  });

  it('takes the title above the list for the book', () =>
    expect(imported(list([['North plant belts'], head, ...rows])).state.title).toBe('North plant belts'));

  it('joins merged titles with the headers below them', () => {
    const { belts } = imported(
      list(
        [
          ['Belt', 'Pulleys (mm)', null, null, null],
          [null, 'Head', 'Tail', 'Min', 'Bend'],
          ['C1', 800, 630, 500, 400],
        ],
        { merges: ['A1:A2', 'B1:E1'] },
      ),
    );
    expect(belts).toEqual([
      { Belt: 'C1', 'Head pulley': 800, 'Tail pulley': 630, 'Smallest pulley': 500, 'Pulleys (mm) Bend': 400 },
    ]);
  });

  it('takes a type of take-up for that, not for a type of belt', () => {
    const { belts } = imported(
      list(
        [
          ['Belt', 'Take-up', null, 'Width (mm)'],
          [null, 'Type', 'Travel (mm)', null],
          ['C1', 'gravity', 900, 800],
        ],
        { merges: ['A1:A2', 'B1:C1', 'D1:D2'] },
      ),
    );
    expect(belts).toEqual([{ Belt: 'C1', 'Take-up type': 'automatic', 'Take-up travel': 900, Width: 800 }]);
  });
});

describe('records that are hard to tell', () => {
  it('keeps a belt of which only the name is known', () =>
    expect(imported(list([head, ...rows, ['C3']])).belts).toEqual([...two, { Belt: 'C3' }]));
  it('keeps belts without a name and names that stand twice, and says so', () => {
    const { belts, report } = imported(list([head, ['C1', 800, 12, 2.5], [null, 1000, 14, 3], ['c1', 650, 9, 2]]));
    expect(belts.map(({ Belt }) => Belt)).toEqual(['C1', undefined, 'c1']);
    expect(report.remarks).toEqual([
      expect.objectContaining({ cell: 'A3', what: 'the belt has no name' }),
      expect.objectContaining({ cell: 'A4', given: 'c1', what: expect.stringContaining('Sheet1 A2') }),
    ]);
  });
  it('takes headings between the records for areas', () => {
    const { belts, report } = imported(list([head, ['Quarry'], ...rows, ['Port:'], ['P1', 650, 9, 2]]));
    expect(belts.map(({ Belt, Area }) => [Belt, Area])).toEqual([
      ['C1', 'Quarry'],
      ['C2', 'Quarry'],
      ['P1', 'Port'],
    ]);
    expect(report.assumed.join()).toContain('headings');
  });
  it('takes merged headings for areas', () => {
    const { belts } = imported(list([head, ['Quarry 1', null, null, null], ...rows], { merges: ['A2:D2'] }));
    expect(belts.map(({ Area }) => Area)).toEqual(['Quarry 1', 'Quarry 1']);
  });
  it('takes a cell that is merged over several belts for each of them', () => {
    const { belts, report } = imported(
      list(
        [
          ['Area', ...head],
          ['Quarry', ...(rows[0] ?? [])],
          [null, ...(rows[1] ?? [])],
          ['Port', 'P1', 650, 9, 2],
        ],
        { merges: ['A2:A3'] },
      ),
    );
    expect(belts.map(({ Belt, Area }) => [Belt, Area])).toEqual([
      ['C1', 'Quarry'],
      ['C2', 'Quarry'],
      ['P1', 'Port'],
    ]);
    expect(report.assumed.join()).toContain('merged cell');
  });
  it('takes the first column for the belts when no header names them', () => {
    const { belts, report } = imported(list([[null, 'Width (mm)', 'Thickness (mm)', 'Speed (m/s)'], ...rows]));
    expect(belts).toEqual(two);
    expect(report.assumed.join()).toContain('first column');
  });
  it('keeps figures in columns without a header', () =>
    expect(imported(list([head, ['C1', 800, 12, 2.5, 'spare'], ['C2', 1000, 14, 3]])).belts[0]).toEqual({
      ...two[0],
      'Column E': 'spare',
    }));
});

describe('several sheets', () => {
  it('reads a list per area into one, with the sheets as areas', () => {
    const { belts, report } = imported([
      list([head, rows[0] ?? []], { name: 'Quarry' }),
      list(
        [
          ['Belt', 'Speed (m/s)', 'Width (in)', 'Spares'],
          ['C2', 3, 40, 2],
        ],
        { name: 'Port' },
      ),
    ]);
    expect(belts).toEqual([
      { ...two[0], Area: 'Quarry' },
      { Belt: 'C2', Area: 'Port', Width: 1016, Speed: 3, Spares: 2 },
    ]);
    expect(report.assumed.filter((text) => /\bArea\b/.test(text))).toHaveLength(2);
  });
  it('reads plate series and strips from their own sheets', () => {
    const { state, report } = imported([
      list(
        [
          [...head, 'Fastener'],
          ['C1', 800, 12, 2.5, 'heron'],
        ],
        { name: 'Belts list' },
      ),
      list(
        [
          ['Series', 'Min thk (mm)', 'Max thk (mm)', 'Min pulley (mm)', 'Pitch (mm)', 'Underground'],
          ['Heron', 8, 13, 450, 40, 'x'],
        ],
        { name: 'Plates' },
      ),
      list(
        [
          ['Strip', 'Roll length (m)', 'Price per roll'],
          ['Sedge', 28, '106,40 €'],
        ],
        { name: 'Strip prices' },
      ),
    ]);
    expect(records(state, 'Belts')).toEqual([{ ...two[0], 'Plate series': 'Heron' }]);
    expect(records(state, 'Plate series')).toEqual([
      {
        Series: 'Heron',
        'Minimum thickness': 8,
        'Maximum thickness': 13,
        'Minimum pulley square': 450,
        Pitch: 40,
        'Flame resistant': 'yes',
      },
    ]);
    expect(records(state, 'Strips')).toEqual([{ Strip: 'Sedge', 'Roll length': 28, 'Roll price': 106.4 }]);
    expect(report.remarks).toEqual([]);
  });
  it('reads lists of two kinds below each other in one sheet', () => {
    const { state } = imported(
      list([
        head,
        ...rows,
        [],
        ['Plate series'],
        ['Series', 'Supplier', 'Min thickness (mm)', 'Max thickness (mm)', 'Pitch (mm)'],
        ['Heron', 'S', 8, 13, 40],
      ]),
    );
    expect(records(state, 'Belts')).toEqual(two);
    expect(records(state, 'Plate series')).toMatchObject([{ Series: 'Heron', Pitch: 40 }]);
  });
  it("keeps other sheets as the user's own", () => {
    const { state, report } = imported([
      list([head, ...rows]),
      list(
        [
          ['Name', 'Phone', 'Area'],
          ['A. Planner', '123', 'north'],
        ],
        { name: 'Contacts' },
      ),
      list(
        [
          ['x', null, 3],
          [null, formula('C1*2', 6)],
        ],
        { name: 'Findings' },
      ),
    ]);
    expect(state.sheets.slice(-2)).toEqual([
      {
        name: 'Contacts',
        userColumns: [
          { header: 'Name', kind: 'text' },
          { header: 'Phone', kind: 'text' },
          { header: 'Area', kind: 'text' },
        ],
        rows: [{ cells: ['A. Planner', '123', 'north'] }],
      },
      {
        name: 'Findings',
        userColumns: ['A', 'B', 'C'].map((header) => ({ header, kind: 'text' })),
        rows: [{ cells: ['x', null, 3] }, { cells: [null, '=C2*2', null] }],
      },
    ]);
    expect(report.tables.map(({ sheet, target }) => [sheet, target])).toEqual([
      ['Sheet1', 'Belts'],
      ['Contacts', 'free'],
      ['Findings', 'free'],
    ]);
  });
  it('keeps a log of joints and a list of spares apart from the list of belts', () => {
    const { belts, report } = imported([
      list([
        [...head, 'Skew', 'Smallest pulley (mm)', 'Construction'],
        ['C1', 800, 12, 2.5, 45, 500, 'EP 400/3'],
        ['C2', 1000, 14, 3, 45, 500, 'EP 500/4'],
      ]),
      list(
        [
          ['Belt', 'Date', 'Hours', 'Crew'],
          ['C1', date(45000), 6, 3],
        ],
        { name: 'Joint log' },
      ),
      list(
        [
          ['Name', 'Type', 'Length', 'Price'],
          ['Roller', 'flat', 950, 12],
        ],
        { name: 'Spares' },
      ),
    ]);
    expect(belts).toHaveLength(2);
    expect(report.tables.map(({ target }) => target)).toEqual(['Belts', 'free', 'free']);
  });
  it('reports hidden sheets, keeps them, and reads one that is named', () => {
    const sheets = [
      list([head, ...rows], { name: 'Now' }),
      list([head, ['OLD', 500, 8, 1]], { name: 'Then', hidden: true }),
    ];
    const { belts, report } = imported(sheets);
    expect(belts).toEqual(two);
    expect(report.tables[1]).toMatchObject({
      sheet: 'Then',
      hidden: true,
      target: 'free',
      why: expect.stringContaining('hidden'),
    });
    expect(imported(sheets, { sheets: ['then'] }).belts).toEqual([{ Belt: 'OLD', Width: 500, Thickness: 8, Speed: 1 }]);
  });
  it('look for the header in the row that is named, and in no other sheet', () => {
    const sheets = [
      list([['Belt', 'Width (mm)'], ['draft', 1], [], head, ...rows], { name: 'Fleet' }),
      list([['Name', 'Phone'], ['x', '1'], [], ['Belt', 'see Fleet']], { name: 'Contacts' }),
    ];
    const { belts, report } = imported(sheets, { headerRow: 4 });
    expect(belts).toEqual(two);
    expect(report.tables.map(({ target }) => target)).toEqual(['Belts', 'free']);
  });
  it('takes assumptions by name and keeps their sheet', () => {
    const { state } = imported([
      list([head, ...rows]),
      list([['Assumptions'], ['Tight margin', 0.1], ['Strip overhang', 3, 'in'], ['Crew size', 4], ['Coffee', 2]], {
        name: 'Basis',
      }),
    ]);
    const assumptions = new Map(records(state, 'Assumptions').map(({ Name, Value }) => [Name, Value]));
    expect([assumptions.get('TightMargin'), assumptions.get('StripOverhang'), assumptions.get('CrewSize')]).toEqual([
      0.1, 76.2, 4,
    ]);
    expect(state.sheets.at(-1)?.name).toBe('Basis');
  });
});

describe("lists that can't be used", () => {
  const refusal = (book: ReturnType<typeof rawBook>, choices = {}): string => {
    try {
      proposeImport(book, choices);
    } catch (error) {
      if (error instanceof UnusableList) return error.message;
      throw error;
    }
    return 'it was taken';
  };
  it.each([
    ['an empty file', rawBook(), /no filled sheet/],
    [
      'a list without headers',
      rawBook(
        list(
          [
            ['C1', 800, 12],
            ['C2', 1000, 14],
          ],
          { name: 'Data' },
        ),
      ),
      /No list of belts.*Looked for a header row.*sheet "Data", row 1: "C1", "800"/,
    ],
    [
      'a sheet about something else',
      rawBook(
        list([
          ['Name', 'Phone'],
          ['A', '1'],
        ]),
      ),
      /No list of belts/,
    ],
    [
      'a hidden list',
      rawBook(list([head, ...rows], { name: 'Secret', hidden: true })),
      /Hidden sheets were not searched: "Secret"/,
    ],
  ])('%s', (_, book, message) => expect(refusal(book)).toMatch(message));
  it.each([
    [{ sheets: ['Nope'] }, /no filled sheet "Nope". It has: "Sheet1"/],
    [{ map: [{ header: 'Nope', to: 'Width' }] }, /no column "Nope". Its columns are "Belt", "Width \(mm\)"/],
    [{ map: [{ header: 'Belt', to: 'Verdict' }] }, /cannot be mapped to "Verdict"/],
    [{ fill: [{ column: 'Nope', value: '1' }] }, /no such input/],
    [{ headerRow: 3 }, /header in row 3/],
  ])('choices that name nothing: %j', (choices, message) =>
    expect(refusal(rawBook(list([head, ...rows])), choices)).toMatch(message),
  );
});

describe('a title over several columns', () => {
  const bodies = [
    ['C1', 800, 500, 400, 4100, 'quiet'],
    ['C2', 1000, 630, 500, 4200, 'edge wear'],
  ];
  const headers = ['Belt', 'Width (mm)', 'Head (mm)', 'Smallest (mm)', 'Cost code', 'Remarks'];
  const found = (titles: readonly (string | null)[], merges: readonly string[] = []): string[] =>
    imported(list([[...titles], headers, ...bodies], { merges })).table.columns.map(({ header, target }) =>
      target === 'own' ? header : target,
    );

  it('that is not merged counts where it helps to know a column, and nowhere else', () => {
    expect(found(['Ident', null, 'Pulleys', null, null, null])).toEqual([
      'Belt',
      'Width',
      'Head pulley',
      'Smallest pulley',
      'Cost code',
      'Remarks',
    ]);
  });

  it('that is merged counts for its columns', () => {
    expect(found(['Ident', null, 'Pulleys', null, 'Office', null], ['C1:D1', 'E1:F1'])).toEqual([
      'Belt',
      'Width',
      'Head pulley',
      'Smallest pulley',
      'Office Cost code',
      'Office Remarks',
    ]);
  });
});

it('takes names such as B-01 for no designation', () => {
  const { report, belts } = imported(
    list([
      ['Convoyeur', 'Largeur (mm)'],
      ['B-01', 650],
      ['B-02', 800],
      ['P 250', 1000],
    ]),
  );
  expect(belts.map(({ Belt }) => Belt)).toEqual(['B-01', 'B-02', 'P 250']);
  expect(report.assumed.filter((text) => text.includes('no header names'))).toEqual([]);
});
