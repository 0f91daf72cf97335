import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isFault } from '../../src/formula/values.ts';
import { beltPath, ImpossiblePath, type PathPulley } from '../../src/advice/belt-path.ts';
import { close, named, number } from '../evaluation.ts';
import { decimals } from '../property/arguments.ts';

/**
 * A belt around any number of pulleys: against known lengths, other ways of measuring, and moves that change nothing.
 */

const radian = Math.PI / 180;
const pulley = (name: string, x: number, y: number, diameter: number, turn: 1 | -1 = 1): PathPulley => ({
  name,
  x,
  y,
  diameter,
  turn,
});

/** Pulleys around an ellipse, counter-clockwise, all inside the loop. */
const around = fc
  .record({
    diameters: fc.array(decimals(50, 400), { minLength: 2, maxLength: 8 }),
    long: decimals(3000, 9000),
    high: decimals(1500, 3000),
    first: decimals(0, 6),
  })
  .map(({ diameters, long, high, first }) =>
    diameters.map((diameter, place) => {
      const angle = first + (place * 2 * Math.PI) / diameters.length;
      return pulley(`P${place + 1}`, long * Math.cos(angle), high * Math.sin(angle), diameter);
    }),
  );

/** The same with a pulley that presses on the belt from outside, midway between two others. */
const withReverse = fc.tuple(around, decimals(60, 300), decimals(0.1, 0.9)).map(([inner, diameter, depth]) => {
  const [one, two] = [inner[0], inner[1]];
  if (one === undefined || two === undefined) throw new Error('two pulleys at least');
  const chord = Math.hypot(two.x - one.x, two.y - one.y);
  const [ux, uy] = [(two.x - one.x) / chord, (two.y - one.y) / chord];
  // The outside is on the right of the travel, and midway the belt is off the line of centres by the mean of the radii.
  const out = (one.diameter + two.diameter) / 4 + diameter / 2 - depth * Math.min(diameter, one.diameter, two.diameter);
  return [
    one,
    pulley('R', (one.x + two.x) / 2 + out * uy, (one.y + two.y) / 2 - out * ux, diameter, -1),
    ...inner.slice(1),
  ];
});

const anyPath = fc.oneof(around, withReverse);
const mapped = (pulleys: readonly PathPulley[], change: (pulley: PathPulley) => PathPulley): PathPulley[] =>
  pulleys.map(change);

/** Length of the curve that bounds everything within the discs: the mean width over all directions, times pi. */
function hullLength(pulleys: readonly PathPulley[], directions: number): number {
  let sum = 0;
  for (let step = 0; step < directions; step += 1) {
    const angle = (2 * Math.PI * step) / directions;
    sum += Math.max(...pulleys.map(({ x, y, diameter }) => x * Math.cos(angle) + y * Math.sin(angle) + diameter / 2));
  }
  return (2 * Math.PI * sum) / directions;
}

describe('length', () => {
  test('of two pulleys is the open belt', () => {
    fc.assert(
      fc.property(
        decimals(1, 900),
        decimals(1, 900),
        decimals(0, 5000),
        decimals(0, 6),
        fc.constantFrom<1 | -1>(1, -1),
        (d1, d2, gap, angle, turn) => {
          const centres = (d1 + d2) / 2 + gap + 0.001;
          const pulleys = [
            pulley('A', 0, 0, d1, turn),
            pulley('B', centres * Math.cos(angle), centres * Math.sin(angle), d2, turn),
          ];
          expect(close(beltPath(pulleys).length, number('BELTLOOP', centres, d1, d2), 1e-9)).toBe(true);
        },
      ),
    );
  });

  test('of pulleys all inside the loop is the rubber band around them', () => {
    fc.assert(
      fc.property(around, (pulleys) => {
        const { length, pulleys: contacts } = beltPath(pulleys);
        fc.pre(contacts.every(({ wrap }) => wrap < 359));
        expect(close(length, hullLength(pulleys, 20000), 1e-6)).toBe(true);
      }),
      { numRuns: 25 },
    );
  });

  test('is what a walk along it measures, with a reverse bend too', () => {
    fc.assert(
      fc.property(anyPath, (pulleys) => {
        const path = beltPath(pulleys);
        let walked = 0;
        path.pulleys.forEach(({ run, wrap }, place) => {
          const before = path.pulleys.at(place - 1);
          const circle = pulleys[place];
          if (before === undefined || circle === undefined) throw new Error('a pulley is missing');
          walked += Math.hypot(run.to.x - run.from.x, run.to.y - run.from.y);
          const steps = 400;
          let [x, y] = [before.run.to.x, before.run.to.y];
          for (let step = 1; step <= steps; step += 1) {
            const turned = (circle.turn * wrap * radian * step) / steps;
            const [ex, ey] = [before.run.to.x - circle.x, before.run.to.y - circle.y];
            const [nextX, nextY] = [
              circle.x + ex * Math.cos(turned) - ey * Math.sin(turned),
              circle.y + ex * Math.sin(turned) + ey * Math.cos(turned),
            ];
            walked += Math.hypot(nextX - x, nextY - y);
            [x, y] = [nextX, nextY];
          }
          expect(Math.hypot(x - run.from.x, y - run.from.y), 'the arc ends where the run begins').toBeLessThan(1e-6);
          for (const point of [run.from, before.run.to]) {
            expect(
              close(Math.hypot(point.x - circle.x, point.y - circle.y), circle.diameter / 2, 1e-9),
              'touches the pulley',
            ).toBe(true);
          }
        });
        expect(close(path.length, walked, 1e-5)).toBe(true);
      }),
    );
  });

  test('with a thickness is that at the neutral line', () => {
    fc.assert(
      fc.property(anyPath, decimals(0, 20), (pulleys, thickness) => {
        const wider = mapped(pulleys, (one) => ({ ...one, diameter: one.diameter + thickness }));
        expect(beltPath(pulleys, thickness).length).toBe(beltPath(wider).length);
      }),
    );
  });

  test('is the sum of runs and wraps that their own functions give', () => {
    fc.assert(
      fc.property(anyPath, (pulleys) => {
        const pair = (place: number) =>
          [pulleys.at(place), pulleys.at((place + 1) % pulleys.length)].flatMap((one) =>
            one === undefined ? [] : [one.x, one.y, one.diameter, one.turn],
          );
        const total = pulleys.reduce((sum, { diameter, turn }, place) => {
          const wrap = number(
            'WRAPANGLE',
            number('TANGENTANGLE', ...pair(place - 1)),
            number('TANGENTANGLE', ...pair(place)),
            turn,
          );
          return sum + number('TANGENTLENGTH', ...pair(place)) + (wrap * radian * diameter) / 2;
        }, 0);
        expect(close(total, beltPath(pulleys).length, 1e-9)).toBe(true);
      }),
    );
  });
});

