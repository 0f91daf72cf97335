import { nearest } from '../../units/nearest.ts';
import { notFound, standard, type StandardFunction } from './standard-function.ts';

/**
 * Units by their names in CONVERT. Names and groups: ECMA-376 Part 1, 18.17.7.48. Sizes: exact by the international
 * yard and pound of 1959 and by the SI, where no other source stands beside them.
 */

const inch = 0.0254;
const foot = 12 * inch;
const yard = 3 * foot;
const mile = 1760 * yard;
const nauticalMile = 1852;
const surveyFoot = 1200 / 3937;
const lightYear = 9_460_730_472_580_800;
const pica = inch / 72;
const pound = 0.45359237;
const standardGravity = 9.80665;
const poundForce = pound * standardGravity;
const gallon = 231 * inch ** 3;
const imperialGallon = 4.54609e-3;
const hour = 3600;
const btu = 1055.05585262;
const horsepower = 550 * foot * poundForce;

/** Units that take the prefixes of the SI. */
const prefixed: Readonly<Record<string, readonly [string, number]>> = {
  g: ['mass', 1e-3],
  u: ['mass', 1.6605390666e-27], // CODATA 2018
  m: ['length', 1],
  ang: ['length', 1e-10],
  ly: ['length', lightYear],
  parsec: ['length', (149_597_870_700 * 648_000) / Math.PI],
  pc: ['length', (149_597_870_700 * 648_000) / Math.PI],
  s: ['time', 1],
  sec: ['time', 1],
  Pa: ['pressure', 1],
  p: ['pressure', 1],
  atm: ['pressure', 101_325],
  at: ['pressure', 101_325],
  mmHg: ['pressure', 133.322],
  N: ['force', 1],
  dyn: ['force', 1e-5],
  dy: ['force', 1e-5],
  pond: ['force', standardGravity * 1e-3],
  J: ['energy', 1],
  e: ['energy', 1e-7],
  c: ['energy', 4.184],
  cal: ['energy', 4.1868],
  eV: ['energy', 1.602176634e-19],
  ev: ['energy', 1.602176634e-19],
  Wh: ['energy', hour],
  wh: ['energy', hour],
  W: ['power', 1],
  w: ['power', 1],
  T: ['magnetism', 1],
  ga: ['magnetism', 1e-4],
  l: ['volume', 1e-3],
  L: ['volume', 1e-3],
  lt: ['volume', 1e-3],
  bit: ['information', 1],
  byte: ['information', 8],
};

/** Units of area and volume whose prefix counts twice or thrice. */
const powered: Readonly<Record<string, readonly [string, number, number]>> = {
  m2: ['area', 1, 2],
  'm^2': ['area', 1, 2],
  m3: ['volume', 1, 3],
  'm^3': ['volume', 1, 3],
};

const plain: Readonly<Record<string, readonly [string, number]>> = {
  sg: ['mass', poundForce / foot],
  lbm: ['mass', pound],
  ozm: ['mass', pound / 16],
  grain: ['mass', pound / 7000],
  stone: ['mass', 14 * pound],
  cwt: ['mass', 100 * pound],
  shweight: ['mass', 100 * pound],
  uk_cwt: ['mass', 112 * pound],
  lcwt: ['mass', 112 * pound],
  ton: ['mass', 2000 * pound],
  uk_ton: ['mass', 2240 * pound],
  LTON: ['mass', 2240 * pound],
  brton: ['mass', 2240 * pound],
  mi: ['length', mile],
  Nmi: ['length', nauticalMile],
  in: ['length', inch],
  ft: ['length', foot],
  yd: ['length', yard],
  ell: ['length', 45 * inch],
  Pica: ['length', pica],
  Picapt: ['length', pica],
  pica: ['length', inch / 6],
  survey_mi: ['length', 5280 * surveyFoot],
  yr: ['time', 365.25 * 24 * hour],
  day: ['time', 24 * hour],
  d: ['time', 24 * hour],
  hr: ['time', hour],
  mn: ['time', 60],
  min: ['time', 60],
  psi: ['pressure', poundForce / inch ** 2],
  Torr: ['pressure', 101_325 / 760],
  lbf: ['force', poundForce],
  HPh: ['energy', horsepower * hour],
  hh: ['energy', horsepower * hour],
  flb: ['energy', foot * poundForce],
  BTU: ['energy', btu],
  btu: ['energy', btu],
  HP: ['power', horsepower],
  h: ['power', horsepower],
  PS: ['power', 75 * standardGravity],
  tsp: ['volume', gallon / 768],
  tspm: ['volume', 5e-6],
  tbs: ['volume', gallon / 256],
  oz: ['volume', gallon / 128],
  cup: ['volume', gallon / 16],
  pt: ['volume', gallon / 8],
  us_pt: ['volume', gallon / 8],
  uk_pt: ['volume', imperialGallon / 8],
  qt: ['volume', gallon / 4],
  uk_qt: ['volume', imperialGallon / 4],
  gal: ['volume', gallon],
  uk_gal: ['volume', imperialGallon],
  barrel: ['volume', 42 * gallon],
  ft3: ['volume', foot ** 3],
  'ft^3': ['volume', foot ** 3],
  in3: ['volume', inch ** 3],
  'in^3': ['volume', inch ** 3],
  yd3: ['volume', yard ** 3],
  'yd^3': ['volume', yard ** 3],
  ha: ['area', 1e4],
  ar: ['area', 100],
  us_acre: ['area', 43_560 * surveyFoot ** 2],
  uk_acre: ['area', 4840 * yard ** 2],
  ft2: ['area', foot ** 2],
  'ft^2': ['area', foot ** 2],
  in2: ['area', inch ** 2],
  'in^2': ['area', inch ** 2],
  yd2: ['area', yard ** 2],
  'yd^2': ['area', yard ** 2],
  mi2: ['area', mile ** 2],
  'mi^2': ['area', mile ** 2],
  kn: ['speed', nauticalMile / hour],
  admkn: ['speed', (6080 * foot) / hour],
  mph: ['speed', mile / hour],
  'm/s': ['speed', 1],
  'm/sec': ['speed', 1],
  'm/h': ['speed', 1 / hour],
  'm/hr': ['speed', 1 / hour],
};

