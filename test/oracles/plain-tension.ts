import { type Belt, lengthFactor } from './plain-belt.ts';

/**
 * Working tension by walking around the loop point by point, written apart from the program: from the head back to the
 * tail and forth to the head, in every case of load, and then shifted up until every need is met.
 */

const fabricCovers = /\s(\d+(?:\.\d+)?)[+/:](\d+(?:\.\d+)?)/;

/** What the designation says of strength, plies and covers; NaN where it does not. */
export function designated(construction: string): {
  readonly strength: number;
  readonly plies: number;
  readonly topCover: number;
  readonly covers: number;
  readonly steel: boolean;
  readonly polyamide: boolean;
} {
  const strength = /(st|ep|nn|e|p|b)[\s-]*(\d{2,4})(?:\/(\d))?/i.exec(construction);
  const behind = strength === null ? '' : construction.slice(strength.index + strength[0].length);
  const covers = fabricCovers.exec(behind);
  return {
    strength: Number(strength?.[2] ?? Number.NaN),
    plies: Number(strength?.[3] ?? Number.NaN),
    topCover: Number(covers?.[1] ?? Number.NaN),
    covers: covers === null ? Number.NaN : Number(covers[1]) + Number(covers[2]),
    steel: strength?.[1]?.toLowerCase() === 'st',
    polyamide: /^(p|nn)$/i.test(strength?.[1] ?? ''),
  };
}

/** The belt's own rating, by its usual safety factor or by another. */
export const permittedTension = (belt: Belt, a: (name: string) => number, factor: '' | 'Minimum' = ''): number => {
  const { strength, steel } = designated(belt.construction);
  return Number.isNaN(belt.permitted)
    ? strength / (steel ? a(`SafetySteelCord${factor}`) : a(`SafetyFabric${factor}`))
    : belt.permitted;
};

/** The tension at which the carcass counts as fully used: the rating of a belt whose strength nobody knows. */
export const carcassRating = (belt: Belt, a: (name: string) => number): number => {
  const { strength } = designated(belt.construction);
  return Number.isNaN(strength) ? permittedTension(belt, a) : strength / a('CarcassSafety');
};

export const topCover = (belt: Belt): number =>
  Number.isNaN(belt.topCover) ? designated(belt.construction).topCover : belt.topCover;

/** The carcass by each way that the record gives, the entered one first. */
export function carcassWays(
  belt: Belt,
  a: (name: string) => number,
): { readonly used: number; readonly all: number[]; readonly isImpossible: boolean } {
  const { strength, plies, covers, topCover: named, steel, polyamide } = designated(belt.construction);
  const { construction } = belt;
  const cords: Readonly<Record<number, number>> = {
    1000: 4.1,
    1250: 4.9,
    1600: 6.15,
    2000: 6.15,
    2500: 7.2,
    3150: 8.1,
  };
  const cotton = /(?:^| )b[ 0-9]/i.test(construction);
  const byPlies = steel
    ? (cords[strength] ?? Number.NaN)
    : cotton
      ? Number.NaN
      : plies * (a('PlyBase') + (a(polyamide ? 'PlyPerStrengthPolyamide' : 'PlyPerStrength') * strength) / plies);
  const byCovers = belt.thickness - (covers - named) - topCover(belt);
  // Covers that are thicker than the belt leave nothing to choose from.
  const isImpossible = byCovers <= 1e-9;
  const derived = [byCovers, byPlies].filter((way) => way > 1e-9);
  const largest = isImpossible || derived.length === 0 ? Number.NaN : Math.max(...derived);
  return {
    used: Number.isNaN(belt.carcass) ? largest : belt.carcass,
    all: [belt.carcass, ...derived].filter((way) => !Number.isNaN(way)),
    isImpossible,
  };
}

const gravity = 9.81;

