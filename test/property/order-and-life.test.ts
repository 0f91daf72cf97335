import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { close, number, refusal } from '../evaluation.ts';
import { decimals } from './arguments.ts';

/** Belt to order, rolls and due dates against counting, adding up and going back the way. */

describe('belt to order', () => {
  const lengths = { loop: decimals(10000, 900000), consumption: decimals(0, 2000), trim: decimals(0, 300) };

  test('is the loop again when every joint has taken its belt and the tension has stretched the rest', () => {
    fc.assert(
      fc.property(
        lengths.loop,
        fc.integer({ min: 0, max: 6 }),
        lengths.consumption,
        lengths.trim,
        decimals(0, 0.04, 4),
        (loop, joints, consumption, trim, stretch) => {
          let belt = number('BELTTOORDER', loop, joints, consumption, trim, stretch);
          for (let joint = 0; joint < joints; joint += 1) belt -= consumption / 2 + trim + consumption / 2 + trim;
          expect(close(belt * (1 + stretch), loop, 1e-9)).toBe(true);
        },
      ),
    );
  });

  test('of an insert fills the gap that the old ends leave once they are cut', () => {
    fc.assert(
      fc.property(
        decimals(500, 20000),
        lengths.consumption,
        lengths.trim,
        decimals(0, 1000),
        (removed, consumption, trim, longer) => {
          const perEnd = consumption / 2 + trim;
          const gap = removed + 2 * perEnd;
          const insert = number('INSERTTOORDER', removed, consumption, trim, longer) - 2 * perEnd;
          expect(close(insert - gap, longer, 1e-9, removed)).toBe(true);
          expect(
            close(
              number('INSERTTOORDER', removed, consumption, trim),
              number('BELTTOORDER', removed, 2, consumption, trim),
              1e-12,
            ),
          ).toBe(true);
        },
      ),
    );
  });

  test('of an insert that shortens the belt by more than it brings is refused with the limit', () => {
    expect(String(refusal('=INSERTTOORDER(1000,500,100,-2400)'))).toBe(
      '#NUM! INSERTTOORDER: longer must leave an insert to order: -2400 or less takes all of it; -2400 was given',
    );
  });

  test('from rolls has as many joints as rolls joined one by one reach the loop', () => {
    fc.assert(
      fc.property(lengths.loop, decimals(20000, 300000), decimals(0, 3000), (loop, roll, joint) => {
        let [rolls, reached] = [0, 0];
        while (reached < loop) {
          rolls += 1;
          reached += roll - joint;
        }
        expect(number('JOINTSFORROLLS', loop, roll, joint)).toBe(rolls);
        expect(number('ROLLS', number('BELTTOORDER', loop, rolls, joint, 0), roll)).toBe(rolls);
      }),
    );
    expect(refusal('=JOINTSFORROLLS(50000,1300,1300)').message).toContain(
      'joint must be less than a roll (1300); 1300 was given',
    );
  });

  test('has a take-up travel whose two strands hold the stretch', () => {
    fc.assert(
      fc.property(lengths.loop, decimals(0, 0.04, 4), (loop, stretch) => {
        expect(close(2 * number('TAKEUPTRAVEL', loop, stretch), loop * stretch, 1e-12)).toBe(true);
      }),
    );
  });
});

