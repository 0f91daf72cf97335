import fc from 'fast-check';
import type { Content } from '../../src/formula/values.ts';
import { isComputed, type Column } from '../../src/sheet/declaration.ts';
import { isWords, type UnitSystem } from '../../src/units/quantities.ts';
import { cellKind, compiledSheets, emptyBook, headerPosition, namedValue } from '../../src/workbook/declared.ts';
import { columnLetters } from '../../src/formula/address.ts';
import type { BookRow, BookState } from '../../src/workbook/state.ts';
import type { CellEdit } from '../../src/workbook/state-changes.ts';
import type { Workbook } from '../../src/workbook/workbook.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import { assumptionValues } from '../../sheets/values/assumptions.ts';
import { ownStreams } from './own-streams.ts';

/**
 * Small books for tests: sound ones, and random ones in which any input may be blank, a text, negative, zero or a
 * formula.
 */

export type Cells = Readonly<Record<string, Content>>;

/** The columns of a declared sheet that are typed in. */
export const inputsOf = (sheet: string): Column[] =>
  (compiledSheets.get(sheet)?.columns ?? []).filter((column) => !isComputed(column));

/** A row of a declared sheet from its contents by header; a header that the sheet has not fails the test. */
export function rowOf(sheet: string, cells: Cells): BookRow {
  const columns = compiledSheets.get(sheet)?.columns ?? [];
  for (const header of Object.keys(cells))
    if (!columns.some((column) => column.header === header)) throw new Error(`${sheet} has no column ${header}`);
  return { cells: columns.map(({ header }) => cells[header] ?? null) };
}

/** The position of any column of a book, a user's own too; a header that the sheet has not fails the test. */
export function columnOf(book: Workbook, sheet: string, header: string): number {
  const column = book.findColumn(sheet, header);
  if (column === undefined) throw new Error(`${sheet} has no column ${header}`);
  return column;
}

/** Contents by header as edits of a belt. */
export const editsOf = (book: Workbook, record: number, cells: Cells): CellEdit[] =>
  Object.entries(cells).map(([header, content]) => ({
    sheet: 'Belts',
    record,
    column: columnOf(book, 'Belts', header),
    content,
  }));

/** What a belt's row says of a joint at some skew that replaces the one that it had as the book was opened. */
export function cutAt(opened: Workbook, record: number, skew: number): Cells {
  const [was, replaces] = [opened.read('Belts', record, 'Skew'), opened.read('Belts', record, 'Replaces')];
  return replaces === 'same skew' && typeof was === 'number' && was !== skew
    ? { Skew: skew, Replaces: 'other skew', 'Replaced skew': was }
    : { Skew: skew, Replaces: typeof replaces === 'string' ? replaces : null, 'Replaced skew': null };
}

/** The letters of a column of the Belts sheet. */
export const letters = (header: BeltHeader): string => columnLetters(headerPosition('Belts', header));

export interface Parts {
  readonly belts: readonly Cells[];
  readonly series?: readonly Cells[];
  readonly strips?: readonly Cells[];
  readonly pulleys?: readonly Cells[];
  /** Contents for named values, by name. */
  readonly named?: Cells;
}

export function bookOf(
  { belts, series = [plover, heron], strips = [reed], pulleys = [], named = {} }: Parts,
  units: UnitSystem = 'metric',
): BookState {
  const rows: Readonly<Record<string, readonly Cells[]>> = {
    Belts: belts,
    'Plate series': series,
    Strips: strips,
    Pulleys: pulleys,
  };
  const book = emptyBook(units);
  return {
    ...book,
    sheets: book.sheets.map((sheet) => {
      const own = rows[sheet.name];
      if (own !== undefined) return { ...sheet, rows: own.map((cells) => rowOf(sheet.name, cells)) };
      return {
        ...sheet,
        rows: sheet.rows.map((row) => ({
          ...row,
          cells: row.cells.with(
            1,
            Object.hasOwn(named, String(row.cells[0])) ? (named[String(row.cells[0])] ?? null) : (row.cells[1] ?? null),
          ),
        })),
      };
    }),
  };
}

