import { describe, expect, test } from 'vitest';
import { measured, UnitMismatch, type UnitScope } from '../../src/formula/unit-check.ts';
import { parsed } from '../../src/formula/syntax.ts';
import { functions } from '../../src/functions/index.ts';
import { declareSheet, type SheetDeclaration } from '../../src/sheet/declaration.ts';
import { type QuantityKind } from '../../src/units/quantities.ts';
import { type Declared, unitFaults } from '../../src/workbook/unit-faults.ts';
import { declarations, namedSheets } from '../../sheets/index.ts';
import { unitDimensions, unitValues } from '../../sheets/values/units.ts';

/** Units of declared formulas: all agree, and a planted mistake is named with both its sides. */

const declared = (sheets: readonly SheetDeclaration[]): Declared => ({
  sheets,
  named: namedSheets.flatMap(({ values }) => values),
  dimensions: unitDimensions,
  functions,
});

test('the units of every declared formula agree', () => {
  expect(unitFaults(declared(declarations))).toEqual([]);
});

test('every unit value has its dimension, and no other has', () => {
  expect(Object.keys(unitDimensions).toSorted()).toEqual(unitValues.map(({ name }) => name).toSorted());
});

/** The declared sheets with another formula, or another kind, in one column of the Belts sheet. */
function altered(header: string, change: { readonly formula?: string; readonly kind?: QuantityKind }): string[] {
  const sheets = declarations.map((sheet) =>
    sheet.name !== 'Belts'
      ? sheet
      : declareSheet({
          ...sheet,
          columns: sheet.columns.map((column) => (column.header === header ? { ...column, ...change } : column)),
        }),
  );
  return unitFaults(declared(sheets));
}

