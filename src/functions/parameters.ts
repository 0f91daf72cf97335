import type { Parameter } from '../formula/parameter.ts';

/** Parameters that several functions share, each declared once: its kind, its bounds and what help says of it. */

export const width = { kind: 'length', above: 0, doc: "the belt's width" } as const satisfies Parameter;

/**
 * Up to 60 degrees: our choice, no effect on safety. The geometry holds beyond, but the cut is twice the width there,
 * and no supplier's figures for such joints are known. 45 as the common skew: common practice, no source.
 */
export const skew = {
  kind: 'angle',
  min: 0,
  max: 60,
  doc: 'degrees from the square cut: 0 is square, 45 the common skew joint',
  advice:
    'Skew counts from the square cut: a joint named by its angle to the belt edge ("90 degrees") is square, so enter ' +
    '90 less that angle',
} as const satisfies Parameter;

export const pitch = {
  kind: 'length',
  above: 0,
  doc: 'from one plate to the next, centre to centre along the cut',
} as const satisfies Parameter;
export const plate = { kind: 'length', above: 0, doc: "the plate's width along the cut" } as const satisfies Parameter;
export const edge = {
  kind: 'length',
  min: 0,
  doc: "minimum clear distance from the outer plate to the belt's edge, along the cut",
} as const satisfies Parameter;
export const plates = { kind: 'count', min: 1, whole: true, doc: 'plates in the joint' } as const satisfies Parameter;

/** What a joint replaces, from what takes nothing of the loop to what takes most. */
export const replacedJoints = ['new belt', 'same skew', 'square joint', 'other skew'] as const;

export const core = { kind: 'length', min: 0, doc: 'diameter of the bare core' } as const satisfies Parameter;
export const thickness = { kind: 'length', above: 0, doc: 'one turn, as wound' } as const satisfies Parameter;

export const need = { kind: 'number', min: 0, doc: 'number needed' } as const satisfies Parameter;
export const quantities = {
  kind: 'numbers',
  min: 0,
  doc: 'the quantities from which each price holds, ascending, in one row or column',
} as const satisfies Parameter;
export const prices = {
  kind: 'numbers',
  min: 0,
  doc: 'the unit price from each of the quantities, laid out like them',
} as const satisfies Parameter;

export const checkedValue = { kind: 'check', doc: 'the number to check' } as const satisfies Parameter;
export const least = { kind: 'check', doc: 'the minimum that passes' } as const satisfies Parameter;
export const most = { kind: 'check', doc: 'the maximum that passes' } as const satisfies Parameter;
export const margin = {
  kind: 'check',
  share: true,
  min: 0,
  max: 1,
  doc: 'share of the limit that counts as tight: 0.1 is a tenth',
} as const satisfies Parameter;
