import { type Belt, lengthFactor } from './plain-belt.ts';

/**
 * Tension by walking around the loop point by point, written apart from the program: from the head back to the tail
 * past drives and take-up wherever they stand, in every case of load, and then shifted up until every need is met.
 */

export const gravity = 9.81;

/** Slack side over pull of a drive; with a screw take-up at least what the table asks for. */
function gripOf({ takeUpKind, face }: Belt, wrap: number, friction: number): number {
  const slip = 1 / Math.expm1((friction * wrap * Math.PI) / 180);
  if (takeUpKind !== 'screw') return slip;
  // Wrap, factor of a bare pulley, factor of a lagged one.
  const table = [
    [180, 1.2, 0.8],
    [210, 1, 0.7],
    [220, 0.9, 0.6],
    [240, 0.8, 0.6],
    [380, 0.5, 0.3],
  ] as const;
  const column = face === '' || face === 'bare steel' ? 1 : 2;
  const last = table.findLastIndex(([from]) => from <= wrap);
  const [from, to] = [table[last], table[last + 1]];
  if (from === undefined) return Number.NaN;
  const rise = to === undefined ? 0 : ((wrap - from[0]) / (to[0] - from[0])) * (to[column] - from[column]);
  return Math.max(slip, from[column] + rise);
}

function frictionOf(belt: Belt): number {
  const faces: Readonly<Record<string, Readonly<Record<string, number>>>> = {
    'bare steel': { dry: 0.25, wet: 0.1, dirty: 0.05 },
    'grooved rubber': { dry: 0.4, wet: 0.35, dirty: 0.25 },
    ceramic: { dry: 0.4, wet: 0.35, dirty: 0.35 },
  };
  return Number.isNaN(belt.friction) ? (faces[belt.face]?.[belt.condition] ?? Number.NaN) : belt.friction;
}

interface Drive {
  /** Along the return run: 0 at the head, 1 at the tail. */
  readonly at: number;
  /** Of the pull of all drives. */
  readonly share: number;
  /** Slack side over what it pulls itself. */
  readonly grip: number;
}

/** Place on the return run; a distance counts only where the word says so. */
function placeOf(word: string, distance: number, centres: number): number {
  if (word === '' || word === 'head') return 0;
  if (word === 'tail') return 1;
  return distance < centres ? distance / centres : Number.NaN;
}

const firstPlace = (belt: Belt): number => placeOf(belt.drive, belt.driveDistance, belt.centres);
const secondPlace = (belt: Belt): number => placeOf(belt.secondDrive, belt.secondDistance, belt.centres);

/** One drive or two; NaN where what is said of a second one does not go together. */
export function plainDrives(belt: Belt): readonly Drive[] {
  const friction = frictionOf(belt);
  const first = { at: firstPlace(belt), grip: gripOf(belt, belt.wrap, friction) };
  if (belt.secondDrive === '') {
    const isStray = !(Number.isNaN(belt.secondShare) && Number.isNaN(belt.secondWrap));
    return [{ ...first, share: isStray ? Number.NaN : 1 }];
  }
  const at = secondPlace(belt);
  const share = Number.isNaN(at + first.at) || at === first.at ? Number.NaN : belt.secondShare;
  const own = Number.isNaN(belt.secondFriction) ? friction : belt.secondFriction;
  return [
    { ...first, share: 1 - share },
    { at, share, grip: gripOf(belt, belt.secondWrap, own) },
  ];
}

/** Where the belt is tensioned: behind the drive unless a distance says otherwise; with a tail drive at the head. */
function takeUpPlace(belt: Belt): number {
  if (Number.isNaN(belt.takeUpDistance)) return belt.drive === 'tail' ? 0 : firstPlace(belt);
  return belt.takeUpDistance <= belt.centres ? belt.takeUpDistance / belt.centres : Number.NaN;
}

/** Whether any of what is said of drives and take-up can't be so beside the rest. */
export function drivesAtOdds(belt: Belt): boolean {
  const given = (...numbers: number[]): boolean => numbers.some((number) => !Number.isNaN(number));
  if (given(belt.takeUpWeight) && belt.takeUpKind === 'screw') return true;
  if (given(belt.driveDistance) && belt.drive !== 'return run') return true;
  if (belt.secondDrive === '')
    return given(belt.secondShare, belt.secondWrap, belt.secondFriction, belt.secondDistance);
  if (given(belt.secondDistance) && belt.secondDrive !== 'return run') return true;
  return secondPlace(belt) === firstPlace(belt);
}

const ropes = ({ ropeFalls }: Belt): number => (Number.isNaN(ropeFalls) ? 1 : ropeFalls);

/** What the weight gives to each of the two strands at the take-up pulley; a screw has no weight. */
export const weightTension = (belt: Belt): number =>
  belt.takeUpKind === 'screw' ? Number.NaN : (belt.takeUpWeight * gravity * ropes(belt)) / 2;

