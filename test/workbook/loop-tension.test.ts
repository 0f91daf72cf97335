import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { BeltHeader, ValueName } from '../../sheets/index.ts';
import { recordFindings } from '../../src/checks/findings.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { type Drive, type Loop, type Part, usualCases } from '../oracles/loop.ts';
import { loopTensions } from '../oracles/loop-tensions.ts';
import { bookOf, type Cells, soundBelt } from './books.ts';

/** Tensions around the loop in the Belts sheet: drives and take-up anywhere, masses, a weight that hangs. */

const loaded: Cells = { ...soundBelt, Capacity: 300, Power: null };
const belt = (changed: Cells, named: Cells = {}): Workbook =>
  new Workbook(bookOf({ belts: [{ ...loaded, ...changed }], named }));
const read = (book: Workbook, header: BeltHeader): unknown => book.read('Belts', 0, header);
const number = (book: Workbook, header: BeltHeader): number => Number(read(book, header));
const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

/** A drive or take-up on the return run, by its share of the way from head to tail. */
interface Stop {
  readonly at: number;
  readonly part: Part;
}

/** The parts of a loop with what stands along its return run; a drive at the tail comes behind all of them. */
function placedParts(
  { length, lift, carryRollers, returnRollers }: Readonly<Record<string, number>>,
  drives: readonly Drive[],
  takeUpAt: number,
): Part[] {
  const [span = 0, rise = 0] = [length, lift];
  const places: Readonly<Record<string, number>> = { head: 0, tail: 1 };
  const at = (name: string): number => places[name] ?? Number(name);
  const stops: Stop[] = [
    ...drives
      .filter(({ name }) => name !== 'head' && name !== 'tail')
      .map((part): Stop => ({ at: at(part.name), part })),
    { at: takeUpAt, part: { part: 'takeUp' as const, name: 'take-up' } },
  ].toSorted((one, other) => one.at - other.at);
  const end = (name: string): Part => drives.find((drive) => drive.name === name) ?? { part: 'pulley', name };
  const back: Part[] = [];
  let from = 0;
  for (const { at: to, part } of [...stops, { at: 1, part: undefined }]) {
    if (to > from)
      back.push({
        part: 'run',
        name: `return from ${from}`,
        carries: false,
        length: span * (to - from),
        lift: -rise * (to - from),
        rollers: returnRollers ?? 0,
        spacing: 3,
      });
    if (part !== undefined) back.push(part);
    from = to;
  }
  const carry: Part = {
    part: 'run',
    name: 'carry',
    carries: true,
    length: span,
    lift: rise,
    rollers: carryRollers ?? 0,
    spacing: 1.2,
  };
  return [carry, end('head'), ...back, end('tail')];
}

const place = fc.oneof(
  fc.constantFrom('head', 'tail'),
  fc.integer({ min: 1, max: 19 }).map((step) => step / 20),
);

