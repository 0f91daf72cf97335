import type { Value } from '../../src/formula/values.ts';

/** Random arguments of standard functions, as formula text over one sheet of data that both programs hold. */

export type Draw = () => number;

export const dataSheet = 'Data';
const rows = 20;

const whole = (draw: Draw, from: number, to: number): number => from + Math.floor(draw() * (to - from + 1));
const decimals = (draw: Draw, from: number, to: number, places: number): number =>
  Number((from + draw() * (to - from)).toFixed(places));
const oneOf = <Item>(draw: Draw, items: readonly Item[]): Item => {
  const item = items[Math.floor(draw() * items.length)];
  if (item === undefined) throw new Error('nothing to choose from');
  return item;
};

const words = ['Belt', 'belt', 'plate', 'Skew angle', 'C1', 'tail pulley', 'a  b ', 'bolt', 'Länge', '12 mm', 'x'];

/** The columns of the data: what stands in row 1 to 20. */
export function dataRows(draw: Draw): Value[][] {
  const sorted = Array.from({ length: rows }, () => decimals(draw, -60, 60, 1)).toSorted((one, other) => one - other);
  const names = Array.from({ length: rows }, (_, index) => `item ${String.fromCharCode(97 + index)}`);
  return Array.from({ length: rows }, (_, row): Value[] => [
    decimals(draw, -100, 100, 2), // A
    decimals(draw, 0.1, 50, 2), // B
    oneOf<Value>(draw, [null, 'text', '3', 3, 4.5, -2, 7, 12]), // C
    oneOf(draw, words), // D
    sorted[row] ?? 0, // E, ascending
    41000 + row * 37 + whole(draw, 0, 30), // F, days, ascending
    whole(draw, 0, 9), // G
    row === 0 ? -100 : decimals(draw, 5, 40, 1), // H, payments
    names[row] ?? '', // I, ascending texts
    null, // J
    row === 0 ? 'Name' : oneOf(draw, ['bolt', 'plate', 'nut']), // K
    row === 0 ? 'Size' : 1 + ((row * 7) % 19), // L, each size once
    row === 0 ? 'Mass' : decimals(draw, 0.1, 9, 1), // M
    row === 0 ? 'Name' : row === 1 ? 'bolt' : row === 2 ? 'plate' : null, // N, criteria
    row === 0 ? 'Size' : row === 1 ? '>3' : row === 2 ? '<7' : null, // O
    row === 0 ? 'Size' : row === 1 ? 5 : null, // P
    decimals(draw, 1, 30, 2), // Q
    row % 2 === 0, // R: truths, which LibreOffice takes for numbers in cells
  ]);
}

const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;
const written = (value: number): string => String(value).replace('e', 'E');
const area = (column: string, from: number, to: number): string => `${dataSheet}!$${column}$${from}:$${column}$${to}`;

/** Ranges of one call have one size, so that those to be compared pair by pair may be. */
export interface Shape {
  readonly top: number;
  readonly bottom: number;
}

export const drawnShape = (draw: Draw): Shape => {
  const top = whole(draw, 2, 8);
  return { top, bottom: top + whole(draw, 3, 11) };
};

const number = (draw: Draw): string =>
  written(
    oneOf(draw, [
      () => whole(draw, -12, 12),
      () => whole(draw, -12, 12) / 2,
      () => decimals(draw, -10, 10, 1),
      () => decimals(draw, -10, 10, 3),
      () => decimals(draw, -2000, 2000, 2),
      () => whole(draw, -100_000, 1_000_000),
      () => 0,
    ])(),
  );

const formats = [
  '0',
  '0.0',
  '0.00',
  '#,##0',
  '#,##0.00',
  '0%',
  '0.0%',
  '0.00E+00',
  '0.0E+0',
  '# ?/?',
  '# ??/??',
  '0000',
  '#',
  '#.##',
  '0;(0)',
  '0.0;-0.0;"none"',
  '$#,##0.00',
  '0.0" mm"',
  '#,##0,',
  '0.0,,',
  '[h]:mm',
  '[mm]:ss',
  '@',
  'General',
  '0_)',
  '"x"0',
  '00-00',
  '+0;-0',
];
const dateFormats = [
  'yyyy-mm-dd',
  'dd/mm/yyyy',
  'd mmm yyyy',
  'mmm yyyy',
  'ddd d mmm',
  'dddd',
  'mmmm',
  'hh:mm',
  'h:mm AM/PM',
  'hh:mm:ss',
  '[h]:mm',
  'yy',
  'm/d/yy',
  'mm:ss',
  'yyyy-mm-dd hh:mm',
  'mmmmm',
];
const complex = (draw: Draw): string => {
  const [re, im] = [whole(draw, -4, 4), whole(draw, -4, 4)];
  return quoted(im === 0 ? String(re) : re === 0 ? `${im}i` : `${re}${im < 0 ? '' : '+'}${im}i`);
};

