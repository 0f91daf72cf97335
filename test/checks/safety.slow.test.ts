import { belts } from '../../sheets/belts/index.ts';
import { plateSeries } from '../../sheets/series/plate-series.ts';
import { type Column, isComputed } from '../../src/sheet/declaration.ts';
import { slotParts } from '../../src/sheet/declared-formula.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { checkColumns, checkHeader, comparedFormula, marginOf } from '../../sheets/belts/check-columns.ts';
import { beltChecks } from '../../sheets/belts/checks/index.ts';
import { nodesOf, parsed } from '../../src/formula/syntax.ts';
import type { CheckDeclaration } from '../../sheets/belts/check-declaration.ts';
import { cellIssue } from '../../src/records/cell-issue.ts';
import { idlerFigure, type IdlerRun } from '../../src/functions/figure-names.ts';
import { idlerMasses } from '../../src/functions/tables.ts';
import { serviceNeeds } from '../../src/functions/series.ts';
import { isWords } from '../../src/units/quantities.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { assumptionValues } from '../../sheets/values/assumptions.ts';
import { tableValues } from '../../sheets/values/tables.ts';
import {
  columnOf,
  type Cells,
  bookOf,
  heron,
  inputsOf,
  type Parts,
  plover,
  randomParts,
  soundBelt,
} from '../workbook/books.ts';
import type { BeltHeader, HeaderOf, SeriesHeader, SheetName, ValueName } from '../../sheets/index.ts';

/**
 * No check passes on an input that is missing or not allowed.
 *
 * What a check needs is told here once more, by hand and by route, and what is allowed is read from the declarations:
 * neither comes from the formulas that are tested.
 */

interface Needs {
  readonly belt?: readonly BeltHeader[];
  readonly series?: readonly SeriesHeader[];
  readonly named?: readonly ValueName[];
}

type Read = (header: BeltHeader) => unknown;
type ReadNamed = (name: ValueName) => unknown;

const allNeeds = (list: readonly Needs[]): Needs => ({
  belt: list.flatMap(({ belt = [] }) => belt),
  series: list.flatMap(({ series = [] }) => series),
  named: list.flatMap(({ named = [] }) => named),
});

const friction = (belt: Read): readonly BeltHeader[] =>
  belt('Drive friction') === null ? ['Drive pulley surface', 'Drive pulley condition'] : ['Drive friction'];
const takeUpKind = (belt: Read): Needs =>
  belt('Take-up type') === null ? { named: ['TakeUpType'] } : { belt: ['Take-up type'] };
const starting = (belt: Read): Needs => {
  const word = String(belt('Starting') ?? '').toLowerCase();
  return belt('Starting') === null
    ? { named: ['StartFactor'] }
    : {
        belt: ['Starting'],
        named: [
          ...(word === 'direct on line' ? (['StartDirect'] as const) : []),
          ...(word === 'soft start' ? (['StartSoft'] as const) : []),
          ...(word === 'fluid coupling' ? (['StartFluid'] as const) : []),
          ...(word === 'frequency converter' ? (['StartConverter'] as const) : []),
        ],
      };
};
const mass = (belt: Read): Needs =>
  belt('Belt mass') === null ? { belt: ['Width', 'Thickness'], named: ['BeltDensity'] } : { belt: ['Belt mass'] };
/** A second drive, and a weight that hangs, where the record says of one. */
const secondDrive = (belt: Read): Needs =>
  belt('Second drive place') === null
    ? {}
    : {
        belt: [
          'Second drive place',
          'Second drive share',
          'Second wrap angle',
          ...(belt('Second drive friction') === null ? [] : (['Second drive friction'] as const)),
          ...(belt('Second drive place') === 'return run'
            ? (['Second drive distance', 'Pulley centres'] as const)
            : []),
        ],
      };
const hung = (belt: Read): Needs =>
  belt('Take-up weight') === null
    ? {}
    : { belt: ['Take-up weight', ...(belt('Take-up rope falls') === null ? [] : (['Take-up rope falls'] as const))] };
const slack = (belt: Read): Needs =>
  allNeeds([takeUpKind(belt), secondDrive(belt), hung(belt), { belt: ['Wrap angle', 'Width', ...friction(belt)] }]);