describe('due dates', () => {
  const installed = fc.integer({ min: 40000, max: 50000 });
  const hoursPerYear = decimals(200, 8000, 0);

  test('come when the age reaches the life, in hours or in passes', () => {
    fc.assert(
      fc.property(
        installed,
        hoursPerYear,
        decimals(500, 30000, 0),
        decimals(1e4, 1e6, 0),
        decimals(5, 200, 1),
        (from, year, hours, passes, rate) => {
          const due = number('DUEDATE', from, year, hours, passes, rate);
          const age = number('JOINTAGE', from, due, year);
          const run = number('PASSES', rate, age);
          expect(close(age, hours, 1e-6) || close(run, passes, 1e-6)).toBe(true);
          expect(age).toBeLessThanOrEqual(hours * (1 + 1e-6));
          expect(run).toBeLessThanOrEqual(passes * (1 + 1e-6));
        },
      ),
    );
  });

  test('do not count a limit that is blank or left out', () => {
    fc.assert(
      fc.property(installed, hoursPerYear, decimals(500, 30000, 0), decimals(5, 200, 1), (from, year, hours, rate) => {
        const due = number('DUEDATE', from, year, hours);
        expect(number('DUEDATE', from, year, hours, null, rate)).toBe(due);
        expect(close(number('DUEDATE', from, year, null, hours * rate, rate), due, 1e-12)).toBe(true);
        expect(close(number('RETIGHTENDATE', from, year, hours), due, 1e-12)).toBe(true);
      }),
    );
  });

  test('are refused without any limit, or with passes that no hour brings', () => {
    expect(String(refusal('=DUEDATE(45000,3000)'))).toBe(
      '#VALUE! DUEDATE: lifeHours must be given if a life in passes is not; nothing (an empty cell) was given',
    );
    expect(String(refusal('=DUEDATE(45000,3000,12000,100000)'))).toBe(
      '#VALUE! DUEDATE: passesPerHour must be given with a life in passes; nothing (an empty cell) was given',
    );
    expect(refusal('=JOINTAGE(45000,44999,3000)').message).toContain(
      'day must not be before the joint was installed (45000); 44999 was given',
    );
  });
});

describe('slack', () => {
  test('beyond the table of screws holds its last factor, and below it there is none', () => {
    expect(number('SCREWFACTOR', 900, 'bare')).toBe(0.5);
    expect(refusal('=SCREWFACTOR(170,"bare")').message).toContain(
      'wrap must be at least 180; 170 was given. No figure is known for a smaller wrap',
    );
  });
  test('with a screw is more than the limit of slip at the handbook frictions, 0.25 bare and 0.35 lagged', () => {
    fc.assert(
      fc.property(decimals(180, 420), (wrap) => {
        expect(number('SCREWFACTOR', wrap, 'bare')).toBeGreaterThan(number('WRAPFACTOR', wrap, 0.25));
        expect(number('SCREWFACTOR', wrap, 'lagged')).toBeGreaterThan(number('WRAPFACTOR', wrap, 0.35));
      }),
    );
  });
  test('against sag is where a cable of that tension hangs by the share that is allowed', () => {
    fc.assert(
      fc.property(decimals(0.5, 5), decimals(1, 300), decimals(0.005, 0.02, 4), (spacing, mass, sag) => {
        // A parabola of curvature weight over tension, measured at its middle.
        const tension = number('SAGTENSION', spacing, mass, 0, sag);
        const depth = (((mass * 9.81) / tension) * (spacing / 2) ** 2) / 2;
        expect(close(depth, sag * spacing, 1e-9)).toBe(true);
      }),
    );
  });
  test('a sag in per cent is refused with advice', () => {
    expect(refusal('=SAGTENSION(1.2,15,105,1)').message).toContain(
      'sag must be more than 0 and at most 0.1; 1 was given. A sag of 1 per cent is 0.01',
    );
  });
});

describe('a carcass', () => {
  test('of steel cord needs no plies and rounds up to the next belt of the list; fabric needs them', () => {
    expect(number('CARCASSTHICKNESS', 'st', 1000, null)).toBe(4.1);
    expect(number('CARCASSTHICKNESS', 'St', 2600)).toBe(8.1);
    expect(refusal('=CARCASSTHICKNESS("St",5401)').message).toContain('strength must be at most 5400 N/mm');
    expect(String(refusal('=CARCASSTHICKNESS("EP",400)'))).toBe(
      '#VALUE! CARCASSTHICKNESS: plies must be given for a fabric carcass; nothing (an empty cell) was given',
    );
    expect(refusal('=CARCASSTHICKNESS("B",200,4)').code).toBe('#VALUE!');
  });
  test('of fabric is as thick as plies of its strength laid on one another', () => {
    fc.assert(
      fc.property(decimals(100, 2500, 0), fc.integer({ min: 1, max: 8 }), (strength, plies) => {
        const ply = number('CARCASSTHICKNESS', 'EP', strength / plies, 1);
        expect(close(number('CARCASSTHICKNESS', 'EP', strength, plies), plies * ply, 1e-12)).toBe(true);
      }),
    );
  });
});
