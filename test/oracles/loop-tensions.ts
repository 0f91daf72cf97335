import { Refusal } from '../../src/formula/define.ts';
import { sagTension } from '../../src/functions/slack.ts';
import type { Drive, LoadCase, Loop, Part, Run } from './loop.ts';

/** The belt's tension from point to point around its loop, in every case of load. */

export interface Station {
  readonly name: string;
  readonly part: Part['part'];
  /** Tension where the belt comes to the part and where it leaves it. */
  readonly entering: number;
  readonly leaving: number;
  /** Belt from the loop's first point to this part, and to its end. */
  readonly from: number;
  readonly to: number;
}

export type Side = 'entering' | 'leaving';

export interface Extreme {
  readonly tension: number;
  readonly name: string;
  readonly side: Side;
}

/** What asks for tension: grip on a drive, or little sag between rollers. */
export interface Need extends Extreme {
  readonly reason: 'grip' | 'sag';
}

/** The pull of a case, by what it goes into. Their sum is the pull. */
export interface PullParts {
  /** Rollers turning, belt and load flexing over them. */
  readonly main: number;
  /** What the length factor adds. */
  readonly secondary: number;
  readonly special: number;
  readonly lift: number;
  /** What changes the speed of belt, load and rollers. */
  readonly inertia: number;
}

export interface CaseTensions {
  readonly loadCase: string;
  /** Of all drives together; negative when they brake. */
  readonly pull: number;
  readonly pullParts: PullParts;
  /** Pull times speed, 0 at rest. */
  readonly power: number;
  readonly stations: readonly Station[];
  readonly greatest: Extreme;
  readonly least: Extreme;
  /** Tension at the take-up; a weight or winch there pulls with twice as much where the belt runs to and from it. */
  readonly takeUpTension: number;
  /** Mean tension over the loop's length. */
  readonly meanTension: number;
  /** The need that this case alone would be tensioned to. */
  readonly need: Need;
}

export interface LoopTensions {
  readonly cases: readonly CaseTensions[];
  readonly greatest: Extreme & { readonly loadCase: string };
  /**
   * The case that the take-up is set by, and to what: its tension when automatic, the belt's mean tension with a screw.
   */
  readonly setBy: string;
  readonly setting: number;
}

const sum = (numbers: readonly number[]): number => numbers.reduce((total, number) => total + number, 0);
const isRun = (part: Part): part is Run => part.part === 'run';
const isDrive = (part: Part): part is Drive => part.part === 'drive';

function demand(holds: boolean, argument: string, must: string): void {
  if (!holds) throw new Refusal(argument, must);
}

function checkLoop({ parts, beltMass, gravity, factor, sag }: Loop): void {
  const runs = parts.filter(isRun);
  for (const { name, length, lift, rollers } of runs) {
    demand(length > 0, name, `must have a length of more than 0; ${length} is given`);
    demand(
      Math.abs(lift) <= length * (1 + 1e-12),
      name,
      `must not lift by more than its length (${length}); ${lift} is given`,
    );
    demand(rollers >= 0, name, `must have rollers of at least 0 mass; ${rollers} is given`);
  }
  demand(runs.length > 0, 'parts', 'must hold at least one run');
  const risen = sum(runs.map(({ lift }) => lift));
  demand(
    Math.abs(risen) <= 1e-9 * sum(runs.map(({ length }) => length)),
    'parts',
    `must come back to the height they begin at: their lifts add up to ${risen}, not 0`,
  );
  demand(new Set(parts.map(({ name }) => name)).size === parts.length, 'parts', 'must each have a name of its own');
  demand(parts.filter(({ part }) => part === 'takeUp').length === 1, 'parts', 'must hold one take-up');
  const drives = parts.filter(isDrive);
  const shares = sum(drives.map(({ share }) => share ?? 1));
  demand(drives.length > 0, 'parts', 'must hold at least one drive');
  demand(
    Math.abs(shares - 1) <= 1e-9,
    'parts',
    `must have drives whose shares of the pull add up to 1; they add up to ${shares}`,
  );
  for (const { name, slackFactor, share } of drives) {
    demand(slackFactor > 0, name, `must have a slack factor of more than 0; ${slackFactor} is given`);
    demand(share === undefined || share > 0, name, `must have a share of the pull of more than 0; ${share} is given`);
  }
  demand(beltMass >= 0, 'beltMass', `must be at least 0; ${beltMass} is given`);
  demand(gravity > 0, 'gravity', `must be more than 0; ${gravity} is given`);
  demand(factor >= 1, 'factor', `must be at least 1; ${factor} is given`);
  demand(
    sag > 0 && sag <= 0.1,
    'sag',
    `must be more than 0 and at most 0.1, a share of the rollers' distance; ${sag} is given`,
  );
}

