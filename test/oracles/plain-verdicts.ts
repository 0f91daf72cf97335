import type { CheckHeader } from '../../sheets/belts/check-columns.ts';
import type { BeltHeader, PulleyHeader, SeriesHeader } from '../../sheets/index.ts';
import type { Workbook } from '../../src/workbook/workbook.ts';
import type { Belt } from './plain-belt.ts';
import { PlainFleet } from './plain-fleet.ts';
import { jointTakes, skewPulley } from './plain-joint.ts';
import { carcassPulley } from './plain-carcass.ts';
import { seriesCanBeMade } from './plain-series.ts';
import { drivesAtOdds, weightFor } from './plain-loop.ts';
import { carcassRating, carcassWays, designated, permittedTension, plainTension, topCover } from './plain-tension.ts';

/**
 * Every check of a belt once more, from what was entered alone: inputs of the belt, its series and its pulleys, and the
 * named values. Written without the program's functions and formulas. A number that is missing is NaN and spreads.
 *
 * Where it stops: cells hold a number that is allowed there, or nothing; what else people type is another test's.
 */

export type Verdicts = Readonly<Record<CheckHeader, string>>;

const order = ['fits', 'tight', 'not known', 'fails'];
const rank = (verdict: string): number => order.indexOf(verdict === unasked ? 'fits' : verdict);
const worse = (one: string, other: string): string => (rank(other) > rank(one) ? other : one);
const unasked = 'not asked';
const warned = (verdict: string): string => (verdict === 'fails' ? 'tight' : verdict);
/** Equal but for the last digits is not beyond. */
const hair = 1e-12;

function atLeast(value: number, least: number, margin: number): string {
  if (Number.isNaN(value + least + margin)) return 'not known';
  const slack = Math.abs(least) * hair;
  return value < least - slack ? 'fails' : value < least * (1 + margin) - slack ? 'tight' : 'fits';
}
const atMost = (value: number, most: number, margin: number): string => {
  if (Number.isNaN(value + most + margin)) return 'not known';
  const slack = Math.abs(most) * hair;
  return value > most + slack ? 'fails' : value > most * (1 - margin) + slack ? 'tight' : 'fits';
};
const inside = (value: number, least: number, most: number, margin: number): string =>
  Number.isNaN(value + least + most) ? 'not known' : worse(atLeast(value, least, margin), atMost(value, most, margin));

const isMissing = Number.isNaN;
const sine = (degrees: number): number => Math.sin((degrees * Math.PI) / 180);
const cosine = (degrees: number): number => Math.cos((degrees * Math.PI) / 180);
const tangent = (degrees: number): number => Math.tan((degrees * Math.PI) / 180);

/** What was entered: nothing that the book computed. */
export interface Entered {
  readonly belt: Belt;
  readonly number: (header: BeltHeader) => number;
  /** NaN and '' throughout where the series is not in the book. */
  readonly series: (header: SeriesHeader) => number;
  readonly seriesText: (header: SeriesHeader) => string;
  readonly hasSeries: boolean;
  readonly pulleys: readonly ((header: PulleyHeader) => number | string)[];
  readonly named: (name: string) => number;
}

/** Readers of the belts of a book, one a record. */
export function enteredBelts(book: Workbook): Entered[] {
  const fleet = new PlainFleet(book);
  const numberOf = (value: unknown): number => (typeof value === 'number' ? value : Number.NaN);
  const lower = (value: unknown): string => String(value ?? '').toLowerCase();
  const series = new Map<string, number>();
  for (const at of [...book.sheet('Plate series').rows.keys()].toReversed())
    series.set(lower(book.read('Plate series', at, 'Series')), at);
  const pulleys = new Map<string, number[]>();
  for (const at of book.sheet('Pulleys').rows.keys()) {
    const name = lower(book.read('Pulleys', at, 'Belt'));
    pulleys.set(name, [...(pulleys.get(name) ?? []), at]);
  }
  return fleet.belts.map((belt, record) => {
    const row = belt.series === '' ? undefined : series.get(lower(belt.series));
    const ofSeries = (header: SeriesHeader): unknown =>
      row === undefined ? null : book.read('Plate series', row, header);
    return {
      belt,
      number: (header) => numberOf(book.read('Belts', record, header)),
      series: (header) => numberOf(ofSeries(header)),
      seriesText: (header) => String(ofSeries(header) ?? ''),
      hasSeries: row !== undefined,
      pulleys: (pulleys.get(lower(book.read('Belts', record, 'Belt'))) ?? []).map((at) => (header) => {
        const value = book.read('Pulleys', at, header);
        return typeof value === 'number' ? value : String(value ?? '');
      }),
      named: (given) => fleet.named[given] ?? Number.NaN,
    };
  });
}