/** Where drive and take-up stand, as far as the record says. */
const places = (belt: Read): Needs => ({
  belt: [
    ...(belt('Drive place') === null ? [] : (['Drive place'] as const)),
    ...(belt('Drive place') === 'return run' ? (['Drive distance'] as const) : []),
    ...(belt('Take-up distance') === null ? [] : (['Take-up distance'] as const)),
  ],
});
/** Idlers: of the belt, of all belts, or by the two widths of the table beside the belt's. */
function idlers(belt: Read, named: ReadNamed): Needs {
  const widths = idlerMasses.map(({ width }) => width);
  const at = Math.max(500, Number(belt('Width')));
  const row = Math.min(
    widths.length - 2,
    widths.findLastIndex((width) => width <= at),
  );
  const ofRun = (run: IdlerRun, own: BeltHeader): Needs =>
    belt(own) !== null
      ? { belt: [own] }
      : Number(named(`${run}Idlers`)) > 0
        ? { named: [`${run}Idlers`] }
        : {
            belt: ['Width'],
            named: [`${run}Idlers`, ...idlerMasses.slice(row, row + 2).map(({ width }) => idlerFigure(run, width))],
          };
  return allNeeds([ofRun('Carry', 'Carry idler mass'), ofRun('Return', 'Return idler mass')]);
}
const strength = (belt: Read): Needs =>
  belt('Belt rating') === null
    ? { belt: ['Construction'], named: [/st/i.test(String(belt('Construction'))) ? 'SafetySteelCord' : 'SafetyFabric'] }
    : { belt: ['Belt rating'] };

/** What the carcass's pulleys are counted from: the strength, without one the rating. */
const carcassStrength = (belt: Read): Needs =>
  typeof belt('Belt strength') === 'number'
    ? { belt: ['Construction'], named: ['CarcassSafety'] }
    : { belt: ['Belt rating'] };

/**
 * Inputs of all routes: they may be empty, but what stands in them must be allowed unless another route was asked for.
 */
const routeInputs = [
  'Width',
  'Thickness',
  'Belt mass',
  'Capacity',
  'Power',
  'Speed',
  'Pulley centres',
  'Lift',
  'Wrap angle',
  'Drive friction',
  'Drive pulley surface',
  'Drive pulley condition',
  'Take-up type',
  'Starting',
  'Special resistance',
  'Drive place',
  'Drive distance',
  'Second drive place',
  'Second drive distance',
  'Second drive share',
  'Second wrap angle',
  'Second drive friction',
  'Take-up distance',
  'Take-up weight',
  'Take-up rope falls',
  'Carry idler mass',
  'Return idler mass',
] as const;

/** The inputs of the working tension, by the route that was taken. */
function tensionNeeds(belt: Read, named: ReadNamed): Needs {
  const forced = belt('Tension method') !== null;
  const route: readonly BeltHeader[] = forced ? ['Tension method'] : [];
  const filled = routeInputs.filter((header) => belt(header) !== null);
  switch (String(belt('Tension from')).toLowerCase()) {
    case 'entered':
      return { belt: ['Known tension', ...route] };
    case 'power':
      return allNeeds([
        slack(belt),
        starting(belt),
        { belt: ['Power', 'Speed', ...(forced ? route : filled)], named: ['DriveEfficiency'] },
      ]);
    case 'resistances':
      return allNeeds([
        slack(belt),
        mass(belt),
        starting(belt),
        places(belt),
        idlers(belt, named),
        {
          belt: [
            'Capacity',
            'Pulley centres',
            'Lift',
            'Speed',
            ...(forced ? route : filled),
            ...(belt('Special resistance') === null ? [] : (['Special resistance'] as const)),
          ],
          named: [
            'DriveMassShare',
            'StartAcceleration',
            'BrakeDeceleration',
            'RollingFriction',
            'LowFriction',
            'CarryIdlerSpacing',
            'ReturnIdlerSpacing',
            'SagRatio',
          ],
        },
      ]);
    case 'belt rating':
      return allNeeds([strength(belt), { belt: forced ? ['Tension method'] : filled }]);
    default:
      return { belt: ['Known tension'] };
  }
}