describe('wraps', () => {
  test('add up to one full turn, counted with their sign', () => {
    fc.assert(
      fc.property(anyPath, (pulleys) => {
        const turned = beltPath(pulleys).pulleys.reduce(
          (sum, { wrap }, place) => sum + wrap * (pulleys[place]?.turn ?? 0),
          0,
        );
        expect(Math.abs(turned - 360)).toBeLessThan(1e-7);
      }),
    );
  });

  test('of a reverse bend are marked, and of no other pulley', () => {
    fc.assert(
      fc.property(withReverse, (pulleys) => {
        const reversed = (list: readonly PathPulley[]): string[] =>
          beltPath(list)
            .pulleys.filter(({ reverse }) => reverse)
            .map(({ name }) => name);
        expect(reversed(pulleys)).toEqual(['R']);
        expect(
          reversed(mapped(pulleys, (one) => ({ ...one, y: -one.y, turn: one.turn === 1 ? -1 : 1 }))),
          'mirrored',
        ).toEqual(['R']);
      }),
    );
  });
});

test('moving, turning, mirroring, scaling, another first pulley and the other way round change nothing', () => {
  fc.assert(
    fc.property(
      anyPath,
      decimals(-5000, 5000),
      decimals(0, 6),
      decimals(0.01, 50),
      fc.nat({ max: 7 }),
      (pulleys, step, angle, scale, first) => {
        const { length, pulleys: contacts } = beltPath(pulleys);
        const same = (changed: readonly PathPulley[], factor = 1): void => {
          expect(close(beltPath(changed).length, length * factor, 1e-9)).toBe(true);
          const wraps = new Map(beltPath(changed).pulleys.map(({ name, wrap }) => [name, wrap]));
          for (const { name, wrap } of contacts)
            expect(Math.abs((wraps.get(name) ?? Number.NaN) - wrap)).toBeLessThan(1e-6);
        };
        same(mapped(pulleys, (one) => ({ ...one, x: one.x + step, y: one.y - 2 * step })));
        same(
          mapped(pulleys, (one) => ({
            ...one,
            x: one.x * Math.cos(angle) - one.y * Math.sin(angle),
            y: one.x * Math.sin(angle) + one.y * Math.cos(angle),
          })),
        );
        same(mapped(pulleys, (one) => ({ ...one, y: -one.y, turn: one.turn === 1 ? -1 : 1 })));
        same(
          mapped(pulleys, (one) => ({ ...one, x: one.x * scale, y: one.y * scale, diameter: one.diameter * scale })),
          scale,
        );
        same([...pulleys.slice(first % pulleys.length), ...pulleys.slice(0, first % pulleys.length)]);
        same(mapped(pulleys.toReversed(), (one) => ({ ...one, turn: one.turn === 1 ? -1 : 1 })));
      },
    ),
  );
});

