import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Drive,
  type LoadCase,
  type Loop,
  type Part,
  type Run,
  simpleLoop,
  type SimpleLoop,
  usualCases,
} from './loop.ts';
import { type CaseTensions, loopTensions } from './loop-tensions.ts';
import { close, number } from '../evaluation.ts';
import { decimals } from '../property/arguments.ts';

/** Tensions around the loop: closure, energy, limits, other ways of computing, and what every need asks for. */

const isRun = (part: Part): part is Run => part.part === 'run';
const isDrive = (part: Part): part is Drive => part.part === 'drive';
const total = (numbers: readonly number[]): number => numbers.reduce((sum, value) => sum + value, 0);
const required = <Item>(item: Item | undefined): Item => {
  if (item === undefined) throw new Error('nothing is there');
  return item;
};

const simple: fc.Arbitrary<SimpleLoop> = fc
  .record({
    length: decimals(20, 2500, 1),
    slope: decimals(-0.3, 0.3),
    carryRollers: decimals(5, 40, 1),
    returnRollers: decimals(2, 15, 1),
    carrySpacing: decimals(0.8, 2, 1),
    returnSpacing: decimals(2, 4, 1),
    slackFactor: decimals(0.2, 1.2),
    driveAt: fc.constantFrom<'head' | 'tail'>('head', 'tail'),
    takeUpAt: fc.oneof(decimals(0, 1), fc.constantFrom(0, 1)),
    beltMass: decimals(3, 60, 1),
    speed: decimals(0.5, 6, 2),
    gravity: fc.constant(9.81),
    factor: decimals(1, 2),
    sag: decimals(0.005, 0.02),
    takeUp: fc.constantFrom<'automatic' | 'screw'>('automatic', 'screw'),
  })
  .map(({ slope, ...rest }) => ({ ...rest, lift: slope * rest.length }));

/**
 * A belt over hill and dale: carrying runs, the same way back, drives at head and tail, the take-up anywhere behind.
 */
const hilly: fc.Arbitrary<Loop> = fc
  .record({
    legs: fc.array(
      fc.record({
        length: decimals(10, 500, 1),
        slope: decimals(-0.3, 0.3),
        rollers: decimals(5, 40, 1),
        resistance: fc.option(decimals(0, 2000, 0), { nil: undefined }),
      }),
      { minLength: 1, maxLength: 4 },
    ),
    headShare: fc.constantFrom(1, 0.5, 2 / 3),
    slackFactor: decimals(0.2, 1.2),
    takeUpPlace: fc.nat({ max: 4 }),
    loop: simple,
  })
  .map(({ legs, headShare, slackFactor, takeUpPlace, loop: { beltMass, speed, gravity, factor, sag, takeUp } }) => {
    const carry = legs.map(({ length, slope, rollers, resistance }, place): Run => ({
      part: 'run',
      name: `carry ${place + 1}`,
      carries: true,
      length,
      lift: slope * length,
      rollers,
      spacing: 1.2,
      ...(resistance === undefined ? {} : { resistance }),
    }));
    const back = legs
      .toReversed()
      .map(({ length, slope, rollers }, place): Part => ({
        part: 'run',
        name: `return ${place + 1}`,
        carries: false,
        length,
        lift: -slope * length,
        rollers: rollers / 3,
        spacing: 3,
      }));
    const head: Part = { part: 'drive', name: 'head', slackFactor, share: headShare };
    const tail: Part =
      headShare === 1
        ? { part: 'pulley', name: 'tail' }
        : { part: 'drive', name: 'tail', slackFactor: slackFactor * 1.5, share: 1 - headShare };
    const place = Math.min(takeUpPlace, back.length);
    return {
      beltMass,
      speed,
      gravity,
      factor,
      sag,
      takeUp,
      parts: [tail, ...carry, head, ...back.slice(0, place), { part: 'takeUp', name: 'take-up' }, ...back.slice(place)],
    };
  });

const loops: fc.Arbitrary<Loop> = fc.oneof(simple.map(simpleLoop), hilly);
const cases: fc.Arbitrary<LoadCase[]> = fc
  .record({
    loadMass: decimals(0, 300, 1),
    friction: decimals(0.012, 0.035),
    startFactor: decimals(1, 1.8),
    easyFriction: fc.option(fc.constant(0.012), { nil: undefined }),
  })
  .map(({ easyFriction, ...rest }) => usualCases({ ...rest, ...(easyFriction === undefined ? {} : { easyFriction }) }));