/** The inputs of the carcass's thickness: as entered, less covers, or from the designation. */
function carcassNeeds(belt: Read): Needs {
  if (belt('Carcass thickness') !== null) return { belt: ['Carcass thickness'] };
  if (belt('Carcass from') !== 'designation') return { belt: ['Thickness'] };
  const material = String(belt('Carcass material'));
  if (material === 'St') return {};
  return { named: ['PlyBase', /^(P|NN)$/.test(material) ? 'PlyPerStrengthPolyamide' : 'PlyPerStrength'] };
}

/** The inputs of a joint's life: in hours, in passes, or the shorter of both. */
function lifeNeeds(belt: Read): Needs {
  if (belt('Life in passes') === null) return { belt: ['Joint life'] };
  return {
    belt: [
      'Life in passes',
      'Speed',
      'Pulley centres',
      'Head pulley',
      'Tail pulley',
      ...(belt('Joint life') === null ? [] : (['Joint life'] as const)),
    ],
  };
}

const flagOf = {
  flameResistant: 'Flame resistant',
  nonMagnetic: 'Non-magnetic',
  corrosionResistant: 'Corrosion resistant',
  food: 'Food grade',
} as const;

/** The flags that a service calls for, as far as its words are known. */
function flagNeeds(belt: Read): Needs {
  const words = String(belt('Service') ?? '')
    .toLowerCase()
    .split(/[,;]/)
    .map((word) => word.trim());
  return {
    series: Object.entries(serviceNeeds).flatMap(([word, need]) =>
      need !== undefined && words.includes(word) ? [flagOf[need]] : [],
    ),
  };
}

const margin: Needs = { named: ['TightMargin'] };
const row: Needs = { belt: ['Width', 'Skew', 'Plate series'], series: ['Pitch', 'Plate width', 'Minimum edge'] };

/** What a check's own comparison names, whatever the check: inputs of the belt, figures of the series, named values. */
function ownNeeds(check: CheckDeclaration): Needs {
  if ('verdict' in check) return {};
  const nodes = [check.value, check.minimum, check.maximum].flatMap((number) =>
    number === undefined ? [] : [...nodesOf(parsed(comparedFormula(number)))],
  );
  const cells = nodes.flatMap((node) => (node.type === 'placeholder' ? [slotParts(node.name)] : []));
  const named = <Header extends string>(columns: readonly Column<Header>[], sheet: string | undefined): Header[] =>
    columns.flatMap((column) =>
      !isComputed(column) && cells.some((cell) => cell.sheet === sheet && cell.header === column.header)
        ? [column.header]
        : [],
    );
  const series = named(plateSeries.columns, plateSeries.name);
  return {
    belt: [...named(belts.columns, undefined), ...(series.length === 0 ? [] : ['Plate series' as const])],
    series,
    named: [
      marginOf(check),
      ...assumptionValues.flatMap(({ name }) =>
        nodes.some((node) => node.type === 'name' && node.name === name) ? [name] : [],
      ),
    ],
  };
}

const ratings = [
  'Minimum pulley at 15',
  'Minimum pulley at 22',
  'Minimum pulley at 30',
  'Minimum pulley at 45',
  'Minimum pulley at 60',
] as const;

