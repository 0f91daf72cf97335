import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type DateOrder, dateOrderShown, isoDate, readDate, serialOf } from '../../src/units/dates.ts';
import type { QuantityKind, UnitSystem } from '../../src/units/quantities.ts';
import { decimalShown, isRefusal, readQuantity, type ReadingOptions, readUnit } from '../../src/units/reading.ts';
import { readNumber } from '../../src/units/numbers.ts';

/**
 * Text against numbers. Sizes of units: NIST SP 811 (1 in = 25.4 mm, 1 ft = 0.3048 m, 1 lbf = 4.4482216152605 N,
 * 1 lbf/in = 0.1751268352 N/mm, 1 hp = 745.69987 W, metric horsepower 735.49875 W, 1 kgf = 9.80665 N,
 * 1 short ton = 907.18474 kg, 1 long ton = 1016.0469088 kg). Serials: ISO/IEC 29500 18.17.4.1 has 43831 for 1 January
 * 2020 by its own count of days from 1900.
 */
const value = (text: string, kind: QuantityKind, options: Partial<ReadingOptions> = {}): number | string => {
  const read = readQuantity(text, kind, { system: 'metric', ...options });
  return isRefusal(read) ? read.reason : read.value;
};

describe('numbers', () => {
  it.each([
    ['18', 18],
    ['18.5', 18.5],
    ['457,2', 457.2],
    ['1.234,5', 1234.5],
    ['1,234.5', 1234.5],
    ['1,234,567', 1234567],
    ['1.234.567', 1234567],
    ['1 200', 1200],
    ['1 200,5', 1200.5],
    ["1'200.5", 1200.5],
    ['0,125', 0.125],
    ['.5', 0.5],
    ['−12', -12],
    ['–3.5', -3.5],
    ['+7', 7],
    ['1 1/2', 1.5],
    ['1-1/2', 1.5],
    ['3/8', 0.375],
    ['1½', 1.5],
    ['¾', 0.75],
    ['2 ⅜', 2.375],
    ['1e3', 1000],
    ['1.5E-2', 0.015],
    ['12345,678', 12345.678],
  ])('%s is %d', (text, number) => expect(readNumber(text)).toBe(number));

  it.each([
    ['1,234', 'comma', 1.234],
    ['1,234', 'point', 1234],
    ['1.234', 'comma', 1234],
    ['1.234', 'point', 1.234],
  ] as const)('%s with a decimal %s is %d', (text, decimal, number) =>
    expect(readNumber(text, { decimal })).toBe(number),
  );

  it.each(['1,234', '1.234', '12.5.3', '1,23,4', 'twelve', '', '600/650', '4/2', '630/4', '12 mm'])(
    '%s is refused',
    (text) => expect(readNumber(text)).toHaveProperty('reason'),
  );

  it('says both readings of an ambiguous number', () =>
    expect(readNumber('1,234')).toMatchObject({
      reason: expect.stringMatching(/1234 with a decimal point and 1\.234 with a decimal comma/),
    }));
  it('holds to a mark that was chosen', () =>
    expect(readNumber('12.5', { decimal: 'comma' })).toMatchObject({
      reason: expect.stringContaining('decimal comma'),
    }));
  it.each([
    ['457,2', 'comma'],
    ['1,234.5', 'point'],
    ['1,234', undefined],
    ['18 in', undefined],
    ['1.2 m', 'point'],
    ['x', undefined],
  ])('%s shows the mark %s', (text, mark) => expect(decimalShown(text)).toBe(mark));

  it('reads back what it prints, in either notation', () => {
    fc.assert(
      fc.property(
        fc.double({ noNaN: true, min: -1e9, max: 1e9 }),
        fc.constantFrom('point' as const, 'comma' as const),
        (number, decimal) => {
          const text = String(number).replace('.', decimal === 'comma' ? ',' : '.');
          expect(readNumber(text, { decimal })).toBe(number === 0 ? readNumber(text, { decimal }) : number);
        },
      ),
    );
  });
});