/** The size of the tensions, against which a difference is judged. */
const sizeOf = ({ stations, pull }: CaseTensions): number =>
  Math.max(Math.abs(pull), ...stations.map(({ entering, leaving }) => Math.max(Math.abs(entering), Math.abs(leaving))));

const loadOn = (run: Run, { loadMass, loaded }: LoadCase): number =>
  run.carries && (loaded?.includes(run.name) ?? true) ? loadMass : 0;

function each(check: (loop: Loop, loadCase: LoadCase, found: CaseTensions) => void): void {
  fc.assert(
    fc.property(loops, cases, (loop, list) => {
      const found = loopTensions(loop, list);
      list.forEach((loadCase, place) => check(loop, loadCase, required(found.cases[place])));
    }),
  );
}

describe('around the loop', () => {
  test('tensions close to 1e-9, point by point and after the whole round', () => {
    each((_loop, _case, found) => {
      const size = sizeOf(found);
      found.stations.forEach((station, place) => {
        const next = required(found.stations[(place + 1) % found.stations.length]);
        expect(Math.abs(station.leaving - next.entering)).toBeLessThanOrEqual(1e-9 * size);
        if (place > 0) expect(station.from).toBe(required(found.stations[place - 1]).to);
      });
    });
  });

  test('each part adds what a walk in small steps along it adds', () => {
    each((loop, loadCase, { stations, pull }) => {
      const steady = pull / loadCase.startFactor;
      const moved = total(
        loop.parts.filter(isRun).map((run) => run.length * (run.rollers + loop.beltMass + loadOn(run, loadCase))),
      );
      const acceleration = (pull - steady) / moved;
      for (const run of loop.parts.filter(isRun)) {
        const steps = 50;
        const step = run.length / steps;
        const angle = Math.asin(run.lift / run.length);
        let tension = 0;
        for (let index = 0; index < steps; index += 1) {
          const carried = (loop.beltMass + loadOn(run, loadCase)) * step;
          const weight = carried * loop.gravity;
          const turning = run.rollers * step;
          const rolling = loadCase.moving
            ? loadCase.friction * loop.factor * (weight * Math.cos(angle) + turning * loop.gravity)
            : 0;
          tension += rolling + weight * Math.sin(angle) + (carried + turning) * acceleration;
        }
        if (loadCase.moving) tension += run.resistance ?? 0;
        const station = required(stations.find(({ name }) => name === run.name));
        expect(
          close(
            station.leaving - station.entering,
            tension,
            1e-9,
            Math.max(Math.abs(pull), Math.abs(station.entering)),
          ),
        ).toBe(true);
      }
    });
  });
});

describe('energy', () => {
  test('power in is friction and lift and what goes into motion', () => {
    each((loop, loadCase, { pull, power }) => {
      if (!loadCase.moving) {
        expect(power).toBe(0);
        return;
      }
      // Independent of the walk: every roller and every kilogram on its slope rubs, the load is lifted at its rate, the
      // belt in all not at all.
      const rubbed = total(
        loop.parts.map((part) => {
          if (!isRun(part)) return 0;
          const across = Math.sqrt(part.length ** 2 - part.lift ** 2);
          const weight =
            (part.rollers * part.length + (loop.beltMass + loadOn(part, loadCase)) * across) * loop.gravity;
          return (loadCase.friction * loop.factor * weight + (part.resistance ?? 0)) * loop.speed;
        }),
      );
      const rate = (run: Run): number => loadOn(run, loadCase) * loop.speed;
      const lifted = total(loop.parts.filter(isRun).map((run) => rate(run) * loop.gravity * run.lift));
      const size = Math.max(Math.abs(rubbed), Math.abs(lifted), Math.abs(power));
      expect(close(power, (rubbed + lifted) * loadCase.startFactor, 1e-9, size)).toBe(true);
      expect(close(power, pull * loop.speed, 1e-12, size)).toBe(true);
    });
  });

  test('the pull is the sum of its parts, and that of the drives', () => {
    each((loop, loadCase, { pull, pullParts, stations }) => {
      expect(
        close(total(Object.values(pullParts)), pull, 1e-9, Math.max(...Object.values(pullParts).map(Math.abs))),
      ).toBe(true);
      const given = total(
        loop.parts.filter(isDrive).map(({ name }) => {
          const station = required(stations.find((one) => one.name === name));
          return station.entering - station.leaving;
        }),
      );
      expect(close(given, pull, 1e-9, Math.max(...stations.map(({ entering }) => Math.abs(entering))))).toBe(true);
      if (!loadCase.moving)
        expect([pullParts.main, pullParts.secondary, pullParts.special, pullParts.inertia].map(Math.abs)).toEqual([
          0, 0, 0, 0,
        ]);
    });
  });

  test('the pull is BELTPULL, the length factor being the factor', () => {
    fc.assert(
      fc.property(simple, decimals(0, 300, 1), decimals(0.012, 0.035), (belt, loadMass, friction) => {
        const { pull } = required(
          loopTensions(simpleLoop(belt), [{ name: 'full', loadMass, friction, startFactor: 1, moving: true }]).cases[0],
        );
        const { length, lift, carryRollers, returnRollers, beltMass, factor, gravity } = belt;
        const other = number(
          'BELTPULL',
          length,
          lift,
          carryRollers,
          returnRollers,
          beltMass,
          loadMass,
          friction,
          factor,
          gravity,
        );
        expect(close(pull, other, 1e-9, Math.abs(loadMass * lift * gravity))).toBe(true);
      }),
    );
  });
});

