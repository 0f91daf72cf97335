import { describe, expect, test } from 'vitest';
import { wrapFactor } from '../../src/functions/tension.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { bookOf, type Cells, soundBelt } from './books.ts';
import type { BeltHeader } from '../../sheets/index.ts';

/** Working tension in the Belts sheet: each route, the choice among them, and the loop behind the resistances. */

const belt = (changed: Cells, named: Cells = {}): Workbook =>
  new Workbook(bookOf({ belts: [{ ...soundBelt, ...changed }], named }));
const read = (book: Workbook, header: BeltHeader): unknown => book.read('Belts', 0, header);
const loaded: Cells = { Capacity: 300, 'Known tension': null, Power: null };

describe(
  'worked by hand: 300 m, 15 m up, 800 t/h at 2 m/s (arithmetic from ISO 5048 / DIN 22101 with the ' +
    'stated figures)',
  () => {
    // Friction of 0.022 and 14.8 kg/m of carrying rollers as in the case; no start-up, and rollers so near that sag
    // asks
    // for nothing.
    const book = belt(
      {
        ...loaded,
        Width: 1000,
        'Pulley centres': 300,
        Lift: 15,
        Capacity: 800,
        Speed: 2,
        'Belt mass': 15,
        'Wrap angle': 210,
        'Drive friction': 0.35,
      },
      {
        CarryIdlers: 14.8,
        ReturnIdlers: 6.5,
        RollingFriction: 0.022,
        LowFriction: 0.022,
        StartFactor: 1,
        StartAcceleration: 0,
        BrakeDeceleration: 0,
        CarryIdlerSpacing: 0.1,
        ReturnIdlerSpacing: 0.1,
      },
    );
    test.each<[BeltHeader, number, number]>([
      ['Length factor', 1.31, 0.005],
      ['Load mass', 111.1111, 0.00005],
      ['Effective tension loaded', 30110.3, 0.05],
      ['Slack-side tension', 11550.74, 0.005],
      ['Maximum tension', 41661.03, 0.01],
      ['Working tension', 41.661, 0.0005],
    ])('%s is %d', (header, value, print) => {
      expect(Math.abs(Number(read(book, header)) - value)).toBeLessThanOrEqual(print);
    });
  },
);

describe('the route is the surest that the record allows', () => {
  test.each<[string, Cells, string]>([
    ['entered goes first', { 'Known tension': 12, Capacity: 300 }, 'entered'],
    ['then resistances', { Capacity: 300 }, 'resistances'],
    ['then power', {}, 'power'],
    ['a conveyor too short for the length factor goes by its power', { Capacity: 300, 'Pulley centres': 60 }, 'power'],
    ['the permitted tension is the last resort', { Power: null }, 'belt rating'],
    ['also where only the designation tells it', { Power: null, 'Belt rating': null }, 'belt rating'],
    ['nothing is not known', { Power: null, 'Belt rating': null, Construction: 'EP belt' }, 'not known'],
    ['a slip is not passed over', { Power: -3 }, 'not known'],
    ['nor is a word', { Capacity: 'much' }, 'not known'],
    ['a forced route goes before all', { 'Known tension': 12, Capacity: 300, 'Tension method': 'Power' }, 'Power'],
  ])('%s', (_, changed, route) => {
    expect(read(belt(changed), 'Tension from')).toBe(route);
  });

  test('a forced route that the record does not allow gives no tension and no pass', () => {
    const book = belt({ 'Tension method': 'resistances' });
    expect(typeof read(book, 'Working tension')).not.toBe('number');
    expect(read(book, 'Tension check')).toBe('not known');
  });

  test('all routes stand side by side, and their difference is told', () => {
    const book = belt({ Capacity: 300, 'Known tension': 60 });
    const [resistances, power] = [Number(read(book, 'Tension by resistances')), Number(read(book, 'Tension by power'))];
    const all = [60, resistances, power];
    expect(read(book, 'Method difference')).toBeCloseTo(1 - Math.min(...all) / Math.max(...all), 12);
    expect(read(book, 'Methods')).toBe('differ');
    expect(read(belt({ Capacity: 300, 'Known tension': 60 }, { MethodMargin: 0.95 }), 'Methods')).toBe('agree');
  });
});

