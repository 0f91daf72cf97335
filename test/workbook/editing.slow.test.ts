import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Content, isFault, type Value } from '../../src/formula/values.ts';
import type { BookState } from '../../src/workbook/state.ts';
import type { BookChange, CellPlace } from '../../src/workbook/place.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { assumptionValues } from '../../sheets/values/assumptions.ts';
import { columnOf, bookOf, heron, inputsOf, letters, plover, randomBelt, reed, soundBelt } from './books.ts';
import { agree } from './differences.ts';

/** A book that was edited holds the values of the same book built anew; undo and redo lead back and forth exactly. */

type Values = ReadonlyMap<string, Value>;

function valuesOf(book: Workbook): Values {
  const values = new Map<string, Value>();
  for (const { name, rows } of book.state.sheets) {
    const columns = book.columns(name);
    rows.forEach((_, record) =>
      columns.forEach(({ header }, column) =>
        values.set(`${name}!${record} ${column} ${header}`, book.shown({ sheet: name, record, column })),
      ),
    );
  }
  return values;
}

function differing(one: Values, other: Values, share = 1e-12): string[] {
  return [...new Set([...one.keys(), ...other.keys()])].flatMap((key) => {
    const [a, b] = [one.get(key) ?? null, other.get(key) ?? null];
    return agree(a, b, share) ? [] : [`${key}: ${String(a)} edited, ${String(b)} anew`];
  });
}

/** One step of work on a book; answers false when it does not apply to the book as it is. */
interface Act {
  readonly says: string;
  readonly run: (book: Workbook) => void;
}

const rowsOf = (book: Workbook, sheet: string): number => book.sheet(sheet).rows.length;
const within = (count: number, chance: number): number => (count === 0 ? 0 : chance % count);

/**
 * Formulas of a user's: computed cells of other rows, whole columns, named values, other sheets, and what can't be
 * read.
 */
const formulas: readonly string[] = [
  `=${letters('Cut length')}2*0.01`,
  `=${letters('Edge offset')}3`,
  `=${letters('Clamped thickness')}2/2`,
  `=${letters('Clamped thickness')}3+1`,
  `=SUM(${letters('Plates')}:${letters('Plates')})`,
  `=MAX(${letters('Cut length')}2:${letters('Cut length')}9)`,
  `=COUNTIF(${letters('Verdict')}:${letters('Verdict')},"fits")`,
  '=D2*2',
  '=D3/2',
  '=V2',
  "='Plate series'!E2",
  "='Plate series'!AG2*10",
  '=TightMargin*100',
  `=StripOverhang+${letters('Cut length')}2`,
  '=SKEWLENGTH(D2,V2)',
  `=${letters('Verdict')}2`,
  `=IF(${letters('Verdict')}3="fits",0,30)`,
  `=${letters('Working tension')}2`,
  `=${letters('Working tension')}3*1.1`,
  '=1/0',
  '=NOSUCH',
  `=${letters('Cut length')}99`,
  `=${letters('Cut length')}2:${letters('Cut length')}3`,
  '=SUM(',
  '=Belts!D2',
  '=PLATESPOTS(800,0,300,40,10)',
  '="Plover"',
  '=W2',
  '=tightmargin*9',
  '=Mine',
  `=belts!${letters('Clamped thickness')}2`,
];

const contents: readonly Content[] = [
  null,
  0,
  45,
  30,
  5,
  800,
  1200,
  -1,
  'abc',
  '',
  'Heron',
  'none',
  true,
  46000,
  0.3,
  ...formulas,
  ...formulas,
];

const chance = fc.nat({ max: 9999 });

const anyEdit = fc.tuple(chance, chance, fc.constantFrom(...contents)).map(([row, column, content]): Act => ({
  says: `edit ${row}/${column} ${String(content)}`,
  run(book) {
    const record = within(rowsOf(book, 'Belts'), row);
    const place = { sheet: 'Belts', record, column: within(book.columns('Belts').length, column) };
    book.edit([{ ...place, content }]);
  },
}));

