import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { spread } from '../../src/page/label-places.ts';
import { placedPlot } from '../../src/page/skew-plot-layout.ts';
import { roundTicks } from '../../src/pictures/round-ticks.ts';

/** Where the parts of the plot stand. */

describe('round ticks', () => {
  it('enclose the range with steps of 1, 2, 2.5 or 5', () => {
    expect(roundTicks(0, 60, 6)).toEqual([0, 10, 20, 30, 40, 50, 60]);
    expect(roundTicks(115, 960, 5)).toEqual([0, 200, 400, 600, 800, 1000]);
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 2000, noNaN: true }),
        fc.double({ min: 0.5, max: 2000, noNaN: true }),
        (from, more) => {
          const ticks = roundTicks(from, from + more, 5);
          expect(ticks[0]).toBeLessThanOrEqual(from + 1e-6);
          expect(ticks.at(-1)).toBeGreaterThanOrEqual(from + more - 1e-6);
          expect(ticks.length).toBeGreaterThan(1);
          expect(ticks.length).toBeLessThan(12);
        },
      ),
    );
  });
});

describe('labels', () => {
  it('keep apart and within bounds, in their order, and where they belong when there is room', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 300, noNaN: true }), { minLength: 1, maxLength: 12 }), (wanted) => {
        const placed = spread(wanted, 13, 0, 300);
        const order = wanted
          .map((at, index) => ({ at, placed: placed[index] ?? Number.NaN }))
          .toSorted((one, other) => one.at - other.at || one.placed - other.placed);
        for (const [index, { placed: here }] of order.entries()) {
          expect(here).toBeLessThanOrEqual(300 + 1e-9);
          expect(here).toBeGreaterThanOrEqual(-1e-9);
          if (index > 0) expect(here - (order[index - 1]?.placed ?? 0)).toBeGreaterThanOrEqual(13 - 1e-9);
        }
      }),
    );
    expect(spread([100, 20, 200], 13, 0, 300)).toEqual([100, 20, 200]);
  });
});

describe('the plot', () => {
  const curve = [
    { skew: 0, pulley: 400 },
    { skew: 30, pulley: 340 },
    { skew: 60, pulley: 200 },
  ];
  const wanted = {
    width: 500,
    height: 260,
    greatestSkew: 60,
    lines: [{ series: 'Plover', curve, chosen: true, passes: true }],
    marks: [{ name: 'Head', diameter: 630, measured: 630, from: 0 }],
  };

  it('has every point within its frame, larger pulleys higher, and finds the skew of a place again', () => {
    const plot = placedPlot(wanted);
    if (plot === undefined) throw new Error('no plot');
    const { frame, x, y, skewAt, marks } = plot;
    for (const { skew, pulley } of curve) {
      expect(x(skew)).toBeGreaterThanOrEqual(frame.left);
      expect(x(skew)).toBeLessThanOrEqual(frame.right);
      expect(y(pulley)).toBeGreaterThanOrEqual(frame.top);
      expect(y(pulley)).toBeLessThanOrEqual(frame.bottom);
      expect(skewAt(x(skew))).toBeCloseTo(skew, 9);
    }
    expect(marks[0]?.y).toBeLessThan(y(400));
    expect(skewAt(-50)).toBe(0);
    expect(skewAt(900)).toBe(60);
  });

  it('is none where nothing can be drawn', () =>
    expect(
      placedPlot({ ...wanted, lines: [{ series: 'Plover', curve: [], chosen: true, passes: false }] }),
    ).toBeUndefined());
});