/** Invented figures on which all checks fit, the tension by power. */
export const soundBelt: Cells = {
  Belt: 'B1',
  Area: 'Quay',
  Material: 'grain',
  Width: 800,
  Construction: 'EP 400/3 4+2',
  Thickness: 9.8,
  'Carcass thickness': 3.8,
  'Top cover': 4,
  'Belt rating': 40,
  'Smallest pulley': 630,
  'Head pulley': 630,
  'Tail pulley': 630,
  'Pulley centres': 140,
  Lift: 4,
  Speed: 2.5,
  Power: 22,
  'Wrap angle': 210,
  'Drive friction': 0.35,
  'Take-up travel': 2000,
  Skew: 45,
  'Plate series': 'Plover',
  'Skive depth': 0,
  Joints: 2,
  Installed: 45900,
  'Hours per year': 3000,
  'Joint life': 15000,
  Service: 'none',
};

/** A loop of six pulleys with a vertical take-up, for a belt from its tail at the origin to its head. */
export const loopOf = (belt: string, centres = 140, lift = 4): Cells[] => {
  const head = Math.sqrt(centres ** 2 - lift ** 2);
  const back = (share: number): number => head * share;
  return [
    { Pulley: 'tail', 'Pulley type': 'tail', x: 0, y: 0, Diameter: 630 },
    { Pulley: 'head', 'Pulley type': 'head', x: head, y: lift, Diameter: 630 },
    {
      Pulley: 'bend in',
      'Pulley type': 'bend',
      x: back(0.5) + 0.6,
      y: lift * 0.5 - 1,
      Diameter: 500,
      'Belt side': 'carrying side',
    },
    { Pulley: 'take-up', 'Pulley type': 'take-up', x: back(0.5), y: lift * 0.5 - 3, Diameter: 500 },
    {
      Pulley: 'bend out',
      'Pulley type': 'bend',
      x: back(0.5) - 0.6,
      y: lift * 0.5 - 1,
      Diameter: 500,
      'Belt side': 'carrying side',
    },
    { Pulley: 'snub', 'Pulley type': 'snub', x: 0.7, y: -0.5, Diameter: 400, 'Belt side': 'carrying side' },
  ].map((pulley) => ({ Belt: belt, ...pulley }));
};

/** Two invented series: the second for thicker belts and more tension. */
export const plover: Cells = {
  Series: 'Plover',
  Supplier: 'Invented A',
  'Minimum thickness': 6,
  'Maximum thickness': 12,
  'Minimum pulley square': 315,
  'Minimum pulley at 45': 225,
  'Tension rating': 34,
  Pitch: 34,
  'Plate width': 30.5,
  'Minimum edge': 21,
  'Maximum edge': 40,
  'Hole setback': 13.5,
  'Hole spacing': 0,
  'Holes per side': 1,
  'Bolts per plate': 2,
  'Bolt length': 33,
  'Long bolt above': 8.8,
  'Long bolt length': 39,
  'Punch size': 7.2,
  'Plate length': 41,
  'Flame resistant': 'yes',
  'Non-magnetic': 'no',
  'Corrosion resistant': 'no',
  'Food grade': 'no',
  Strip: 'Reed',
  'Plates per pack': 48,
  'Pack price': 58.56,
  'Bolts per pack': 96,
  'Bolt pack price': 24,
};
export const heron: Cells = {
  ...plover,
  Series: 'Heron',
  'Minimum thickness': 10,
  'Maximum thickness': 18,
  'Long bolt above': 14,
  'Minimum pulley square': 500,
  'Minimum pulley at 45': null,
  'Tension rating': 62,
  Pitch: 46,
  'Plate width': 41,
  'Maximum edge': 48,
  'Non-magnetic': 'yes',
  'Corrosion resistant': 'yes',
  'Food grade': 'no',
};
export const reed: Cells = { Strip: 'Reed', Supplier: 'Invented B', 'Roll length': 22, 'Roll price': 61.6 };

const between = (min: number, max: number, digits = 1): fc.Arbitrary<number> =>
  fc
    .integer({ min: Math.round(min * 10 ** digits), max: Math.round(max * 10 ** digits) })
    .map((whole) => whole / 10 ** digits);

