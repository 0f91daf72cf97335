import { type Assumptions, type Belt } from './plain-belt.ts';
import { carcassPulley } from './plain-carcass.ts';
import { carcassRating, carcassWays, designated, permittedTension, plainTension, topCover } from './plain-tension.ts';

/**
 * The book's figures for one belt in plain TypeScript: what the same arithmetic takes without a workbook.
 *
 * Written from the definitions, without the program's own functions, so that it also proves them. A missing number is
 * NaN and spreads; a verdict on NaN is "not known".
 */
export interface Series {
  readonly leastThickness: number;
  readonly greatestThickness: number;
  readonly squarePulley: number;
  /** Ratings by skew, NaN where there is none. */
  readonly rated: readonly (readonly [skew: number, pulley: number])[];
  readonly rating: number;
  readonly pitch: number;
  readonly plate: number;
  readonly leastEdge: number;
  readonly greatestEdge: number;
  readonly holeBack: number;
  readonly holeGap: number;
  readonly punch: number;
  readonly plateLength: number;
  readonly minimumRim: number;
  readonly boltsPerPlate: number;
  readonly holesPerSide: number;
  readonly bolt: number;
  readonly changing: number;
  readonly longerBolt: number;
  readonly flame: boolean;
  readonly nonMagnetic: boolean;
  readonly corrosion: boolean;
  readonly food: boolean;
  readonly platePrice: number;
  readonly boltPrice: number;
  readonly stripPrice: number;
}

const atLeast = (value: number, least: number, margin: number): string =>
  Number.isNaN(value) || Number.isNaN(least)
    ? 'not known'
    : value < least
      ? 'fails'
      : value < least * (1 + margin)
        ? 'tight'
        : 'fits';
const atMost = (value: number, most: number, margin: number): string =>
  Number.isNaN(value) || Number.isNaN(most)
    ? 'not known'
    : value > most
      ? 'fails'
      : value > most * (1 - margin)
        ? 'tight'
        : 'fits';
const unasked = 'not asked';
/** A check that warns. */
const warned = (verdict: string): string => (verdict === 'fails' ? 'tight' : verdict);
const order = ['fits', 'tight', 'not known', 'fails'];
const worst = (verdicts: readonly string[]): string =>
  verdicts.reduce((one, other) => (order.indexOf(other) > order.indexOf(one) ? other : one), 'fits');

function serviceVerdict(service: string, series: Series): string {
  const stands: Readonly<Record<string, boolean>> = {
    none: true,
    underground: series.flame,
    'fire-rated': series.flame,
    'metal detector': series.nonMagnetic,
    magnet: series.nonMagnetic,
    corrosive: series.corrosion,
    food: series.food,
  };
  const words = service === '' ? [] : service.split(',').map((word) => word.trim());
  if (words.length === 0 || words.some((word) => stands[word] === undefined)) return 'not known';
  return words.every((word) => stands[word]) ? 'fits' : 'fails';
}

/** What is made of some checks' verdicts, by their columns: one of a check that is not made counts as a pass. */
export const summary = (checks: Readonly<Record<string, string>>): { Verdict: string; Findings: string } => {
  const made = Object.entries(checks).filter(([, verdict]) => verdict !== 'not asked');
  return {
    Verdict: worst(made.map(([, verdict]) => verdict)),
    Findings: made
      .filter(([, verdict]) => verdict !== 'fits')
      .map(([check, verdict]) => `${check.replace(' check', '').toLowerCase()} ${verdict}`)
      .join('; '),
  };
};

/** Belt that the joint takes: the strip of the old joint, laid beside the new cuts; and the trims. */
export function jointTakes(belt: Belt, plateLength: number, trim: number): number {
  if (!Number.isNaN(belt.insert) || belt.replaces === 'new belt') return 0;
  const told = Number.isNaN(belt.replacedSkew) ? undefined : belt.replacedSkew;
  const parallel = belt.replaces === 'same skew' && (told ?? belt.skew) === belt.skew;
  const strip = Number.isNaN(belt.cutOut) ? plateLength + (parallel ? 2 * trim : 0) : belt.cutOut;
  const tangent = (degrees: number): number => Math.tan((degrees * Math.PI) / 180);
  const beside = (old: number): number =>
    strip * Math.hypot(1, tangent(old)) + belt.width * Math.abs(tangent(belt.skew) - tangent(old));
  if (parallel) return beside(belt.skew);
  if (told !== undefined) return beside(told) + 2 * trim;
  return (belt.replaces === 'other skew' ? Math.max(beside(0), beside(45)) : beside(0)) + 2 * trim;
}

