import { describe, expect, test, vi } from 'vitest';
import { type CheckScope, FormulaMistake, measured } from '../../src/formula/formula-check.ts';
import { standardArguments, standardFunctions } from '../../src/formula/standard.ts';
import { parsed } from '../../src/formula/syntax.ts';
import { functions } from '../../src/functions/index.ts';
import { type Column, declareSheet, type SheetDeclaration } from '../../src/sheet/declaration.ts';
import { compileBook } from '../../src/workbook/compiled-book.ts';
import { type Declarations, DeclaredNames } from '../../src/workbook/declared-names.ts';
import { formulaFaults } from '../../src/workbook/formula-faults.ts';
import { declarations, namedSheets } from '../../sheets/index.ts';
import { unitDimensions, unitValues } from '../../sheets/values/units.ts';

/** Declared formulas are checked when they are compiled: all are right, and a planted mistake is named. */

const declared = (sheets: readonly SheetDeclaration[]): Declarations => ({
  sheets,
  named: namedSheets.flatMap(({ values }) => values),
  dimensions: unitDimensions,
  functions,
});

test('nothing is wrong with any declared formula', () => {
  expect(formulaFaults(new DeclaredNames(declared(declarations)))).toEqual([]);
});

test('every unit value has its dimension, and no other has', () => {
  expect(Object.keys(unitDimensions).toSorted()).toEqual(unitValues.map(({ name }) => name).toSorted());
});

test('of every standard function it is known how many arguments it takes', () => {
  expect(Object.keys(standardFunctions).filter((name) => standardArguments[name] === undefined)).toEqual([]);
});

type Change = Partial<Pick<Column, 'formula' | 'kind' | 'optional' | 'must' | 'emptyWithout'>>;

/** The declared sheets with something else declared of one column. */
const altered = (header: string, change: Change, sheetName = 'Belts'): readonly SheetDeclaration[] =>
  declarations.map((sheet) =>
    sheet.name !== sheetName
      ? sheet
      : declareSheet({
          ...sheet,
          columns: sheet.columns.map((column) => (column.header === header ? { ...column, ...change } : column)),
        }),
  );

/** What the compiler says of them. */
function refusal(header: string, change: Change, sheetName = 'Belts'): string[] {
  try {
    compileBook(declared(altered(header, change, sheetName)));
  } catch (error) {
    return String(error)
      .replace(/^Error: /, '')
      .split('\n');
  }
  return [];
}