const hasFriction = ({ belt }: Entered): boolean =>
  !isMissing(belt.friction) || (belt.face !== '' && belt.condition !== '');

/** The method that the working tension is from: the first whose inputs are all given, or the one that is asked for. */
function methodOf(entered: Entered): string {
  const { belt, number } = entered;
  if (belt.route !== '') return belt.route;
  if (!isMissing(belt.tensionEntered)) return 'entered';
  const given = (...numbers: number[]): boolean => !numbers.some(isMissing);
  const hasMass = !isMissing(number('Belt mass')) || given(belt.width, belt.thickness);
  const drive = given(belt.speed, belt.wrap, belt.width) && hasFriction(entered);
  if (drive && given(belt.capacity, belt.lift) && belt.centres >= 80 && hasMass) return 'resistances';
  if (drive && given(belt.power)) return 'power';
  return isMissing(belt.permitted) && isMissing(designated(belt.construction).strength) ? 'not known' : 'belt rating';
}

interface Tension {
  readonly from: string;
  readonly working: number;
  readonly steady: number;
  /** At the take-up, by the resistances. */
  readonly needed: number;
  /** The largest of the methods where it is larger by over the margin; undefined where none is. */
  readonly larger: number | undefined;
}

function tensionOf(entered: Entered): Tension {
  const { belt, named } = entered;
  const from = methodOf(entered);
  const found = plainTension({ ...belt, route: from }, named);
  const working = from === 'not known' ? Number.NaN : found.tension;
  const ways = [belt.tensionEntered, found.resistances, found.power].filter((way) => !isMissing(way));
  const most = Math.max(...ways);
  const larger =
    ways.length === 0
      ? undefined
      : isMissing(working)
        ? Number.NaN
        : most * (1 - named('MethodMargin')) > working
          ? most
          : undefined;
  return { from, working, steady: found.steady, needed: found.needed, larger };
}

/** Plates on the cut and the clear edge at its ends. */
function rowOf({ belt, series }: Entered): { readonly count: number; readonly edge: number } {
  const [pitch, plate, least] = [series('Pitch'), series('Plate width'), series('Minimum edge')];
  const cut = belt.width / cosine(belt.skew);
  const room = Math.round(((cut - 2 * least - plate) / pitch) * 1e9) / 1e9;
  if (!(room >= 0) || pitch < plate) return { count: Number.NaN, edge: Number.NaN };
  const count = 1 + Math.floor(room);
  return { count, edge: (cut - plate - (count - 1) * pitch) / 2 };
}

const plateLength = ({ series }: Entered): number =>
  isMissing(series('Plate length')) ? 2 * series('Hole setback') + 3 * series('Punch size') : series('Plate length');

function loopLength({ belt }: Entered): number {
  const [centres, difference] = [belt.centres * 1000, belt.headPulley - belt.tailPulley];
  return (
    (2 * Math.sqrt(centres ** 2 - (difference / 2) ** 2) +
      (Math.PI * (belt.headPulley + belt.tailPulley)) / 2 +
      difference * Math.asin(difference / (2 * centres))) /
    1000
  );
}

/** The record's smallest pulley is none where head or tail are smaller. */
const smallestOf = ({ smallestPulley, headPulley, tailPulley }: Belt): number =>
  [headPulley, tailPulley].reduce((least, other) => (other < least ? other : least), smallestPulley);

type PulleyChecks = 'Pulley check' | 'Carcass check' | 'Other pulley check';