describe('slack side', () => {
  test('a screw take-up asks for the printed factor, and for no less than grip', () => {
    const lagged: Cells = { 'Take-up type': 'screw', 'Drive pulley surface': 'grooved rubber', 'Drive friction': 0.35 };
    expect(read(belt(lagged), 'Wrap factor')).toBeCloseTo(0.7, 12);
    expect(read(belt({ ...lagged, 'Wrap angle': 195 }), 'Wrap factor')).toBeCloseTo(0.75, 12);
    expect(read(belt({ ...lagged, 'Drive friction': 0.1 }), 'Wrap factor')).toBe(wrapFactor.evaluate([210, 0.1]));
    expect(read(belt(lagged, { ScrewFactor210Lagged: 0.9 }), 'Wrap factor')).toBeCloseTo(0.9, 12);
  });

  test('friction comes from the face and condition of the drive where it is not entered, by the editable table', () => {
    const wet: Cells = { 'Drive friction': null, 'Drive pulley surface': 'ceramic', 'Drive pulley condition': 'wet' };
    expect(read(belt(wet), 'Drive friction used')).toBe(0.35);
    expect(read(belt(wet, { FrictionCeramicWet: 0.3 }), 'Drive friction used')).toBe(0.3);
  });

  test('sag governs where it asks for more than grip', () => {
    const [tight, loose] = [belt(loaded, { SagRatio: 0.005 }), belt(loaded, { SagRatio: 0.1 })];
    expect(Number(read(tight, 'Slack-side tension'))).toBeGreaterThan(Number(read(loose, 'Slack-side tension')));
    const grip =
      Math.max(
        ...(
          [
            'Effective tension empty',
            'Effective tension loaded',
            'Effective tension starting',
            'Effective tension low friction',
            'Effective tension at rest',
          ] as const
        ).map((header) => Number(read(loose, header))),
      ) * Number(read(loose, 'Wrap factor'));
    expect(read(loose, 'Slack-side tension')).toBeCloseTo(grip, 6);
  });
});

describe('the construction says what the record does not', () => {
  test.each<[string, Cells, BeltHeader, unknown, BeltHeader, unknown]>([
    ['carcass: as entered', {}, 'Carcass used', 3.8, 'Carcass from', 'entered'],
    [
      'carcass: thickness less covers',
      { 'Carcass thickness': null },
      'Carcass used',
      9.8 - 6,
      'Carcass from',
      'thickness less covers',
    ],
    [
      'carcass: from strength and plies',
      { 'Carcass thickness': null, Construction: 'EP 400/3' },
      'Carcass used',
      3 * 0.5 + 0.0045 * 400,
      'Carcass from',
      'designation',
    ],
    [
      'permitted tension: strength over the safety factor',
      { 'Belt rating': null },
      'Belt rating used',
      40,
      'Belt rating from',
      'designation',
    ],
    [
      'permitted tension of steel cord',
      { 'Belt rating': null, Construction: 'St1250 8+6' },
      'Belt rating used',
      1250 / 9.5,
      'Belt rating from',
      'designation',
    ],
    ['mass: width, thickness and density', {}, 'Belt mass used', 800 * 9.8 * 0.0012, 'Belt mass from', 'thickness'],
    ['mass: as entered', { 'Belt mass': 11 }, 'Belt mass used', 11, 'Belt mass from', 'entered'],
  ])('%s', (_, changed, header, value, from, word) => {
    const book = belt(changed);
    expect(read(book, header)).toBeCloseTo(Number(value), 9);
    expect(read(book, from)).toBe(word);
  });
});

describe('life by hours or passes, whichever ends first', () => {
  test('a short life in passes makes the joint due sooner', () => {
    const plain = belt({});
    const passes = Number(read(plain, 'Passes per hour')) * 5000;
    const sooner = belt({ 'Life in passes': passes });
    expect(read(plain, 'Due reason')).toBe('hours');
    expect(read(sooner, 'Due reason')).toBe('passes');
    expect(read(sooner, 'Life in hours')).toBeCloseTo(5000, 6);
    expect(Number(read(sooner, 'Due'))).toBeCloseTo(45900 + (5000 / 3000) * 365.25, 6);
    expect(read(belt({ 'Life in passes': 1e12 }), 'Due reason')).toBe('hours');
    expect(read(plain, 'Retighten on')).toBeCloseTo(45900 + (24 / 3000) * 365.25, 9);
  });
});