/** The weight that gives a tension. */
export const weightFor = (belt: Belt, tension: number): number => (tension * 2) / gravity / ropes(belt);

export function startFactor(belt: Belt, a: (name: string) => number): number {
  const names: Readonly<Record<string, string>> = {
    '': 'StartFactor',
    'direct on line': 'StartDirect',
    'soft start': 'StartSoft',
    'fluid coupling': 'StartFluid',
    'frequency converter': 'StartConverter',
  };
  return a(names[belt.starting] ?? '');
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

/** As entered for the belt, otherwise for all belts, otherwise by the width. */
function idlersOf(belt: Belt, a: (name: string) => number): readonly [carrying: number, returning: number] {
  const [carrying, returning] = idlerMasses(belt.width);
  const used = (own: number, ofAll: number, byWidth: number): number =>
    Number.isNaN(own) ? (ofAll > 0 ? ofAll : byWidth) : own;
  return [used(belt.carryIdlers, a('CarryIdlers'), carrying), used(belt.returnIdlers, a('ReturnIdlers'), returning)];
}

export const ownMass = (belt: Belt, a: (name: string) => number): number =>
  Number.isNaN(belt.beltMass) ? belt.width * belt.thickness * a('BeltDensity') : belt.beltMass;

/** What a case of load does to the belt, forces. */
interface Pulls {
  /** Gained along the return run, and along the carrying run. */
  readonly back: number;
  readonly forth: number;
  readonly carrySag: number;
  readonly returnSag: number;
}

interface Walk {
  /** Tensions from that before the head, which counts as 0. */
  readonly points: readonly number[];
  readonly takeUp: number;
  /** What lifts every point to what it must at least be. */
  readonly shift: number;
}

/** Once around, with the drives and the take-up where they stand. */
function walked(drives: readonly Drive[], takeUpAt: number, { back, forth, carrySag, returnSag }: Pulls): Walk {
  const pull = back + forth;
  let [tension, at] = [0, 0];
  const points = [0];
  const lifts: number[] = [];
  const needs = (least: number): void => void lifts.push(least - tension);
  const passes = ({ share, grip }: Drive): void => {
    const slack = Math.abs(pull) * share * grip;
    if (pull < 0) needs(slack);
    tension -= pull * share;
    points.push(tension);
    if (!(pull < 0)) needs(slack);
  };
  const runs = (to: number): void => {
    tension += back * (to - at);
    at = to;
    points.push(tension);
  };
  needs(carrySag);
  drives.filter((drive) => drive.at === 0).forEach(passes);
  needs(returnSag);
  const onRun = drives.filter((drive) => drive.at !== 0 && drive.at !== 1).toSorted((one, other) => one.at - other.at);
  // A take-up stands behind a drive of the same place, and before one at the tail.
  const before = onRun.filter((drive) => !(drive.at > takeUpAt));
  const passesOnRun = (drive: Drive): void => {
    runs(drive.at);
    needs(returnSag);
    passes(drive);
    needs(returnSag);
  };
  before.forEach(passesOnRun);
  runs(takeUpAt);
  const takeUp = tension;
  onRun.slice(before.length).forEach(passesOnRun);
  runs(1);
  needs(returnSag);
  drives.filter((drive) => drive.at === 1).forEach(passes);
  needs(carrySag);
  points.push(tension);
  return { points, takeUp, shift: Math.max(...lifts) };
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

/** Tensions of the loop, forces: the maximum, the same but for starting and braking, what the take-up must give. */
export function byResistances(
  belt: Belt,
  a: (name: string) => number,
): { readonly most: number; readonly steady: number; readonly needed: number } {
  const load = belt.capacity / 3.6 / belt.speed;
  const own = ownMass(belt, a);
  const factor = belt.centres < 80 ? Number.NaN : lengthFactor(belt.centres);
  const slope = Math.sqrt(1 - (belt.lift / belt.centres) ** 2);
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
  const [carryRollers, returnRollers] = idlersOf(belt, a);
  const drives = plainDrives(belt);
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
    return walked(drives, takeUpPlace(belt), {
      back: back + (speedingUp * backMass) / (backMass + forthMass),
      forth: forth + (speedingUp * forthMass) / (backMass + forthMass),
      carrySag: sag(a('CarryIdlerSpacing'), own + carried),
      returnSag: sag(a('ReturnIdlerSpacing'), own),
    });
  });
  const needed = Math.max(...walks.map(({ shift, takeUp }) => shift + takeUp));
  const given = Number.isNaN(belt.takeUpWeight) ? needed : Math.max(needed, weightTension(belt));
  const highest = (some: readonly Walk[]): number =>
    given + Math.max(...some.map(({ points, takeUp }) => Math.max(...points) - takeUp));
  return { most: highest(walks), steady: highest(walks.filter((_, index) => cases[index]?.rate === 0)), needed };
}