/** The pulley checks: the belt's smallest pulley, or that and every listed one in its own place. */
function pulleyChecks(entered: Entered, tension: Tension, margin: number): Pick<Verdicts, PulleyChecks> {
  const { belt, series, pulleys, named } = entered;
  const joint = skewPulley(belt.skew, {
    squarePulley: series('Minimum pulley square'),
    rated: ([15, 22, 30, 45, 60] as const).map((skew) => [skew, series(`Minimum pulley at ${skew}`)] as const),
  });
  const rating = carcassRating(belt, named);
  const { used } = carcassWays(belt, named);
  const carcassAt = (load: number, group: string): number =>
    carcassPulley(belt.construction, used, (load / rating) * 100, group);
  if (pulleys.length === 0)
    return {
      'Pulley check': atLeast(smallestOf(belt), joint, margin),
      'Carcass check': atLeast(smallestOf(belt), carcassAt(tension.steady, belt.group || 'A'), margin),
      'Other pulley check':
        isMissing(belt.headPulley) || belt.group === '' || belt.group === 'A'
          ? unasked
          : atLeast(belt.headPulley, carcassAt(tension.steady, 'A'), margin),
    };
  const diameters = pulleys.map((pulley) => Number(pulley('Diameter') || Number.NaN));
  const bends = pulleys.map((pulley, index) => {
    const reverse = pulley('Belt side') === 'carrying side' ? named('ReverseFactor') : 1;
    return (diameters[index] ?? Number.NaN) / reverse;
  });
  const own = [belt.smallestPulley, belt.headPulley, belt.tailPulley].filter((diameter) => !isMissing(diameter));
  const unlisted = Math.min(...own);
  const isUnlisted = unlisted < Math.min(...diameters);
  const shares = pulleys.map((pulley, index) => {
    const local = pulley('Local tension');
    const load = local === '' ? tension.steady : Number(local);
    const least = carcassAt(load, String(pulley('Group') || 'A'));
    return { diameter: diameters[index] ?? Number.NaN, least, share: (diameters[index] ?? Number.NaN) / least };
  });
  const worst = shares.some(({ share }) => isMissing(share))
    ? undefined
    : shares.toSorted((one, other) => one.share - other.share)[0];
  return {
    'Pulley check': atLeast(Math.min(...bends, ...(isUnlisted ? [unlisted] : [])), joint, margin),
    'Carcass check': worst === undefined ? 'not known' : atLeast(worst.diameter, worst.least, margin),
    'Other pulley check': diameters.some(isMissing)
      ? 'not known'
      : isUnlisted
        ? atLeast(unlisted, carcassAt(tension.steady, belt.group || 'A'), margin)
        : unasked,
  };
}

type PlateChecks = 'Thickness check' | 'Edge check' | 'Hole rim check' | 'Plate corner check' | 'Plate count check';

function plateChecks(entered: Entered, margin: number): Pick<Verdicts, PlateChecks> {
  const { belt, series, named } = entered;
  const { count, edge } = rowOf(entered);
  const holes = series('Holes per side');
  const gap = isMissing(series('Hole spacing')) ? 0 : series('Hole spacing');
  const rim =
    holes > 1 && gap === 0
      ? Number.NaN
      : (edge + series('Plate width') / 2 - ((holes - 1) * gap) / 2) * cosine(belt.skew) -
        series('Hole setback') * sine(belt.skew) -
        series('Punch size') / 2;
  const corner = edge * cosine(belt.skew) - (plateLength(entered) / 2) * sine(belt.skew);
  const clamped = belt.skive < belt.thickness ? belt.thickness - belt.skive : Number.NaN;
  return {
    'Thickness check': inside(clamped, series('Minimum thickness'), series('Maximum thickness'), margin),
    'Edge check': inside(edge, series('Minimum edge'), series('Maximum edge'), margin),
    'Hole rim check': atLeast(
      rim,
      isMissing(series('Minimum rim')) && entered.hasSeries ? named('RimDistance') : series('Minimum rim'),
      margin,
    ),
    'Plate corner check': atLeast(Math.round(corner * 1e9) / 1e9, named('CornerDistance'), margin),
    'Plate count check':
      entered.hasSeries && isMissing(series('Minimum plates'))
        ? unasked
        : atLeast(count, series('Minimum plates'), margin),
  };
}

type TensionChecks = 'Tension check' | 'Belt tension check' | 'Larger tension check' | 'Load per plate check';

function tensionChecks(
  entered: Entered,
  { from, working, larger }: Tension,
  margin: number,
): Pick<Verdicts, TensionChecks> {
  const { belt, series, named } = entered;
  const rating = series('Tension rating');
  const beltRating = permittedTension(belt, named);
  return {
    'Tension check': atMost(working, rating, margin),
    'Belt tension check': from === 'belt rating' ? unasked : atMost(working, permittedTension(belt, named), margin),
    'Larger tension check':
      larger === undefined
        ? unasked
        : warned(atMost(larger, isMissing(beltRating) ? beltRating : Math.min(rating, beltRating), margin)),
    'Load per plate check': warned(
      atMost((working * belt.width) / rowOf(entered).count, rating * series('Pitch'), margin),
    ),
  };
}