function slackFactor(belt: Belt): number {
  const faces: Readonly<Record<string, Readonly<Record<string, number>>>> = {
    'bare steel': { dry: 0.25, wet: 0.1, dirty: 0.05 },
    'grooved rubber': { dry: 0.4, wet: 0.35, dirty: 0.25 },
    ceramic: { dry: 0.4, wet: 0.35, dirty: 0.35 },
  };
  const friction = Number.isNaN(belt.friction) ? (faces[belt.face]?.[belt.condition] ?? Number.NaN) : belt.friction;
  const slip = 1 / Math.expm1((friction * belt.wrap * Math.PI) / 180);
  if (belt.takeUpKind !== 'screw') return slip;
  // Wrap, factor of a bare pulley, factor of a lagged one.
  const table = [
    [180, 1.2, 0.8],
    [210, 1, 0.7],
    [220, 0.9, 0.6],
    [240, 0.8, 0.6],
    [380, 0.5, 0.3],
  ] as const;
  const column = belt.face === '' || belt.face === 'bare steel' ? 1 : 2;
  const last = table.findLastIndex(([wrap]) => wrap <= belt.wrap);
  const [from, to] = [table[last], table[last + 1]];
  if (from === undefined) return Number.NaN;
  const rise = to === undefined ? 0 : ((belt.wrap - from[0]) / (to[0] - from[0])) * (to[column] - from[column]);
  return Math.max(slip, from[column] + rise);
}

function startFactor(belt: Belt, a: (name: string) => number): number {
  const names: Readonly<Record<string, string>> = {
    '': 'StartFactor',
    'direct on line': 'StartDirect',
    'soft start': 'StartSoft',
    'fluid coupling': 'StartFluid',
    'frequency converter': 'StartConverter',
  };
  return a(names[belt.starting] ?? '');
}

interface LoadCase {
  readonly load: number;
  readonly friction: number;
  /** Start-up pull over running pull; 1 when the speed stays as it is. */
  readonly start: number;
  /** Acceleration, negative when the belt is braked. */
  readonly rate: number;
  readonly moving: boolean;
}

const idlers: readonly (readonly [width: number, carrying: number, returning: number])[] = [
  [500, 7, 2.5],
  [650, 9, 3],
  [800, 12, 4],
  [1000, 16, 5.5],
  [1200, 20, 7],
  [1400, 26, 10],
  [1600, 31, 12],
  [1800, 36, 14],
  [2000, 40, 16],
];

/** Rotating masses of carrying and return idlers by the width: a line between two rows, the last one on. */
function idlerMasses(width: number): readonly [carrying: number, returning: number] {
  if (Number.isNaN(width)) return [Number.NaN, Number.NaN];
  const at = Math.max(500, width);
  const row = Math.min(7, idlers.filter(([from]) => from <= at).length - 1);
  const [one, two] = [idlers[row], idlers[row + 1]];
  if (one === undefined || two === undefined) throw new Error('the table of idlers has too few rows');
  const share = (at - one[0]) / (two[0] - one[0]);
  return [one[1] + share * (two[1] - one[1]), one[2] + share * (two[2] - one[2])];
}
const ownMass = (belt: Belt, a: (name: string) => number): number =>
  Number.isNaN(belt.beltMass) ? belt.width * belt.thickness * a('BeltDensity') : belt.beltMass;

