import { compileBook } from '../../src/workbook/compiled-book.ts';
import { unitDimensions } from '../../sheets/values/units.ts';
import { functions } from '../../src/functions/index.ts';
import {
  type AnyHeader,
  type BeltHeader,
  type HeaderOf,
  namedSheets,
  recordSheets,
  type SheetHeaders,
  type SheetName,
  type ValueName,
} from '../../sheets/index.ts';
import { describe, expect, expectTypeOf, test } from 'vitest';
import { Belt, beltColumn } from '../../src/records/belt.ts';
import { assumed } from '../../src/records/assumed.ts';
import { sheetRows } from '../../src/records/sheet-rows.ts';
import { columns, declareSheet, type SheetDeclaration } from '../../src/sheet/declaration.ts';
import { headerPosition } from '../../src/workbook/declared.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { withNames } from '../../sheets/also-called.ts';
import type { ActionName } from '../../src/page/actions/index.ts';
import { bookOf, soundBelt } from './books.ts';

/**
 * Headers and named values are types: one that no sheet declares does not compile, and where it comes all the same, at
 * run time, the program says which.
 *
 * `npm run typecheck` is what fails when a line after "@ts-expect-error" compiles.
 */

const book = (): Workbook => new Workbook(bookOf({ belts: [soundBelt] }));

describe('a header that the sheet does not declare', () => {
  const missing = 'the sheet Belts has no column Smallest puley';

  test('is refused where a value is read', () => {
    // @ts-expect-error: the column is called Smallest pulley
    expect(() => book().read('Belts', 0, 'Smallest puley')).toThrow(missing);
    // @ts-expect-error: the column is called Smallest pulley
    expect(() => book().column('Belts', 'Smallest puley')).toThrow(missing);
    // @ts-expect-error: Skew is a column of Belts
    expect(() => book().read('Strips', 0, 'Skew')).toThrow('the sheet Strips has no column Skew');
    // @ts-expect-error: the sheet is called Belts
    expect(() => book().read('Belt', 0, 'Skew')).toThrow('the sheet Belt has no column Skew');
    expect(() => headerPosition('Belts', 'Smallest puley')).toThrow(missing);
  });

  test('is refused in a what-if, as an input and as what is wanted', () => {
    // @ts-expect-error: the column is called Skew
    expect(() => book().whatIf('Belts', 0, { Skwe: 30 })).toThrow('the sheet Belts has no column Skwe');
    // @ts-expect-error: the column is called Joint minimum pulley
    expect(() => book().whatIf('Belts', 0, { Skew: 30 }, { wanted: 'Joint puley' })).toThrow(
      'the sheet Belts has no column Joint puley',
    );
    const position = book().column('Belts', 'Joint minimum pulley');
    expect(book().whatIf('Belts', 0, { Skew: 30 })[position]).not.toBe(book().read('Belts', 0, 'Joint minimum pulley'));
  });

  test('is refused by every reader of records', () => {
    const belt = new Belt(book(), 0);
    // @ts-expect-error: the column is called Smallest pulley
    expect(() => belt.number('Smallest puley')).toThrow(missing);
    // @ts-expect-error: the column is called Smallest pulley
    expect(() => belt.text('Smallest puley')).toThrow(missing);
    // @ts-expect-error: the column is called Smallest pulley
    expect(() => belt.cell('Smallest puley')).toThrow(missing);
    // @ts-expect-error: the column is called Pulley check
    expect(() => belt.verdict('Puley check')).toThrow('the sheet Belts has no column Puley check');
    // @ts-expect-error: the column is called Skew
    expect(() => belt.after({ inputs: { Skwe: 30 } })).toThrow('the sheet Belts has no column Skwe');
    // @ts-expect-error: the column is called Verdict
    expect(() => belt.after({}).value('Verdikt')).toThrow('the sheet Belts has no column Verdikt');
    // @ts-expect-error: the column is called Pitch
    expect(() => belt.ofSeries('Pich')).toThrow('the sheet Plate series has no column Pich');
    // @ts-expect-error: the column is called Smallest pulley
    expect(() => beltColumn('Smallest puley')).toThrow('Smallest puley');
    const [row] = sheetRows(book(), 'Plate series', []);
    // @ts-expect-error: the column is called Pitch
    expect(() => row?.number('Pich')).toThrow('the sheet Plate series has no column Pich');
  });

  test('may come from data: then it is looked for', () => {
    const own = book();
    own.addColumn('Belts', 'Inspector');
    expect(own.findColumn('Belts', 'Smallest puley')).toBeUndefined();
    expect(own.findColumn('Fleet', 'Skew')).toBeUndefined();
    expect(own.findColumn('Belts', 'Skew')).toBe(own.column('Belts', 'Skew'));
    expect(own.findColumn('Belts', 'sKEW')).toBe(own.column('Belts', 'Skew'));
    expect(own.findColumn('Belts', 'inspector')).toBe(own.columns('Belts').length - 1);
  });
});

