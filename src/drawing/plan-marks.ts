import { fromCorner, radians } from './belt-axes.ts';
import type { JointGeometry } from './joint.ts';
import type { Mark, Point } from './paper.ts';
import { type cutPlacer, labelSize, middle, rule, shifted, smallSize, text } from './shop-marks.ts';
import { textWidth } from './text-width.ts';

/** Marks that only a plan of the joint has. */

/**
 * Plate numbers, from the marked corner, as tables have them: as many as have room, the first and last of both runs
 * among them.
 */
export function plateNumbers(
  joint: JointGeometry,
  place: ReturnType<typeof cutPlacer>,
  scale: number,
  lane: number,
): Mark[] {
  const { plates, skew, series } = joint;
  if (series === undefined) return [];
  const widest = textWidth(String(plates.length), smallSize) + 0.8;
  const [right, up] = [series.pitch * scale * Math.sin(radians(skew)), series.pitch * scale * Math.cos(radians(skew))];
  const every = Math.max(
    1,
    Math.ceil(Math.min(widest / Math.max(right, 1e-9), (smallSize + 0.7) / Math.max(up, 1e-9)) - 1e-9),
  );
  const firstRun = Math.ceil(plates.length / 2);
  return plates.flatMap(({ number, centre }): Mark[] => {
    const fromEnd = number <= firstRun ? number - 1 : plates.length - number;
    const lastOfRun = number <= firstRun ? firstRun - number : number - firstRun - 1;
    // Every so many from either end, but none so near the middle that the two runs meet.
    if (fromEnd % every !== 0 || (lastOfRun < every / 2 && fromEnd > 0 && every > 1)) return [];
    const { along, across } = fromCorner(centre, joint);
    const run = along * Math.sin(radians(skew)) + across * Math.cos(radians(skew));
    return [text(place({ run, ahead: 0 }, 0, lane), String(number), 'middle', 0, smallSize)];
  });
}

export function breakLine(top: Point, bottom: Point): Mark {
  const centre = middle(top, bottom);
  return rule(
    'thin',
    top,
    shifted(centre, 0, -3),
    shifted(centre, -1.6, -1),
    shifted(centre, 1.6, 1),
    shifted(centre, 0, 3),
    bottom,
  );
}

/** A label's distance over a line that is turned so, on paper. */
export function above(turned: number): [number, number] {
  const distance = labelSize * 0.85;
  return [-distance * Math.sin(radians(turned)), -distance * Math.cos(radians(turned))];
}

/** The skew's arc from the square line to the cut, as a line of many corners. */
export function arc(at: (along: number, across: number) => Point, skew: number, radius: number): Mark {
  const steps = 24;
  return rule(
    'thin',
    ...Array.from({ length: steps + 1 }, (_, step) => {
      const turn = radians((skew * step) / steps);
      return at(radius * Math.sin(turn), radius * Math.cos(turn));
    }),
  );
}