/** Likely inputs, so that values move and are no errors. */
const likelyEdit = fc.tuple(chance, chance, randomBelt(0)).map(([row, column, belt]): Act => {
  const header = inputsOf('Belts')[within(inputsOf('Belts').length, column)]?.header ?? 'Width';
  return {
    says: `edit ${row} ${header} ${String(belt[header] ?? null)}`,
    run(book) {
      book.edit([
        {
          sheet: 'Belts',
          record: within(rowsOf(book, 'Belts'), row),
          column: columnOf(book, 'Belts', header),
          content: belt[header] ?? null,
        },
      ]);
    },
  };
});

const manyEdits = fc
  .tuple(chance, chance, fc.array(fc.constantFrom(...contents), { minLength: 2, maxLength: 9 }))
  .map(([row, column, list]): Act => ({
    says: `paste ${row}/${column} ${list.map(String).join(' | ')}`,
    run(book) {
      const width = book.columns('Belts').length;
      book.edit(
        list.map((content, index) => ({
          sheet: 'Belts',
          record: within(rowsOf(book, 'Belts'), row + Math.floor(index / 3)),
          column: within(width, column + (index % 3)),
          content,
        })),
      );
    },
  }));

const seriesEdit = fc
  .tuple(
    chance,
    chance,
    fc.constantFrom<Content>(
      null,
      20,
      34,
      400,
      'Plover',
      'x',
      -3,
      'yes',
      `=Belts!${letters('Cut length')}2`,
      '=E2*2',
      '=AC3',
    ),
  )
  .map(([row, column, content]): Act => ({
    says: `series ${row}/${column} ${String(content)}`,
    run(book) {
      book.edit([
        {
          sheet: 'Plate series',
          record: within(rowsOf(book, 'Plate series'), row),
          column: within(book.columns('Plate series').length, column),
          content,
        },
      ]);
    },
  }));

const namedEdit = fc
  .tuple(
    fc.nat({ max: assumptionValues.length - 1 }),
    fc.constantFrom<Content>(
      null,
      0,
      0.1,
      1,
      2,
      46351,
      'A',
      'B',
      'x',
      `=${letters('Plates')}2`,
      `=Belts!${letters('Cut length')}2/1000`,
      '=B3',
      '=TightMargin*2',
      '=1/0',
    ),
  )
  .map(([record, content]): Act => ({
    says: `assumption ${record} ${String(content)}`,
    run(book) {
      if (record < rowsOf(book, 'Assumptions')) book.edit([{ sheet: 'Assumptions', record, column: 1, content }]);
    },
  }));

const nameEdit = fc
  .tuple(
    fc.nat({ max: 4 }),
    fc.constantFrom<Content>('TightMargin', 'tightmargin', 'ReviewDate', 'Mine', 'A1', 'no name', '', null, 5, '="x"'),
  )
  .map(([record, content]): Act => ({
    says: `name ${record} ${String(content)}`,
    run(book) {
      if (record < rowsOf(book, 'Assumptions')) book.edit([{ sheet: 'Assumptions', record, column: 0, content }]);
    },
  }));

const rowMoves = fc
  .tuple(
    fc.constantFrom('Belts', 'Belts', 'Plate series', 'Assumptions'),
    fc.constantFrom('add', 'remove'),
    chance,
    fc.integer({ min: 1, max: 2 }),
  )
  .map(([sheet, way, at, count]): Act => ({
    says: `${way} ${count} of ${sheet} at ${at}`,
    run(book) {
      const rows = rowsOf(book, sheet);
      if (way === 'add')
        book.addRecords(
          sheet,
          within(rows + 1, at),
          Array.from({ length: count }, () => (sheet === 'Belts' ? ['new', null, null, 650] : [])),
        );
      else if (rows > count) book.removeRecords(sheet, within(rows - count + 1, at), count);
    },
  }));

const columnActs = fc.tuple(fc.constantFrom('add', 'remove', 'rename'), chance).map(([way, which]): Act => ({
  says: `${way} column ${which}`,
  run(book) {
    const own = book.columns('Belts').flatMap((column, index) => (column.own ? [index] : []));
    const column = own[within(own.length, which)];
    if (way === 'add') book.addColumn('Belts', `Own ${which}`);
    else if (column !== undefined) {
      if (way === 'remove') book.removeColumn('Belts', column);
      else book.changeColumn('Belts', column, { header: `Other ${which}`, kind: 'text' });
    }
  },
}));

