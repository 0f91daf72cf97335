import { beforeAll, describe, expect, test } from 'vitest';
import { PlainForms } from '../../src/formula/plain.ts';
import { parsed, printed } from '../../src/formula/syntax.ts';
import type { Value } from '../../src/formula/values.ts';
import { functions } from '../../src/functions/index.ts';
import type { CellPlace } from '../../src/workbook/place.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { FileFormulas } from '../../src/xlsx/write/file-formulas.ts';

/** A function in a cell reads the figures of the sheet Tables, as the columns do. */

const book = new Workbook(demoBook('metric'));
const at = (row: number): CellPlace => ({ sheet: 'Free', record: row, column: 0 });

/** Puts another figure into the sheet Tables. */
function change(name: string, content: number | string | null): void {
  const record = book
    .sheet('Tables')
    .rows.findIndex((_, row) => book.value({ sheet: 'Tables', record: row, column: 0 }) === name);
  if (record < 0) throw new Error(`Tables has no figure ${name}`);
  book.edit([{ sheet: 'Tables', record, column: book.column('Tables', 'Value'), content }]);
}

const formulas = [
  '=LENGTHFACTOR(86)',
  '=LENGTHFACTOR(2500)*2',
  '=DRIVEFRICTION("bare steel","dry")',
  '=SCREWFACTOR(200,"lagged")',
  '=SCREWFACTOR(400,"bare")',
  '=CARCASSPULLEY("EP",8.6,100,"A")',
  '=CARCASSPULLEY("NN",8.6)',
];
const values = (): Value[] => formulas.map((_, row) => book.value(at(row)));

beforeAll(() => {
  book.addSheet('Free', 2, 12);
  book.edit(formulas.map((content, row) => ({ ...at(row), content })));
});

test('a changed figure moves the cells whose functions read it, and no others', () => {
  const before = values();
  change('LengthFactor80m', 3);
  expect(values()[0]).toBeCloseTo(3 + (6 * (1.78 - 3)) / 20, 12);
  expect(values().slice(1)).toEqual(before.slice(1));
  change('LengthFactor2000m', 1.04);
  change('FrictionBareSteelDry', 0.2);
  change('ScrewFactor180Lagged', 1);
  change('ScrewFactor380Bare', 0.45);
  change('CarcassFactorEP', 130);
  change('CarcassFactorNN', 95);
  expect(values().slice(1)).toEqual([2.08, 0.2, expect.closeTo(0.8, 12), 0.45, 1250, 817]);
});

test('a figure that is no number is told by its name', () => {
  change('FrictionBareSteelWet', null);
  book.edit([{ ...at(8), content: '=DRIVEFRICTION("bare steel","wet")' }]);
  expect(String(book.value(at(8)))).toContain('FrictionBareSteelWet, a figure of the sheet Tables, must be a number');
  change('FrictionBareSteelWet', 0.1);
});

test('what was typed comes back as it was typed, rows having moved', () => {
  book.edit([{ ...at(9), content: '=LENGTHFACTOR(B12)+SUM( 1,2)' }]);
  book.addRecords('Free', 3, [[]]);
  expect(book.content(at(10))).toBe('=LENGTHFACTOR(B13)+SUM( 1,2)');
  expect(book.content(at(0))).toBe('=LENGTHFACTOR(86)');
  book.removeRecords('Free', 3, 1);
});

test('arguments are counted as they were typed', () => {
  expect(String(book.evaluate('=LENGTHFACTOR()'))).toContain('length is missing');
  expect(String(book.evaluate('=LENGTHFACTOR(100,1)'))).toContain('takes 1 arguments (length); 2 were given');
});

describe('the plain equivalent by names gives the same', () => {
  const forms = new PlainForms(functions, true);

  test.each(formulas)('%s', (formula) => {
    const plain = forms.tree(parsed(formula));
    if (plain === undefined) throw new Error(`${formula} has no plain equivalent`);
    const text = printed(plain);
    expect(text).not.toMatch(/LENGTHFACTOR|DRIVEFRICTION|SCREWFACTOR|CARCASSPULLEY/);
    expect(book.evaluate(text)).toBeCloseTo(Number(book.evaluate(formula)), 12);
  });
});

test('a file reads its own figures', () => {
  const names = book
    .sheet('Tables')
    .rows.map((_, record) => String(book.value({ sheet: 'Tables', record, column: 0 })));
  const written = new FileFormulas(new Map(), names).typed('=LENGTHFACTOR(86)');
  expect('text' in written && written.text).toContain('LengthFactor80m');
});