describe('a named value that no sheet declares', () => {
  test('is refused', () => {
    // @ts-expect-error: the value is called TightMargin
    expect(() => book().named('TightMargine')).toThrow('there is no named value TightMargine');
    // @ts-expect-error: the value is called TightMargin
    expect(() => book().whatIf('Belts', 0, {}, { named: { TightMargine: 0.1 } })).toThrow(
      'there is no named value TightMargine',
    );
    // @ts-expect-error: the value is called TightMargin
    expect(() => new Belt(book(), 0).named('TightMargine')).toThrow('there is no named value TightMargine');
    // @ts-expect-error: the value is called TightMargin
    expect(() => assumed(book(), 'TightMargine')).toThrow('there is no named value TightMargine');
  });
});

describe('the types', () => {
  test('hold the headers of every sheet, and no others', () => {
    const declared: Readonly<Record<SheetName, true>> = {
      Belts: true,
      Pulleys: true,
      'Plate series': true,
      Strips: true,
      Suppliers: true,
      Offers: true,
      Shelf: true,
      Orders: true,
      'Price history': true,
      Sites: true,
      Steps: true,
      Crews: true,
      Windows: true,
      Areas: true,
      'Outage jobs': true,
      Assumptions: true,
      Tables: true,
      Units: true,
    };
    expect(Object.keys(declared)).toEqual(
      [...recordSheets, ...namedSheets.map(({ declaration }) => declaration)].map(({ name }) => name),
    );
    // A list whose headers the compiler loses sight of makes any text of them, and everything compiles.
    type Lost = { [Sheet in SheetName]: string extends SheetHeaders[Sheet] ? Sheet : never }[SheetName];
    expectTypeOf<Lost>().toEqualTypeOf<never>();
    expectTypeOf<'Skew'>().toExtend<BeltHeader>();
    expectTypeOf<'Skwe'>().not.toExtend<BeltHeader>();
    expectTypeOf<'Labour hours likely'>().toExtend<BeltHeader>();
    expectTypeOf<'Price 4'>().toExtend<HeaderOf<'Offers'>>();
    expectTypeOf<'Price 5'>().not.toExtend<HeaderOf<'Offers'>>();
    expectTypeOf<'Hold point'>().toExtend<HeaderOf<'Steps'>>();
    expectTypeOf<HeaderOf<'Units'>>().toEqualTypeOf<'Name' | 'Value' | 'Unit' | 'Meaning' | 'Source'>();
    expectTypeOf<string>().not.toExtend<AnyHeader>();
  });

  test('hold the named values of every list', () => {
    expectTypeOf<'TightMargin' | 'LeadTime' | 'CutHoursLikely' | 'Gravity'>().toExtend<ValueName>();
    expectTypeOf<'LengthFactor80m' | 'ScrewFactor180Bare' | 'FrictionBareSteelDry'>().toExtend<ValueName>();
    expectTypeOf<'CarcassFactorEP' | 'PulleyStepOver100A'>().toExtend<ValueName>();
    expectTypeOf<'LengthFactor81m'>().not.toExtend<ValueName>();
    expectTypeOf<'CutHoursUsual'>().not.toExtend<ValueName>();
    expectTypeOf<string>().not.toExtend<ValueName>();
  });

  test('hold the ids of the actions', () => {
    expectTypeOf<'undo' | 'panel-skew' | 'theme-dark' | 'units-us' | 'demo-metric'>().toExtend<ActionName>();
    expectTypeOf<'unod'>().not.toExtend<ActionName>();
    expectTypeOf<string>().not.toExtend<ActionName>();
  });
});

describe('a declaration', () => {
  const inputs = columns([
    { header: 'Roller', kind: 'text', doc: '' },
    { header: 'Belt', kind: 'text', doc: '', choices: { sheet: 'Belts', header: 'Belt' } },
  ]);
  const sheet = { name: 'Rollers', purpose: '', record: 'roller', key: 'Roller', columns: inputs } as const;

  test('keeps its headers through spreads and other names', () => {
    const declared = declareSheet({
      ...sheet,
      columns: withNames([...inputs, { header: 'Remark', kind: 'text', doc: '' }], { Remark: 'note' }),
    });
    expectTypeOf(declared.columns).items.toHaveProperty('header').toEqualTypeOf<'Roller' | 'Belt' | 'Remark'>();
    expect(declared.columns.map(({ header }) => header)).toEqual(['Roller', 'Belt', 'Remark']);
  });

  test('with a key that is no column, or other names for none, does not compile', () => {
    // @ts-expect-error: no column is called Rollers
    expect(() => declareSheet({ ...sheet, key: 'Rollers' })).toThrow('the key Rollers is no column');
    // @ts-expect-error: no column is called Rollers
    expect(withNames(inputs, { Rollers: ['idler'] })).toEqual(inputs);
  });

  test('that names a column or a sheet that is not there is refused at the start', () => {
    const compiled = (changed: SheetDeclaration) => () =>
      compileBook({
        sheets: [...recordSheets, changed],
        named: namedSheets.flatMap(({ values }) => values),
        dimensions: unitDimensions,
        functions,
      });
    expect(compiled(sheet)).not.toThrow();
    expect(
      compiled({
        ...sheet,
        columns: [
          ...inputs,
          { header: 'Series', kind: 'text', doc: '', choices: { sheet: 'Plate series', header: 'Seires' } },
        ],
      }),
    ).toThrow('Rollers, Series: the sheet Plate series has no column Seires to choose from');
    expect(compiled({ ...sheet, partOf: { sheet: 'Fleet', header: 'Belt' } })).toThrow(
      'Rollers: there is no sheet Fleet to be part of',
    );
  });
});
