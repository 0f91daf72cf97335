/** A belt and named values as the plain loops take them, and what both their halves need. A missing number is NaN. */
export interface Belt {
  readonly width: number;
  readonly construction: string;
  readonly thickness: number;
  readonly carcass: number;
  readonly topCover: number;
  readonly permitted: number;
  readonly smallestPulley: number;
  readonly headPulley: number;
  readonly tailPulley: number;
  readonly centres: number;
  readonly lift: number;
  readonly speed: number;
  readonly power: number;
  readonly capacity: number;
  readonly wrap: number;
  readonly friction: number;
  readonly tensionEntered: number;
  readonly face: string;
  readonly condition: string;
  readonly takeUpKind: string;
  /** head, tail or return run; '' where it is not given. */
  readonly drive: string;
  readonly driveDistance: number;
  readonly secondDrive: string;
  readonly secondDistance: number;
  readonly secondShare: number;
  readonly secondWrap: number;
  readonly secondFriction: number;
  readonly takeUpDistance: number;
  readonly takeUpWeight: number;
  readonly ropeFalls: number;
  readonly carryIdlers: number;
  readonly returnIdlers: number;
  readonly starting: string;
  readonly group: string;
  readonly beltMass: number;
  readonly special: number;
  readonly route: string;
  readonly lifePasses: number;
  readonly takeUp: number;
  readonly replaces: string;
  readonly replacedSkew: number;
  readonly cutOut: number;
  readonly insert: number;
  readonly skew: number;
  readonly series: string;
  readonly skive: number;
  readonly installed: number;
  readonly hoursPerYear: number;
  readonly life: number;
  readonly service: string;
}

/** Named values, by their names. */
export type Assumptions = Readonly<Record<string, number>>;

const lengthTable: readonly (readonly [number, number])[] = [
  [80, 1.92],
  [100, 1.78],
  [150, 1.58],
  [200, 1.45],
  [300, 1.31],
  [400, 1.25],
  [500, 1.2],
  [600, 1.17],
  [700, 1.14],
  [800, 1.12],
  [900, 1.1],
  [1000, 1.09],
  [1500, 1.06],
  [2000, 1.05],
];

export function lengthFactor(length: number): number {
  if (length >= 2000) return 1.05;
  for (let entry = 1; entry < lengthTable.length; entry += 1) {
    const [from, to] = [lengthTable[entry - 1], lengthTable[entry]];
    if (from !== undefined && to !== undefined && length >= from[0] && length < to[0]) {
      return from[1] + ((length - from[0]) / (to[0] - from[0])) * (to[1] - from[1]);
    }
  }
  return Number.NaN;
}