const sometimes = (content: fc.Arbitrary<Content>): fc.Arbitrary<Content> =>
  fc.oneof({ weight: 3, arbitrary: fc.constant(null) }, { weight: 1, arbitrary: content });

/** Plausible inputs of a belt, wide enough that every verdict comes up. */
const likelyBelt: Readonly<Record<string, fc.Arbitrary<Content>>> = {
  Belt: fc.constantFrom('B1', 'B2', 'B3', 'B4', 'B5'),
  Width: fc.constantFrom(400, 650, 800, 1000, 1200, 1600),
  Construction: fc.constantFrom('EP 400/3 4+2', '1000 EP 630/4 6/2 Y', 'NN 500/4', 'St1250', 'B 200'),
  Thickness: between(5, 20),
  'Carcass thickness': between(2, 8),
  'Top cover': between(1, 8),
  'Belt rating': between(20, 130),
  'Smallest pulley': fc.constantFrom(250, 315, 400, 500, 630, 800, 1000),
  'Head pulley': fc.constantFrom(400, 500, 630, 800),
  'Tail pulley': fc.constantFrom(315, 400, 500),
  'Pulley centres': between(20, 900),
  Lift: between(-15, 15),
  Speed: between(0.5, 5),
  Power: fc.oneof({ weight: 3, arbitrary: between(1, 150) }, { weight: 2, arbitrary: fc.constant(null) }),
  Capacity: between(50, 1200),
  'Wrap angle': between(150, 420, 0),
  'Drive friction': between(0.1, 0.45, 2),
  'Known tension': fc.oneof({ weight: 1, arbitrary: between(3, 60) }, { weight: 2, arbitrary: fc.constant(null) }),
  'Take-up travel': between(100, 2500, 0),
  Skew: fc.constantFrom(0, 0, 22, 30, 45, 45, 60),
  'Plate series': fc.constantFrom('Plover', 'Plover', 'Heron', 'heron'),
  'Skive depth': fc.constantFrom(0, 0, 1.5, 3),
  Joints: fc.integer({ min: 0, max: 4 }),
  Installed: fc.integer({ min: 44000, max: 46351 }),
  'Hours per year': between(500, 8000, 0),
  'Joint life': between(5000, 30000, 0),
  'Drive pulley surface': fc.constantFrom(null, 'bare steel', 'grooved rubber', 'ceramic'),
  'Drive pulley condition': fc.constantFrom('dry', 'wet', 'dirty'),
  'Take-up type': fc.constantFrom(null, 'automatic', 'screw'),
  'Special resistance': fc.oneof(
    { weight: 3, arbitrary: fc.constant(null) },
    { weight: 1, arbitrary: between(0, 5000, 0) },
  ),
  'Tension method': fc.oneof(
    { weight: 6, arbitrary: fc.constant(null) },
    { weight: 2, arbitrary: fc.constantFrom('entered', 'resistances', 'Power', 'belt rating') },
  ),
  'Belt mass': fc.oneof({ weight: 3, arbitrary: fc.constant(null) }, { weight: 1, arbitrary: between(3, 40) }),
  Starting: fc.constantFrom(null, null, 'direct on line', 'frequency converter'),
  'Drive place': fc.constantFrom(null, null, 'head', 'tail', 'return run'),
  'Drive distance': sometimes(between(1, 60)),
  'Second drive place': fc.constantFrom(null, null, 'head', 'Tail', 'return run'),
  'Second drive distance': sometimes(between(1, 60)),
  'Second drive share': fc.oneof(fc.constant(0.5), sometimes(between(0.1, 0.9, 2))),
  'Second wrap angle': fc.oneof(between(150, 420, 0), fc.constant(null)),
  'Second drive friction': sometimes(between(0.1, 0.45, 2)),
  'Take-up distance': sometimes(between(0, 60)),
  'Take-up weight': sometimes(between(200, 8000, 0)),
  'Take-up rope falls': sometimes(fc.constantFrom(1, 2, 4)),
  'Carry idler mass': sometimes(between(5, 40)),
  'Return idler mass': sometimes(between(2, 15)),
  'Life in passes': fc.oneof(
    { weight: 2, arbitrary: fc.constant(null) },
    { weight: 1, arbitrary: between(5e4, 2e6, 0) },
  ),
  'Take-up position': fc.oneof(fc.constant(null), between(0, 1500, 0)),
  'Roll length': fc.oneof(fc.constant(null), between(50, 200, 0)),
  Insert: fc.oneof(fc.constant(null), between(1, 20)),
  'Spare roll diameter': fc.oneof(fc.constant(null), between(500, 1500, 0)),
  'Spare roll core diameter': between(100, 400, 0),
  Service: fc.constantFrom('none', 'none', 'underground', 'corrosive', 'food, magnet', 'Fire-rated , Magnet'),
};