/** Kelvin from a temperature: a factor, after an offset. */
const temperatures: Readonly<Record<string, readonly [number, number]>> = {
  C: [1, 273.15],
  cel: [1, 273.15],
  F: [5 / 9, 459.67],
  fah: [5 / 9, 459.67],
  K: [1, 0],
  kel: [1, 0],
  Rank: [5 / 9, 0],
  Reau: [1.25, 273.15 / 1.25],
};

const prefixes: Readonly<Record<string, number>> = {
  Y: 24,
  Z: 21,
  E: 18,
  P: 15,
  T: 12,
  G: 9,
  M: 6,
  k: 3,
  h: 2,
  da: 1,
  e: 1,
  d: -1,
  c: -2,
  m: -3,
  u: -6,
  n: -9,
  p: -12,
  f: -15,
  a: -18,
  z: -21,
  y: -24,
};
const binaryPrefixes: Readonly<Record<string, number>> = {
  ki: 10,
  Mi: 20,
  Gi: 30,
  Ti: 40,
  Pi: 50,
  Ei: 60,
  Zi: 70,
  Yi: 80,
};

interface Unit {
  readonly group: string;
  readonly factor: number;
  readonly offset: number;
}

function unitOf(name: string): Unit | undefined {
  const own = (table: object): boolean => Object.hasOwn(table, name);
  const single = own(plain) ? plain[name] : own(prefixed) ? prefixed[name] : own(powered) ? powered[name] : undefined;
  if (single !== undefined) return { group: single[0], factor: single[1], offset: 0 };
  const temperature = own(temperatures) ? temperatures[name] : undefined;
  if (temperature !== undefined) return { group: 'temperature', factor: temperature[0], offset: temperature[1] };
  for (const [prefix, power] of Object.entries(prefixes)) {
    const rest = name.slice(prefix.length);
    if (!name.startsWith(prefix)) continue;
    const unit = Object.hasOwn(prefixed, rest) ? prefixed[rest] : undefined;
    if (unit !== undefined) return { group: unit[0], factor: unit[1] * 10 ** power, offset: 0 };
    const area = Object.hasOwn(powered, rest) ? powered[rest] : undefined;
    if (area !== undefined) return { group: area[0], factor: area[1] * 10 ** (power * area[2]), offset: 0 };
    if (rest === 'K' || rest === 'kel') return { group: 'temperature', factor: 10 ** power, offset: 0 };
  }
  for (const [prefix, power] of Object.entries(binaryPrefixes)) {
    const unit = prefixed[name.slice(prefix.length)];
    if (name.startsWith(prefix) && unit?.[0] === 'information')
      return { group: unit[0], factor: unit[1] * 2 ** power, offset: 0 };
  }
  return undefined;
}

function known(name: string): Unit {
  const unit = unitOf(name);
  if (unit !== undefined) return unit;
  const near = nearest(name, [...Object.keys(plain), ...Object.keys(prefixed), ...Object.keys(temperatures)]);
  throw notFound(
    `CONVERT knows no unit ` +
      `"${name}"${near.length === 0 ? '' : `; near to it are ` + `${near.map((one) => `"${one}"`).join(', ')}`}`,
  );
}

export const conversionFunctions: readonly StandardFunction[] = [
  standard('CONVERT', ['number', 'text', 'text'], (value, from, to) => {
    const [given, wanted] = [known(from), known(to)];
    if (given.group !== wanted.group)
      throw notFound(`CONVERT: "${from}" is a unit of ${given.group}, "${to}" one of ${wanted.group}`);
    if (given.offset === 0 && wanted.offset === 0) return (value * given.factor) / wanted.factor;
    return ((value + given.offset) * given.factor) / wanted.factor - wanted.offset;
  }),
];