/** On straight lines over 1 - cos(2 skew) from rating to rating, level from the last on. */
export function skewPulley(skew: number, { squarePulley, rated }: Pick<Series, 'squarePulley' | 'rated'>): number {
  const given = rated.filter(([, pulley]) => !Number.isNaN(pulley));
  const points = [[0, squarePulley] as const, ...(given.length === 0 ? [[45, 0.75 * squarePulley] as const] : given)];
  const place = (degrees: number): number => 1 - Math.cos((2 * degrees * Math.PI) / 180);
  let pulley = Number.NaN;
  points.forEach(([from, small], index) => {
    const [to, large] = points[index + 1] ?? [from, small];
    // A rating above the square one says that one of both is wrong.
    if (skew >= from && !(Math.max(small, large) <= squarePulley)) pulley = Number.NaN;
    else if (skew >= from)
      pulley =
        to === from ? small : small + ((large - small) * (place(skew) - place(from))) / (place(to) - place(from));
  });
  return pulley;
}

/** One belt's computed columns by their headers. */
export function plainJoint(belt: Belt, series: Series, named: Assumptions) {
  const a = (name: string): number => named[name] ?? Number.NaN;
  const margin = a('TightMargin');
  const angle = (belt.skew * Math.PI) / 180;
  const cut = belt.width / Math.cos(angle);
  const offset = belt.width * Math.tan(angle);
  const room = Math.round(((cut - 2 * series.leastEdge - series.plate) / series.pitch) * 1e9) / 1e9;
  const plates = room < 0 ? Number.NaN : 1 + Math.floor(room);
  const edge = (cut - series.plate - (plates - 1) * series.pitch) / 2;
  const known = (value: number, instead: number): number => (Number.isNaN(value) ? instead : value);
  const plateLength = known(series.plateLength, 2 * series.holeBack + 3 * series.punch);
  const corner = edge * Math.cos(angle) - (plateLength / 2) * Math.sin(angle);
  const span = series.holesPerSide > 1 ? (series.holesPerSide - 1) * series.holeGap : 0;
  const rim =
    (edge + (series.plate - span) / 2) * Math.cos(angle) - series.holeBack * Math.sin(angle) - series.punch / 2;
  const rimNeeded = known(series.minimumRim, a('RimDistance'));
  const clamped = belt.thickness - belt.skive;
  const strip = cut + a('StripOverhang');
  const jointPulley = skewPulley(belt.skew, series);

  const { from, tension, steady, larger, resistances, power } = plainTension(belt, a);
  const ways = carcassWays(belt, a);
  const cover = topCover(belt);
  const nominal = designated(belt.construction);
  const plateForce = (tension * belt.width) / plates;
  const carcass = carcassPulley(
    belt.construction,
    ways.used,
    (steady / carcassRating(belt, a)) * 100,
    belt.group || 'A',
  );

  const difference = belt.headPulley - belt.tailPulley;
  const centres = belt.centres * 1000;
  const loop =
    (2 * Math.sqrt(centres ** 2 - (difference / 2) ** 2) +
      (Math.PI * (belt.headPulley + belt.tailPulley)) / 2 +
      difference * Math.asin(difference / (2 * centres))) /
    1000;
  const age = ((a('ReviewDate') - belt.installed) / a('DaysPerYear')) * belt.hoursPerYear;
  const passes = (belt.speed * 3600) / loop;
  const byPasses = belt.lifePasses / passes;
  const life = Number.isNaN(belt.lifePasses) ? belt.life : Math.min(belt.life, byPasses);
  const bolts = plates * series.boltsPerPlate;
  const metres = (2 * cut) / 1000;
  const rate = (name: string): number =>
    (a(`${name}HoursLow`) + 4 * a(`${name}HoursLikely`) + a(`${name}HoursHigh`)) / 6;
  const outageWork =
    rate('SettingUp') +
    metres * rate('Cut') +
    (belt.skive > 0 ? metres : belt.skive) * rate('Skive') +
    2 * plates * series.holesPerSide * rate('Hole') +
    plates * rate('Plate') +
    bolts * rate('Bolt');
  const crew = rate('Preparation') + outageWork;
  const parts = plates * series.platePrice + bolts * series.boltPrice + strip * a('StripPieces') * series.stripPrice;

  const takes = jointTakes(belt, plateLength, a('TrimPerEnd'));
  const stretch = (loop * 1000 * a(nominal.steel ? 'StretchSteelCord' : 'StretchTextile')) / a('TakeUpShare');
  const reserve = Number.isNaN(stretch) ? 0 : stretch * (belt.replaces === 'new belt' ? 1 : a('StretchLeft'));
  const travel = takes / a('TakeUpShare') + reserve;

  const smallest = [belt.headPulley, belt.tailPulley].reduce(
    (least, other) => (other < least ? other : least),
    belt.smallestPulley,
  );
  const checks = {
    'Pulley check': atLeast(smallest, jointPulley, margin),
    'Carcass check': atLeast(smallest, carcass, margin),
    'Thickness check': worst([
      atLeast(clamped, series.leastThickness, margin),
      atMost(clamped, series.greatestThickness, margin),
    ]),
    'Tension check': atMost(tension, series.rating, margin),
    'Edge check': worst([atLeast(edge, series.leastEdge, margin), atMost(edge, series.greatestEdge, margin)]),
    'Hole rim check': atLeast(rim, rimNeeded, margin),
    'Plate corner check': atLeast(corner, a('CornerDistance'), margin),
    'Belt tension check': from === 'belt rating' ? unasked : atMost(tension, permittedTension(belt, a), margin),
    'Larger tension check': Number.isNaN(larger)
      ? unasked
      : warned(atMost(larger, Math.min(series.rating, permittedTension(belt, a)), margin)),
    'Load per plate check': warned(atMost(plateForce, series.rating * series.pitch, margin)),
    'Skive check': belt.skive === 0 ? unasked : atMost(belt.skive, cover, margin),
    'Cover left check': belt.skive === 0 ? unasked : warned(atLeast(cover - belt.skive, a('CoverLeft'), margin)),
    'Top cover check':
      Number.isNaN(belt.topCover) || Number.isNaN(nominal.topCover)
        ? unasked
        : warned(
            worst([
              atLeast(belt.topCover, nominal.topCover * (1 - a('CoverDifference')), margin),
              atMost(belt.topCover, nominal.topCover * (1 + a('CoverDifference')), margin),
            ]),
          ),
    'Carcass thickness check':
      ways.all.length < 2
        ? unasked
        : warned(
            atMost(
              Math.round((1 - Math.min(...ways.all) / Math.max(...ways.all)) * 1e9) / 1e9,
              a('CarcassDifference'),
              margin,
            ),
          ),
    'Steel cord check': nominal.steel ? 'tight' : 'fits',
    'Take-up check': atMost(travel, belt.takeUp, margin),
    'Service check': serviceVerdict(belt.service, series),
    'Age check': atMost(age, life, margin),
  };
  return {
    'Cut length': cut,
    'Edge offset': offset,
    'Belt lost to skew': offset,
    'Joint takes': takes,
    'Travel needed': travel,
    Plates: plates,
    'Edge clearance': edge,
    'Rim left': rim,
    'Rim needed': rimNeeded,
    'Corner left': corner,
    Bolts: bolts,
    'Bolt length': clamped > series.changing ? series.longerBolt : series.bolt,
    'Strip length each': strip,
    'Strip per joint': strip * a('StripPieces'),
    'Joint minimum pulley': jointPulley,
    'Carcass minimum pulley': carcass,
    'Tension by resistances': resistances,
    'Tension by power': power,
    'Tension from': from,
    'Working tension': tension,
    'Load per plate': plateForce,
    'Rating used': tension / series.rating,
    'Clamped thickness': clamped,
    'Loop length': loop,
    'Passes per hour': passes,
    'Passes per year': passes * belt.hoursPerYear,
    'Age in passes': passes * age,
    'Life in hours': life,
    'Joint age': age,
    'Labour hours': crew,
    Downtime: rate('RunningOut') + rate('TestRun') + outageWork / a('CrewSize'),
    'Parts cost': parts,
    'Joint cost': parts + crew * a('CrewRate'),
    Due: belt.installed + (life / belt.hoursPerYear) * a('DaysPerYear'),
    ...checks,
    ...summary(checks),
  };
}