/** What each kind of argument draws. */
const kinds = {
  number,
  tenthSum: (draw) => `(${decimals(draw, -1, 2, 1)}+${decimals(draw, 0, 2, 1)})`,
  tenth: (draw) => written(decimals(draw, -1, 2, 1)),
  small: (draw) => written(whole(draw, -3, 8)),
  count: (draw) => written(whole(draw, 0, 12)),
  natural: (draw) => written(whole(draw, 1, 12)),
  one: (draw) => written(whole(draw, 0, 3)),
  index: (draw) => written(whole(draw, 0, 5)),
  digits: (draw) => written(whole(draw, -3, 5)),
  large: (draw) => written(whole(draw, 0, 100_000)),
  positive: (draw) =>
    written(oneOf(draw, [decimals(draw, 0.01, 5, 2), decimals(draw, 0.1, 50, 1), whole(draw, 1, 30)])),
  above1: (draw) => written(decimals(draw, 1, 12, 2)),
  chance: (draw) => written(decimals(draw, 0, 1, 3)),
  unit: (draw) => written(decimals(draw, -1, 1, 3)),
  angle: (draw) => written(decimals(draw, -7, 7, 2)),
  rate: (draw) => written(decimals(draw, 0, 0.2, 4)),
  guess: () => '0.1',
  money: (draw) => written(decimals(draw, -5000, 5000, 2)),
  periods: (draw) => written(whole(draw, 1, 24)),
  type: (draw) => written(whole(draw, 0, 1)),
  basis: (draw) => written(whole(draw, 0, 4)),
  sense: (draw) => written(whole(draw, -1, 1)),
  exact: () => '0',
  day: (draw) => written(whole(draw, 61, 60_000)),
  nearDay: (draw) => written(whole(draw, 42_000, 42_300)),
  // At whole seconds: programs differ in which second a part of one belongs to.
  settled: (draw) => written(whole(draw, 42_000, 42_100)),
  matured: (draw) => written(whole(draw, 42_110, 42_270)),
  moment: (draw) => written(whole(draw, 61, 60_000) + whole(draw, 0, 86_399) / 86_400),
  year: (draw) => written(whole(draw, 1904, 2090)),
  word: (draw) => quoted(oneOf(draw, words)),
  long: (draw) => quoted(`${oneOf(draw, words)} ${oneOf(draw, words)}, ${oneOf(draw, words)}`),
  piece: (draw) => quoted(oneOf(draw, ['a', 'e', 'l', 'lt', ' ', 'B', 'te', 'zz'])),
  pattern: (draw) => quoted(oneOf(draw, ['a', 'e*', 'l?', 'lt', ' ', 'B', 't*e', 'zz'])),
  numberText: (draw) => quoted(oneOf(draw, ['12', ' 3.5', '-7', '1e3', '2026-03-01', 'abc', '12:30', ''])),
  plainNumber: (draw) => quoted(oneOf(draw, ['12', ' 3.5', '-7', '1e3', '1,250.5', '12%', 'abc'])),
  dateText: (draw) => quoted(oneOf(draw, ['2026-03-01', '1999-12-31', '2024-02-29', '2023-02-29', '1950-01-05', 'x'])),
  timeText: (draw) => quoted(oneOf(draw, ['12:30', '06:05:10', '23:59:59', '0:00', '7:15', 'x'])),
  truth: (draw) => oneOf(draw, ['TRUE()', 'FALSE()']),
  isExact: () => 'FALSE()',
  cumulative: (draw) => oneOf(draw, ['TRUE()', 'FALSE()']),
  formatted: (draw) => `${number(draw)},${quoted(oneOf(draw, formats))}`,
  formattedMoment: (draw) =>
    `${written(whole(draw, 61, 60_000) + whole(draw, 0, 86_399) / 86_400)},${quoted(oneOf(draw, dateFormats))}`,
  unitOfDays: (draw) => quoted(oneOf(draw, ['d', 'm', 'y', 'ym', 'yd', 'md', 'D', 'Y'])),
  complex,
  suffix: (draw) => quoted(oneOf(draw, ['i', 'j'])),
  base: (draw) => written(whole(draw, 2, 36)),
  bits: (draw) => quoted(whole(draw, 0, 511).toString(2)),
  octal: (draw) => quoted(whole(draw, 0, 511).toString(8)),
  hex: (draw) => quoted(whole(draw, 0, 511).toString(16).toUpperCase()),
  places: (draw) => written(whole(draw, 3, 10)),
  roman: (draw) => quoted(oneOf(draw, ['XIV', 'MCMXCIX', 'iv', 'CDXLIV', 'MMXXVI', 'DLXII'])),
  character: (draw) => written(whole(draw, 33, 126)),
  criterion: (draw) => quoted(oneOf(draw, ['>3', '<=5', '<>4', '=7', '>-10', '<0', '5', '>=2.5', '<>'])),
  textCriterion: (draw) => quoted(oneOf(draw, ['belt', 'b*', '?olt', '<>belt', '*a*', 'C1', '>c'])),
  anything: (draw) => oneOf(draw, ['1', '"a"', '1/0', 'NA()', `${dataSheet}!$J$3`, '""', '-2.5', `${dataSheet}!$C$5`]),
  reference: (draw) => `${dataSheet}!$${oneOf(draw, ['A', 'C', 'D', 'G', 'J'])}$${whole(draw, 1, rows)}`,
  weekend: (draw) => oneOf(draw, ['1', '2', '7', '11', '17', '"0000011"', '"1000001"', '"0101010"']),
  weekType: (draw) => oneOf(draw, ['1', '2', '3', '11', '12', '13', '14', '15', '16', '17']),
  weekStart: (draw) => oneOf(draw, ['1', '2', '11', '12', '13', '14', '15', '16', '17', '21']),
  subtotal: (draw) => written(oneOf(draw, [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 101, 109])),
  aggregate: (draw) => written(whole(draw, 1, 13)),
  aggregateOption: (draw) => written(oneOf(draw, [0, 4, 6])),
  tails: (draw) => written(whole(draw, 1, 2)),
  kindOfTest: (draw) => written(whole(draw, 1, 3)),
  point: () => '"."',
  comma: () => '","',
  unitFrom: (draw) =>
    quoted(oneOf(draw, ['m', 'in', 'ft', 'yd', 'kg', 'lbm', 'N', 'lbf', 'W', 'HP', 'mm', 'kW', 'mi'])),
  unitTo: (draw) => quoted(oneOf(draw, ['m', 'in', 'ft', 'yd', 'g', 'lbm', 'N', 'lbf', 'W', 'HP', 'mm', 'kN', 'ozm'])),
  fraction: (draw) => written(oneOf(draw, [2, 4, 8, 16, 32, 64])),
  field: (draw) => oneOf(draw, ['"Size"', '"Mass"', '2', '3']),
  sortedKey: (draw) => written(decimals(draw, -70, 70, 1)),
  itemName: (draw) => quoted(`item ${String.fromCharCode(97 + whole(draw, 0, 21))}`),
  database: () => `${dataSheet}!$K$1:$M$20`,
  criteria: (draw) => oneOf(draw, [`${dataSheet}!$N$1:$N$2`, `${dataSheet}!$N$1:$O$3`, `${dataSheet}!$P$1:$P$2`]),
} satisfies Record<string, (draw: Draw) => string>;