/** Maximum tension of the loop, a force. */
function byResistances(belt: Belt, a: (name: string) => number): { readonly most: number; readonly steady: number } {
  const load = belt.capacity / 3.6 / belt.speed;
  const own = ownMass(belt, a);
  const factor = belt.centres < 80 ? Number.NaN : lengthFactor(belt.centres);
  const slope = Math.sqrt(1 - (belt.lift / belt.centres) ** 2);
  const grip = slackFactor(belt);
  const sag = (spacing: number, mass: number): number => (mass * gravity * spacing) / (8 * a('SagRatio'));
  const [rolling, easy, start] = [a('RollingFriction'), a('LowFriction'), startFactor(belt, a)];
  const [up, down] = [a('StartAcceleration'), -a('BrakeDeceleration')];
  const steady = { start: 1, rate: 0, moving: true };
  const cases: readonly LoadCase[] = [
    { ...steady, load: 0, friction: rolling },
    { ...steady, load, friction: rolling },
    { load: 0, friction: rolling, start, rate: up, moving: true },
    { load, friction: rolling, start, rate: up, moving: true },
    { ...steady, load, friction: easy },
    { load, friction: easy, start, rate: down, moving: true },
    { load: 0, friction: easy, start: 1, rate: down, moving: true },
    { ...steady, load, friction: 0, moving: false },
  ];
  const [carryRollers, returnRollers] = idlerMasses(belt.width);
  const walks = cases.map(({ load: carried, friction, start: factorOfStart, rate, moving }) => {
    const run = (rollers: number, mass: number, lift: number): number =>
      (moving ? factor * friction * belt.centres * gravity * (rollers + mass * slope) : 0) + mass * gravity * lift;
    const special = moving && !Number.isNaN(belt.special) ? belt.special : 0;
    const back = run(returnRollers, own, -belt.lift);
    const forth = run(carryRollers, own + carried, belt.lift) + special;
    const backMass = returnRollers + own;
    const forthMass = carryRollers + own + carried;
    const byFactor = (factorOfStart - 1) * (back + forth);
    const byMass = rate * (backMass + forthMass) * belt.centres * (1 + a('DriveMassShare'));
    const speedingUp = rate < 0 || Object.is(rate, -0) ? Math.min(byFactor, byMass) : Math.max(byFactor, byMass);
    const tail = back + (speedingUp * backMass) / (backMass + forthMass);
    const head = tail + forth + (speedingUp * forthMass) / (backMass + forthMass);
    // Points: behind the head 0, at the tail, before the head; each with what it must at least be.
    const pull = head;
    return {
      points: [0, tail, head],
      least: [
        [0, pull > 0 ? pull * grip : 0],
        [2, pull < 0 ? -pull * grip : 0],
        [0, sag(a('ReturnIdlerSpacing'), own)],
        [1, sag(a('ReturnIdlerSpacing'), own)],
        [1, sag(a('CarryIdlerSpacing'), own + carried)],
        [2, sag(a('CarryIdlerSpacing'), own + carried)],
      ] as readonly (readonly [number, number])[],
    };
  });
  const shift = Math.max(
    ...walks.flatMap(({ points, least }) => least.map(([point, need]) => need - (points[point] ?? 0))),
  );
  const highest = (some: typeof walks): number => shift + Math.max(...some.flatMap(({ points }) => points));
  return { most: highest(walks), steady: highest(walks.filter((_, index) => cases[index]?.rate === 0)) };
}

export function plainTension(
  belt: Belt,
  a: (name: string) => number,
): {
  readonly from: string;
  readonly tension: number;
  /** The same but for starting and braking. */
  readonly steady: number;
  readonly larger: number;
  readonly resistances: number;
  readonly power: number;
} {
  const walked = byResistances(belt, a);
  const resistances = walked.most / belt.width;
  const pull = (belt.power / belt.speed) * 1000 * a('DriveEfficiency') * startFactor(belt, a);
  const full = ownMass(belt, a) + belt.capacity / 3.6 / belt.speed;
  const sag = (full * gravity * a('CarryIdlerSpacing')) / (8 * a('SagRatio'));
  const power = (pull + Math.max(pull * slackFactor(belt), Number.isNaN(sag) ? 0 : sag)) / belt.width;
  const permitted = permittedTension(belt, a, 'Minimum');
  const ways: readonly (readonly [string, number])[] = [
    ['entered', belt.tensionEntered],
    ['resistances', resistances],
    ['power', power],
    ['belt rating', permitted],
  ];
  const [from, tension] = ways.find(([way, value]) =>
    belt.route === '' ? !Number.isNaN(value) : way === belt.route,
  ) ?? ['not known', Number.NaN];
  const largest = Math.max(...ways.slice(0, 3).flatMap(([, value]) => (Number.isNaN(value) ? [] : [value])));
  const larger = 1 - tension / largest > a('MethodMargin') && largest > 0 ? largest : Number.NaN;
  const steady =
    from === 'resistances'
      ? walked.steady / belt.width
      : from === 'power'
        ? power - (pull * (1 - 1 / startFactor(belt, a))) / belt.width
        : tension;
  return { from, tension, steady, larger, resistances, power };
}