type BeltChecks =
  | 'Layers check'
  | 'Entered rating check'
  | 'Skive check'
  | 'Cover left check'
  | 'Top cover check'
  | 'Carcass thickness check'
  | 'Steel cord check';

function beltChecks({ belt, named }: Entered, margin: number): Pick<Verdicts, BeltChecks> {
  const nominal = designated(belt.construction);
  const cover = topCover(belt);
  const { all, isImpossible } = carcassWays(belt, named);
  const spread = Math.round((1 - Math.min(...all) / Math.max(...all)) * 1e9) / 1e9;
  const difference = named('CoverDifference');
  const layers = [belt.topCover, belt.carcass].filter((layer) => !isMissing(layer));
  const thick = layers.reduce((sum, layer) => sum + layer, 0) - belt.thickness;
  return {
    'Layers check':
      layers.length === 0 ? 'fits' : isMissing(thick) ? 'not known' : Math.round(thick * 1e9) > 0 ? 'fails' : 'fits',
    'Entered rating check':
      isMissing(belt.permitted) || isMissing(nominal.strength)
        ? unasked
        : warned(
            atMost(belt.permitted, permittedTension({ ...belt, permitted: Number.NaN }, named, 'Minimum'), margin),
          ),
    'Skive check': belt.skive === 0 ? unasked : atMost(belt.skive, cover, margin),
    'Cover left check': belt.skive === 0 ? unasked : warned(atLeast(cover - belt.skive, named('CoverLeft'), margin)),
    'Top cover check':
      isMissing(belt.topCover) || isMissing(nominal.topCover)
        ? unasked
        : warned(
            inside(belt.topCover, nominal.topCover * (1 - difference), nominal.topCover * (1 + difference), margin),
          ),
    'Carcass thickness check':
      all.length < 2 && !isImpossible
        ? unasked
        : isImpossible
          ? 'not known'
          : warned(atMost(spread, named('CarcassDifference'), margin)),
    'Steel cord check': isMissing(nominal.strength) ? 'not known' : nominal.steel ? 'tight' : 'fits',
  };
}

function takeUpCheck(entered: Entered, margin: number): string {
  const { belt, named } = entered;
  const loop = loopLength(entered);
  const steel = designated(belt.construction).steel;
  const stretch = (loop * 1000 * named(steel ? 'StretchSteelCord' : 'StretchTextile')) / named('TakeUpShare');
  const reserve = stretch * (belt.replaces === 'new belt' ? 1 : named('StretchLeft'));
  const length = plateLength(entered);
  // Without what it takes nothing is known of the joint, an insert or a new belt's included.
  const known = belt.width + belt.skew + (isMissing(belt.cutOut) ? length : belt.cutOut);
  const takes = isMissing(known) ? Number.NaN : jointTakes(belt, length, named('TrimPerEnd'));
  return atMost(takes / named('TakeUpShare') + reserve, belt.takeUp, margin);
}

/** The weight that hangs against what is needed; not asked of a screw, nor where nothing says what is needed. */
function weightCheck(entered: Entered, { needed }: Tension, margin: number): string {
  const { belt, number } = entered;
  const hasMass = !isMissing(number('Belt mass')) || !isMissing(belt.width * belt.thickness);
  const isWorkedOut =
    hasMass &&
    hasFriction(entered) &&
    belt.centres >= 80 &&
    !isMissing(belt.capacity + belt.speed + belt.lift + belt.wrap + belt.width);
  if (isMissing(belt.takeUpWeight) || belt.takeUpKind === 'screw' || !isWorkedOut) return unasked;
  return atLeast(belt.takeUpWeight, weightFor(belt, needed), margin);
}

const flags = {
  underground: 'Flame resistant',
  'fire-rated': 'Flame resistant',
  'metal detector': 'Non-magnetic',
  magnet: 'Non-magnetic',
  corrosive: 'Corrosion resistant',
  food: 'Food grade',
} as const;

function serviceCheck({ belt, hasSeries, seriesText }: Entered): string {
  const words = belt.service
    .toLowerCase()
    .split(/[,;]/)
    .map((word) => word.trim())
    .filter((word) => word !== '');
  if (!hasSeries || words.length === 0) return 'not known';
  return words
    .map((word) => {
      const flag = Object.entries(flags).find(([called]) => called === word)?.[1];
      if (flag === undefined) return word === 'none' ? 'fits' : 'not known';
      return { yes: 'fits', no: 'fails' }[seriesText(flag)] ?? 'not known';
    })
    .reduce(worse);
}

