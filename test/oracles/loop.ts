import { Refusal } from '../../src/formula/define.ts';

/**
 * A belt's loop as a list of parts in the order of travel, and the cases of load it is looked at in.
 *
 * Units are homogeneous: lengths in one unit, masses per that unit, gravity as force per mass; speed in that unit per
 * time, so that power is force times speed. m, kg/m, 9.81 N/kg and m/s give N and W; ft, lb/ft, 1 lbf/lb and ft/min
 * give lbf and ft lbf/min.
 */

/** A stretch of belt over rollers. */
export interface Run {
  readonly part: 'run';
  readonly name: string;
  /** Whether the load lies on it. */
  readonly carries: boolean;
  readonly length: number;
  /** Height gained in the direction of travel, negative downhill. */
  readonly lift: number;
  /** Turning parts of its rollers, mass per unit length. */
  readonly rollers: number;
  /** Distance between its rollers; a run without it asks for no tension against sag. */
  readonly spacing?: number;
  /** Special resistances, a force: skirts, tilted rollers, scrapers beyond the usual. */
  readonly resistance?: number;
}

/** A pulley that turns idle. */
export interface IdlePulley {
  readonly part: 'pulley';
  readonly name: string;
  /** Force it takes, when it is not left to the length factor. */
  readonly resistance?: number;
}

/** A pulley that drives or brakes the belt. */
export interface Drive {
  readonly part: 'drive';
  readonly name: string;
  /** Slack side over pull: WRAPFACTOR, or SCREWFACTOR with a screw take-up. */
  readonly slackFactor: number;
  /** Share of the whole pull; all drives' shares add up to 1. One drive has all of it. */
  readonly share?: number;
}

/** Where the belt is tensioned. */
export interface TakeUp {
  readonly part: 'takeUp';
  readonly name: string;
}

export type Part = Run | IdlePulley | Drive | TakeUp;

export interface Loop {
  readonly parts: readonly Part[];
  /** Belt, mass per unit length. */
  readonly beltMass: number;
  readonly speed: number;
  /** Weight per unit mass: 9.81 N/kg, 1 lbf/lb. */
  readonly gravity: number;
  /** Factor on the main resistances for the secondary ones, see LENGTHFACTOR; spread like the main ones. */
  readonly factor: number;
  /** Mass of pulleys and drive that moves with belt, load and rollers, as a share of these; none when absent. */
  readonly otherMassShare?: number;
  /** Greatest sag between rollers over their distance, 0.005 to 0.02. */
  readonly sag: number;
  /** 'automatic' keeps the tension at the take-up, 'screw' the length of the belt. */
  readonly takeUp: 'automatic' | 'screw';
}

export interface LoadCase {
  readonly name: string;
  /** Load, mass per unit length of the runs that carry. */
  readonly loadMass: number;
  /** Names of the runs that the load lies on; absent: all that carry. */
  readonly loaded?: readonly string[];
  /** Friction of rollers and of belt and load over them. */
  readonly friction: number;
  /**
   * Pull over steady pull: more than 1 while the belt gathers speed, or, when it is braked, while it is slowed down. A
   * belt near balance, whose steady pull is small, needs an acceleration beside it.
   */
  readonly startFactor: number;
  /**
   * What all that moves gathers in speed, or loses if it is negative, as a force per mass, like gravity. The pull is
   * then at least what this asks for; absent: the factor alone.
   */
  readonly acceleration?: number;
  /** False for a belt at rest: nothing resists, the drive or its brake holds the load's weight alone. */
  readonly moving: boolean;
}

/** A belt with one carrying run and one return run, as a list of belts describes it. */
export interface SimpleLoop extends Omit<Loop, 'parts'> {
  readonly length: number;
  /** Height gained by the load, negative downhill. */
  readonly lift: number;
  readonly carryRollers: number;
  readonly returnRollers: number;
  readonly carrySpacing?: number;
  readonly returnSpacing?: number;
  readonly slackFactor: number;
  readonly driveAt: 'head' | 'tail';
  /** Along the return run: 0 just behind the head pulley, 1 just before the tail pulley. */
  readonly takeUpAt: number;
}

