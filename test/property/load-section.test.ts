import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { close, number, refusal } from '../evaluation.ts';
import { decimals } from './arguments.ts';

/** Area under the outline of the load, by strips across the belt: the heap a parabola that meets the belt's edges. */
function byStrips(width: number, trough: number, surcharge: number): number {
  const carrying = width > 2000 ? width - 250 : 0.9 * width - 50;
  const centre = Math.min(carrying, 0.38 * width);
  const [wing, rise] = [(carrying - centre) / 2, (trough * Math.PI) / 180];
  const half = centre / 2 + wing * Math.cos(rise);
  const strips = 20_000;
  let area = 0;
  for (let strip = 0; strip < strips; strip++) {
    const across = half * ((2 * (strip + 0.5)) / strips - 1);
    const belt = Math.max(0, Math.abs(across) - centre / 2) * Math.tan(rise);
    // Its slope where it meets the belt is the surcharge angle.
    const heap = (Math.tan((surcharge * Math.PI) / 180) * (half ** 2 - across ** 2)) / (2 * half);
    area += (wing * Math.sin(rise) + heap - belt) * ((2 * half) / strips);
  }
  return area / 1e6;
}

describe('the load on a troughed belt', () => {
  const belt = fc.tuple(decimals(300, 3200), decimals(0, 60), decimals(0, 30));

  test('fills the room between the belt and a heap that meets its edges at the surcharge angle', () => {
    fc.assert(
      fc.property(belt, ([width, trough, surcharge]) =>
        close(number('LOADAREA', width, trough, surcharge), byStrips(width, trough, surcharge), 1e-5),
      ),
      { numRuns: 30 },
    );
  });

  test('is less on a slope, and only by the heap', () => {
    fc.assert(
      fc.property(belt, decimals(0, 1), ([width, trough, surcharge], share) => {
        const level = number('LOADAREA', width, trough, surcharge);
        const sloping = number('LOADAREA', width, trough, surcharge, surcharge * share);
        expect(sloping).toBeLessThanOrEqual(level);
        expect(sloping).toBeGreaterThanOrEqual(number('LOADAREA', width, trough, 0) - 1e-12);
      }),
    );
  });

  test('slides back where the slope is steeper than the surcharge angle', () => {
    expect(refusal('=LOADAREA(1000,30,15,18)').message).toContain('slope must be at most the surcharge angle (15)');
  });
});