function ageCheck(entered: Entered, margin: number): string {
  const { belt, named } = entered;
  if (belt.installed > named('ReviewDate')) return 'not known';
  const age = ((named('ReviewDate') - belt.installed) / named('DaysPerYear')) * belt.hoursPerYear;
  const byPasses = (belt.lifePasses * loopLength(entered)) / (belt.speed * 3600);
  const life = isMissing(belt.lifePasses) ? belt.life : isMissing(belt.life) ? byPasses : Math.min(belt.life, byPasses);
  return atMost(age, life, margin);
}

/** Section of the load on three equal rollers, m2, by adding up thin strips of the heap and the trough. */
function loadSection(width: number, trough: number, surcharge: number, slope: number): number {
  const carrying = width > 2000 ? width - 250 : 0.9 * width - 50;
  const centre = Math.min(carrying, 0.38 * width);
  const wing = (carrying - centre) / 2;
  const half = centre / 2 + wing * cosine(trough);
  // The heap is a parabola over the top that rises at its edges by the surcharge angle: a third of the triangle's.
  const heap = ((2 * half) ** 2 * tangent(surcharge)) / 6;
  const upper =
    slope === 0 ? 1 : Math.sqrt((cosine(slope) ** 2 - cosine(surcharge) ** 2) / (1 - cosine(surcharge) ** 2));
  return (heap * upper + (centre / 2 + half) * wing * sine(trough)) / 1e6;
}

type RunningChecks =
  'Speed check' | 'Temperature check' | 'Trough check' | 'Scraper check' | 'Slope check' | 'Capacity check';

function runningChecks(entered: Entered, margin: number): Pick<Verdicts, RunningChecks> {
  const { belt, number, series, hasSeries } = entered;
  const limits = [number('Maximum temperature'), series('Maximum temperature')].filter((limit) => !isMissing(limit));
  const hot = number('Material temperature');
  const slope = (Math.asin(Math.abs(belt.lift) / belt.centres) * 180) / Math.PI;
  const [trough, surcharge, density] = [number('Trough angle'), number('Surcharge angle'), number('Bulk density')];
  const given = !isMissing(trough + surcharge + density);
  const section = slope <= surcharge ? loadSection(belt.width, trough, surcharge, slope) : Number.NaN;
  const load = belt.capacity / 3.6 / belt.speed;
  const out = Math.max(0, series('Plate height') - belt.skive);
  const clearance = number('Scraper clearance');
  return {
    'Speed check':
      hasSeries && isMissing(series('Maximum speed')) ? unasked : atMost(belt.speed, series('Maximum speed'), margin),
    'Temperature check': isMissing(hot) || limits.length === 0 ? unasked : atMost(hot, Math.min(...limits), margin),
    'Trough check':
      isMissing(trough) || (hasSeries && isMissing(series('Maximum trough angle')))
        ? unasked
        : atMost(trough, series('Maximum trough angle'), margin),
    'Scraper check':
      isMissing(clearance) || isMissing(series('Plate height')) ? unasked : atMost(out, clearance, margin),
    'Slope check': isMissing(number('Maximum slope')) ? unasked : atMost(slope, number('Maximum slope'), margin),
    'Capacity check': !given || isMissing(load) ? unasked : atMost(load, section * density, margin),
  };
}

/** The verdicts of all checks of a belt. */
export function plainVerdicts(entered: Entered): Verdicts {
  const margin = entered.named('TightMargin');
  const tension = tensionOf(entered);
  return {
    ...pulleyChecks(entered, tension, margin),
    'Series check': !entered.hasSeries ? 'not known' : seriesCanBeMade(entered.series) ? 'fits' : 'fails',
    ...plateChecks(entered, margin),
    ...tensionChecks(entered, tension, margin),
    ...beltChecks(entered, margin),
    'Take-up check': takeUpCheck(entered, margin),
    'Drive check': drivesAtOdds(entered.belt) ? 'fails' : unasked,
    'Take-up weight check': weightCheck(entered, tension, margin),
    'Service check': serviceCheck(entered),
    ...runningChecks(entered, margin),
    'Age check': ageCheck(entered, margin),
  };
}

/** The worst of the checks that are made. */
export const worstOf = (verdicts: Verdicts): string => Object.values(verdicts).reduce(worse, 'fits');

/** Whether one verdict is better than another. */
export const isBetter = (one: string, other: string): boolean => rank(one) < rank(other);