describe('limits', () => {
  const steady = (loadMass: number, friction: number): LoadCase => ({
    name: 'full',
    loadMass,
    friction,
    startFactor: 1,
    moving: true,
  });
  const pullOf = (belt: SimpleLoop, loadCase: LoadCase): number =>
    required(loopTensions(simpleLoop(belt), [loadCase]).cases[0]).pull;

  test('without friction only the lift is left', () => {
    fc.assert(
      fc.property(simple, decimals(1, 300, 1), (belt, loadMass) => {
        const lift = loadMass * belt.lift * belt.gravity;
        expect(
          close(pullOf(belt, steady(loadMass, 0)), lift, 1e-9, belt.beltMass * Math.abs(belt.lift) * belt.gravity),
        ).toBe(true);
        const [far, near] = [1e-4, 1e-8].map((friction) => Math.abs(pullOf(belt, steady(loadMass, friction)) - lift));
        expect(required(near)).toBeLessThan(required(far) * 1.01e-4 + 1e-6);
      }),
    );
  });

  test('without lift only friction is left', () => {
    fc.assert(
      fc.property(simple, decimals(1, 300, 1), decimals(0.012, 0.035), (belt, loadMass, friction) => {
        const level = { ...belt, lift: 0 };
        const rubbed =
          friction *
          belt.factor *
          belt.length *
          belt.gravity *
          (belt.carryRollers + belt.returnRollers + 2 * belt.beltMass + loadMass);
        expect(close(pullOf(level, steady(loadMass, friction)), rubbed, 1e-9)).toBe(true);
        const [up, down] = [1e-6, -1e-6].map((lift) => pullOf({ ...belt, lift }, steady(loadMass, friction)));
        expect(close((required(up) + required(down)) / 2, rubbed, 1e-9)).toBe(true);
      }),
    );
  });

  test('a belt at rest is held by the weight of its load alone', () => {
    each((loop, loadCase, { pull }) => {
      if (loadCase.moving) return;
      const held = total(loop.parts.filter(isRun).map((run) => loadOn(run, loadCase) * loop.gravity * run.lift));
      const weights = total(
        loop.parts
          .filter(isRun)
          .map((run) => Math.abs((loop.beltMass + loadOn(run, loadCase)) * loop.gravity * run.lift)),
      );
      expect(close(pull, held, 1e-9, weights)).toBe(true);
    });
  });

  test('starting takes the start-up factor of the steady pull', () => {
    fc.assert(
      fc.property(loops, decimals(0, 300, 1), decimals(1, 1.8), (loop, loadMass, startFactor) => {
        const { cases: found } = loopTensions(loop, [
          steady(loadMass, 0.02),
          { ...steady(loadMass, 0.02), startFactor },
        ]);
        const [running, starting] = [required(found[0]), required(found[1])];
        expect(close(starting.pull, running.pull * startFactor, 1e-9, sizeOf(running))).toBe(true);
      }),
    );
  });
});