const freeSheet = fc
  .tuple(
    chance,
    chance,
    fc.constantFrom<Content>(
      `=Belts!${letters('Cut length')}2`,
      '=Belts!D2*2',
      `=SUM(Belts!${letters('Plates')}:${letters('Plates')})`,
      '=PLATESPOTS(800,0,200,40,10)',
      '=A1+1',
      7,
      null,
      '=TightMargin',
      `="a"&Belts!${letters('Verdict')}2`,
    ),
  )
  .map(([row, column, content]): Act => ({
    says: `free sheet ${row}/${column} ${String(content)}`,
    run(book) {
      if (!book.state.sheets.some(({ name }) => name === 'Notes')) book.addSheet('Notes', 4, 6);
      book.edit([{ sheet: 'Notes', record: row % 6, column: column % 4, content }]);
    },
  }));

const others = fc.constantFrom<Act>(
  { says: 'undo', run: (book) => void book.undo() },
  { says: 'undo', run: (book) => void book.undo() },
  { says: 'redo', run: (book) => void book.redo() },
  { says: 'convert', run: (book) => void book.convert(book.units === 'us' ? 'metric' : 'us') },
  {
    says: 'no notes',
    run: (book) => {
      if (book.state.sheets.some(({ name }) => name === 'Notes')) book.removeSheet('Notes');
    },
  },
);

const acts = fc.array(
  fc.oneof(
    { weight: 4, arbitrary: anyEdit },
    { weight: 3, arbitrary: likelyEdit },
    { weight: 2, arbitrary: manyEdits },
    { weight: 2, arbitrary: seriesEdit },
    { weight: 2, arbitrary: namedEdit },
    { weight: 1, arbitrary: nameEdit },
    { weight: 2, arbitrary: rowMoves },
    { weight: 1, arbitrary: columnActs },
    { weight: 2, arbitrary: freeSheet },
    { weight: 3, arbitrary: others },
  ),
  { minLength: 1, maxLength: 12 },
);

const start = (): BookState =>
  bookOf({
    belts: [
      soundBelt,
      { ...soundBelt, Belt: 'B2', Width: 650, Power: null, Capacity: 300 },
      { ...soundBelt, Belt: 'B3', 'Plate series': 'Heron', Thickness: 14 },
    ],
    series: [plover, heron],
    strips: [reed],
  });

test('an edited book has the values of one built anew, undone it is as it was, redone as it became', () => {
  fc.assert(
    fc.property(acts, (list) => {
      const first = start();
      const book = new Workbook(first);
      const before = valuesOf(book);
      for (const [index, act] of list.entries()) {
        act.run(book);
        const differences = differing(valuesOf(book), valuesOf(new Workbook(book.state)));
        if (differences.length > 0)
          throw new Error(
            `after ${list
              .slice(0, index + 1)
              .map(({ says }) => says)
              .join('; ')}:\n${differences.slice(0, 5).join('\n')}`,
          );
      }
      const after = valuesOf(book);
      const last = book.state;
      while (book.undoable !== undefined) book.undo();
      expect(book.state).toEqual(first);
      expect(differing(valuesOf(book), before)).toEqual([]);
      while (book.redoable !== undefined) book.redo();
      if (!list.some(({ says }) => says === 'undo')) expect(book.state).toEqual(last);
      if (book.state === last) expect(differing(valuesOf(book), after)).toEqual([]);
    }),
    { numRuns: 12 },
  );
}, 300_000);

test('a change names every cell whose value moved', () => {
  fc.assert(
    fc.property(acts, (list) => {
      const book = new Workbook(start());
      let change: BookChange | undefined;
      book.listen((next) => {
        change = next;
      });
      for (const act of list) {
        const [state, before] = [book.state, valuesOf(book)];
        change = undefined;
        act.run(book);
        if (book.state === state) continue;
        const told = change as BookChange | undefined;
        expect(told).toBeDefined();
        if (told === undefined || told.cells === 'all') continue;
        const named = new Set(told.cells.map(({ sheet, record, column }: CellPlace) => `${sheet}!${record} ${column}`));
        const silent = differing(before, valuesOf(book)).filter(
          (line) =>
            !line.startsWith('Notes!') &&
            !named.has(
              line
                .split(' ')
                .slice(0, line.startsWith('Plate series!') ? 3 : 2)
                .join(' '),
            ),
        );
        expect(silent).toEqual([]);
      }
    }),
    { numRuns: 30 },
  );
}, 300_000);