/** What lies behind the computed columns that checks compare. */
const needs: Readonly<Partial<Record<string, (belt: Read, named: ReadNamed) => Needs>>> = {
  'Pulley check': () =>
    allNeeds([
      margin,
      { belt: ['Smallest pulley', 'Skew', 'Plate series'], series: ['Minimum pulley square', ...ratings] },
    ]),
  'Carcass check': (belt, named) =>
    allNeeds([
      margin,
      tensionNeeds(belt, named),
      carcassStrength(belt),
      carcassNeeds(belt),
      { belt: ['Smallest pulley', 'Construction'] },
      belt('Pulley group') === null ? { named: ['PulleyGroup'] } : { belt: ['Pulley group'] },
    ]),
  'Thickness check': () =>
    allNeeds([
      margin,
      { belt: ['Thickness', 'Skive depth', 'Plate series'], series: ['Minimum thickness', 'Maximum thickness'] },
    ]),
  'Tension check': (belt, named) =>
    allNeeds([margin, tensionNeeds(belt, named), { belt: ['Plate series'], series: ['Tension rating'] }]),
  'Edge check': () => allNeeds([margin, row, { series: ['Maximum edge'] }]),
  'Hole rim check': () =>
    allNeeds([
      margin,
      row,
      { series: ['Hole setback', 'Holes per side', 'Punch size', 'Minimum rim'], named: ['RimDistance'] },
    ]),
  'Plate corner check': () => allNeeds([margin, row, { series: ['Plate length'], named: ['CornerDistance'] }]),
  'Slope check': () => allNeeds([margin, { belt: ['Lift', 'Pulley centres'] }]),
  'Capacity check': () =>
    allNeeds([margin, { belt: ['Width', 'Capacity', 'Speed', 'Trough angle', 'Surcharge angle', 'Bulk density'] }]),
  'Plate count check': () => allNeeds([margin, row]),
  'Scraper check': () => allNeeds([margin, { belt: ['Skive depth', 'Plate series'], series: ['Plate height'] }]),
  'Entered rating check': (belt) =>
    allNeeds([
      margin,
      {
        belt: ['Construction'],
        named: [/st/i.test(String(belt('Construction'))) ? 'SafetySteelCordMinimum' : 'SafetyFabricMinimum'],
      },
    ]),
  'Other pulley check': (belt, named) =>
    allNeeds([margin, tensionNeeds(belt, named), strength(belt), carcassNeeds(belt), { belt: ['Construction'] }]),
  'Series check': () => ({ belt: ['Plate series'] }),
  'Take-up check': (belt) =>
    allNeeds([
      margin,
      { belt: ['Width', 'Skew', 'Take-up travel'], named: ['TakeUpShare'] },
      belt('Replaces') === null ? { named: ['TrimPerEnd'] } : { belt: ['Replaces'] },
      belt('Cut-out') === null ? { belt: ['Plate series'], series: ['Plate length'] } : { belt: ['Cut-out'] },
    ]),
  'Take-up weight check': (belt, named) =>
    allNeeds([margin, mass(belt), slack(belt), starting(belt), places(belt), idlers(belt, named), hung(belt)]),
  'Service check': (belt) => allNeeds([{ belt: ['Service', 'Plate series'] }, flagNeeds(belt)]),
  'Age check': (belt) =>
    allNeeds([
      margin,
      lifeNeeds(belt),
      { belt: ['Installed', 'Hours per year'], named: ['ReviewDate', 'DaysPerYear'] },
    ]),
};

const mayBeEmpty = new Set<string>([...ratings, 'Plate length', 'Minimum rim']);

interface Bounds {
  readonly min?: number;
  readonly above?: number;
  readonly max?: number;
}

const inBounds = (value: number, { min = -Infinity, above = -Infinity, max = Infinity }: Bounds): boolean =>
  value >= min && value > above && value <= max;

/** Whether two contents are one name: texts without case. */
const isSame = (one: unknown, other: unknown): boolean =>
  typeof one === 'string' && typeof other === 'string' ? one.toLowerCase() === other.toLowerCase() : one === other;

/** Whether a value may stand in an input, by its declaration. */
function allowed(sheet: string, header: string, value: unknown, names: readonly unknown[]): boolean {
  const column = inputsOf(sheet).find((item) => item.header === header);
  if (column === undefined) throw new Error(`${sheet} has no input ${header}`);
  if (value === null) return mayBeEmpty.has(header);
  if (!isWords(column.kind)) return typeof value === 'number' && inBounds(value, column);
  if (typeof value === 'string' && value.trim() === '') return false;
  if (column.choices !== undefined && 'sheet' in column.choices) return names.some((name) => isSame(name, value));
  if (typeof value !== 'string') return false;
  if (column.choices === undefined) return true;
  const choices = column.choices.map((word) => word.toLowerCase());
  const words =
    column.several === true
      ? value
          .split(/[,;]/)
          .map((word) => word.trim())
          .filter((word) => word !== '')
      : [value];
  return words.length > 0 && words.every((word) => choices.includes(word.toLowerCase()));
}