describe('speeding up and slowing down', () => {
  test('takes all that moves times the acceleration, where the factor gives less, each run by its masses', () => {
    fc.assert(
      fc.property(
        loops,
        decimals(0, 300, 1),
        decimals(1, 1.8),
        decimals(-0.3, 0.3),
        decimals(0, 0.3),
        (loop, loadMass, startFactor, acceleration, otherMassShare) => {
          const running: LoadCase = { name: 'full', loadMass, friction: 0.02, startFactor: 1, moving: true };
          const [steady, changing] = loopTensions({ ...loop, otherMassShare }, [
            running,
            { ...running, startFactor, acceleration },
          ]).cases.map((found) => found);
          const [one, other] = [required(steady), required(changing)];
          const massOf = (run: Run): number => run.length * (run.rollers + loop.beltMass + loadOn(run, running));
          const runs = loop.parts.filter(isRun);
          const [byFactor, byMass] = [
            one.pull * startFactor,
            one.pull + total(runs.map(massOf)) * (1 + otherMassShare) * acceleration,
          ];
          const asked = acceleration < 0 ? Math.min(byFactor, byMass) : Math.max(byFactor, byMass);
          const size = sizeOf(one) + sizeOf(other);
          expect(close(other.pull, asked, 1e-9, size)).toBe(true);
          for (const run of runs) {
            const [before, after] = [one, other].map(({ stations }) => {
              const { entering, leaving } = required(stations.find(({ name }) => name === run.name));
              return leaving - entering;
            });
            const share = massOf(run) / total(runs.map(massOf));
            expect(close(required(after) - required(before), (asked - one.pull) * share, 1e-9, size)).toBe(true);
          }
        },
      ),
    );
  });
});

describe('what is asked for', () => {
  test('every drive grips on its slack side, and no run sags more than allowed', () => {
    each((loop, loadCase, found) => {
      const hair = 1e-9 * sizeOf(found);
      for (const part of loop.parts) {
        const { entering, leaving } = required(found.stations.find(({ name }) => name === part.name));
        if (isDrive(part)) {
          const [slack, tight] = found.pull < 0 ? [entering, leaving] : [leaving, entering];
          expect(tight).toBeGreaterThanOrEqual(slack - hair);
          expect(slack).toBeGreaterThanOrEqual((tight - slack) * part.slackFactor - hair);
        }
        if (isRun(part) && part.spacing !== undefined) {
          const least = number(
            'SAGTENSION',
            part.spacing,
            loop.beltMass,
            loadOn(part, loadCase),
            loop.sag,
            loop.gravity,
          );
          expect(Math.min(entering, leaving)).toBeGreaterThanOrEqual(least - hair);
        }
      }
    });
  });

  test('one need of the case that sets the take-up is just met, so less tension would not do', () => {
    fc.assert(
      fc.property(loops, cases, (loop, list) => {
        const found = loopTensions(loop, list);
        const setting = required(found.cases.find(({ loadCase }) => loadCase === found.setBy));
        const station = required(setting.stations.find(({ name }) => name === setting.need.name));
        expect(close(station[setting.need.side], setting.need.tension, 1e-9, sizeOf(setting))).toBe(true);
        expect(found.greatest.tension).toBe(Math.max(...found.cases.map(({ greatest }) => greatest.tension)));
        for (const one of found.cases) {
          const tensions = one.stations.flatMap(({ entering, leaving }) => [entering, leaving]);
          expect([one.greatest.tension, one.least.tension]).toEqual([Math.max(...tensions), Math.min(...tensions)]);
        }
      }),
    );
  });

  test('an automatic take-up keeps its tension, a screw the mean tension and so the length', () => {
    fc.assert(
      fc.property(loops, cases, (loop, list) => {
        const found = loopTensions(loop, list);
        for (const one of found.cases) {
          const stretched =
            total(one.stations.map(({ entering, leaving, from, to }) => ((entering + leaving) / 2) * (to - from))) /
            required(one.stations.at(-1)).to;
          expect(close(one.meanTension, stretched, 1e-12, sizeOf(one))).toBe(true);
          expect(
            close(loop.takeUp === 'automatic' ? one.takeUpTension : one.meanTension, found.setting, 1e-9, sizeOf(one)),
          ).toBe(true);
        }
      }),
    );
  });

  test('a braked belt is slack where it comes to its drive and tight where it leaves', () => {
    const belt: SimpleLoop = {
      length: 300,
      lift: -60,
      carryRollers: 15,
      returnRollers: 6,
      slackFactor: 0.4,
      driveAt: 'head',
      takeUpAt: 0,
      beltMass: 15,
      speed: 2,
      gravity: 9.81,
      factor: 1.31,
      sag: 0.01,
      takeUp: 'automatic',
    };
    const full = required(
      loopTensions(simpleLoop(belt), [{ name: 'full', loadMass: 110, friction: 0.02, startFactor: 1, moving: true }])
        .cases[0],
    );
    const head = required(full.stations.find(({ name }) => name === 'head'));
    expect(full.pull).toBeLessThan(-30000);
    expect(head.entering).toBeCloseTo(-full.pull * 0.4, 6);
    expect(head.leaving - head.entering).toBeCloseTo(-full.pull, 6);
    expect(full.need).toMatchObject({ name: 'head', side: 'entering', reason: 'grip' });
  });
});