describe('formulas that go round in a circle', () => {
  const edited = (
    ...edits: readonly (readonly [sheet: string, record: number, header: string, content: Content])[]
  ): Workbook => {
    const book = new Workbook(start());
    book.edit(
      edits.map(([sheet, record, header, content]) => ({
        sheet,
        record,
        column: columnOf(book, sheet, header),
        content,
      })),
    );
    return book;
  };
  const code = (value: Value): unknown => (isFault(value) ? value.code : value);

  test('through a computed cell', () => {
    const book = edited(['Belts', 0, 'Skive depth', `=${letters('Clamped thickness')}2*0.1`]);
    expect(code(book.read('Belts', 0, 'Skive depth'))).toBe('#CYCLE!');
    expect(code(book.read('Belts', 0, 'Clamped thickness'))).toBe('#CYCLE!');
    expect(book.read('Belts', 0, 'Thickness check')).toBe('not known');
    expect(book.read('Belts', 1, 'Thickness check')).toBe('fits');
    book.edit([{ sheet: 'Belts', record: 0, column: book.column('Belts', 'Skive depth'), content: 0 }]);
    expect(book.read('Belts', 0, 'Verdict')).toBe('fits');
  });

  test('of two records over a column of theirs', () => {
    const book = edited(
      ['Belts', 0, 'Width', `=${letters('Cut length')}3`],
      ['Belts', 1, 'Width', `=${letters('Cut length')}2`],
    );
    for (const record of [0, 1]) expect(code(book.read('Belts', record, 'Width'))).toBe('#CYCLE!');
  });

  test('through an assumption and through a series', () => {
    expect(
      code(
        edited(['Assumptions', 5, 'Value', `=Belts!${letters('Strip length each')}2`]).read(
          'Belts',
          0,
          'Strip length each',
        ),
      ),
    ).not.toBe('#CYCLE!');
    const assumption = edited(['Assumptions', 3, 'Value', `=Belts!${letters('Strip length each')}2`]);
    expect(code(assumption.named('StripOverhang'))).toBe('#CYCLE!');
    expect(code(assumption.read('Belts', 0, 'Strip length each'))).toBe('#CYCLE!');
    const series = edited(['Plate series', 0, 'Pitch', `=Belts!${letters('Plates')}2`]);
    expect(code(series.read('Plate series', 0, 'Pitch'))).toBe('#CYCLE!');
    expect(code(series.read('Belts', 0, 'Plates'))).toBe('#CYCLE!');
  });

  test('on a free sheet', () => {
    const book = new Workbook(start());
    book.addSheet('Notes', 2, 2);
    book.edit([
      { sheet: 'Notes', record: 0, column: 0, content: `=Belts!${letters('Cut length')}2/10` },
      { sheet: 'Belts', record: 0, column: 3, content: '=Notes!A2' },
    ]);
    expect(code(book.read('Belts', 0, 'Width'))).toBe('#CYCLE!');
    expect(code(book.shown({ sheet: 'Notes', record: 0, column: 0 }))).toBe('#CYCLE!');
  });

  test('however the sheet and the name are written', () => {
    expect(
      code(
        edited(['Belts', 0, 'Skive depth', `=belts!${letters('Clamped thickness')}2*0.1`]).read(
          'Belts',
          0,
          'Skive depth',
        ),
      ),
    ).toBe('#CYCLE!');
    const book = edited(['Assumptions', 3, 'Value', '=Belts!X2'], ['Belts', 0, 'Skive depth', '=stripoverhang/10']);
    expect(code(book.named('StripOverhang'))).toBe('#CYCLE!');
  });

  test('no circle: a formula on a computed cell of another record', () => {
    const book = edited(['Belts', 0, 'Width', `=${letters('Cut length')}3/2`]);
    expect(book.read('Belts', 0, 'Width')).toBeCloseTo(Number(book.read('Belts', 1, 'Cut length')) / 2, 9);
    expect(book.read('Belts', 0, 'Cut length')).toBeCloseTo(
      (Number(book.read('Belts', 1, 'Cut length')) / 2) * Math.SQRT2,
      6,
    );
  });
});