function checkCase({ name, loadMass, friction, startFactor, loaded }: LoadCase, { parts }: Loop): void {
  demand(loadMass >= 0, name, `must have a load of at least 0; ${loadMass} is given`);
  demand(friction >= 0, name, `must have a friction of at least 0; ${friction} is given`);
  demand(startFactor >= 1, name, `must have a start-up factor of at least 1; ${startFactor} is given`);
  const unknown = loaded?.find((run) => !parts.some((part) => isRun(part) && part.carries && part.name === run));
  demand(unknown === undefined, name, `must be loaded on runs that carry; "${unknown}" is none`);
}

/** Load on a run in a case, mass per unit length. */
const loadOn = ({ carries, name }: Run, { loadMass, loaded }: LoadCase): number =>
  carries && (loaded === undefined || loaded.includes(name)) ? loadMass : 0;

interface Force {
  readonly main: number;
  readonly special: number;
  readonly lift: number;
  /** Mass that moves with the belt. */
  readonly mass: number;
}

/** What a part takes from the belt in a case, before the length factor. */
function force(part: Part, loop: Loop, loadCase: LoadCase): Force {
  const special = loadCase.moving && 'resistance' in part ? (part.resistance ?? 0) : 0;
  if (!isRun(part)) return { main: 0, special, lift: 0, mass: 0 };
  const { length, lift, rollers } = part;
  const carried = loop.beltMass + loadOn(part, loadCase);
  const slopeCosine = Math.sqrt(Math.max(0, 1 - (lift / length) ** 2));
  const main = loadCase.moving ? loadCase.friction * length * loop.gravity * (rollers + carried * slopeCosine) : 0;
  return { main, special, lift: carried * loop.gravity * lift, mass: length * (rollers + carried) };
}

/** What changes the speed: by the factor on the steady pull, or by the masses where they ask for more. */
function gathered({ startFactor, acceleration }: LoadCase, steady: number, mass: number): number {
  const byFactor = (startFactor - 1) * steady;
  if (acceleration === undefined) return byFactor;
  // A deceleration of 0 comes as -0: the belt is braked all the same, by the factor.
  return acceleration < 0 || Object.is(acceleration, -0)
    ? Math.min(byFactor, mass * acceleration)
    : Math.max(byFactor, mass * acceleration);
}

interface Walk {
  readonly pull: number;
  readonly pullParts: PullParts;
  /** Tensions counted from that of the loop's first point. */
  readonly stations: readonly Station[];
}

/**
 * Once around the loop from a tension of 0: up by what each part takes, down by what each drive gives.
 *
 * What start-up adds to the steady pull speeds up the masses, so it is taken where they are.
 */
function walk(loop: Loop, loadCase: LoadCase): Walk {
  const forces = loop.parts.map((part) => force(part, loop, loadCase));
  const main = sum(forces.map((taken) => taken.main));
  const special = sum(forces.map((taken) => taken.special));
  const lift = sum(forces.map((taken) => taken.lift));
  const mass = sum(forces.map((taken) => taken.mass));
  const secondary = (loop.factor - 1) * main;
  const inertia = gathered(loadCase, main + secondary + special + lift, mass * (1 + (loop.otherMassShare ?? 0)));
  demand(
    inertia === 0 || mass > 0,
    loadCase.name,
    'must not have a start-up factor when nothing on the loop has a mass',
  );
  const pull = main + secondary + special + lift + inertia;
  const stations: Station[] = [];
  let [tension, distance] = [0, 0];
  for (const [place, part] of loop.parts.entries()) {
    const taken = forces[place];
    const resisted =
      taken === undefined
        ? 0
        : loop.factor * taken.main + taken.special + taken.lift + (inertia === 0 ? 0 : (inertia * taken.mass) / mass);
    const leaving = tension + (isDrive(part) ? -pull * (part.share ?? 1) : resisted);
    const to = distance + (isRun(part) ? part.length : 0);
    stations.push({ name: part.name, part: part.part, entering: tension, leaving, from: distance, to });
    [tension, distance] = [leaving, to];
  }
  return { pull, pullParts: { main, secondary, special, lift, inertia }, stations };
}

