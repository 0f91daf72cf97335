import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { declarations, recordSheets } from '../../../sheets/index.ts';
import { belts } from '../../../sheets/belts/index.ts';
import { plateSeries } from '../../../sheets/series/plate-series.ts';
import { isComputed, type SheetDeclaration } from '../../../src/sheet/declaration.ts';
import { headerWithUnit } from '../../../src/sheet/header.ts';
import { bestPairs } from '../../../src/xlsx/import/assignment.ts';
import { matchedHeaders } from '../../../src/xlsx/import/header-matching.ts';

/** What a header is taken for: its column, or undefined when it is only suggested. */
const meant = (headers: readonly string[], sheet: SheetDeclaration = belts): (string | undefined)[] =>
  matchedHeaders(
    headers.map((own) => ({ text: { own, above: [] } })),
    sheet,
  ).map(({ best }) => best?.column.header);

describe('headers', () => {
  it.each(
    recordSheets.flatMap((sheet) => (['metric', 'us'] as const).map((units) => [sheet.name, units, sheet] as const)),
  )('of the export are certain: %s, %s', (_, units, sheet) => {
    const headers = sheet.columns.map(({ header, kind }) => headerWithUnit(header, kind, units));
    matchedHeaders(
      headers.map((own) => ({ text: { own, above: [] } })),
      sheet,
    ).forEach(({ best }, index) => {
      expect(best?.column).toBe(sheet.columns[index]);
      // Computed columns are the export's own only: in other lists such figures are the list's, and an input goes
      // first.
      const computed = sheet.columns[index] !== undefined && isComputed(sheet.columns[index]);
      if (computed) expect(best?.confidence).toBeGreaterThanOrEqual(0.94);
      else expect(best?.confidence).toBe(1);
    });
  });

  it.each<[string, string]>([
    ['Belt width [in]', 'Width'],
    ['W mm', 'Width'],
    ['BELT_WIDTH_MM', 'Width'],
    ['beltWidth', 'Width'],
    ['Widht (mm)', 'Width'],
    ['Width of the belt', 'Width'],
    ['Nominal width', 'Width'],
    ['Pulley min dia.', 'Smallest pulley'],
    ['Min. pulley Ø mm', 'Smallest pulley'],
    ['Minimum Pulley Diameter', 'Smallest pulley'],
    ['Head Ø', 'Head pulley'],
    ['Tail drum', 'Tail pulley'],
    ['Center distance (ft)', 'Pulley centres'],
    ['Centers', 'Pulley centres'],
    ['C/C', 'Pulley centres'],
    ['Conveyor length', 'Pulley centres'],
    ['Belt length (m)', 'Loop length'],
    ['Speed FPM', 'Speed'],
    ['Velocity', 'Speed'],
    ['Motor kW', 'Power'],
    ['kW', 'Power'],
    ['HP', 'Power'],
    ['hp', 'Power'],
    ['H.P.', 'Power'],
    ['Motor H.P.', 'Power'],
    ['h/a', 'Hours per year'],
    ['hrs p.a.', 'Hours per year'],
    ['TPH', 'Capacity'],
    ['m/s', 'Speed'],
    ['Thk.', 'Thickness'],
    ['Top cover thickness', 'Top cover'],
    ['Carcase thickness', 'Carcass thickness'],
    ['Take-up', 'Take-up travel'],
    ['TakeUp', 'Take-up travel'],
    ['Belt rating (PIW)', 'Belt rating'],
    ['T1 (kN/m)', 'Known tension'],
    ['No. of splices', 'Joints'],
    ['Qty joints', 'Joints'],
    ['Install date', 'Installed'],
    ['Hrs/yr', 'Hours per year'],
    ['Annual operating hours', 'Hours per year'],
    ['Due date', 'Due'],
    ['Belt type', 'Construction'],
    ['Belt weight (kg/m)', 'Belt mass'],
    ['Gurtgewicht kg/m', 'Belt mass'],
    ['Pulley lagging', 'Drive pulley surface'],
    ['Zustand Antriebstrommel', 'Drive pulley condition'],
    ['Take-up type', 'Take-up type'],
    ['Système de tension', 'Take-up type'],
    ['Sonderwiderstände [N]', 'Special resistance'],
    ['Hand of skew', 'Skew hand'],
    ['Umläufe', 'Life in passes'],
    ['Take-up setting', 'Take-up position'],
    ['Longitud de rollo (m)', 'Roll length'],
    ['Insert length (m)', 'Insert'],
    ['Roll outside diameter', 'Spare roll diameter'],
    ['Kerndurchmesser', 'Spare roll core diameter'],
    ['Wrap angle (deg)', 'Wrap angle'],
    ['µ', 'Drive friction'],
  ])('%s means %s', (header, column) => expect(meant([header])).toEqual([column]));

  it.each([
    'Pulley',
    'Dia',
    'Pulley dia',
    'Joint no.',
    'Motor speed (rpm)',
    'Tension (kN)',
    'Inspection date',
    'Belt installed',
    'Belt life',
    'Bottom cover',
    'Idler spacing',
    'Width (kg)',
    'Remarks',
    '2023',
    '',
  ])('%s is taken for nothing', (header) => expect(meant([header])).toEqual([undefined]));

  it('are never sure of a short name joined: what the letters stand for is not known', () => {
    const [match] = matchedHeaders([{ text: { own: 'cc', above: [] } }], belts);
    expect(match?.best?.confidence ?? 0).toBeLessThan(0.85);
  });

  it.each([
    ['Dia', 'Smallest pulley'],
    ['Last done', 'Installed'],
  ])('%s only suggests %s', (own, column) => {
    const [match] = matchedHeaders([{ text: { own, above: [] } }], belts);
    expect(match?.best).toBeUndefined();
    expect(match?.suggestions.map((one) => one.column.header)).toContain(column);
  });

  it('go to one column each, with the greatest total', () => {
    expect(meant(['Conveyor', 'Name', 'Width', 'Belt width'])).toEqual(['Belt', undefined, 'Width', undefined]);
    expect(meant(['Tension', 'Rated tension'])).toEqual(['Known tension', 'Belt rating']);
  });
  it('of plate series are told apart from those of belts', () => {
    expect(
      meant(
        ['Series', 'Min thk', 'Max thk', 'Min pulley', 'Min pulley at 45°', 'Underground', 'Price per pack'],
        plateSeries,
      ),
    ).toEqual([
      'Series',
      'Minimum thickness',
      'Maximum thickness',
      'Minimum pulley square',
      'Minimum pulley at 45',
      'Flame resistant',
      'Pack price',
    ]);
  });

  it('are matched whatever their case, accents and punctuation', () => {
    const names = belts.columns.flatMap((column) => (isComputed(column) ? [] : [column.header]));
    fc.assert(
      fc.property(
        fc.constantFrom(...names),
        fc.boolean(),
        fc.constantFrom(' ', '_', ' - ', '.'),
        fc.constantFrom('', ':', ' *', '.'),
        (name, upper, between, after) => {
          const header = (upper ? name.toUpperCase() : name.toLowerCase()).replaceAll(/[ -]/g, between) + after;
          expect(meant([header])).toEqual([name]);
        },
      ),
    );
  });

  it('have names that no two columns of a sheet share, save where the cells decide', () => {
    const shared = declarations.flatMap((sheet) => {
      const owners = new Map<string, string[]>();
      for (const column of sheet.columns)
        for (const name of new Set([column.header, ...(column.alsoCalled ?? [])]))
          owners.set(name.toLowerCase(), [...(owners.get(name.toLowerCase()) ?? []), column.header]);
      return [...owners]
        .filter(([, headers]) => headers.length > 1)
        .map(([name, headers]) => `${sheet.name}, ${name}: ${headers.join(', ')}`);
    });
    expect(shared.toSorted()).toEqual([
      'Belts, carcass: Construction, Carcass thickness',
      'Belts, plates: Plate series, Plates',
      'Belts, working tension: Known tension, Working tension',
      'Pulleys, tension: Local tension, Tension',
    ]);
  });
});