function allowedNamed(name: string, value: unknown): boolean {
  const declared = [...assumptionValues, ...tableValues].find((item) => item.name === name);
  if (declared === undefined) throw new Error(`there is no assumption ${name}`);
  return declared.choices === undefined
    ? typeof value === 'number' && inBounds(value, declared)
    : typeof value === 'string' && declared.choices.includes(value);
}

const passes = (verdict: unknown): boolean => verdict === 'fits' || verdict === 'tight';

/** Checks that pass although an input is missing or not allowed, in words. */
function unsafePasses(book: Workbook): string[] {
  const { rows } = book.sheet('Belts');
  const names = book.sheet('Plate series').rows.map((_, record) => book.read('Plate series', record, 'Series'));
  return rows.flatMap((_, record) => {
    const belt = (header: BeltHeader): unknown => book.read('Belts', record, header);
    const found = names.findIndex((name) => isSame(name, belt('Plate series')));
    return beltChecks.flatMap((declared) => {
      const check = checkHeader(declared.word);
      if (!passes(belt(check))) return [];
      const {
        belt: inputs = [],
        series = [],
        named = [],
      } = allNeeds([needs[check]?.(belt, (name) => book.named(name)) ?? {}, ownNeeds(declared)]);
      return [
        ...inputs
          .filter((header) => !allowed('Belts', header, belt(header), names))
          .map((header) => `${check} is ${String(belt(check))} on ${header} ${String(belt(header))}`),
        ...series
          .map((header) => ({ header, value: found < 0 ? null : book.read('Plate series', found, header) }))
          .filter(({ header, value }) => !allowed('Plate series', header, value, names))
          .map(({ header, value }) => `${check} is ${String(belt(check))} on the series' ${header} ${String(value)}`),
        ...named
          .filter((name) => !allowedNamed(name, book.named(name)))
          .map((name) => `${check} is ${String(belt(check))} on ${name} ${String(book.named(name))}`),
      ];
    });
  });
}

