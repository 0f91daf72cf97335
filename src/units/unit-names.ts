import { foot, inch, pound, poundForce, quantities, type QuantityKind, type UnitSystem, unitOf } from './quantities.ts';

/**
 * Every unit that a list may write, once: what it measures, its size, and how the trade spells it.
 *
 * A name is looked up after its words were made symbols ("pounds per inch" is "lb/in"), so that composed units need
 * no list of spellings of their own. One name may mean several units ("lb/in" is a mass or a tension per length):
 * the kind of quantity that is asked for decides.
 * Source: NIST SP 811; metric horsepower 75 kgf m/s with 1 kgf = 9.80665 N; long ton 2240 lb.
 */
type Measure =
  | 'length'
  | 'area'
  | 'angle'
  | 'lineTension'
  | 'force'
  | 'power'
  | 'speed'
  | 'capacity'
  | 'lineMass'
  | 'density'
  | 'time'
  | 'calendar'
  | 'hoursPerYear'
  | 'frequency'
  | 'perYear'
  | 'money'
  | 'moneyPerHour'
  | 'moneyPerLength'
  | 'share'
  | 'pieces';

export interface Unit {
  readonly symbol: string;
  readonly measure: Measure;
  /** Size in the measure's own metric unit, the first of its rows. */
  readonly factor: number;
  /** The system that uses it; absent where both do. */
  readonly system?: UnitSystem;
  /** Units that the name stands for by the system of the list, where trades differ: "tph". */
  readonly bySystem?: Readonly<Record<UnitSystem, string>>;
}

type Row = readonly [symbol: string, factor: number, system: UnitSystem | '', names?: string];

const kilopond = 9.80665;
const mmPerFoot = 1000 * foot;

/** Symbol, size, system, further names parted by "|". The names' words are those of `words`, "/" means per. */
const table: Readonly<Record<Measure, readonly Row[]>> = {
  length: [
    ['mm', 1, 'metric'],
    ['cm', 10, 'metric'],
    ['m', 1000, 'metric'],
    ['km', 1e6, 'metric'],
    ['in', inch, 'us'],
    ['ft', mmPerFoot, 'us'],
    ['yd', 3 * mmPerFoot, 'us'],
  ],
  area: [
    ['m²', 1, 'metric'],
    ['ft²', foot ** 2, 'us'],
  ],
  angle: [
    ['°', 1, ''],
    ['rad', 180 / Math.PI, '', 'radian|radians'],
    ['gon', 0.9, ''],
  ],
  lineTension: [
    ['N/mm', 1, 'metric'],
    ['kN/m', 1, 'metric'],
    ['N/m', 0.001, 'metric'],
    ['N/cm', 0.1, 'metric'],
    ['daN/cm', 1, 'metric'],
    ['daN/mm', 10, 'metric'],
    ['kgf/cm', kilopond / 10, 'metric', 'kg/cm'],
    ['kgf/mm', kilopond, 'metric', 'kg/mm'],
    ['lbf/in', poundForce / inch, 'us', 'lb/in|piw|pli|ppi'],
    ['lbf/ft', poundForce / mmPerFoot, 'us', 'lb/ft'],
  ],
  force: [
    ['N', 1, 'metric'],
    ['kN', 1000, 'metric'],
    ['daN', 10, 'metric'],
    ['kgf', kilopond, 'metric', 'kg'],
    ['lbf', poundForce, 'us', 'lb'],
    ['kip', 1000 * poundForce, 'us', 'kips'],
  ],
  power: [
    ['kW', 1, 'metric'],
    ['W', 0.001, 'metric'],
    ['MW', 1000, 'metric'],
    ['PS', (75 * kilopond) / 1000, 'metric'],
    ['hp', quantities.power.metricPerUs, 'us'],
  ],
  speed: [
    ['m/s', 1, 'metric', 'mps'],
    ['m/min', 1 / 60, 'metric', 'mpm'],
    ['m/h', 1 / 3600, 'metric'],
    ['km/h', 1 / 3.6, 'metric', 'kmh|kph'],
    ['mm/s', 0.001, 'metric'],
    ['cm/s', 0.01, 'metric'],
    ['ft/min', foot / 60, 'us', 'fpm'],
    ['ft/s', foot, 'us', 'fps'],
    ['in/s', inch / 1000, 'us'],
  ],
  capacity: [
    ['t/h', 1, 'metric', 'mtph'],
    ['kg/h', 0.001, 'metric'],
    ['kg/s', 3.6, 'metric'],
    ['t/day', 1 / 24, 'metric'],
    ['short ton/h', 2 * pound, 'us', 'stph'],
    ['long ton/h', 2.24 * pound, 'us', 'ltph'],
    ['lb/h', pound / 1000, 'us', 'pph'],
    ['ton/h', 1, '', 'tph'],
  ],
  lineMass: [
    ['kg/m', 1, 'metric'],
    ['g/m', 0.001, 'metric'],
    ['kg/mm', 1000, 'metric'],
    ['lb/ft', pound / foot, 'us'],
    ['lb/in', (pound / inch) * 1000, 'us'],
  ],
  density: [
    ['kg/m per mm²', 1, 'metric', 'kg/m/mm2'],
    ['kg/m³', 1e-6, 'metric', 'kg/m3'],
    ['g/cm³', 1e-3, 'metric', 'g/cm3|kg/dm3|kg/l|t/m3'],
    ['lb/ft per in²', quantities.beltDensity.metricPerUs, 'us', 'lb/ft/in2'],
    ['lb/ft³', quantities.beltDensity.metricPerUs / 144, 'us', 'lb/ft3|pcf'],
  ],
  time: [
    ['h', 1, ''],
    ['min', 1 / 60, ''],
    ['thousand h', 1000, '', 'kh|1000 h'],
  ],
  calendar: [
    ['year', 1, ''],
    ['month', 1 / 12, ''],
    ['week', 7 / 365.25, ''],
    ['day', 1 / 365.25, ''],
  ],
  hoursPerYear: [['h/year', 1, '', 'h']],
  frequency: [
    ['1/h', 1, '', '/h'],
    ['1/min', 60, '', '/min'],
  ],
  perYear: [['1/year', 1, '']],
  money: [
    ['€', 1, '', 'eur|euro|euros'],
    ['$', 1, '', 'usd|us$|dollar|dollars'],
    ['£', 1, '', 'gbp'],
    ['CHF', 1, ''],
    ['AUD', 1, '', 'a$'],
    ['CAD', 1, '', 'c$'],
    ['ZAR', 1, ''],
  ],
  moneyPerHour: [['per h', 1, '', '/h']],
  moneyPerLength: [
    ['per mm', 1, 'metric', '/mm'],
    ['per m', 0.001, 'metric', '/m'],
    ['per in', 1 / inch, 'us', '/in'],
    ['per ft', 1 / mmPerFoot, 'us', '/ft'],
  ],
  share: [['%', 0.01, '', 'percent|per cent|pct|prozent|pour cent|por ciento|procent']],
  pieces: [['pieces', 1, '', 'piece|pc|pcs|off|ea|each|stk|stueck|stuck|pce|pces|pza|piezas|stuks']],
};