describe('what no belt can do is refused, naming the pulleys', () => {
  const head = pulley('head', 0, 0, 2);
  const tail = pulley('tail', 20, 0, 2);
  const message = (...pulleys: PathPulley[]): string => {
    try {
      beltPath(pulleys);
    } catch (error) {
      if (error instanceof ImpossiblePath) return error.message;
      throw error;
    }
    throw new Error('not refused');
  };

  test('one pulley', () => expect(message(head)).toMatch(/at least two pulleys; 1 is given/));
  test('pulleys that overlap', () =>
    expect(message(head, pulley('drive', 1.9, 0, 2), tail)).toMatch(/head and drive overlap/));
  test('pulleys that touch are allowed', () =>
    expect(beltPath([head, pulley('drive', 2, 0, 2)]).length).toBeCloseTo(4 + 2 * Math.PI, 12));
  test('pulleys that touch but for a rounding are allowed', () =>
    expect(beltPath([head, pulley('drive', 2 - 1e-13, 0, 2)]).length).toBeCloseTo(4 + 2 * Math.PI, 9));
  test('a run through a third pulley', () =>
    expect(message(head, tail, pulley('top', 10, 8, 2), pulley('stray', 10, -1, 1))).toMatch(
      /from head to tail would pass through the pulley stray/,
    ));
  test('a crossed belt', () =>
    expect(message(head, { ...tail, turn: -1 })).toMatch(
      /would cross itself: the run from head to tail and the run from tail to head/,
    ));
  test('a snub on the side that it does not reach', () =>
    expect(message(head, tail, pulley('snub', 10, 3, 2, -1))).toMatch(/would loop around the pulley snub/));
  test('a snub that misses the belt by a hair', () => {
    expect(message(head, tail, pulley('snub', 10, 2 + 1e-7, 2, -1))).toMatch(/would loop around the pulley snub/);
    expect(message(pulley('a', 3000, 0, 50), pulley('R', 0, 61.0005, 60, -1), pulley('b', -3000, 0, 74.001))).toMatch(
      /would loop around the pulley R/,
    );
    const hair = [
      pulley('a', 3000, 0, 74.001),
      pulley('R', 766.9184946599189, 708.1264375154523, 60, -1),
      pulley('b', -1499.9999999999993, 1299.038105676658, 50),
      pulley('c', -1500.0000000000014, -1299.0381056766578, 50),
    ];
    expect(message(...hair)).toMatch(/would loop around the pulley R/);
    expect(beltPath([head, tail, pulley('snub', 10, 2, 2, -1)]).length).toBeCloseTo(40 + 2 * Math.PI, 12);
  });
  test('runs that cross', () =>
    expect(message(pulley('a', 0, 0, 1), pulley('b', 20, 20, 1), pulley('c', 20, 0, 1), pulley('d', 0, 20, 1))).toMatch(
      /would cross itself|would loop around/,
    ));

  test('in a cell with the pulleys counted in the ranges', () => {
    const path = named('BELTPATH');
    const column = (...numbers: number[]) => numbers.map((value) => [value]);
    const refusals = [
      { args: [column(0), column(0), column(2), column(1)], says: 'BELTPATH: x must hold at least two pulleys' },
      {
        args: [column(0, 1), column(0, 0), column(2, 2), column(1, 1)],
        says: 'diameters must keep the pulleys apart: pulley 1 and pulley 2 overlap',
      },
      {
        args: [column(0, 20), column(0, 0), column(2, 2), column(1, -1)],
        says:
          'must not make the belt cross itself: the run from pulley 1 to pulley 2 and the run from pulley 2 to ' +
          'pulley 1 cross',
      },
      {
        args: [column(0, 20, 10), column(0, 0, 3), column(2, 2, 2), column(1, 1, -1)],
        says: 'it would loop around pulley 3',
      },
      {
        args: [column(0, 20, 10, 10), column(0, 0, 8, -1), column(2, 2, 2, 1), column(1, 1, 1, 1)],
        says: 'the run from pulley 1 to pulley 2 goes through pulley 4',
      },
      { args: [column(0, 20), column(0, 0), column(2, 2), column(1, 0)], says: 'turns must be 1 or -1' },
    ];
    for (const { args, says } of refusals) {
      const value = path.evaluate(args);
      expect(isFault(value) && value.code).toBe('#NUM!');
      expect(String(value)).toContain(says);
    }
    const shapes = path.evaluate([column(0, 20), column(0, 0), column(2), column(1, 1)]);
    expect(String(shapes)).toContain('#VALUE! BELTPATH: diameters must have the size of x');
  });
});

test('places along the loop follow one another, from the first contact on', () => {
  fc.assert(
    fc.property(anyPath, (pulleys) => {
      const path = beltPath(pulleys);
      const end = path.pulleys.reduce((at, { start, arc, run }) => {
        expect(close(start, at, 1e-12, 1)).toBe(true);
        return start + arc + run.length;
      }, 0);
      expect(close(end, path.length, 1e-12)).toBe(true);
    }),
  );
});