/** Ranges, all of one call with the same rows. */
const ranges = {
  numbers: (_, { top, bottom }) => area('A', top, bottom),
  positives: (draw, { top, bottom }) => area(oneOf(draw, ['B', 'Q']), top, bottom),
  otherPositives: (_, { top, bottom }) => area('Q', top, bottom),
  wholes: (_, { top, bottom }) => area('G', top, bottom),
  mixed: (_, { top, bottom }) => area('C', top, bottom),
  texts: (_, { top, bottom }) => area('D', top, bottom),
  ascending: (_, { top, bottom }) => area('E', top, bottom),
  names: (_, { top, bottom }) => area('I', top, bottom),
  days: (_, { top, bottom }) => area('F', top, bottom),
  truths: (_, { top, bottom }) => area('R', top, bottom),
  block: (_, { top, bottom }) => `${dataSheet}!$E$${top}:$H$${bottom}`,
  table: (_, { top, bottom }) => `${dataSheet}!$E$${top}:$H$${bottom}`,
  square: (draw) => {
    const [top, size] = [whole(draw, 2, 12), whole(draw, 1, 3)];
    return (
      `${dataSheet}!$A$${top}:$${['A', 'B', 'C'][size - 1] === 'C' ? 'B' : ['A', 'B'][size - 1]}$` +
      `${top + Math.min(size, 2) - 1}`
    );
  },
  head: (_, { top }) => `${dataSheet}!$G$${top}`,
  payments: (_, { bottom }) => area('H', 1, Math.max(10, bottom)),
  paymentDays: (_, { bottom }) => area('F', 1, Math.max(10, bottom)),
  twoByThree: (draw) => {
    const top = whole(draw, 2, 15);
    return `${dataSheet}!$E$${top}:$G$${top + 1}`;
  },
  threeByTwo: (draw) => {
    const top = whole(draw, 2, 15);
    return `${dataSheet}!$A$${top}:$B$${top + 2}`;
  },
  row: (draw) => {
    const top = whole(draw, 2, 15);
    return `${dataSheet}!$E$${top}:$H$${top}`;
  },
} satisfies Record<string, (draw: Draw, shape: Shape) => string>;

export type Kind = keyof typeof kinds | keyof typeof ranges;

const isKind = (kind: string): kind is Kind => kind in kinds || kind in ranges;

export function drawn(kind: string, draw: Draw, shape: Shape): string {
  if (!isKind(kind)) throw new Error(`there is no kind of argument ${kind}`);
  const draws: Record<string, (draw: Draw, shape: Shape) => string> = { ...kinds, ...ranges };
  return draws[kind]?.(draw, shape) ?? '';
}