describe('a planted mistake is named', () => {
  test.each<[string, string, string]>([
    [
      'Plate force',
      'PLATEFORCE({Width},{Working tension},{Plates})',
      'Belts, Plate force: PLATEFORCE wants a tension per unit width for tension, {Width} is a length',
    ],
    [
      'Plate force',
      'PLATEFORCE({Working tension},{Centres},{Plates})',
      'Belts, Plate force: PLATEFORCE wants a length for width, {Centres} is a distance, which does not go with ' +
        '{Working tension}, a tension per unit width',
    ],
    [
      'Plate force',
      'PLATEFORCE({Working tension},{Width},{Width})',
      'Belts, Plate force: PLATEFORCE wants a whole number for n, {Width} is a length',
    ],
    [
      'Plate force',
      '{Working tension}',
      'Belts, Plate force: the formula gives a tension per unit width, the column holds a force',
    ],
    [
      'Loop length',
      'BELTLOOP({Centres},{Head pulley},{Tail pulley})',
      'Belts, Loop length: BELTLOOP wants a length for d1, {Head pulley} is a length, which does not go with ' +
        '{Centres}, a distance',
    ],
    [
      'Loop length',
      'BELTLOOP({Centres}*ShortPerLong,{Head pulley},{Tail pulley})',
      'Belts, Loop length: the formula gives a length, the column holds a distance',
    ],
    [
      'Loop length',
      'BELTLOOP({Centres}*1000,{Head pulley},{Tail pulley})/ShortPerLong',
      'Belts, Loop length: BELTLOOP wants a length for d1, {Head pulley} is a length, which does not go with ' +
        '{Centres}*1000, a distance',
    ],
    [
      'Carcass pulley',
      'CARCASSPULLEY(CARCASSMATERIAL({Construction}),{Carcass thickness},80,PulleyGroup)/MillimetresPerShort',
      'Belts, Carcass pulley: CARCASSPULLEY wants a length in mm for carcass, {Carcass thickness} is a length',
    ],
    [
      'Carcass pulley',
      'CARCASSPULLEY({Carcass thickness},{Carcass thickness}*MillimetresPerShort)/MillimetresPerShort',
      'Belts, Carcass pulley: CARCASSPULLEY wants a text for material, {Carcass thickness} is a length',
    ],
    [
      'Clamped thickness',
      '{Thickness}-{Skew}',
      'Belts, Clamped thickness: {Thickness} is a length, {Skew} is an angle in degrees',
    ],
    ['Clamped thickness', '{Thickness}-2', 'Belts, Clamped thickness: {Thickness} is a length, 2 is a bare number'],
    [
      'Clamped thickness',
      'IF({Thickness}>5,{Thickness},{Skive})',
      'Belts, Clamped thickness: {Thickness} is a length, 5 is a bare number',
    ],
    [
      'Clamped thickness',
      'IF({Thickness}>{Skive},{Thickness},{Power})',
      'Belts, Clamped thickness: {Thickness} is a length, {Power} is a power',
    ],
    [
      'Clamped thickness',
      'IF({Skive}=0,{Thickness},"none")',
      'Belts, Clamped thickness: {Thickness} is a length, "none" is a text',
    ],
    ['Clamped thickness', '{Thickness}*{Belt}', 'Belts, Clamped thickness: {Belt} is a text where a number is needed'],
    [
      'Tension check',
      'MOSTCHECK({Working tension},{Width},TightMargin)',
      'Belts, Tension check: MOSTCHECK wants a number to check for most, {Width} is a length, which does not go with ' +
        '{Working tension}, a tension per unit width',
    ],
    [
      'Tension check',
      'MOSTCHECK({Working tension},{Permitted tension},{Width})',
      'Belts, Tension check: MOSTCHECK wants a number to check for margin, {Width} is a length',
    ],
    [
      'Tension check',
      '{Working tension}',
      'Belts, Tension check: the formula gives a tension per unit width, the column holds a text',
    ],
    [
      'Service check',
      'SERVICECHECK({Width},"yes","yes","yes","yes")',
      'Belts, Service check: SERVICECHECK wants a verdict for service, {Width} is a length',
    ],
    [
      'Joint cost',
      '{Parts cost}+{Crew hours}',
      'Belts, Joint cost: {Parts cost} is an amount of money, {Crew hours} is hours',
    ],
    [
      'Joint age',
      '(ReviewDate-{Installed})*{Hours per year}',
      'Belts, Joint age: the formula gives a quantity in D T Y^-1, the column holds hours',
    ],
    [
      'Belt pull',
      '{Power}/{Speed}',
      'Belts, Belt pull: the formula gives a quantity in P V^-1, the column holds a force',
    ],
    [
      'Working tension',
      'INDEX({Plate series.Pitch},{Series row})',
      'Belts, Working tension: the formula gives a length, the column holds a tension per unit width',
    ],
    [
      'Working tension',
      'INDEX({Plate series.Tension rating},{Width})',
      'Belts, Working tension: INDEX wants a bare number, {Width} is a length',
    ],
    [
      'Series row',
      'MATCH({Width},{Plate series.Series},0)',
      'Belts, Series row: {Width} is a length, {Plate series.Series} is a text',
    ],
  ])('%s: %s', (header, formula, message) => {
    expect(altered(header, { formula })).toContain(message);
  });

  test('a column of another kind is found in each formula that uses it', () => {
    expect(altered('Take-up travel', { kind: 'distance' })).toEqual([
      'Belts, Take-up check: MOSTCHECK wants a number to check for most, ' +
        'IF(ISNUMBER({Take-up travel}),IF(ISNUMBER(TakeUpShare),IF(AND({Take-up ' +
        'travel}>=0,TakeUpShare>0,TakeUpShare<=2),{Take-up ' +
        'travel}*TakeUpShare,10^400),0+(TakeUpShare&"?")),0+({Take-up travel}&"?")) ' +
        'is a distance, which does not go with {Belt consumed}, a length',
    ]);
  });
});

describe('what goes together', () => {
  const scope: UnitScope = {
    functions: new Map(functions.map((item) => [item.name, item])),
    column: () => ({ type: 'number', dimension: { A: 1 }, literal: false }),
    named: () => undefined,
  };

  test.each([
    '{Angle}>45',
    '{Angle}=0',
    'IF({Angle}>45,{Angle},0)',
    '10^400',
    '0+({Angle}&"?")',
    'COS(RADIANS({Angle}))',
    'MAX({Angle},30)',
    '-{Angle}+90',
    '50%',
  ])('%s', (formula) => {
    expect(() => measured(parsed(formula), scope)).not.toThrow();
  });

  test.each(['{Angle}^{Angle}', 'COS({Angle})', '{Angle}+"a"', 'Nothing', 'NOSUCH(1)', 'A1', '{Angle}+TRUE'])(
    'not %s',
    (formula) => {
      expect(() => measured(parsed(formula), scope)).toThrow(UnitMismatch);
    },
  );
});
