import type { Belt } from './plain-belt.ts';
import { byResistances, gravity, ownMass, plainDrives, startFactor, weightTension } from './plain-loop.ts';

/** What a designation says of a belt, and its working tension by each method, written apart from the program. */

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
  /** Tension that the take-up must give, a force, by the resistances. */
  readonly needed: number;
} {
  const walked = byResistances(belt, a);
  const resistances = walked.most / belt.width;
  const pull = (belt.power / belt.speed) * 1000 * a('DriveEfficiency') * startFactor(belt, a);
  const full = ownMass(belt, a) + belt.capacity / 3.6 / belt.speed;
  const sag = (full * gravity * a('CarryIdlerSpacing')) / (8 * a('SagRatio'));
  const hung = Number.isNaN(belt.takeUpWeight) ? 0 : weightTension(belt);
  // Wherever the drives stand: what grips on the one that needs most, behind both.
  const grips = plainDrives(belt).map(({ share, grip }) => pull * share * grip);
  const power = (pull + Math.max(...grips, Number.isNaN(sag) ? 0 : sag, hung)) / belt.width;
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
  return { from, tension, steady, larger, resistances, power, needed: walked.needed };
}