describe('the best pairing', () => {
  it('has the greatest total of all pairings', () => {
    const total = (scores: readonly (readonly number[])[], pairs: readonly (number | undefined)[]): number =>
      pairs.reduce<number>((sum, column, row) => sum + (column === undefined ? 0 : (scores[row]?.[column] ?? 0)), 0);
    const best = (scores: readonly (readonly number[])[], row = 0, used: readonly number[] = []): number => {
      const own = scores[row];
      if (own === undefined) return 0;
      return Math.max(
        best(scores, row + 1, used),
        ...own.map((score, column) => (used.includes(column) ? 0 : score + best(scores, row + 1, [...used, column]))),
      );
    };
    const tables = fc
      .tuple(fc.integer({ min: 1, max: 5 }), fc.integer({ min: 1, max: 5 }))
      .chain(([rows, columns]) =>
        fc.array(
          fc.array(fc.oneof(fc.constant(0), fc.integer({ min: 1, max: 9 })), {
            minLength: columns,
            maxLength: columns,
          }),
          { minLength: rows, maxLength: rows },
        ),
      );
    fc.assert(
      fc.property(tables, (scores) => {
        const pairs = bestPairs(scores);
        const taken = pairs.filter((column) => column !== undefined);
        expect(new Set(taken).size).toBe(taken.length);
        expect(total(scores, pairs)).toBe(best(scores));
      }),
      { numRuns: 300 },
    );
  });
});