const likelyPulley: Readonly<Record<string, fc.Arbitrary<Content>>> = {
  Belt: fc.constantFrom('B1', 'B2', 'b3', 'B9'),
  Pulley: fc.constantFrom('head', 'tail', 'bend 1', 'bend 2', 'take-up', 'snub'),
  'Pulley type': fc.constantFrom('head', 'tail', 'drive', 'snub', 'bend', 'take-up'),
  x: fc.oneof(fc.constant(null), between(0, 200)),
  y: fc.oneof(fc.constant(null), between(-5, 15)),
  Diameter: fc.constantFrom(250, 315, 400, 500, 630, 800),
  'Belt side': fc.constantFrom(null, 'pulley side', 'carrying side'),
  'Wrap angle': fc.oneof(fc.constant(null), between(5, 220, 0)),
  Group: fc.constantFrom(null, null, 'A', 'B', 'C'),
  'Local tension': fc.oneof({ weight: 3, arbitrary: fc.constant(null) }, { weight: 1, arbitrary: between(3, 60) }),
};

/** What nobody should type into a number's cell, and what the two evaluators may read differently. */
const strangeNumbers: readonly Content[] = [
  null,
  null,
  'abc',
  '12',
  ' 12 ',
  '12%',
  '$5',
  '1e3',
  '2024-03-01',
  '01/02/2024',
  '',
  ' ',
  '?',
  'TRUE',
  '#N/A',
  "'3",
  -1,
  -250,
  0,
  0,
  61,
  1e6,
  true,
  false,
  '=1/0',
  '=NA()',
  '="text"',
  '=2*3',
  '=-4',
  '=""',
  '=NOSUCH',
  '=TRUE()',
  '=1=1',
];
/** Past all measure. Whether arithmetic on them has digits left differs from one evaluator to the next. */
export const extremes: readonly number[] = [1e300, 1e-300];
const strangeWords: readonly Content[] = [
  null,
  null,
  '',
  ' ',
  'abc',
  12,
  -3,
  0,
  true,
  '=1/0',
  '="Plover"',
  '=5',
  'underground;magnet',
  'nonsense, food',
  'yes',
  'maybe',
  'EPDM',
  '#N/A',
  'a*',
  '~?',
  'Pl?ver',
  '.*',
];

/** What a strange cell may hold. */
export interface Strange {
  readonly formulas: boolean;
  readonly extremes: boolean;
}
const anything: Strange = { formulas: true, extremes: true };

const strangeFor = (words: boolean, strange: Strange): Content[] =>
  (words ? strangeWords : [...strangeNumbers, ...(strange.extremes ? extremes : [])]).filter(
    (content) => strange.formulas || typeof content !== 'string' || !content.startsWith('='),
  );

/** A cell of an input: what is likely, or now and then what is strange. */
const cell = (
  column: Column,
  likely: fc.Arbitrary<Content>,
  oddity: number,
  allowed: Strange,
): fc.Arbitrary<Content> => {
  const strange = strangeFor(isWords(column.kind), allowed).filter(
    (content) => typeof content !== 'string' || column.header !== 'Belt' || !/[*?~]/.test(content),
  );
  return fc.oneof(
    { weight: 100 - oddity, arbitrary: likely },
    { weight: oddity, arbitrary: fc.constantFrom(...strange) },
  );
};

