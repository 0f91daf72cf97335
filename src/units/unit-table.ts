import { foot, inch, pound, poundForce, quantities, type UnitSystem } from './quantities.ts';

/**
 * Every unit that a list may write, once: what it measures, its size, and how the trade spells it.
 *
 * A name is looked up after its words were made symbols ("pounds per inch" is "lb/in"), so that composed units need
 * no list of spellings of their own. One name may mean several units ("lb/in" is a mass or a tension per length):
 * the kind of quantity that is asked for decides.
 * Source: NIST SP 811; metric horsepower 75 kgf m/s with 1 kgf = 9.80665 N; long ton 2240 lb.
 */
export type UnitMeasure =
  | 'length'
  | 'area'
  | 'angle'
  | 'lineTension'
  | 'force'
  | 'power'
  | 'speed'
  | 'capacity'
  | 'lineMass'
  | 'mass'
  | 'acceleration'
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
  readonly measure: UnitMeasure;
  /** Size in the measure's own metric unit, the first of its rows. */
  readonly factor: number;
  /** The system that uses it; absent where both do. */
  readonly system?: UnitSystem;
  /** Units that the name stands for by the system of the list, where trades differ: "tph". */
  readonly bySystem?: Readonly<Record<UnitSystem, string>>;
}

export type UnitRow = readonly [symbol: string, factor: number, system: UnitSystem | '', names?: string];

const kilopond = 9.80665;
const mmPerFoot = 1000 * foot;

/** Symbol, size, system, further names parted by "|". The names' words are those of `unitWords`, "/" means per. */
export const unitRows: Readonly<Record<UnitMeasure, readonly UnitRow[]>> = {
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
  mass: [
    ['kg', 1, 'metric'],
    ['t', 1000, 'metric'],
    ['lb', pound, 'us'],
    ['short ton', 2000 * pound, 'us'],
  ],
  acceleration: [
    ['m/s²', 1, 'metric', 'm/s2'],
    ['ft/s²', foot, 'us', 'ft/s2'],
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
export const unitBySystem: Readonly<Record<string, Readonly<Record<UnitSystem, string>>>> = {
  'ton/h': { metric: 't/h', us: 'short ton/h' },
};

/** Words for the symbols of which names are composed, without case or accents, in the languages lists come in. */
export const unitWords: Readonly<Record<string, string>> = {
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
  hp: 'horsepower|bhp|horse power|h p|b h p',
  ps: 'cv|ch|pk|pferdestarke|pferdestarken|metric horsepower|metric hp|hp(m)|hp m',
  '°': 'deg|degs|degree|degrees|grad|grado|grados|degre|degres|graden|gradi',
};
