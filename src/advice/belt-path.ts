import type { ListedPulley } from '../records/belt-pulleys.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { closedPath, type PathFault, type Tangent } from '../functions/tangents.ts';

/** The belt's way around a named list of pulleys: what a table of pulleys shows and a drawing of the belt needs. */

export interface PathPulley {
  readonly name: string;
  readonly x: number;
  readonly y: number;
  /** Of the bare pulley when a thickness is given, otherwise at the belt's neutral line. */
  readonly diameter: number;
  /** 1 where the belt turns left on it (counter-clockwise), -1 where it turns right. */
  readonly turn: 1 | -1;
}

interface PulleyContact {
  readonly name: string;
  /** At the belt's neutral line. */
  readonly diameter: number;
  /** Arc of contact, degrees. */
  readonly wrap: number;
  /** Belt on the pulley. */
  readonly arc: number;
  /** Whether the pulley lies on the outside of the loop, so that its belt bends the other way. */
  readonly reverse: boolean;
  /** The straight belt from this pulley to the next. */
  readonly run: Tangent;
  /** Belt from the first pulley's first contact to this pulley's. */
  readonly start: number;
}

export interface BeltPath {
  readonly length: number;
  readonly pulleys: readonly PulleyContact[];
}

/** Why the belt cannot run around its pulleys, with the pulleys' names. */
export class ImpossiblePath extends Error {
  readonly pulleys: readonly string[];
  constructor(message: string, pulleys: readonly string[]) {
    super(message);
    this.name = 'ImpossiblePath';
    this.pulleys = pulleys;
  }
}

function impossible(fault: PathFault, pulleys: readonly PathPulley[]): ImpossiblePath {
  const name = (place: number): string => pulleys[place % pulleys.length]?.name ?? '';
  const run = (place: number): string => `the run from ${name(place)} to ${name(place + 1)}`;
  switch (fault.fault) {
    case 'few':
      return new ImpossiblePath(
        `A belt needs at least two pulleys; ${pulleys.length} is given. Add the others.`,
        pulleys.map((pulley) => pulley.name),
      );
    case 'overlap': {
      const [one, other] = fault.pulleys;
      return new ImpossiblePath(
        `The pulleys ${name(one)} and ${name(other)} overlap: their centres are closer than half the sum of their ` +
          `diameters. Check their coordinates and diameters.`,
        [name(one), name(other)],
      );
    }
    case 'through':
      return new ImpossiblePath(
        `The belt from ${name(fault.run)} to ${name(fault.run + 1)} would pass through the pulley ` +
          `${name(fault.pulley)}. Check the order of the pulleys and their turns.`,
        [name(fault.pulley)],
      );
    case 'around':
      return new ImpossiblePath(
        `The belt would loop around the pulley ${name(fault.pulley)}: it does not reach the belt on the side given. ` +
          `Turn it the other way, move it, or leave it out.`,
        [name(fault.pulley)],
      );
    case 'crossing': {
      const [one, other] = fault.runs;
      return new ImpossiblePath(
        `The belt would cross itself: ${run(one)} and ${run(other)} cross. Check the order of the pulleys and their ` +
          `turns.`,
        [name(one), name(other)],
      );
    }
  }
}

/**
 * The closed path of a belt around pulleys, in the order of its travel.
 *
 * All lengths in one unit. The neutral line lies half the belt's thickness off every pulley, on either face (for a
 * carcass in the belt's middle, from memory). A pulley is a reverse bend when the belt turns on it against the turn of
 * the whole loop. Throws ImpossiblePath when pulleys overlap or the belt would cross a pulley or itself.
 */
export function beltPath(pulleys: readonly PathPulley[], thickness = 0): BeltPath {
  const circles = pulleys.map((pulley) => ({ ...pulley, diameter: pulley.diameter + thickness }));
  const path = closedPath(circles);
  if ('fault' in path) throw impossible(path, pulleys);
  const turned = circles.reduce((sum, { turn }, place) => sum + turn * (path.wraps[place] ?? 0), 0);
  const contacts: PulleyContact[] = [];
  let start = 0;
  for (const [place, { name, diameter, turn }] of circles.entries()) {
    const [wrap, run] = [path.wraps[place], path.runs[place]];
    if (wrap === undefined || run === undefined) continue;
    const arc = (wrap * diameter) / 2;
    contacts.push({ name, diameter, wrap: (wrap * 180) / Math.PI, arc, reverse: turn * turned < 0, run, start });
    start += arc + run.length;
  }
  return { length: path.length, pulleys: contacts };
}

/**
 * The pulleys with their places and which way the belt turns on each, in long units; undefined when a place or a
 * diameter is not known. Diameters are those at the middle of the belt where its thickness is known.
 */
export function placedPulleys(book: Workbook, pulleys: readonly ListedPulley[]): PathPulley[] | undefined {
  const perLong = book.named('ShortPerLong');
  if (pulleys.length < 2 || typeof perLong !== 'number') return undefined;
  const placed = pulleys.flatMap((pulley): PathPulley[] => {
    const [x, y, diameter, turn] = [
      pulley.number('x'),
      pulley.number('y'),
      pulley.number('Neutral diameter') ?? pulley.number('Diameter'),
      pulley.number('Turn'),
    ];
    return x === undefined || y === undefined || diameter === undefined || turn === undefined
      ? []
      : [{ name: pulley.name, x, y, diameter: diameter / perLong, turn: turn < 0 ? -1 : 1 }];
  });
  return placed.length === pulleys.length ? placed : undefined;
}