describe('a planted mistake is named', () => {
  test.each<[string, string, string]>([
    [
      'Load per plate',
      'PLATEFORCE({Width},{Working tension},{Plates})',
      'Belts, Load per plate: PLATEFORCE wants a tension per unit width for tension, {Width} is a length',
    ],
    [
      'Load per plate',
      'PLATEFORCE({Working tension},{Pulley centres},{Plates})',
      'Belts, Load per plate: PLATEFORCE wants a length for width, {Pulley centres} is a distance, which does ' +
        'not go with ' +
        '{Working tension}, a tension per unit width',
    ],
    [
      'Load per plate',
      'PLATEFORCE({Working tension},{Width},{Width})',
      'Belts, Load per plate: PLATEFORCE wants a whole number for n, {Width} is a length',
    ],
    [
      'Load per plate',
      '{Working tension}',
      'Belts, Load per plate: the formula gives a tension per unit width, the column holds a force',
    ],
    [
      'Loop length',
      'BELTLOOP({Pulley centres},{Head pulley},{Tail pulley})',
      'Belts, Loop length: BELTLOOP wants a length for d1, {Head pulley} is a length, which does not go with ' +
        '{Pulley centres}, a distance',
    ],
    [
      'Loop length',
      'BELTLOOP({Pulley centres}*ShortPerLong,{Head pulley},{Tail pulley})',
      'Belts, Loop length: the formula gives a length, the column holds a distance',
    ],
    [
      'Loop length',
      'BELTLOOP({Pulley centres}*1000,{Head pulley},{Tail pulley})/ShortPerLong',
      'Belts, Loop length: BELTLOOP wants a length for d1, {Head pulley} is a length, which does not go with ' +
        '{Pulley centres}*1000, a distance',
    ],
    [
      'Carcass minimum pulley',
      'CARCASSPULLEY(CARCASSMATERIAL({Construction}),{Carcass thickness},80,PulleyGroup)/MillimetresPerShort',
      'Belts, Carcass minimum pulley: CARCASSPULLEY wants a length in mm for carcass, {Carcass thickness} is a length',
    ],
    [
      'Carcass minimum pulley',
      'CARCASSPULLEY({Carcass thickness},{Carcass thickness}*MillimetresPerShort)/MillimetresPerShort',
      'Belts, Carcass minimum pulley: CARCASSPULLEY wants a text for material, {Carcass thickness} is a length',
    ],
    [
      'Clamped thickness',
      '{Thickness}-{Skew}',
      'Belts, Clamped thickness: {Thickness} is a length, {Skew} is an angle in degrees',
    ],
    ['Clamped thickness', '{Thickness}-2', 'Belts, Clamped thickness: {Thickness} is a length, 2 is a bare number'],
    [
      'Clamped thickness',
      'IF({Thickness}>5,{Thickness},{Skive depth})',
      'Belts, Clamped thickness: {Thickness} is a length, 5 is a bare number',
    ],
    [
      'Clamped thickness',
      'IF({Thickness}>{Skive depth},{Thickness},{Power})',
      'Belts, Clamped thickness: {Thickness} is a length, {Power} is a power',
    ],
    [
      'Clamped thickness',
      'IF({Skive depth}=0,{Thickness},"none")',
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
      'MOSTCHECK({Working tension},{Belt rating},{Width})',
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
      '{Parts cost}+{Labour hours}',
      'Belts, Joint cost: {Parts cost} is an amount of money, {Labour hours} is hours',
    ],
    [
      'Joint age',
      '(ReviewDate-{Installed})*{Hours per year}',
      'Belts, Joint age: the formula gives a quantity in D T Y^-1, the column holds hours',
    ],
    [
      'Effective tension',
      '{Power}/{Speed}',
      'Belts, Effective tension: the formula gives a quantity in P V^-1, the column holds a force',
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
    expect(refusal(header, { formula })).toContain(message);
  });

  test('a column of another kind is found in each formula that uses it', () => {
    expect(refusal('Take-up travel', { kind: 'distance' })).toEqual([
      'Belts, Take-up check: MOSTCHECK wants a number to check for most, {Take-up travel} is a distance, ' +
        'which does not go with {Travel needed}, a length',
    ]);
  });
});

describe('a call, a column or a name that there is not', () => {
  test.each<[string, string, string]>([
    [
      'Load per plate',
      'PLATEFORCE({Working tension},{Width},{Plates},{Bolts})',
      'Belts, Load per plate: PLATEFORCE takes 3 arguments (tension, width, n), not 4',
    ],
    [
      'Load per plate',
      'PLATEFORCE({Working tension},{Width})',
      'Belts, Load per plate: PLATEFORCE wants a whole number for n, which is left out',
    ],
    [
      'Load per plate',
      'PLATEFORCE({Working tension},,{Plates})',
      'Belts, Load per plate: PLATEFORCE wants a length for width, which is left out',
    ],
    [
      'Load per plate',
      'PLATEFROCE({Working tension},{Width},{Plates})',
      "Belts, Load per plate: PLATEFROCE is no function that the sheets' formulas may use",
    ],
    ['Bolt length', 'ROUND({Clamped thickness})', 'Belts, Bolt length: ROUND takes 2 arguments, not 1'],
    [
      'Bolt length',
      'IF({Skive depth}>0,{Skive depth},0,{Skive depth})',
      'Belts, Bolt length: IF takes 2 to 3 arguments, not 4',
    ],
    [
      'Pulleys listed',
      'COUNTIFS({Pulleys.Belt},{Belt},{Pulleys.Kind})',
      'Belts, Pulleys listed: COUNTIFS takes at least 2 arguments, further ones in pairs, not 3',
    ],
    ['Bolts', '{Platez}*2', 'Belts, Bolts: {Platez} is no column; the nearest is Plates'],
    [
      'Plates',
      'PLATECOUNT({Width},{Skew},INDEX({Plate series.Pich},{Series row}),{Skive depth},{Skive depth})',
      'Belts, Plates: PLATECOUNT, pitch: {Plate series.Pich} is no column; the nearest is Plate series.Pitch',
    ],
    [
      'Plates',
      'PLATECOUNT({Width},{Skew},INDEX({Plate seris.Pitch},{Series row}),{Skive depth},{Skive depth})',
      'Belts, Plates: PLATECOUNT, pitch: {Plate seris.Pitch} is no column; the nearest is Plate series.Pitch',
    ],
    [
      'Strip length each',
      'STRIPLENGTH({Width},{Skew},StripOverhangs)',
      'Belts, Strip length each: STRIPLENGTH, overhang: StripOverhangs is no named value; the nearest is StripOverhang',
    ],
    ['Joint cost', '{Parts cost}+CrewRates', 'Belts, Joint cost: CrewRates is no named value; the nearest is CrewRate'],
    ['Bolts', '{Plates}*D7', "Belts, Bolts: D7 can't be checked for units"],
  ])('%s: %s', (header, formula, message) => {
    expect(refusal(header, { formula })).toContain(message);
  });

  test.each<[string, Change, string]>([
    [
      'what is not used is declared optional',
      { optional: { 'Skive depth': 0 } },
      'Belts, Bolts: {Skive depth} is declared optional, and the formula does not use it',
    ],
    [
      'a blank stands for another unit',
      { formula: '{Plates}*{Joints}', optional: { Joints: '{Width}' } },
      'Belts, Bolts: {Width} is a length, {Joints} is a bare number',
    ],
    ['no condition must hold', { must: ['{Plates}'] }, 'Belts, Bolts: {Plates} must hold, and is no condition'],
    [
      'two units are compared',
      { must: ['{Width}>{Skew}'] },
      'Belts, Bolts: {Width} is a length, {Skew} is an angle in degrees',
    ],
    [
      'a condition is about other cells',
      { must: ['{Skive depth}<{Thickness}'] },
      'Belts, Bolts: "{Skive depth}<{Thickness}" must hold, but nothing in the formula computes with all of its cells',
    ],
    [
      'the column is empty without what is no cell',
      { emptyWithout: ['{Plates}*2'] },
      'Belts, Bolts: emptyWithout names cells with numbers, {Plates}*2 is none',
    ],
    [
      'the column is empty without a text',
      { emptyWithout: ['{Belt}'] },
      'Belts, Bolts: emptyWithout names cells with numbers, {Belt} is none',
    ],
    [
      'the column is empty without what is no column',
      { emptyWithout: ['{Platez}'] },
      'Belts, Bolts: {Platez} is no column; the nearest is Plates',
    ],
  ])('beside a formula: %s', (_, change, message) => {
    expect(refusal('Bolts', { formula: '{Plates}*2', ...change })).toContain(message);
  });

  test('text that is no formula', () => {
    expect(() => altered('Bolts', { formula: '{Plates}*(2' })).toThrow('Belts, Bolts: the formula');
  });
});

describe('a circle is named', () => {
  test('in a sheet, when it is declared', () => {
    expect(() => altered('Plates', { formula: '{Bolts}/2' })).toThrow(
      'Belts, Plates: the formula depends on its own result, by way of Bolts, then Plates',
    );
  });

  test('in what is declared beside a formula', () => {
    expect(() => altered('Plates', { emptyWithout: ['{Bolts}'] })).toThrow(
      'Belts, Plates: the formula depends on its own result, by way of Bolts, then Plates',
    );
  });

  test('across sheets, when they are compiled', () => {
    expect(
      refusal('Plate price', { formula: '{Pack price}/INDEX({Belts.Joint cost},2)*{Pack price}' }, 'Plate series'),
    ).toEqual([
      'Belts, Parts cost: the formula depends on its own result, by way of Plate series.Plate price, then ' +
        'Belts.Joint cost, then Belts.Parts cost',
    ]);
  });
});

test('the program itself checks what it declares, before there is any book', async () => {
  vi.resetModules();
  vi.doMock('../../sheets/index.ts', async (original) => ({
    ...(await original<typeof import('../../sheets/index.ts')>()),
    declarations: altered('Load per plate', { formula: 'PLATEFORCE({Width},{Working tension},{Plates})' }),
  }));
  await expect(import('../../src/workbook/declared.ts')).rejects.toThrow(
    'Belts, Load per plate: PLATEFORCE wants a tension per unit width for tension, {Width} is a length',
  );
  vi.doUnmock('../../sheets/index.ts');
});

describe('what goes together', () => {
  const scope: CheckScope = {
    functions: new Map(functions.map((item) => [item.name, item])),
    column: () => ({ type: 'number', dimension: { A: 1 }, literal: false }),
    named: () => undefined,
    unknown: ({ name }) => `${name} is not known`,
  };

  test.each([
    '{Angle}>45',
    '{Angle}=0',
    'IF({Angle}>45,{Angle},0)',
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
      expect(() => measured(parsed(formula), scope)).toThrow(FormulaMistake);
    },
  );
});