describe('rows that move take formulas along', () => {
  const withFormulas = (): Workbook => {
    const book = new Workbook(start());
    const column = book.column('Belts', 'Skive depth');
    book.edit([
      { sheet: 'Belts', record: 1, column, content: '=D2/1000' },
      { sheet: 'Belts', record: 2, column, content: `=SUM(${letters('Plates')}:${letters('Plates')})/100` },
      {
        sheet: 'Plate series',
        record: 0,
        column: book.column('Plate series', 'Pack price'),
        content: '=Belts!D4+Belts!$D$2',
      },
    ]);
    return book;
  };
  const skive = (book: Workbook, record: number): Content =>
    book.content({ sheet: 'Belts', record, column: book.column('Belts', 'Skive depth') });
  const price = (book: Workbook): Content =>
    book.content({ sheet: 'Plate series', record: 0, column: book.column('Plate series', 'Pack price') });

  test('a row put in above', () => {
    const book = withFormulas();
    const value = book.read('Belts', 1, 'Skive depth');
    book.addRecords('Belts', 0, [['first']]);
    expect(skive(book, 2)).toBe('=D3/1000');
    expect(book.read('Belts', 2, 'Skive depth')).toBe(value);
    expect(skive(book, 3)).toBe(`=SUM(${letters('Plates')}:${letters('Plates')})/100`);
    expect(price(book)).toBe('=Belts!D5+Belts!$D$3');
    expect(book.read('Belts', 0, 'Belt')).toBe('first');
    book.undo();
    expect(skive(book, 1)).toBe('=D2/1000');
    expect(price(book)).toBe('=Belts!D4+Belts!$D$2');
  });

  test('a row put in between stays out of what does not mention it', () => {
    const book = withFormulas();
    book.addRecords('Belts', 1, [[]]);
    expect(skive(book, 2)).toBe('=D2/1000');
    expect(price(book)).toBe('=Belts!D5+Belts!$D$2');
  });

  test('a row taken out that a formula refers to', () => {
    const book = withFormulas();
    book.removeRecords('Belts', 0, 1);
    expect(skive(book, 0)).toBe('=#REF!/1000');
    const value = book.read('Belts', 0, 'Skive depth');
    expect(isFault(value) && value.code).toBe('#REF!');
    expect(book.read('Belts', 0, 'Thickness check')).toBe('not known');
    expect(price(book)).toBe('=Belts!D3+#REF!');
    book.undo();
    expect(price(book)).toBe('=Belts!D4+Belts!$D$2');
    expect(book.read('Belts', 1, 'Thickness check')).toBe('fits');
  });
});

describe('names of values', () => {
  const named = (record: number, content: Content): Workbook => {
    const book = new Workbook(start());
    book.edit([{ sheet: 'Assumptions', record, column: 0, content }]);
    return book;
  };

  test('of two alike the first counts', () => {
    const book = named(1, 'tightmargin');
    book.edit([{ sheet: 'Assumptions', record: 1, column: 1, content: 0.9 }]);
    expect(book.named('TightMargin')).toBe(0.05);
    expect(book.evaluate('=TightMargin')).toBe(0.05);
  });

  test("a name in another case is the same, as for users' formulas", () => {
    const book = named(0, 'TIGHTMARGIN');
    expect(book.named('TightMargin')).toBe(0.05);
    expect(book.read('Belts', 0, 'Verdict')).toBe('fits');
    book.edit([{ sheet: 'Assumptions', record: 0, column: 1, content: 0.9 }]);
    expect(book.read('Belts', 0, 'Tension check')).toBe('tight');
  });

  test.each(['A1', 'no name', '', 'TRUE', '1st', 'R1C1', '="x"'])('"%s" is none, and the book goes on', (text) => {
    const book = named(0, text);
    expect(book.read('Belts', 0, 'Pulley check')).toBe('not known');
    expect(new Workbook(book.state).read('Belts', 0, 'Pulley check')).toBe('not known');
    book.undo();
    expect(book.read('Belts', 0, 'Pulley check')).toBe('fits');
  });

  test('a name of your own', () => {
    const book = new Workbook(start());
    book.addRecords('Assumptions', 0, [['Wear', 2.5]]);
    book.edit([{ sheet: 'Belts', record: 0, column: book.column('Belts', 'Skive depth'), content: '=wear/10' }]);
    expect(book.read('Belts', 0, 'Skive depth')).toBe(0.25);
  });
});
