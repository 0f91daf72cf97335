import { mirrored, type Spot } from './belt-axes.ts';

/** What a drawing is made of, in the belt's axes. Texts keep their size on paper whatever the scale. */
type LineStyle = 'edge' | 'cut' | 'centre' | 'help' | 'dimension' | 'hole' | 'travel';
type FillStyle = 'belt' | 'plate';

export type Shape =
  | { readonly type: 'area'; readonly style: FillStyle; readonly corners: readonly Spot[] }
  | { readonly type: 'line'; readonly style: LineStyle; readonly points: readonly Spot[] }
  | { readonly type: 'circle'; readonly style: 'hole'; readonly centre: Spot; readonly diameter: number }
  /** A line with arrow heads at both ends, at `to` alone for travel. */
  | { readonly type: 'arrow'; readonly style: 'dimension' | 'travel'; readonly from: Spot; readonly to: Spot }
  | { readonly type: 'arc'; readonly centre: Spot; readonly radius: number; readonly from: number; readonly to: number }
  /** `turned` follows a direction of the drawing, in degrees anticlockwise from along. */
  | {
      readonly type: 'text';
      readonly at: Spot;
      readonly text: string;
      readonly anchor: 'start' | 'middle' | 'end';
      readonly turned: number;
      readonly lift: 'above' | 'on' | 'below';
    };

export interface Drawing {
  readonly title: string;
  readonly shapes: readonly Shape[];
  /** What is shown of the plane. */
  readonly from: Spot;
  readonly to: Spot;
}

const liftOver = { above: 'below', on: 'on', below: 'above' } as const;

/**
 * A drawing mirrored across the line half of `width` from the edge, its texts still to be read. Texts that stand
 * upright stay where they stand.
 */
export function mirroredDrawing({ title, shapes, from, to }: Drawing, width: number): Drawing {
  const over = (spot: Spot): Spot => mirrored(spot, width);
  const turnedOver = (shape: Shape): Shape => {
    switch (shape.type) {
      case 'area':
        return { ...shape, corners: shape.corners.map(over) };
      case 'line':
        return { ...shape, points: shape.points.map(over) };
      case 'circle':
        return { ...shape, centre: over(shape.centre) };
      case 'arrow':
        return { ...shape, from: over(shape.from), to: over(shape.to) };
      case 'arc':
        return { ...shape, centre: over(shape.centre), from: -shape.to, to: -shape.from };
      case 'text':
        return {
          ...shape,
          at: over(shape.at),
          ...(shape.turned === 90
            ? {}
            : { turned: shape.turned === 0 ? 0 : -shape.turned, lift: liftOver[shape.lift] }),
        };
    }
  };
  return {
    title,
    shapes: shapes.map(turnedOver),
    from: { along: from.along, across: width - to.across },
    to: { along: to.along, across: width - from.across },
  };
}
