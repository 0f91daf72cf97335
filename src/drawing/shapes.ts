import type { Spot } from './joint.ts';

/** What a drawing is made of, in the belt's axes. Texts keep their size on paper whatever the scale. */
export type LineStyle = 'edge' | 'cut' | 'centre' | 'help' | 'dimension' | 'hole' | 'travel';
export type FillStyle = 'belt' | 'plate';

export type Shape =
  | { readonly type: 'area'; readonly style: FillStyle; readonly corners: readonly Spot[] }
  | { readonly type: 'line'; readonly style: LineStyle; readonly points: readonly Spot[] }
  | { readonly type: 'circle'; readonly style: 'hole'; readonly centre: Spot; readonly diameter: number }
  /** A line with arrow heads at both ends, at `to` alone for travel. */
  | { readonly type: 'arrow'; readonly style: 'dimension' | 'travel'; readonly from: Spot; readonly to: Spot }
  | { readonly type: 'arc'; readonly centre: Spot; readonly radius: number; readonly from: number; readonly to: number }
  /** `turned` follows a direction of the drawing, in degrees anticlockwise from along. */
  | { readonly type: 'text'; readonly at: Spot; readonly text: string; readonly anchor: 'start' | 'middle' | 'end'; readonly turned: number; readonly lift: 'above' | 'on' | 'below' };

export interface Drawing {
  readonly title: string;
  readonly shapes: readonly Shape[];
  /** What is shown of the plane. */
  readonly from: Spot;
  readonly to: Spot;
}