/**
 * The parts of a belt with one carrying run and one return run.
 *
 * Travel begins at the tail pulley; the take-up parts the return run in two where it does not stand at an end of it.
 * Throws a Refusal when the take-up stands beyond the return run.
 */
export function simpleLoop(simple: SimpleLoop): Loop {
  const {
    length,
    lift,
    carryRollers,
    returnRollers,
    carrySpacing,
    returnSpacing,
    slackFactor,
    driveAt,
    takeUpAt,
    ...rest
  } = simple;
  if (!(takeUpAt >= 0 && takeUpAt <= 1))
    throw new Refusal('takeUpAt', `must be from 0 at the head to 1 at the tail; ${takeUpAt} is given`);
  const pulley = (name: 'head' | 'tail'): Part =>
    name === driveAt ? { part: 'drive', name, slackFactor } : { part: 'pulley', name };
  const spaced = (spacing: number | undefined): { spacing?: number } => (spacing === undefined ? {} : { spacing });
  const carry: Run = {
    part: 'run',
    name: 'carry',
    carries: true,
    length,
    lift,
    rollers: carryRollers,
    ...spaced(carrySpacing),
  };
  const back = (name: string, share: number): Run[] =>
    share === 0
      ? []
      : [
          {
            part: 'run',
            name,
            carries: false,
            length: length * share,
            lift: -lift * share,
            rollers: returnRollers,
            ...spaced(returnSpacing),
          },
        ];
  const whole = takeUpAt === 0 || takeUpAt === 1;
  return {
    ...rest,
    parts: [
      pulley('tail'),
      carry,
      pulley('head'),
      ...back(whole ? 'return' : 'return before the take-up', takeUpAt),
      { part: 'takeUp', name: 'take-up' },
      ...back(whole ? 'return' : 'return behind the take-up', 1 - takeUpAt),
    ],
  };
}

/**
 * The usual cases: empty, full, full and starting, full and stopped.
 *
 * Stopped on a slope, friction may hold part of the load or may have been used up while the belt ran out: the cautious
 * reading counts none of it, so the drive's brake or backstop holds the whole weight. For a belt that runs downhill the
 * cautious friction is a low one, since friction helps its brake: `easyFriction` adds the full belt with it, running
 * and braked with the start-up factor.
 */
export function usualCases(given: {
  readonly loadMass: number;
  readonly friction: number;
  readonly startFactor: number;
  readonly easyFriction?: number;
  readonly accelerations?: { readonly starting: number; readonly braking: number };
}): LoadCase[] {
  const { loadMass, friction, startFactor, easyFriction, accelerations } = given;
  const starting = accelerations === undefined ? {} : { acceleration: accelerations.starting };
  const braking = accelerations === undefined ? {} : { acceleration: -accelerations.braking };
  const steady = { friction, startFactor: 1, moving: true };
  const easy =
    easyFriction === undefined
      ? []
      : [
          { name: 'full, running easily', loadMass, friction: easyFriction, startFactor: 1, moving: true },
          {
            name: 'full, running easily, starting or braking',
            loadMass,
            friction: easyFriction,
            startFactor,
            ...braking,
            moving: true,
          },
          ...(accelerations === undefined
            ? []
            : [
                {
                  name: 'empty, running easily, braking',
                  loadMass: 0,
                  friction: easyFriction,
                  startFactor: 1,
                  ...braking,
                  moving: true,
                },
              ]),
        ];
  return [
    { name: 'empty', loadMass: 0, ...steady },
    { name: 'full', loadMass, ...steady },
    { name: 'empty, starting', loadMass: 0, friction, startFactor, ...starting, moving: true },
    { name: 'full, starting or braking', loadMass, friction, startFactor, ...starting, moving: true },
    ...easy,
    { name: 'full, stopped', loadMass, friction: 0, startFactor: 1, moving: false },
  ];
}
