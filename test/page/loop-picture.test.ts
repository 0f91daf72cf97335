import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { loopPicture } from '../../src/page/loop-picture-layout.ts';
import { beltPath, ImpossiblePath, type PathPulley } from '../../src/advice/belt-path.ts';

/** The picture of a loop: true angles, everything within its edges, long stretches shortened. */

const conveyor = (length: number, lift: number): PathPulley[] => {
  const slope = lift / length;
  const on = (x: number, below: number): { x: number; y: number } => ({ x, y: slope * x - below });
  return [
    { name: 'tail', ...on(0, 0), diameter: 0.8, turn: -1 },
    { name: 'head', ...on(length, 0), diameter: 1, turn: -1 },
    { name: 'snub', ...on(length - 1.1, 0.75), diameter: 0.6, turn: 1 },
    { name: 'bend in', ...on(length / 2 + 0.9, 1.2), diameter: 0.6, turn: 1 },
    { name: 'take-up', ...on(length / 2, 4), diameter: 0.8, turn: -1 },
    { name: 'bend out', ...on(length / 2 - 0.9, 1.2), diameter: 0.6, turn: 1 },
  ];
};

describe('the picture of a loop', () => {
  it('tells the true angles, whatever it shortens, and stays within its edges', () => {
    let possible = 0;
    fc.assert(
      fc.property(
        fc.integer({ min: 12, max: 900 }),
        fc.double({ min: -0.2, max: 0.25, noNaN: true }),
        fc.integer({ min: 280, max: 700 }),
        (length, slope, width) => {
          const pulleys = conveyor(length, slope * length);
          let path;
          try {
            path = beltPath(pulleys);
          } catch (error) {
            if (error instanceof ImpossiblePath) return;
            throw error;
          }
          possible += 1;
          const picture = loopPicture(pulleys, width);
          picture.pulleys.forEach(({ wrap, reverse, centre, radius, label }, index) => {
            expect(wrap).toBe(path.pulleys[index]?.wrap);
            expect(reverse).toBe(path.pulleys[index]?.reverse);
            expect(centre.x - radius).toBeGreaterThanOrEqual(-1e-6);
            expect(centre.x + radius).toBeLessThanOrEqual(width + 1e-6);
            expect(centre.y - radius).toBeGreaterThanOrEqual(0);
            expect(centre.y + radius).toBeLessThanOrEqual(picture.height);
            expect(label.x).toBeGreaterThan(0);
            expect(label.x).toBeLessThan(width);
          });
          if (length > 60) {
            expect(picture.shortened).toBe(true);
            expect(Math.min(...picture.pulleys.map(({ radius }) => radius))).toBeGreaterThan(3);
          }
        },
      ),
    );
    expect(possible).toBeGreaterThan(80);
  });

  it('labels what stands above the belt above, what hangs below below, each apart from the next', () => {
    const { pulleys } = loopPicture(conveyor(140, 6), 536);
    expect(pulleys.filter(({ above }) => above).map(({ name }) => name)).toEqual(['tail', 'head']);
    const below = pulleys
      .filter(({ above }) => !above)
      .map(({ label }) => label.x)
      .toSorted((one, other) => one - other);
    below.slice(1).forEach((x, index) => expect(x - (below[index] ?? 0)).toBeGreaterThanOrEqual(74 - 1e-9));
  });

  it('draws a short loop as it is, and refuses an impossible one with the pulleys’ names', () => {
    const two: PathPulley[] = [
      { name: 'tail', x: 0, y: 0, diameter: 1, turn: -1 },
      { name: 'head', x: 3, y: 0, diameter: 1, turn: -1 },
    ];
    const { shortened, breaks, pulleys } = loopPicture(two, 400);
    expect({ shortened, breaks }).toEqual({ shortened: false, breaks: [] });
    expect(pulleys[0]?.radius).toBeCloseTo((400 - 24) / 4 / 2, 6);
    expect(() => loopPicture([...two, { name: 'lost', x: 1.5, y: 0.2, diameter: 1, turn: -1 }], 400)).toThrow(/lost/);
  });
});