describe('what changes nothing', () => {
  test('where the take-up parts the return run, as far as the other points are concerned, in one case of load', () => {
    fc.assert(
      fc.property(simple, decimals(0, 1), decimals(0, 300, 1), (belt, takeUpAt, loadMass) => {
        const full: LoadCase = { name: 'full', loadMass, friction: 0.02, startFactor: 1.3, moving: true };
        const [one, other] = [belt, { ...belt, takeUpAt }].map((which) =>
          required(loopTensions(simpleLoop(which), [full]).cases[0]),
        );
        for (const name of ['tail', 'carry', 'head']) {
          const [here, there] = [one, other].map((found) =>
            required(required(found).stations.find((station) => station.name === name)),
          );
          expect(close(required(here).leaving, required(there).leaving, 1e-9, sizeOf(required(one)))).toBe(true);
        }
      }),
    );
  });

  test('another first part', () => {
    fc.assert(
      fc.property(loops, cases, fc.nat({ max: 8 }), (loop, list, first) => {
        const place = first % loop.parts.length;
        const [one, other] = [
          loop,
          { ...loop, parts: [...loop.parts.slice(place), ...loop.parts.slice(0, place)] },
        ].map((which) => loopTensions(which, list));
        required(one).cases.forEach((found, index) => {
          for (const station of found.stations) {
            const same = required(
              required(required(other).cases[index]).stations.find(({ name }) => name === station.name),
            );
            expect(close(station.leaving, same.leaving, 1e-9, sizeOf(found))).toBe(true);
          }
        });
      }),
    );
  });

  test('the units: metres, kilograms and newtons or feet, pounds and pounds-force', () => {
    const [foot, pound, poundForce] = [0.3048, 0.45359237, 4.4482216152605];
    fc.assert(
      fc.property(loops, cases, (loop, list) => {
        const metric: Loop = { ...loop, gravity: poundForce / pound };
        const perFoot = foot / pound;
        const us: Loop = {
          ...loop,
          gravity: 1,
          beltMass: loop.beltMass * perFoot,
          speed: loop.speed / foot,
          parts: loop.parts.map((part) => ({
            ...part,
            ...(isRun(part)
              ? {
                  length: part.length / foot,
                  lift: part.lift / foot,
                  rollers: part.rollers * perFoot,
                  ...(part.spacing === undefined ? {} : { spacing: part.spacing / foot }),
                }
              : {}),
            ...('resistance' in part && part.resistance !== undefined
              ? { resistance: part.resistance / poundForce }
              : {}),
          })),
        };
        const [inMetric, inUs] = [
          loopTensions(metric, list),
          loopTensions(
            us,
            list.map((one) => ({ ...one, loadMass: one.loadMass * perFoot })),
          ),
        ];
        inMetric.cases.forEach((one, place) => {
          const other = required(inUs.cases[place]);
          expect(close(one.greatest.tension, other.greatest.tension * poundForce, 1e-9, sizeOf(one))).toBe(true);
          expect(close(one.power, other.power * poundForce * foot, 1e-9, sizeOf(one) * loop.speed)).toBe(true);
        });
      }),
    );
  });
});