describe('no check passes on an input that is missing or not allowed', () => {
  test.each([
    ['in a few cells', { belts: 6, series: 2, named: 1 }, 70],
    ['in many cells', { belts: 25, series: 15, named: 8 }, 50],
  ] as const)(
    '%s',
    (_, oddities, numRuns) => {
      let passed = 0;
      fc.assert(
        fc.property(randomParts(oddities), (parts) => {
          const book = new Workbook(bookOf({ ...parts, pulleys: [] }));
          expect(unsafePasses(book)).toEqual([]);
          passed += book
            .sheet('Belts')
            .rows.filter((__, record) =>
              checkColumns.some(({ header }) => passes(book.read('Belts', record, header))),
            ).length;
        }),
        { numRuns },
      );
      expect(passed, 'belts with a check that passes').toBeGreaterThan(numRuns / 2);
    },
    120_000,
  );

  const sound: Parts = { belts: [soundBelt], series: [plover, heron] };
  const routes: readonly (readonly [string, Cells])[] = [
    ['by power', {}],
    ['as entered', { 'Known tension': 20 }],
    ['by resistances', { Power: null, Capacity: 300 }],
    ['by power, asked for', { 'Tension method': 'power' }],
    [
      'by resistances, with all that can be said of drives and take-up',
      {
        Power: null,
        Capacity: 300,
        'Drive place': 'return run',
        'Drive distance': 20,
        'Second drive place': 'head',
        'Second drive share': 0.5,
        'Second wrap angle': 200,
        'Second drive friction': 0.35,
        'Take-up type': 'automatic',
        'Take-up distance': 25,
        'Take-up weight': 1500,
        'Take-up rope falls': 2,
        'Carry idler mass': 12,
        'Return idler mass': 4,
        Starting: 'soft start',
      },
    ],
  ];

  const strange = [null, '', 'abc', '12', '12%', true, -1, 0, 1e9, '=1/0', '=""', 'none, nonsense'] as const;

  test.each(routes)(
    'tension %s: one strange content in every input of a belt on which everything fits',
    (_, changed) => {
      const belt = { ...soundBelt, ...changed };
      expect(new Workbook(bookOf({ ...sound, belts: [belt] })).read('Belts', 0, 'Verdict')).toBe('fits');
      const belts = inputsOf('Belts').flatMap(({ header }) =>
        strange.map((content) => ({ ...belt, [header]: content })),
      );
      expect(unsafePasses(new Workbook(bookOf({ ...sound, belts })))).toEqual([]);
    },
    30_000,
  );

  test('one strange content in every figure of the series', () => {
    const series = inputsOf('Plate series').flatMap(({ header }) =>
      strange.map((content, index) => ({ ...plover, Series: `${header} ${index}`, [header]: content })),
    );
    const belts = series.map(({ Series }) => ({ ...soundBelt, 'Plate series': Series ?? null }));
    expect(unsafePasses(new Workbook(bookOf({ ...sound, belts, series })))).toEqual([]);
  }, 30_000);

  test('strange contents in every assumption, every second one of each', () => {
    const book = new Workbook(bookOf({ ...sound, belts: routes.map(([, changed]) => ({ ...soundBelt, ...changed })) }));
    assumptionValues.forEach((_, record) => {
      const sound = book.sheet('Assumptions').rows[record]?.cells[1] ?? null;
      for (const content of strange.filter((_content, place) => (place + record) % 2 === 0)) {
        book.edit([{ sheet: 'Assumptions', record, column: 1, content }]);
        expect(unsafePasses(book)).toEqual([]);
      }
      book.edit([{ sheet: 'Assumptions', record, column: 1, content: sound }]);
    });
    expect(routes.map((_, record) => book.read('Belts', record, 'Verdict'))).toEqual(routes.map(() => 'fits'));
  }, 60_000);

  test('one strange content in every figure of the table of idlers', () => {
    const book = new Workbook(
      bookOf({
        ...sound,
        belts: [500, 800, 900, 2400].map((Width) => ({ ...soundBelt, Width, Power: null, Capacity: 300 })),
      }),
    );
    const names = book.sheet('Tables').rows.map((_, record) => String(book.read('Tables', record, 'Name')));
    for (const [record, name] of names.entries()) {
      if (!/Idlers\d+mm$/.test(name)) continue;
      const sound = book.sheet('Tables').rows[record]?.cells[1] ?? null;
      for (const content of strange) {
        book.edit([{ sheet: 'Tables', record, column: 1, content }]);
        expect(unsafePasses(book), name).toEqual([]);
      }
      book.edit([{ sheet: 'Tables', record, column: 1, content: sound }]);
    }
  }, 60_000);

  test('this test sees a pass on a wrong input', () => {
    const book = new Workbook(
      bookOf({ ...sound, belts: [{ ...soundBelt, 'Tension check': 'fits', 'Drive friction': 15 }] }),
    );
    expect(unsafePasses(book)).toEqual(['Tension check is fits on Known tension null']);
  });
});

describe('a cell that is not allowed is marked, one that is allowed is not', () => {
  test('in any input of any sheet', () => {
    fc.assert(
      fc.property(randomParts({ belts: 20, series: 15, named: 10, formulas: false }, 2), (parts) => {
        const book = new Workbook(bookOf(parts));
        const keys = <Sheet extends SheetName>(sheet: Sheet, key: HeaderOf<Sheet>): unknown[] =>
          book.sheet(sheet).rows.map((_, record) => book.read(sheet, record, key));
        const names = { Belts: keys('Plate series', 'Series'), 'Plate series': keys('Strips', 'Strip') };
        for (const sheet of ['Belts', 'Plate series'] as const) {
          book.sheet(sheet).rows.forEach((_, record) => {
            for (const { header, kind } of inputsOf(sheet)) {
              if (['Belt', 'Series'].includes(header)) continue;
              const column = columnOf(book, sheet, header);
              const value = book.value({ sheet, record, column });
              if (value === null || value === '') continue;
              const issue = cellIssue(book, { sheet, record, column });
              const right =
                allowed(sheet, header, value, names[sheet]) ||
                (isWords(kind) && inputsOf(sheet).find((column) => column.header === header)?.choices === undefined);
              const whole = kind !== 'count' || Number.isInteger(value);
              // Numbers that are right by themselves may still not go together.
              if (right && whole) expect(issue ?? 'must', `${header} ${String(value)}`).toContain('must');
              else expect(issue, `${header} ${String(value)}`).toBeDefined();
            }
          });
        }
      }),
      { numRuns: 30 },
    );
  }, 60_000);
});
