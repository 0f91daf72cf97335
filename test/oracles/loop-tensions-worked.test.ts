import { describe, expect, test } from 'vitest';
import { Refusal } from '../../src/formula/define.ts';
import { type Drive, type LoadCase, type Loop, type Part, type Run, simpleLoop, type SimpleLoop } from './loop.ts';
import { loopTensions } from './loop-tensions.ts';
import { number } from '../evaluation.ts';

/** Tensions around the loop: worked and published examples, and what is refused. */

const required = <Item>(item: Item | undefined): Item => {
  if (item === undefined) throw new Error('nothing is there');
  return item;
};

describe('worked by hand', () => {
  // 300 m, 15 m lift, 800 t/h at 2 m/s, belt 15, rollers 14.8 and 6.5 kg/m, friction 0.022, length factor 1.31; drive
  // 0.35 and 210 degrees.
  const belt: SimpleLoop = {
    length: 300,
    lift: 15,
    carryRollers: 14.8,
    returnRollers: 6.5,
    carrySpacing: 1.2,
    returnSpacing: 3,
    slackFactor: number('WRAPFACTOR', 210, 0.35),
    driveAt: 'head',
    takeUpAt: 0,
    beltMass: 15,
    speed: 2,
    gravity: 9.81,
    factor: 1.31,
    sag: 0.02,
    takeUp: 'automatic',
  };
  const full: LoadCase = { name: 'full', loadMass: 800 / (3.6 * 2), friction: 0.022, startFactor: 1, moving: true };

  test('the conveyor of 300 m, where grip governs', () => {
    const found = required(loopTensions(simpleLoop(belt), [full]).cases[0]);
    const head = required(found.stations.find(({ name }) => name === 'head'));
    expect(Math.abs(found.pullParts.main - 10504.04)).toBeLessThanOrEqual(0.005);
    expect(Math.abs(found.pull - 30110.3)).toBeLessThanOrEqual(0.005);
    expect(Math.abs(found.power / 1000 - 60.2206)).toBeLessThanOrEqual(0.00005);
    expect(Math.abs(head.leaving - 11550.74)).toBeLessThanOrEqual(0.005);
    expect(Math.abs(head.entering - 41661.03)).toBeLessThanOrEqual(0.005);
    expect(found.greatest).toEqual({ tension: head.entering, name: 'carry', side: 'leaving' });
    expect(found.need).toMatchObject({ name: 'head', side: 'leaving', reason: 'grip' });
  });

  test('the same with a sag of 1 per cent, where the sag at the loading point governs', () => {
    const found = required(loopTensions(simpleLoop({ ...belt, sag: 0.01 }), [full]).cases[0]);
    // (15 + 111.111) kg/m of 9.81 N/kg over 1.2 m, by 8 times 0.01: 18557.25 N at the tail.
    const tail = required(found.stations.find(({ name }) => name === 'carry')).entering;
    expect(Math.abs(tail - 18557.25)).toBeLessThanOrEqual(0.005);
    expect(found.need).toMatchObject({ name: 'carry', side: 'entering', reason: 'sag' });
    // Return run: 0.022 * 1.31 * 300 * 9.81 * (6.5 + 15 * 0.998749) - 15 * 9.81 * 15 = -385.27 N from head to tail.
    const head = required(found.stations.find(({ name }) => name === 'head'));
    expect(Math.abs(head.leaving - (18557.25 + 385.27))).toBeLessThanOrEqual(0.01);
  });

  test('a crossed flat belt, a worked example from memory: one that drives a pulley with 2500 N', () => {
    // 50 kW at 20 m/s, friction 0.4 over 3.34886 rad; the example adds 1.95 kg/m times the speed squared, 780 N, to
    // both sides.
    const loop: Loop = {
      beltMass: 0,
      speed: 20,
      gravity: 9.81,
      factor: 1,
      sag: 0.01,
      takeUp: 'screw',
      parts: [
        { part: 'drive', name: 'small pulley', slackFactor: number('WRAPFACTOR', (3.34886 * 180) / Math.PI, 0.4) },
        { part: 'run', name: 'slack side', carries: false, length: 5.8, lift: 0, rollers: 0 },
        { part: 'pulley', name: 'large pulley', resistance: 2500 },
        { part: 'run', name: 'tight side', carries: false, length: 5.8, lift: 0, rollers: 0 },
        { part: 'takeUp', name: 'shaft' },
      ],
    };
    const found = required(loopTensions(loop, [{ ...full, loadMass: 0 }]).cases[0]);
    expect(found.power).toBe(50000);
    expect(Math.abs(found.least.tension + 780 - 1667.4)).toBeLessThanOrEqual(0.05);
    expect(Math.abs(found.greatest.tension + 780 - 4167.4)).toBeLessThanOrEqual(0.05);
  });
});