describe('quantities', () => {
  it.each<[string, QuantityKind, number]>([
    ['18 in', 'length', 457.2],
    ['18"', 'length', 457.2],
    ['18 ”', 'length', 457.2],
    ["5'", 'length', 1524],
    [`5'-6"`, 'length', 1676.4],
    ['5 ft 6 1/2 in', 'length', 1689.1],
    ['1.2 m', 'length', 1200],
    ['45,7 cm', 'length', 457],
    ['650mm', 'length', 650],
    ['Ø320', 'length', 320],
    ['dia. 320 mm', 'length', 320],
    ['3/8"', 'length', 9.525],
    ['1 1/2 Zoll', 'length', 38.1],
    ['18 pulgadas', 'length', 457.2],
    ['100 ft', 'distance', 30.48],
    ['0.5 km', 'distance', 500],
    ['45000 mm', 'distance', 45],
    ['12.5 kN/m', 'lineTension', 12.5],
    ['125 N/cm', 'lineTension', 12.5],
    ['200 PIW', 'lineTension', 35.02536704],
    ['200 lb/in', 'lineTension', 35.02536704],
    ['200 lbs per inch of width', 'lineTension', 35.02536704],
    ['100 kgf/cm', 'lineTension', 98.0665],
    ['100 kp/cm', 'lineTension', 98.0665],
    ['75 kW', 'power', 75],
    ['100 hp', 'power', 74.569987],
    ['100 PS', 'power', 73.549875],
    ['100 cv', 'power', 73.549875],
    ['2 x 75 kW', 'power', 150],
    ['22000 W', 'power', 22],
    ['1500 fpm', 'speed', 7.62],
    ['100 m/min', 'speed', 100 / 60],
    ['400 ft per min', 'speed', 2.032],
    ['9 km/h', 'speed', 2.5],
    ['800 t/h', 'capacity', 800],
    ['800 Tonnen pro Stunde', 'capacity', 800],
    ['900 stph', 'capacity', 816.466266],
    ['900 mtph', 'capacity', 900],
    ['10 long tons per hour', 'capacity', 10.160469088],
    ['2.5 t', 'mass', 2500],
    ['1000 lb', 'mass', 453.59237],
    ['0.1 m/s²', 'acceleration', 0.1],
    ['0.5 ft/s2', 'acceleration', 0.1524],
    ['15 kg/m', 'lineMass', 15],
    ['10 lb/ft', 'lineMass', 14.8816394],
    ['90 deg', 'angle', 90],
    ['45°', 'angle', 45],
    ['0.5 rad', 'angle', 28.6478897565],
    ['20,000.0 hrs', 'hours', 20000],
    ['6000 h/a', 'hoursPerYear', 6000],
    ['6000 hours per year', 'hoursPerYear', 6000],
    ['35 %', 'ratio', 0.35],
    ['€ 12.50', 'money', 12.5],
    ['12,50 EUR', 'money', 12.5],
    ['3 pcs', 'count', 3],
    ['1200 kg/m³', 'beltDensity', 0.0012],
  ])('%s as %s is %d', (text, kind, number) =>
    expect(value(text, kind)).toBeCloseTo(number, 7 - Math.floor(Math.log10(number))),
  );

  it.each<[string, UnitSystem, number]>([
    ['800 tph', 'metric', 800],
    ['800 tph', 'us', 725.747792],
    ['800 tons/h', 'us', 725.747792],
  ])('%s in a %s list is %d t/h', (text, listSystem, number) =>
    expect(value(text, 'capacity', { listSystem })).toBeCloseTo(number, 6),
  );

  it.each(['≈ 600', 'ca. 600', '~600', 'approx. 600 mm', '600 mm (est.)', '600 ± 5 mm', '600 mm (23.6 in)'])(
    '%s is taken with a remark',
    (text) =>
      expect(readQuantity(text, 'length', { system: 'metric' })).toMatchObject({
        value: 600,
        remark: expect.any(String),
      }),
  );

  it.each<[string, QuantityKind, RegExp]>([
    ['600-650', 'length', /range/],
    ['600 – 650 mm', 'length', /range/],
    ['600 to 650', 'length', /range/],
    ['600..650', 'length', /range/],
    ['max 600', 'length', /limit/],
    ['<600', 'length', /limit/],
    ['600/650', 'length', /two numbers/],
    ['3/8', 'length', /fraction of a mm/],
    ['600 kg', 'length', /another quantity/],
    ['30 kN', 'lineTension', /per width/],
    ['75 horses', 'power', /is not a known unit/],
    ['3 years', 'hours', /hours per year/],
    ['lots', 'length', /does not begin with a number/],
    ['600 mm (19 in)', 'length', /differ/],
    ['0.3 W', 'length', /another quantity/],
  ])('%s as %s is refused', (text, kind, reason) => expect(value(text, kind)).toMatch(reason));

  it('names what is allowed', () =>
    expect(readQuantity('30 kN', 'lineTension', { system: 'metric' })).toMatchObject({
      given: '30 kN',
      allowed: expect.stringContaining('kN/m'),
    }));
  it('takes a life in years with the hours per year', () =>
    expect(value('3 years', 'hours', { hoursPerYear: 6000 })).toBe(18000));
  it('leaves a number in the unit of the book as it is', () => {
    fc.assert(
      fc.property(
        fc.double({ noNaN: true, min: 1e-3, max: 1e6 }),
        fc.constantFrom('metric' as const, 'us' as const),
        (number, system) => {
          expect(
            readQuantity(`${number} ${system === 'us' ? 'in' : 'mm'}`, 'length', { system, decimal: 'point' }),
          ).toMatchObject({ value: number });
        },
      ),
    );
  });
});

