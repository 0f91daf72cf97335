import type { BeltHeader } from '../index.ts';

/** Bounds between which a figure nearly always lies, in metric units. */
interface UsualRange {
  readonly min: number;
  readonly max: number;
}

/**
 * Beside the hard limits of a belt's inputs: a number beyond these is asked about, not refused. It counts as it stands,
 * and no verdict changes by it.
 *
 * All of them common practice, no source, and wide: who is outside has a rare belt or a slip of the unit.
 */
export const usualRanges: Readonly<Partial<Record<BeltHeader, UsualRange>>> = {
  Width: { min: 100, max: 4000 },
  Thickness: { min: 1, max: 60 },
  'Carcass thickness': { min: 0.5, max: 40 },
  'Top cover': { min: 0, max: 40 },
  'Smallest pulley': { min: 25, max: 3000 },
  'Head pulley': { min: 25, max: 3000 },
  'Tail pulley': { min: 25, max: 3000 },
  'Pulley centres': { min: 0.3, max: 30_000 },
  Lift: { min: -1500, max: 1500 },
  Speed: { min: 0.02, max: 20 },
  Power: { min: 0.05, max: 20_000 },
  Capacity: { min: 0, max: 50_000 },
  'Take-up travel': { min: 0, max: 100_000 },
  'Drive friction': { min: 0.03, max: 0.6 },
  'Wrap angle': { min: 90, max: 540 },
  'Known tension': { min: 0.5, max: 1500 },
  'Belt rating': { min: 2, max: 1500 },
  Insert: { min: 0.3, max: 2000 },
  'Take-up position': { min: 0, max: 100_000 },
  'Belt mass': { min: 0.1, max: 400 },
  'Take-up weight': { min: 20, max: 100_000 },
  'Carry idler mass': { min: 1, max: 150 },
  'Return idler mass': { min: 0.5, max: 80 },
};
