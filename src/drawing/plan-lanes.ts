import { radians } from './belt-axes.ts';
import type { JointGeometry } from './joint.ts';
import type { Box } from './paper.ts';

/** Lanes beside the belt that hold a plan's labels, and the scale that is left over for the joint. */

export const leftOfBelt = 11;
export const beyondRectangle = 9;
const numberLane = 3.4;
export const travelLane = 11;

/** How far a strip is drawn beyond the cut's ends, on paper: no further than keeps it clear of the lanes. */
export const stripTip = ({ strips, cutLength }: JointGeometry, scale: number): number =>
  Math.min(5, (((strips[0]?.length ?? cutLength) - cutLength) / 2) * scale);

/** Distances on paper that depend on the scale. */
export function lanes(
  joint: JointGeometry,
  scale: number,
): Readonly<Record<'numbers' | 'cut' | 'right' | 'outer' | 'corner', number>> {
  const { reach, skew } = joint;
  const numbers = reach * scale + numberLane;
  const cut = numbers + 3.4;
  const tip = stripTip(joint, scale) * Math.cos(radians(skew));
  return {
    numbers,
    cut,
    right: cut + 27,
    outer: Math.max(8, tip + 3),
    corner: Math.max(travelLane + 4, cut * Math.sin(radians(skew)) + 3),
  };
}

/** Paper millimetres per belt length with which the plan fills the box. */
export function planScale(joint: JointGeometry, box: Pick<Box, 'width' | 'height'>): number {
  let scale = 0;
  // Lanes grow with the scale, which shrinks with the lanes: a few rounds settle it to less than a line's width.
  for (let round = 0; round < 12; round += 1) {
    const { right, outer, corner } = lanes(joint, scale);
    const level = (box.width - leftOfBelt - beyondRectangle - right) / (joint.back + joint.offset);
    const upright = (box.height - corner - outer - 4) / joint.width;
    scale = Math.min(level, upright) * (round < 11 ? 1 : 0.999);
  }
  return scale;
}
