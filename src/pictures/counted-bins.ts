import { roundStep } from './round-ticks.ts';

/** Numbers counted in bins of equal, round width. */

export interface CountedBin {
  readonly from: number;
  readonly to: number;
  /** Places, in the list that was given, of the numbers in it. */
  readonly members: readonly number[];
}

/** A spread below this share of the numbers' size is none: rounding leaves as much. */
const noSpread = 1e-9;
/** Bins about, where all numbers are the same. */
const aroundOne = 10;

export interface BinsWanted {
  /** Bins about. */
  readonly about: number;
  /** Bins begin at whole numbers. */
  readonly whole?: boolean;
  /** The width of a bin, where it is given. */
  readonly width?: number;
}

function widthOf(low: number, high: number, { about, whole = false, width }: BinsWanted): number {
  if (width !== undefined) return width;
  const size = Math.max(Math.abs(low), Math.abs(high));
  const spread = high - low > noSpread * size;
  const round = spread ? roundStep(low, high, about) : roundStep(0, size === 0 ? 1 : size, aroundOne);
  return whole ? Math.max(1, Math.ceil(round)) : round;
}

/** A multiple of a width without the rounding that a product leaves. */
const multiple = (count: number, width: number): number => Number((count * width).toPrecision(12));

/** A bin holds its beginning and not its end, but for the last, which holds both. Equal numbers have one bin. */
export function countedBins(values: readonly number[], wanted: BinsWanted): CountedBin[] {
  if (values.length === 0) return [];
  const low = values.reduce((least, value) => Math.min(least, value), Infinity);
  const high = values.reduce((most, value) => Math.max(most, value), -Infinity);
  const width = widthOf(low, high, wanted);
  const first = Math.floor(low / width + noSpread);
  const last = Math.max(first + 1, Math.ceil(high / width - noSpread));
  const edges = Array.from({ length: last - first + 1 }, (_, index) => multiple(first + index, width));
  const members = Array.from({ length: last - first }, (): number[] => []);
  for (const [place, value] of values.entries()) {
    let bin = Math.min(members.length - 1, Math.max(0, Math.floor(value / width) - first));
    // The edge is rounded, the quotient is not: what lies on an edge belongs to the bin that it begins.
    while (bin > 0 && value < (edges[bin] ?? value)) bin -= 1;
    while (bin < members.length - 1 && value >= (edges[bin + 1] ?? Infinity)) bin += 1;
    members[bin]?.push(place);
  }
  return members.map((own, index) => ({ from: edges[index] ?? 0, to: edges[index + 1] ?? 0, members: own }));
}