/** Every tension that a case asks for at a point: slack on the drives, little sag at both ends of each run. */
function needs(loop: Loop, loadCase: LoadCase, pull: number): Need[] {
  return loop.parts.flatMap((part): Need[] => {
    if (isDrive(part)) {
      const side = pull < 0 ? 'entering' : 'leaving';
      return [
        { tension: Math.abs(pull * (part.share ?? 1)) * part.slackFactor, name: part.name, side, reason: 'grip' },
      ];
    }
    if (!isRun(part) || part.spacing === undefined) return [];
    const tension = sagTension.evaluate([part.spacing, loop.beltMass, loadOn(part, loadCase), loop.sag, loop.gravity]);
    if (typeof tension !== 'number')
      throw new Refusal(part.name, `must have a distance of rollers of more than 0; ${part.spacing} is given`);
    return (['entering', 'leaving'] as const).map((side) => ({ tension, name: part.name, side, reason: 'sag' }));
  });
}

/** Mean over the loop's length; along a run the tension is a straight line. */
function meanTension(stations: readonly Station[]): number {
  const length = stations.at(-1)?.to ?? 0;
  return sum(stations.map(({ entering, leaving, from, to }) => ((entering + leaving) / 2) * (to - from))) / length;
}

function extreme(stations: readonly Station[], better: (one: number, other: number) => boolean): Extreme {
  const [first, ...others] = stations.flatMap(({ name, entering, leaving }): Extreme[] => [
    { tension: entering, name, side: 'entering' },
    { tension: leaving, name, side: 'leaving' },
  ]);
  if (first === undefined) throw new Refusal('parts', 'must hold at least one run');
  return others.reduce((best, next) => (better(next.tension, best.tension) ? next : best), first);
}

/**
 * The tension at every point of the loop in every case of load.
 *
 * From part to part the belt's tension grows by what the part takes and falls by what a drive gives, so it closes after
 * one round; that fixes it but for one number, which the take-up sets. The least that a case allows is where one need
 * is just met: grip on the slack side of every drive (the arriving side of a drive that brakes), and no more than the
 * allowed sag at both ends of every run. The take-up is set once for all cases, by the one that needs most: an
 * automatic one keeps its tension, a screw keeps the belt's length, which for an elastic belt keeps the mean tension
 * around the loop (pulley arcs and sag left aside). The secondary resistances are spread like the main ones; what bends
 * over single pulleys or acts at the feeding point can be given as special resistance where it acts. The belt's
 * centrifugal tension is not in it.
 *
 * Throws a Refusal that names the part, the case or the figure that is impossible.
 * Source: ISO 5048, DIN 22101 (resistances); Euler-Eytelwein (grip); sag from memory.
 */
export function loopTensions(loop: Loop, cases: readonly LoadCase[]): LoopTensions {
  checkLoop(loop);
  const takeUp = loop.parts.findIndex(({ part }) => part === 'takeUp');
  const settings = cases.map((loadCase) => {
    checkCase(loadCase, loop);
    const { stations, ...rest } = walk(loop, loadCase);
    const reference = loop.takeUp === 'automatic' ? (stations[takeUp]?.entering ?? 0) : meanTension(stations);
    const shifts = needs(loop, loadCase, rest.pull).map((need) => {
      const at = stations.find(({ name }) => name === need.name);
      return { need, setting: need.tension - (at?.[need.side] ?? 0) + reference };
    });
    const [first, ...others] = shifts;
    if (first === undefined) throw new Refusal('parts', 'must hold at least one drive');
    const governing = others.reduce((most, next) => (next.setting > most.setting ? next : most), first);
    return { loadCase, stations, reference, ...governing, ...rest };
  });
  const [first, ...others] = settings;
  if (first === undefined) throw new Refusal('cases', 'must hold at least one case of load');
  const most = others.reduce((one, other) => (other.setting > one.setting ? other : one), first);
  const tensions = settings.map(({ loadCase, stations: counted, reference, need, pull, pullParts }): CaseTensions => {
    const shift = most.setting - reference;
    const stations = counted.map((station) => ({
      ...station,
      entering: station.entering + shift,
      leaving: station.leaving + shift,
    }));
    return {
      loadCase: loadCase.name,
      pull,
      pullParts,
      power: loadCase.moving ? pull * loop.speed : 0,
      stations,
      greatest: extreme(stations, (one, other) => one > other),
      least: extreme(stations, (one, other) => one < other),
      takeUpTension: stations[takeUp]?.entering ?? 0,
      meanTension: meanTension(stations),
      need,
    };
  });
  const [firstCase, ...otherCases] = tensions.map(({ loadCase, greatest }) => ({ ...greatest, loadCase }));
  if (firstCase === undefined) throw new Refusal('cases', 'must hold at least one case of load');
  return {
    cases: tensions,
    greatest: otherCases.reduce((best, next) => (next.tension > best.tension ? next : best), firstCase),
    setBy: most.loadCase.name,
    setting: most.setting,
  };
}