test('the sheet has the tensions of the loop walked point by point, wherever drives and take-up stand', () => {
  let [backed, double, weighed] = [0, 0, 0];
  fc.assert(
    fc.property(
      fc.record({
        centres: between(80, 1500),
        slope: between(-0.25, 0.25),
        speed: between(0.5, 5),
        capacity: between(50, 2000),
        mass: between(4, 50),
        wrap: between(170, 420),
        friction: between(0.1, 0.45),
        start: between(1, 2),
        sag: between(0.005, 0.02),
        rolling: between(0.015, 0.035),
        starting: between(0, 0.3),
        braking: between(0, 0.4),
        otherMassShare: between(0, 0.3),
        carryRollers: between(4, 40),
        returnRollers: between(2, 15),
        drive: place,
        second: fc.option(place, { freq: 2 }),
        secondShare: between(0.1, 0.9),
        secondWrap: between(170, 420),
        secondFriction: fc.option(between(0.1, 0.45)),
        takeUp: fc.option(fc.integer({ min: 0, max: 20 }).map((step) => step / 20)),
        weight: fc.option(between(100, 20_000)),
        falls: fc.option(fc.constantFrom(1, 2, 4)),
      }),
      (given) => {
        const { centres, speed, capacity, mass, start, sag, rolling, starting, braking, otherMassShare } = given;
        const { carryRollers, returnRollers, drive, secondShare, takeUp, weight, falls } = given;
        const second = given.second === drive ? null : given.second;
        const lift = centres * given.slope;
        const distance = (at: string | number | null): number | null => (typeof at === 'number' ? at * centres : null);
        const word = (at: string | number | null): string | null => (typeof at === 'number' ? 'return run' : at);
        const book = belt(
          {
            'Pulley centres': centres,
            Lift: lift,
            Speed: speed,
            Capacity: capacity,
            'Belt mass': mass,
            'Wrap angle': given.wrap,
            'Drive friction': given.friction,
            'Drive place': word(drive),
            'Drive distance': distance(drive),
            'Second drive place': word(second),
            'Second drive distance': distance(second),
            'Second drive share': second === null ? null : secondShare,
            'Second wrap angle': second === null ? null : given.secondWrap,
            'Second drive friction': given.secondFriction,
            'Take-up distance': distance(takeUp),
            'Take-up weight': weight,
            'Take-up rope falls': falls,
            'Carry idler mass': carryRollers,
            'Return idler mass': returnRollers,
          },
          {
            StartFactor: start,
            SagRatio: sag,
            RollingFriction: rolling,
            StartAcceleration: starting,
            BrakeDeceleration: braking,
            DriveMassShare: otherMassShare,
          },
        );
        const grip = (wrap: number, friction: number): number => 1 / Math.expm1((friction * wrap * Math.PI) / 180);
        const drives: Drive[] = [
          {
            part: 'drive',
            name: String(drive),
            slackFactor: grip(given.wrap, given.friction),
            share: second === null ? 1 : 1 - secondShare,
          },
          ...(second === null
            ? []
            : [
                {
                  part: 'drive' as const,
                  name: String(second),
                  slackFactor: grip(given.secondWrap, given.secondFriction ?? given.friction),
                  share: secondShare,
                },
              ]),
        ];
        const behindDrive = drive === 'head' || drive === 'tail' ? 0 : Number(drive);
        const loop: Loop = {
          beltMass: mass,
          speed,
          gravity: 9.81,
          factor: number(book, 'Length factor'),
          sag,
          otherMassShare,
          takeUp: 'automatic',
          parts: placedParts({ length: centres, lift, carryRollers, returnRollers }, drives, takeUp ?? behindDrive),
        };
        const found = loopTensions(
          loop,
          usualCases({
            loadMass: capacity / 3.6 / speed,
            friction: rolling,
            startFactor: start,
            easyFriction: Number(book.named('LowFriction' satisfies ValueName)),
            accelerations: { starting, braking },
          }),
        );
        if (typeof drive === 'number') backed += 1;
        if (second !== null) double += 1;
        const hung = weight === null ? 0 : (weight * 9.81 * (falls ?? 1)) / 2;
        if (hung > found.setting) weighed += 1;
        const more = Math.max(0, hung - found.setting);
        const scale = 1e-9 * (Math.abs(found.greatest.tension) + more);
        const near = (header: BeltHeader, walked: number): void =>
          expect(Math.abs(number(book, header) - walked), header).toBeLessThanOrEqual(scale);
        const running = found.cases.filter(({ loadCase }) => !/starting|braking/.test(loadCase));
        const most = (cases: typeof found.cases, name: string, side: 'entering' | 'leaving'): number =>
          Math.max(
            ...cases.flatMap(({ stations }) => stations.filter((one) => one.name === name).map((one) => one[side])),
          ) + more;
        near('Slack-side tension needed', found.setting);
        near('Slack-side tension', found.setting + more);
        near('Maximum tension', found.greatest.tension + more);
        near('Steady maximum tension', Math.max(...running.map(({ greatest }) => greatest.tension)) + more);
        near('Tail tension', most(found.cases, 'tail', 'leaving'));
        near('Steady tail tension', most(running, 'tail', 'leaving'));
        near('Steady head tension', most(running, 'head', 'entering'));
        near('Steady return tension', Math.max(most(running, 'head', 'leaving'), most(running, 'tail', 'entering')));
        for (const { stations } of found.cases)
          expect(Math.abs((stations[0]?.entering ?? 0) - (stations.at(-1)?.leaving ?? Number.NaN))).toBeLessThanOrEqual(
            scale,
          );
      },
    ),
    { numRuns: 150 },
  );
  expect(Math.min(backed, double, weighed), 'drives on the return run, two drives, heavy weights').toBeGreaterThan(10);
}, 60_000);

