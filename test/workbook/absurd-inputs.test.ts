import { bookOf, type Cells, columnOf, loopOf, type Parts, plover, soundBelt } from './books.ts';
import { describe, expect, test } from 'vitest';
import { recordFindings } from '../../src/checks/findings.ts';
import { isFault, type Value } from '../../src/formula/values.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/**
 * An input that is missing or out of its declared bounds is computed with nowhere, whichever way a formula uses it; and
 * one that a formula does not use spoils nothing.
 */

const belt = (cells: Cells): Parts => ({ belts: [{ ...soundBelt, ...cells }] });
const assuming = (named: Cells, cells: Cells = {}): Parts => ({ ...belt(cells), named });
const resisting: Cells = { Capacity: 300, Power: null };
const listed = (cells: Cells): Parts => ({
  ...belt({}),
  pulleys: loopOf('B1').map((pulley, place) => (place === 2 ? { ...pulley, ...cells } : pulley)),
});

function answer(parts: Parts, header: string, sheet = 'Belts', record = 0): Value {
  const book = new Workbook(bookOf(parts));
  const value = book.value({ sheet, record, column: columnOf(book, sheet, header) });
  return isFault(value) ? value.code : value;
}

describe('a missing assumption is not replaced by a figure that a function has of its own', () => {
  test.each<[string, Parts, string]>([
    ['DaysPerYear', assuming({ DaysPerYear: null }), 'Retighten on'],
    ['TakeUpShare', assuming({ TakeUpShare: null }), 'Stretch allowance'],
    ['OrderStretch', assuming({ OrderStretch: null }), 'Belt to order'],
    ['Gravity', assuming({ Gravity: null }, resisting), 'Effective tension loaded'],
  ])('%s', (_, parts, header) => {
    expect(answer(parts, header)).toBe('#VALUE!');
  });
});

describe('a number out of bounds is refused where it', () => {
  test.each<[string, Parts, string, Value]>([
    ['is handed to a function that would take it', belt({ 'Wrap angle': 721 }), 'Wrap factor', '#NUM!'],
    [
      'is handed to a function by a choice',
      assuming({ SafetyFabric: 31 }, { 'Belt rating': null }),
      'Belt rating used',
      '#NUM!',
    ],
    ['stands for a figure that may be blank', belt({ Joints: 201 }), 'Belt to order', '#NUM!'],
    ['is 0 and must be more', belt({ Insert: 0 }), 'Insert to order', '#NUM!'],
    ['is chosen by', belt({ 'Life in passes': -1 }), 'Life used from', '#NUM!'],
    [
      'is looked up to choose by',
      { ...belt({}), series: [{ ...plover, 'Long bolt above': -1 }] },
      'Bolt length',
      '#NUM!',
    ],
    ['finds no place in a table', belt({ 'Pulley centres': -90 }), 'Length factor', '#NUM!'],
    ['is one of several ways', belt({ 'Known tension': -4 }), 'Method difference', '#NUM!'],
    ['is a margin', assuming({ MethodMargin: -1 }, { 'Known tension': 20 }), 'Methods', 'not known'],
  ])('%s', (_, parts, header, wanted) => {
    expect(answer(parts, header)).toBe(wanted);
  });

  test('is a pulley of the list', () => {
    expect(answer(listed({ Diameter: -500 }), 'Neutral diameter', 'Pulleys', 2)).toBe('#NUM!');
    expect(answer(listed({ x: null, 'Wrap angle': 361 }), 'Wrap angle used', 'Pulleys', 2)).toBe('#NUM!');
  });
});

describe('what a formula does not use spoils nothing', () => {
  test('a figure of a table that is read elsewhere', () => {
    const sound = answer(belt(resisting), 'Length factor');
    expect(sound).toBeCloseTo(1.62, 9);
    expect(answer(assuming({ LengthFactor2000m: null }, resisting), 'Length factor')).toBe(sound);
    expect(answer(assuming({ LengthFactor100m: null }, resisting), 'Length factor')).toBe('#VALUE!');
    expect(answer(assuming({ LengthFactor150m: 0.5 }, resisting), 'Length factor')).toBe('#NUM!');
  });

  test('a figure of a table that must be more than 0', () => {
    const screw = { 'Take-up type': 'screw' };
    expect(
      answer(assuming({ ScrewFactor210Lagged: 0 }, { ...screw, 'Drive pulley surface': 'ceramic' }), 'Wrap factor'),
    ).toBe('#NUM!');
    expect(answer(assuming({ ScrewFactor210Lagged: 0 }, screw), 'Wrap factor')).toBe(1);
  });

  test('the length of a cut that is not skived', () => {
    expect(answer(belt({ Width: null }), 'Metres skived')).toBe(0);
    expect(answer(belt({ Width: null, 'Skive depth': 2 }), 'Metres skived')).toBe('#VALUE!');
    expect(answer(belt({ 'Skive depth': null }), 'Metres skived')).toBe('#VALUE!');
  });
});

describe('findings', () => {
  const messages = (parts: Parts, check: string, units: 'metric' | 'us' = 'metric'): string[] =>
    recordFindings(new Workbook(bookOf(parts, units)), 0).flatMap((finding) =>
      finding.check === check ? [finding.message] : [],
    );

  test('blame no input by which a figure would be too large once it can be had', () => {
    expect(messages(belt({ 'Carcass thickness': 250, Power: null, 'Tension method': 'power' }), 'carcass')).toEqual([
      'The carcass check cannot be made: Power is empty (motor power, all drives together).',
    ]);
  });

  test('say nothing of the way around pulleys whose diameters are not allowed', () => {
    expect(messages(listed({ Diameter: -500 }), 'pulleys')).toEqual([]);
    expect(messages(listed({}), 'pulleys')).toEqual([]);
  });
});
