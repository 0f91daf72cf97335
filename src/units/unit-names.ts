import { quantities, type QuantityKind, type UnitSystem, unitOf } from './quantities.ts';
import { type UnitMeasure, type Unit, unitBySystem, type UnitRow, unitRows, unitWords } from './unit-table.ts';

/** Units read by their names, and which of them a kind of quantity may be written in. */

const symbolOf = new Map(
  Object.entries(unitWords).flatMap(([symbol, names]) => names.split('|').map((name) => [name, symbol] as const)),
);

const named = new Map<string, Unit[]>();
const byMeasure = new Map<UnitMeasure, Unit[]>();
for (const [measure, rows] of Object.entries(unitRows) as [UnitMeasure, readonly UnitRow[]][]) {
  for (const [symbol, factor, system, names = ''] of rows) {
    const resolved = unitBySystem[symbol];
    const unit: Unit = {
      symbol,
      measure,
      factor,
      ...(system === '' ? {} : { system }),
      ...(resolved === undefined ? {} : { bySystem: resolved }),
    };
    byMeasure.set(measure, [...(byMeasure.get(measure) ?? []), unit]);
    for (const name of new Set([plainName(symbol), ...names.split('|').filter((item) => item !== '')]))
      named.set(name, [...(named.get(name) ?? []), unit]);
  }
}

/** A unit's text without case, accents, brackets and dots, its words made symbols, "per" made "/". */
function plainName(text: string): string {
  const bare = text
    .trim()
    .toLowerCase()
    .replaceAll(/[º˚]/g, '°')
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .replaceAll('ß', 'ss')
    .replace(/^[([{]\s*(.*?)\s*[)\]}]$/u, '$1')
    .replaceAll(/\.(?!\d)/g, ' ')
    .replaceAll(/[_,;:]+/g, ' ')
    .replaceAll(/\s*\b(?:per|pro|par|por|je)\b(?!\s*cent)\s*/g, '/')
    .replaceAll(/\s*\/\s*/g, '/')
    .replace(/\s*(?:of\s+)?(?:belt\s+)?width$/, '')
    .replaceAll(/\s+/g, ' ')
    .trim();
  return bare
    .split('/')
    .map((part) => symbolOf.get(part) ?? part)
    .join('/');
}

const kept = new Map<string, readonly Unit[]>();

/**
 * The units that a text may name, none when it names none: a cell of a units row, a bracket of a header, a number
 * format's literal. Reads "[in]", "(mm)", "in.", "in inches", "en mm", "Zoll", "lbs per inch of width".
 */
export function readUnit(text: string): readonly Unit[] {
  if (text.length > 40) return [];
  let units = kept.get(text);
  if (units === undefined) {
    const name = plainName(text);
    units =
      named.get(name) ??
      named.get(plainName(name.replace(/^(?:in|en|em|unit|units|einheit|unite|unidad)\s+(?=\S)/, ''))) ??
      [];
    kept.set(text, units);
  }
  return units;
}

interface KindUnits {
  readonly measure: UnitMeasure;
  /** The kind's metric unit in the measure's. */
  readonly base: number;
}

const kindUnits: Partial<Record<QuantityKind, KindUnits>> = {
  length: { measure: 'length', base: 1 },
  distance: { measure: 'length', base: 1000 },
  area: { measure: 'area', base: 1 },
  angle: { measure: 'angle', base: 1 },
  lineTension: { measure: 'lineTension', base: 1 },
  force: { measure: 'force', base: 1 },
  power: { measure: 'power', base: 1 },
  speed: { measure: 'speed', base: 1 },
  capacity: { measure: 'capacity', base: 1 },
  lineMass: { measure: 'lineMass', base: 1 },
  mass: { measure: 'mass', base: 1 },
  acceleration: { measure: 'acceleration', base: 1 },
  beltDensity: { measure: 'density', base: 1 },
  bulkDensity: { measure: 'density', base: 1e-6 },
  hours: { measure: 'time', base: 1 },
  hoursPerYear: { measure: 'hoursPerYear', base: 1 },
  frequency: { measure: 'frequency', base: 1 },
  perYear: { measure: 'perYear', base: 1 },
  money: { measure: 'money', base: 1 },
  moneyPerHour: { measure: 'moneyPerHour', base: 1 },
  moneyPerLength: { measure: 'moneyPerLength', base: 1 },
  ratio: { measure: 'share', base: 1 },
  number: { measure: 'share', base: 1 },
  count: { measure: 'pieces', base: 1 },
};

/** The units that a kind of quantity may be written in, the usual ones first; none for words and dates. */
export function unitsFor(kind: QuantityKind): readonly Unit[] {
  const measure = kindUnits[kind]?.measure;
  return measure === undefined ? [] : (byMeasure.get(measure) ?? []);
}

/** The unit of a kind that a text names; a name that trades use differently is settled by the list's system. */
export function unitNamed(text: string, kind: QuantityKind, system: UnitSystem): Unit | undefined {
  const unit = readUnit(text).find((item) => unitSuits(item, kind));
  return unit?.bySystem === undefined ? unit : unitsFor(kind).find(({ symbol }) => symbol === unit.bySystem?.[system]);
}

/** The unit that a system writes a kind in. */
export const systemUnit = (kind: QuantityKind, system: UnitSystem): Unit | undefined =>
  unitsFor(kind).find(({ symbol }) => symbol === unitOf(kind, system));

/**
 * Whether a unit is one in which a kind may be written; running hours also by the calendar, with the hours of a year.
 */
export const unitSuits = (unit: Unit, kind: QuantityKind): boolean =>
  kindUnits[kind]?.measure === unit.measure || (kind === 'hours' && unit.measure === 'calendar');

/** A number of a unit as a number of the system's own unit, to 15 digits; exactly itself when the unit is that one. */
export function inSystemUnit(value: number, unit: Unit, kind: QuantityKind, system: UnitSystem): number {
  if (unit.symbol === unitOf(kind, system)) return value;
  const metric = (value * unit.factor) / (kindUnits[kind]?.base ?? 1);
  return withoutNoise(system === 'metric' ? metric : metric / quantities[kind].metricPerUs);
}

/** A product's last binary digits dropped, so that 1.5 in is 38.1 mm and not 38.099999999999994: far below 1e-9. */
const withoutNoise = (value: number): number => Number(value.toPrecision(15));