describe('what is impossible is refused with its name', () => {
  const run: Run = { part: 'run', name: 'there', carries: true, length: 100, lift: 5, rollers: 10 };
  const drive: Drive = { part: 'drive', name: 'head', slackFactor: 0.5 };
  const takeUp: Part = { part: 'takeUp', name: 'take-up' };
  const back: Run = { ...run, name: 'back', carries: false, lift: -5 };
  const right: Loop = {
    beltMass: 10,
    speed: 2,
    gravity: 9.81,
    factor: 1.2,
    sag: 0.01,
    takeUp: 'screw',
    parts: [run, drive, takeUp, back],
  };
  const full: LoadCase = { name: 'full', loadMass: 50, friction: 0.02, startFactor: 1, moving: true };

  test('as it stands it is taken', () => expect(() => loopTensions(right, [full])).not.toThrow());
  test.each<readonly [string, Loop, LoadCase[], string, RegExp]>([
    ['no runs', { ...right, parts: [drive, takeUp] }, [full], 'parts', /at least one run/],
    [
      'an open height',
      { ...right, parts: [run, drive, takeUp, { ...back, lift: -4 }] },
      [full],
      'parts',
      /come back to the height.*add up to 1, not 0/,
    ],
    [
      'a run steeper than straight up',
      { ...right, parts: [{ ...run, lift: 101 }, drive, takeUp, { ...back, lift: -101, length: 101 }] },
      [full],
      'there',
      /lift by more than its length/,
    ],
    [
      'no length',
      { ...right, parts: [{ ...run, length: 0, lift: 0 }, drive, takeUp, { ...back, lift: 0 }] },
      [full],
      'there',
      /length of more than 0/,
    ],
    [
      'two of a name',
      { ...right, parts: [run, drive, takeUp, { ...back, name: 'there' }] },
      [full],
      'parts',
      /name of its own/,
    ],
    ['no take-up', { ...right, parts: [run, drive, back] }, [full], 'parts', /one take-up/],
    ['no drive', { ...right, parts: [run, takeUp, back] }, [full], 'parts', /at least one drive/],
    [
      'shares that miss',
      { ...right, parts: [run, { ...drive, share: 0.6 }, takeUp, back] },
      [full],
      'parts',
      /shares of the pull add up to 1; they add up to 0.6/,
    ],
    [
      'no grip',
      { ...right, parts: [run, { ...drive, slackFactor: 0 }, takeUp, back] },
      [full],
      'head',
      /slack factor of more than 0/,
    ],
    ['a sag in per cent', { ...right, sag: 1 }, [full], 'sag', /at most 0.1/],
    ['a length factor below 1', { ...right, factor: 0.9 }, [full], 'factor', /at least 1/],
    ['no case', right, [], 'cases', /at least one case/],
    ['a start-up factor below 1', right, [{ ...full, startFactor: 0.9 }], 'full', /start-up factor of at least 1/],
    ['a negative load', right, [{ ...full, loadMass: -1 }], 'full', /load of at least 0/],
    ['a load on the return run', right, [{ ...full, loaded: ['back'] }], 'full', /"back" is none/],
    [
      'a distance of rollers of 0',
      { ...right, parts: [{ ...run, spacing: 0 }, drive, takeUp, back] },
      [full],
      'there',
      /distance of rollers/,
    ],
  ])('%s', (_what, loop, list, argument, message) => {
    const attempt = (): unknown => loopTensions(loop, list);
    expect(attempt).toThrow(message);
    try {
      attempt();
    } catch (error) {
      expect(error instanceof Refusal && error.argument).toBe(argument);
    }
  });

  test('a take-up beyond the return run', () => {
    const belt: SimpleLoop = {
      length: 100,
      lift: 0,
      carryRollers: 1,
      returnRollers: 1,
      slackFactor: 1,
      driveAt: 'head',
      takeUpAt: 1.2,
      beltMass: 1,
      speed: 1,
      gravity: 9.81,
      factor: 1,
      sag: 0.01,
      takeUp: 'screw',
    };
    expect(() => simpleLoop(belt)).toThrow(/from 0 at the head to 1 at the tail; 1.2 is given/);
  });

  test('a load on part of the belt counts there alone', () => {
    const hill: Loop = {
      ...right,
      parts: [run, { ...run, name: 'down', lift: -5 }, drive, takeUp, { ...back, lift: 0 }],
    };
    const [all, up] = loopTensions(hill, [full, { ...full, name: 'uphill alone', loaded: ['there'] }]).cases;
    expect(all?.pullParts.lift).toBeCloseTo(0, 9);
    expect(up?.pullParts.lift).toBeCloseTo(50 * 9.81 * 5, 9);
  });
});