/** Trades differ on what "tons per hour" weighs: the list's own system decides. */
const bySystem: Readonly<Record<string, Readonly<Record<UnitSystem, string>>>> = {
  'ton/h': { metric: 't/h', us: 'short ton/h' },
};

/** Words for the symbols of which names are composed, without case or accents, in the languages lists come in. */
const words: Readonly<Record<string, string>> = {
  mm: 'mms|millimeter|millimeters|millimetre|millimetres|milimetro|milimetros|millimetro|millimetri',
  cm: 'cms|centimeter|centimeters|centimetre|centimetres|zentimeter|centimetro|centimetros',
  m: 'meter|meters|metre|metres|metro|metros|mtr|mtrs|mts|metri',
  km: 'kilometer|kilometre|kilometers|kilometres|kilometro|kilometros',
  in: `inch|inches|ins|zoll|pulgada|pulgadas|pouce|pouces|pollice|pollici|duim|polegada|polegadas|"|″|”|''`,
  ft: `foot|feet|fuss|pie|pies|pied|pieds|voet|'|′|’`,
  yd: 'yard|yards|yds',
  s: 'sec|secs|second|seconds|sek|sekunde|seg|segundo|seconde',
  min: 'mins|minute|minutes|minuto|minutos|minuten|minuut',
  h: 'hr|hrs|hour|hours|std|stunde|stunden|heure|heures|hora|horas|ora|ore|uur|uren|bh|betriebsstunden',
  day: 'days|tag|tage|jour|jours|dias|dag|dagen|d',
  week: 'weeks|wk|wks|woche|wochen|semaine|semaines|semana|semanas|weken',
  month: 'months|monat|monate|mois|mes|meses|maand|maanden',
  year: 'years|yr|yrs|y|a|jahr|jahre|jahren|annee|annees|an|ans|ano|anos|jaar|anno|anni|annum',
  n: 'newton|newtons',
  kn: 'kilonewton|kilonewtons',
  lb: 'lbs|pound|pounds|libra|libras|livre|livres|#',
  lbf: 'lbsf|lbf',
  kg: 'kgs|kilo|kilos|kilogram|kilograms|kilogramm|kilogramo|kilogramos',
  kgf: 'kp|kilopond',
  g: 'gram|grams|gramm|gramo|gramos|gramme|grammes',
  t: 'tonne|tonnes|tonnen|tonelada|toneladas|tonnellate|ton metric|metric ton|metric tons|te|mt',
  'short ton': 'short tons|st|stn|sh tn|us ton|us tons|ston|stons|net ton|net tons',
  'long ton': 'long tons|lt|uk ton|uk tons|imperial ton|imperial tons|gross ton|gross tons',
  ton: 'tons|tn',
  kw: 'kilowatt|kilowatts',
  w: 'watt|watts',
  mw: 'megawatt|megawatts',
  hp: 'horsepower|bhp|horse power',
  ps: 'cv|ch|pk|pferdestarke|pferdestarken|metric horsepower|metric hp|hp(m)|hp m',
  '°': 'deg|degs|degree|degrees|grad|grado|grados|degre|degres|graden|gradi',
};

const symbolOf = new Map(
  Object.entries(words).flatMap(([symbol, names]) => names.split('|').map((name) => [name, symbol] as const)),
);

const named = new Map<string, Unit[]>();
const byMeasure = new Map<Measure, Unit[]>();
for (const [measure, rows] of Object.entries(table) as [Measure, readonly Row[]][]) {
  for (const [symbol, factor, system, names = ''] of rows) {
    const resolved = bySystem[symbol];
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
  readonly measure: Measure;
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
  beltDensity: { measure: 'density', base: 1 },
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
