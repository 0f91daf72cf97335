import type { BeltJoint } from './belt-joint.ts';
import { dimension, line, measure } from './joint-drawing.ts';
import { type JointGeometry, otherHand, type Spot } from './joint.ts';
import { type Drawing, mirroredDrawing, type Shape } from './shapes.ts';

/**
 * The cut's near end, enlarged and turned so that the cut lies level: where the first plates and their holes go.
 *
 * The same spots as the drawing of the whole joint, seen in the cut's own axes: along it to the right, the trailing
 * belt end above; of a left-hand joint, below, since the belt is seen from above all the same.
 */
const platesShown = 2;

/** A spot of the belt in the cut's axes. */
function turned({ along, across }: Spot, skew: number): Spot {
  const turn = (skew * Math.PI) / 180;
  return {
    along: along * Math.sin(turn) + across * Math.cos(turn),
    across: across * Math.sin(turn) - along * Math.cos(turn),
  };
}

/** The belt's near edge as it crosses the level drawing; square to the cut when the joint is square. */
function edgeAt(across: number, skew: number): Spot {
  return { along: -across * Math.tan((skew * Math.PI) / 180), across };
}

function holeMeasures(holes: readonly Spot[], perPlate: number, unit: string, bottom: number, gap: number): Shape[] {
  const [first, second] = holes.slice(0, perPlate).filter(({ across }) => across < 0);
  if (first === undefined) return [];
  const right = Math.max(...holes.map(({ along }) => along)) + gap * 1.3;
  const back = Math.abs(first.across);
  const shapes: Shape[] = [
    line('help', { along: first.along, across: first.across }, { along: right + gap * 0.3, across: first.across }),
    ...dimension({ along: right, across: 0 }, { along: right, across: -back }, '', 90, 'above'),
    {
      type: 'text',
      at: { along: right + gap * 0.35, across: -back / 2 },
      text: measure(back, unit),
      anchor: 'start',
      turned: 0,
      lift: 'on',
    },
  ];
  if (second !== undefined && Math.abs(second.along - first.along) > 0) {
    shapes.push(
      line('help', first, { along: first.along, across: bottom }),
      line('help', second, { along: second.along, across: bottom }),
      ...dimension(
        { along: first.along, across: bottom },
        { along: second.along, across: bottom },
        measure(second.along - first.along, unit),
        0,
        'below',
      ),
    );
  }
  return shapes;
}

function plateMeasures({ plates, series, edgeLeft, skew }: JointGeometry, unit: string, top: number): Shape[] {
  const [first, second] = plates;
  if (first === undefined || edgeLeft === undefined) return [];
  const [one, other] = [first, second].map((plate) =>
    plate === undefined ? undefined : turned(plate.centre, skew).along,
  );
  return [
    { type: 'arrow', style: 'dimension', from: { along: 0, across: top }, to: { along: edgeLeft, across: top } },
    {
      type: 'text',
      at: { along: Math.min(edgeLeft, one ?? edgeLeft), across: top },
      text: measure(edgeLeft, unit),
      anchor: 'end',
      turned: 0,
      lift: 'above',
    },
    line('help', { along: edgeLeft, across: 0 }, { along: edgeLeft, across: top }),
    line('help', { along: 0, across: 0 }, { along: 0, across: top }),
    ...(one === undefined || other === undefined || series === undefined
      ? []
      : [
          line('help', { along: one, across: 0 }, { along: one, across: top }),
          line('help', { along: other, across: 0 }, { along: other, across: top }),
          ...dimension(
            { along: one, across: top },
            { along: other, across: top },
            `pitch ${measure(series.pitch, unit)}`,
            0,
            'above',
          ),
        ]),
  ];
}

/** Undefined for a joint without plates. */
export function jointDetail({ geometry, unit, belt }: BeltJoint): Drawing | undefined {
  if (geometry === undefined || geometry.plates.length === 0) return undefined;
  if (geometry.hand === 'left') return mirroredDrawing(rightHandDetail(otherHand(geometry), unit, belt), 0);
  return rightHandDetail(geometry, unit, belt);
}

function rightHandDetail(geometry: JointGeometry, unit: string, belt: string): Drawing {
  const { skew, reach, plates, holes, drawnPunch, cutLength } = geometry;
  const shown = plates.slice(0, platesShown);
  const perPlate = holes.length / plates.length;
  const spots = holes.slice(0, shown.length * perPlate).map(({ at }) => turned(at, skew));
  const corners = shown.map((plate) => plate.corners.map((corner) => turned(corner, skew)));
  const end = Math.max(...corners.flat().map(({ along }) => along));
  const gap = reach * 0.28;
  const depth = reach * 1.25;
  const right = Math.min(cutLength, end + reach * 1.1);
  const [top, bottom] = [depth + gap, -depth - gap * 0.6];
  const left = Math.min(edgeAt(depth, skew).along, edgeAt(-depth, skew).along, 0);
  return {
    title: `The near edge of the joint of belt ${belt}, enlarged and rotated so that the cut is horizontal`,
    from: { along: left - gap, across: bottom - gap * 1.6 },
    to: { along: right + gap, across: top + gap * 1.4 },
    shapes: [
      {
        type: 'area',
        style: 'belt',
        corners: [
          edgeAt(-depth, skew),
          { along: right, across: -depth },
          { along: right, across: depth },
          edgeAt(depth, skew),
        ],
      },
      line('edge', edgeAt(-depth, skew), edgeAt(depth, skew)),
      ...corners.map((round): Shape => ({ type: 'area', style: 'plate', corners: round })),
      line('cut', { along: 0, across: 0 }, { along: right, across: 0 }),
      ...spots.map((centre): Shape => ({ type: 'circle', style: 'hole', centre, diameter: drawnPunch })),
      ...plateMeasures(geometry, unit, top),
      ...holeMeasures(spots, perPlate, unit, bottom, gap),
    ],
  };
}