describe('units', () => {
  it.each([
    ['[in]', 'in'],
    ['(mm)', 'mm'],
    ['mm', 'mm'],
    ['in.', 'in'],
    ['in inches', 'in'],
    ['en mm', 'mm'],
    ['Zoll', 'in'],
    ['pulgadas', 'in'],
    ['MILLIMETRES', 'mm'],
    ['(kN/m)', 'kN/m'],
    ['ft./min.', 'ft/min'],
    ['h/Jahr', 'h/year'],
  ])('%s names %s', (text, symbol) => expect(readUnit(text).map((unit) => unit.symbol)).toContain(symbol));
  it.each(['Width', 'n/a', '', 'Belt', '12', 'see note'])('%s names none', (text) =>
    expect(readUnit(text)).toEqual([]),
  );
});

describe('dates', () => {
  it('counts days as spreadsheets do', () => expect(serialOf(2020, 1, 1)).toBe(43831));
  it.each([
    ['2023-05-14', '2023-05-14'],
    ['14.05.2023', '2023-05-14'],
    ['3.4.2023', '2023-04-03'],
    ['14 May 2023', '2023-05-14'],
    ['05/14/2023', '2023-05-14'],
    ['14/05/2023', '2023-05-14'],
    ['14-Mai-23', '2023-05-14'],
    ['14. März 2023', '2023-03-14'],
    ['May 14, 2023', '2023-05-14'],
    ['14 de mayo de 2023', '2023-05-14'],
    ['1er juin 2022', '2022-06-01'],
    ['Mon 15 May 2023', '2023-05-15'],
    ['2023-05-14T00:00:00Z', '2023-05-14'],
    ['2023-05-14 18:00', '2023-05-14 18:00'],
    ['5/14/2023 6:00 PM', '2023-05-14 18:00'],
  ])('%s is %s', (text, day) => {
    const read = readDate(text);
    expect(isRefusal(read) ? read.reason : isoDate(read.serial)).toBe(day);
  });
  it.each(['03/04/2023', '2021', 'May 2023', '05/2023', '31.02.2023', '2023-13-01', 'soon', '1899-01-01', '12/12'])(
    '%s is refused',
    (text) => expect(readDate(text)).toHaveProperty('reason'),
  );
  it.each<[DateOrder, string]>([
    ['day first', '2023-04-03'],
    ['month first', '2023-03-04'],
  ])('an order settles which is which: %s', (order, day) => {
    const read = readDate('03/04/2023', order);
    expect(isRefusal(read) ? read.reason : isoDate(read.serial)).toBe(day);
  });
  it.each([
    ['14/05/2023', 'day first'],
    ['05/14/2023', 'month first'],
    ['03/04/2023', undefined],
    ['3.4.2023', 'day first'],
    ['2023-05-14', undefined],
  ])('%s shows %s', (text, order) => expect(dateOrderShown(text)).toBe(order));
  it('reads every day back from the ISO form', () => {
    fc.assert(
      fc.property(fc.integer({ min: 61, max: 80_000 }), (serial) => {
        expect(readDate(isoDate(serial))).toEqual({ serial });
      }),
    );
  });
});