/** A row of a sheet. Each of its columns draws for itself: a new one moves no other. */
export const randomRow = (
  sheet: string,
  columns: readonly Column[],
  likely: (column: Column) => fc.Arbitrary<Content>,
  oddity: number,
  strange: Strange = anything,
): fc.Arbitrary<Cells> =>
  ownStreams(
    sheet,
    Object.fromEntries(columns.map((column) => [column.header, cell(column, likely(column), oddity, strange)])),
  );

export interface Oddities {
  /** Chances in a hundred that a belt's, a series' or a named value's cell is strange. */
  readonly belts: number;
  readonly series: number;
  readonly named: number;
  /** Whether a strange cell may be a formula, and whether it may be a number past all measure. */
  readonly formulas?: boolean;
  readonly extremes?: boolean;
}

export const randomBelt = (oddity: number, strange: Strange = anything): fc.Arbitrary<Cells> =>
  randomRow(
    'Belts',
    inputsOf('Belts'),
    ({ header }) => likelyBelt[header] ?? fc.constant(soundBelt[header] ?? null),
    oddity,
    strange,
  );

/** Contents of named values: most keep their own. */
const randomNamed = (oddity: number, strange: Strange): fc.Arbitrary<Cells> =>
  ownStreams(
    'Assumptions',
    Object.fromEntries(
      assumptionValues.map(({ name, kind }) => [
        name,
        fc.oneof(
          { weight: 100 - oddity, arbitrary: fc.constant<Content | undefined>(undefined) },
          { weight: oddity, arbitrary: fc.constantFrom(...strangeFor(isWords(kind), strange)) },
        ),
      ]),
    ),
  ).map((named) =>
    Object.fromEntries(
      Object.entries(named).flatMap(([name, content]) => (content === undefined ? [] : [[name, content]])),
    ),
  );

export function randomParts(oddities: Oddities, most = 4): fc.Arbitrary<Parts> {
  const strange = { ...anything, ...oddities };
  const seriesOf = (sound: Cells): fc.Arbitrary<Cells> =>
    randomRow(
      'Plate series',
      inputsOf('Plate series'),
      ({ header }) => fc.constant(sound[header] ?? null),
      oddities.series,
      strange,
    );
  const stripOf = randomRow(
    'Strips',
    inputsOf('Strips'),
    ({ header }) => fc.constant(reed[header] ?? null),
    oddities.series,
    strange,
  );
  const pulleyOf = randomRow(
    'Pulleys',
    inputsOf('Pulleys'),
    ({ header }) => likelyPulley[header] ?? fc.constant(null),
    oddities.belts,
    strange,
  );
  const pulley = fc
    .tuple(fc.constantFrom(...['B1', 'B2', 'B3'].flatMap((belt) => loopOf(belt))), pulleyOf)
    .map(([placed, changed]): Cells => ({
      ...changed,
      ...placed,
      'Local tension': changed['Local tension'] ?? null,
      Diameter: changed['Diameter'] ?? null,
      Group: changed['Group'] ?? null,
    }));
  const pulleys = fc.oneof(
    { weight: 2, arbitrary: fc.constant<Cells[]>([]) },
    { weight: 2, arbitrary: fc.constantFrom(loopOf('B1'), [...loopOf('B2', 90, -5), ...loopOf('B1')]) },
    { weight: 2, arbitrary: fc.array(pulley, { minLength: 1, maxLength: 6 }) },
    { weight: 2, arbitrary: fc.array(pulleyOf, { minLength: 1, maxLength: 6 }) },
  );
  return fc.record({
    pulleys,
    belts: fc.array(randomBelt(oddities.belts, strange), { minLength: 1, maxLength: most }),
    series: fc.tuple(seriesOf(plover), seriesOf(heron)),
    strips: fc.tuple(stripOf),
    named: randomNamed(oddities.named, strange),
  });
}

export const randomBooks = (oddities: Oddities): fc.Arbitrary<BookState> =>
  fc
    .tuple(randomParts(oddities), fc.constantFrom<UnitSystem>('metric', 'metric', 'us'))
    .map(([parts, units]) => bookOf(parts, units));

export { cellKind, namedValue };
