/**
 * The kinds of quantity a book holds, and their units in the two systems.
 *
 * A kind names what a number measures; the system decides the unit it is written in. `metricPerUs` is what one
 * US customary unit is in the metric one, so that converting a cell is one multiplication.
 * Source: NIST SP 811 (1 in = 25.4 mm, 1 lbf = 4.4482216152605 N, 1 lb = 0.45359237 kg, 1 short ton = 907.18474 kg);
 * 1 hp = 550 ft lbf/s.
 */
export type UnitSystem = 'metric' | 'us';

/**
 * Exponents of base symbols; S short length, L long length, F force, T hour, D day, Y year, A angle, P power, V speed,
 * M mass, R mass rate, $ money; an acceleration stands by itself.
 */
export type Dimension = Readonly<Record<string, number>>;

interface Quantity {
  readonly metric: string;
  readonly us: string;
  readonly metricPerUs: number;
  readonly dimension: Dimension;
}

/** Millimetres. */
export const inch = 25.4;
/** Metres. */
export const foot = 0.3048;
/** Newtons. */
export const poundForce = 4.4482216152605;
/** Kilograms. */
export const pound = 0.45359237;

const same = (unit: string, dimension: Dimension): Quantity => ({ metric: unit, us: unit, metricPerUs: 1, dimension });

export const quantities = {
  length: { metric: 'mm', us: 'in', metricPerUs: inch, dimension: { S: 1 } },
  distance: { metric: 'm', us: 'ft', metricPerUs: foot, dimension: { L: 1 } },
  area: { metric: 'm²', us: 'ft²', metricPerUs: foot ** 2, dimension: { L: 2 } },
  angle: same('°', { A: 1 }),
  lineTension: { metric: 'N/mm', us: 'lbf/in', metricPerUs: poundForce / inch, dimension: { F: 1, S: -1 } },
  force: { metric: 'N', us: 'lbf', metricPerUs: poundForce, dimension: { F: 1 } },
  power: { metric: 'kW', us: 'hp', metricPerUs: (550 * foot * poundForce) / 1000, dimension: { P: 1 } },
  speed: { metric: 'm/s', us: 'ft/min', metricPerUs: foot / 60, dimension: { V: 1 } },
  capacity: { metric: 't/h', us: 'short ton/h', metricPerUs: 2 * pound, dimension: { R: 1 } },
  lineMass: { metric: 'kg/m', us: 'lb/ft', metricPerUs: pound / foot, dimension: { M: 1, L: -1 } },
  mass: { metric: 'kg', us: 'lb', metricPerUs: pound, dimension: { M: 1 } },
  acceleration: { metric: 'm/s²', us: 'ft/s²', metricPerUs: foot, dimension: { acceleration: 1 } },
  bulkDensity: { metric: 'kg/m³', us: 'lb/ft³', metricPerUs: pound / foot ** 3, dimension: { M: 1, L: -3 } },
  beltDensity: {
    metric: 'kg/m per mm²',
    us: 'lb/ft per in²',
    metricPerUs: pound / foot / inch ** 2,
    dimension: { M: 1, L: -1, S: -2 },
  },
  hours: same('h', { T: 1 }),
  frequency: same('1/h', { T: -1 }),
  perYear: same('1/year', { Y: -1 }),
  hoursPerYear: same('h/year', { T: 1, Y: -1 }),
  daysPerYear: same('d/year', { D: 1, Y: -1 }),
  money: same('', { $: 1 }),
  moneyPerHour: same('per h', { $: 1, T: -1 }),
  moneyPerLength: { metric: 'per mm', us: 'per in', metricPerUs: 1 / inch, dimension: { $: 1, S: -1 } },
  ratio: same('', {}),
  count: same('', {}),
  number: same('', {}),
  date: same('', { D: 1 }),
  text: same('', {}),
  flag: same('', {}),
} as const satisfies Record<string, Quantity>;

export type QuantityKind = keyof typeof quantities;

/** The unit a kind is written in, '' for one without. */
export const unitOf = (kind: QuantityKind, system: UnitSystem): string => quantities[kind][system];

/** A number of one system's unit in the other system's unit. */
export function converted(value: number, kind: QuantityKind, from: UnitSystem, to: UnitSystem): number {
  if (from === to) return value;
  const factor = quantities[kind].metricPerUs;
  return from === 'us' ? value * factor : value / factor;
}

/** Whether a number of this kind changes when the book changes its system. */
export const convertible = (kind: QuantityKind): boolean => quantities[kind].metricPerUs !== 1;

/** Whether cells of this kind hold words rather than numbers. */
export const isWords = (kind: QuantityKind): boolean => kind === 'text' || kind === 'flag';
