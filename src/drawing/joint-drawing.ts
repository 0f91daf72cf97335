import { shortText } from '../units/shown-mark.ts';
import { counted } from '../units/phrases.ts';
import type { BeltJoint } from './belt-joint.ts';
import { type JointGeometry, otherHand, spotOnCut, type Spot } from './joint.ts';
import { type Drawing, mirroredDrawing, type Shape } from './shapes.ts';

/**
 * The joint as a measured drawing: both belt ends, the line they meet in, plates, holes, and the measures that a crew
 * marks out.
 *
 * Distances of dimension lines from what they measure grow with the belt, so that drawings of all widths look alike.
 */
const digits = { mm: 1, in: 2 } as const;

export const measure = (value: number, unit: string): string =>
  `${shortText(value, unit === 'in' ? digits.in : digits.mm)} ${unit}`;

const middle = (one: Spot, other: Spot): Spot => ({
  along: (one.along + other.along) / 2,
  across: (one.across + other.across) / 2,
});

export function dimension(from: Spot, to: Spot, text: string, turned: number, lift: 'above' | 'below'): Shape[] {
  return [
    { type: 'arrow', style: 'dimension', from, to },
    { type: 'text', at: middle(from, to), text, anchor: 'middle', turned, lift },
  ];
}

export const line = (style: 'edge' | 'cut' | 'centre' | 'help', ...points: Spot[]): Shape => ({
  type: 'line',
  style,
  points,
});

function beltShapes({ width, offset, farEnd, nearEnd }: JointGeometry, left: number, right: number): Shape[] {
  const corner = (along: number, across: number): Spot => ({ along, across });
  return [
    {
      type: 'area',
      style: 'belt',
      corners: [corner(left, 0), corner(right, 0), corner(right, width), corner(left, width)],
    },
    line('edge', corner(left, 0), corner(right, 0)),
    line('edge', corner(left, width), corner(right, width)),
    line('centre', corner(left, width / 2), corner(right, width / 2)),
    ...(offset > 0 ? [line('help', nearEnd, corner(0, width))] : []),
    line('cut', nearEnd, farEnd),
  ];
}

/** Square line, skew and its offset along the far edge. */
function skewShapes({ width, offset, skew }: JointGeometry, unit: string, gap: number): Shape[] {
  if (offset === 0) return [];
  const above = width + gap;
  return [
    line('help', { along: 0, across: width }, { along: 0, across: above + gap / 3 }),
    line('help', { along: offset, across: width }, { along: offset, across: above + gap / 3 }),
    ...dimension({ along: 0, across: above }, { along: offset, across: above }, measure(offset, unit), 0, 'above'),
    { type: 'arc', centre: { along: 0, across: 0 }, radius: width * 0.3, from: 90 - skew, to: 90 },
    {
      type: 'text',
      at: { along: -width * 0.02, across: width * 0.33 },
      text: `${shortText(skew, 2)}°`,
      anchor: 'end',
      turned: 0,
      lift: 'on',
    },
  ];
}

function measures(joint: JointGeometry, unit: string, left: number, gap: number): Shape[] {
  const { width, skew, cutLength, reach } = joint;
  const ahead = Math.max(reach * 1.25, gap * 0.8);
  const beside = (s: number, distance: number): Spot => spotOnCut(skew, s, distance);
  return [
    ...dimension(
      { along: left + gap * 0.7, across: 0 },
      { along: left + gap * 0.7, across: width },
      measure(width, unit),
      90,
      'above',
    ),
    ...dimension(beside(0, ahead), beside(cutLength, ahead), measure(cutLength, unit), 90 - skew, 'below'),
    line('help', beside(0, 0), beside(0, ahead * 1.1)),
    line('help', beside(cutLength, 0), beside(cutLength, ahead * 1.1)),
  ];
}

/** The drawing of a belt's joint; undefined when there is nothing to draw. */
export function jointDrawing({ geometry, unit, belt }: BeltJoint): Drawing | undefined {
  if (geometry === undefined) return undefined;
  if (geometry.hand === 'left')
    return mirroredDrawing(rightHandDrawing(otherHand(geometry), unit, belt), geometry.width);
  return rightHandDrawing(geometry, unit, belt);
}

/** The drawing in words, for who can't see it. */
function inWords({ width, skew, cutLength, plates }: JointGeometry, unit: string, belt: string): string {
  const cut = skew === 0 ? 'cut square' : `cut ${measure(cutLength, unit)} long at a skew of ${shortText(skew, 2)}°`;
  return `Joint of belt ${belt}, seen from above: belt ${measure(width, unit)} wide, ${cut}, ${counted(
    plates.length,
    'plate',
  )}`;
}

function rightHandDrawing(geometry: JointGeometry, unit: string, belt: string): Drawing {
  const { width, offset, plates, holes, reach } = geometry;
  const gap = width * 0.11;
  const side = Math.max(width * 0.42, reach * 2.2);
  const [left, right] = [-side, offset + side];
  const travel = -gap * 1.1;
  return {
    title: inWords(geometry, unit, belt),
    from: { along: left - gap * 0.2, across: travel - gap * 0.9 },
    to: { along: right + gap * 0.2, across: width + gap * (offset > 0 ? 2 : 0.4) },
    shapes: [
      ...beltShapes(geometry, left, right),
      ...plates.map(({ corners }): Shape => ({ type: 'area', style: 'plate', corners })),
      { type: 'line', style: 'cut', points: [geometry.nearEnd, geometry.farEnd] },
      ...holes.map(({ at }): Shape => ({ type: 'circle', style: 'hole', centre: at, diameter: geometry.drawnPunch })),
      ...skewShapes(geometry, unit, gap),
      ...measures(geometry, unit, left, gap),
      {
        type: 'arrow',
        style: 'travel',
        from: { along: offset / 2 - side * 0.5, across: travel },
        to: { along: offset / 2 + side * 0.5, across: travel },
      },
      {
        type: 'text',
        at: { along: offset / 2, across: travel },
        text: 'travel',
        anchor: 'middle',
        turned: 0,
        lift: 'below',
      },
    ],
  };
}