describe('masses', () => {
  /** 300 m, 15 m up, 800 t/h at 2 m/s, belt 15 kg/m: no factor at starting, so that the masses alone count. */
  const moving: Cells = {
    Width: 1000,
    'Pulley centres': 300,
    Lift: 15,
    Capacity: 800,
    Speed: 2,
    'Belt mass': 15,
    'Carry idler mass': 14.8,
    'Return idler mass': 6.5,
  };

  test('worked by hand: belt all round, idlers, load and a tenth more, times the acceleration', () => {
    const book = belt(moving, { StartFactor: 1, StartAcceleration: 0.1, BrakeDeceleration: 0.2, DriveMassShare: 0.1 });
    // (14.8 + 6.5 + 2 * 15) kg/m * 300 m * 1.1 = 16,929 kg; with 800 / 3.6 / 2 = 111.11 kg/m of load 53,595.67 kg.
    expect(number(book, 'Moving mass empty')).toBeCloseTo(16_929, 6);
    expect(number(book, 'Moving mass loaded')).toBeCloseTo(53_595.667, 3);
    expect(number(book, 'Effective tension starting') - number(book, 'Effective tension loaded')).toBeCloseTo(
      5359.5667,
      4,
    );
    expect(number(book, 'Effective tension braking') - number(book, 'Effective tension low friction')).toBeCloseTo(
      -10_719.133,
      3,
    );
    // Of the return run (6.5 + 15) kg/m of 51.3, and of 162.41 loaded: 41.91 % and 13.24 %.
    expect(number(book, 'Return share empty')).toBeCloseTo(21.5 / 51.3, 12);
    expect(number(book, 'Return share')).toBeCloseTo(21.5 / (51.3 + 800 / 7.2), 12);
  });

  test('the factor counts where it is more, the masses where the belt is near balance', () => {
    const uphill = belt(moving, { StartFactor: 1.5, StartAcceleration: 0.1 });
    expect(number(uphill, 'Effective tension starting')).toBeCloseTo(
      number(uphill, 'Effective tension loaded') * 1.5,
      6,
    );
    const downhill = { ...moving, Lift: -8 };
    const [byFactor, byMasses] = [
      belt(downhill, { StartAcceleration: 0, BrakeDeceleration: 0 }),
      belt(downhill, { StartAcceleration: 0.1, BrakeDeceleration: 0.2 }),
    ];
    expect(Math.abs(number(byFactor, 'Effective tension braking'))).toBeLessThan(3000);
    expect(number(byMasses, 'Effective tension braking')).toBeLessThan(-9000);
    expect(number(byMasses, 'Working tension') / number(byFactor, 'Working tension')).toBeGreaterThan(1.1);
  });

  test('more acceleration, braking or mass never lessens the tension', () => {
    fc.assert(
      fc.property(
        between(-30, 30),
        fc.constantFrom('StartAcceleration', 'BrakeDeceleration', 'DriveMassShare'),
        between(0, 0.5),
        between(0, 0.5),
        (lift, name, less, more) => {
          const tension = (value: number): number =>
            number(belt({ ...moving, Lift: lift }, { [name]: value }), 'Working tension');
          expect(tension(less + more)).toBeGreaterThanOrEqual(tension(less) * (1 - 1e-12));
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe('idlers', () => {
  test.each([
    [300, 7, 2.5],
    [500, 7, 2.5],
    [900, 14, 4.75],
    [1200, 20, 7],
    [2000, 40, 16],
    // The last line goes on: 4 and 2 kg/m for 200 mm.
    [2400, 48, 20],
  ])('of a belt %d mm wide turn %d and %d kg/m', (width, carrying, returning) => {
    const book = belt({ Width: width });
    expect(number(book, 'Carry idlers used')).toBeCloseTo(carrying, 9);
    expect(number(book, 'Return idlers used')).toBeCloseTo(returning, 9);
  });

  test('as entered for the belt, otherwise for all belts, otherwise by the table, which can be changed', () => {
    expect(number(belt({}, { CarryIdlers: 15 }), 'Carry idlers used')).toBe(15);
    expect(number(belt({ 'Carry idler mass': 11 }, { CarryIdlers: 15 }), 'Carry idlers used')).toBe(11);
    expect(number(belt({}, { CarryIdlers800mm: 13 }), 'Carry idlers used')).toBe(13);
    expect(number(belt({}, { ReturnIdlers800mm: 5 }), 'Return idlers used')).toBe(5);
    expect(read(belt({}, { CarryIdlers800mm: null }), 'Tension check')).toBe('not known');
  });

  test('are the same in US customary units, but for rounded figures', () => {
    const us = belt({ Width: 900 });
    us.convert('us');
    expect((number(us, 'Carry idlers used') * 0.45359237) / 0.3048 / 14).toBeCloseTo(1, 9);
  });
});

describe('the take-up weight', () => {
  const standing: Cells = { 'Take-up type': 'automatic' };
  const needed = number(belt(standing), 'Take-up weight needed');

  test('worked by hand: twice the tension, by gravity and rope falls', () => {
    const tension = number(belt(standing), 'Slack-side tension needed');
    expect(needed).toBeCloseTo((2 * tension) / 9.81, 9);
    expect(number(belt({ ...standing, 'Take-up rope falls': 4 }), 'Take-up weight needed')).toBeCloseTo(needed / 4, 9);
    // 2,000 kg of 9.81 N on two strands: 9,810 N each.
    expect(number(belt({ ...standing, 'Take-up weight': 2000 }), 'Take-up tension by weight')).toBeCloseTo(9810, 9);
  });

  test('that gives more than is needed tightens the whole belt; one that gives less fails, and lessens nothing', () => {
    const [without, heavy, light] = [
      belt(standing),
      belt({ ...standing, 'Take-up weight': needed + 500 }),
      belt({ ...standing, 'Take-up weight': needed - 500 }),
    ];
    const added = (500 * 9.81) / 2 / 800;
    expect(number(heavy, 'Working tension')).toBeCloseTo(number(without, 'Working tension') + added, 9);
    expect(number(light, 'Working tension')).toBe(number(without, 'Working tension'));
    expect([without, heavy, light].map((book) => read(book, 'Take-up weight check'))).toEqual([
      'not asked',
      'fits',
      'fails',
    ]);
    const finding = recordFindings(light, 0).find(({ check }) => check === 'take-up weight');
    expect(finding?.message).toMatch(/take-up weight, [\d,]+ kg, .* [\d,]+ kg/);
    expect(finding?.cures.join(' ')).toMatch(/^Hang at least [\d,]+ kg/);
  });

  test('never lessens a tension when it is more, wherever the take-up is', () => {
    fc.assert(
      fc.property(
        between(0, 20_000),
        between(1, 20_000),
        fc.constantFrom(null, 0, 60, 140),
        fc.constantFrom({}, { Power: 22, Capacity: null }),
        (weight, more, distance, method) => {
          const [less, heavier] = [weight + 1, weight + more + 1].map((hung) =>
            belt({ ...standing, ...method, 'Take-up distance': distance, 'Take-up weight': hung }),
          );
          for (const header of ['Working tension', 'Steady tension'] as const)
            expect(number(heavier ?? belt({}), header)).toBeGreaterThanOrEqual(number(less ?? belt({}), header));
        },
      ),
      { numRuns: 40 },
    );
  });

  test('counts by power, too', () => {
    const byPower: Cells = { Power: 22, Capacity: null };
    const [without, heavy] = [belt(byPower), belt({ ...byPower, 'Take-up weight': 20_000 })];
    expect(read(heavy, 'Tension from')).toBe('power');
    expect(number(heavy, 'Slack-side tension by power')).toBeCloseTo((20_000 * 9.81) / 2, 6);
    expect(number(heavy, 'Working tension')).toBeGreaterThan(number(without, 'Working tension'));
  });
});

describe('what the model can not do is told, never guessed', () => {
  test.each<[string, Cells, RegExp]>([
    ['a drive on the return run without its distance', { 'Drive place': 'return run' }, /Drive distance is empty/],
    ['a place that there is not', { 'Drive place': 'middle' }, /Drive place/],
    [
      'a drive beyond the tail',
      { 'Drive place': 'return run', 'Drive distance': 150 },
      /Drive distance.*less than.*Pulley centres/,
    ],
    ['a take-up beyond the tail', { 'Take-up distance': 141 }, /Take-up distance.*not be more than.*Pulley centres/],
    [
      'two drives in one place',
      { 'Second drive place': 'head', 'Second drive share': 0.5 },
      /in the same place as the first/,
    ],
    [
      'a second drive without its share',
      { 'Second drive place': 'tail', 'Second wrap angle': 180 },
      /Second drive share is empty/,
    ],
    [
      'a second drive without its wrap',
      { 'Second drive place': 'tail', 'Second drive share': 0.5 },
      /Second wrap angle is empty/,
    ],
    ['a share of a second drive that has no place', { 'Second drive share': 0.5 }, /figures and no place/],
    [
      'a weight on a screw take-up',
      { 'Take-up type': 'screw', 'Take-up weight': 2000 },
      /a weight hangs on a screw take-up/,
    ],
  ])('%s', (_, changed, says) => {
    const book = belt({ 'Drive pulley surface': 'grooved rubber', ...changed });
    expect(read(book, 'Tension check')).toBe('not known');
    const told = recordFindings(book, 0)
      .map(({ message, cures }) => [message, ...cures].join(' '))
      .join('\n');
    expect(told).toMatch(says);
  });
});
