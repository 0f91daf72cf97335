import ExcelJS from 'exceljs';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readBook } from '../../../src/xlsx/read/read.ts';
import { cellsOf, onlySheet } from './made-book.ts';

/** What a cell is given, and what is to be read: the value, or the serial of a date. */
interface Given {
  readonly cell: ExcelJS.CellValue;
  readonly read: number | string | boolean | null;
  readonly error?: string;
  readonly formula?: string;
  readonly date?: boolean;
}

// XML carries neither control characters, nor surrogates without their other half, nor a return unchanged; and
// this writer does not escape what looks like an escape.
const text = fc
  .string({ unit: 'grapheme', minLength: 1, maxLength: 30 })
  .map((letters) => letters.replace(/[\0-\x08\x0b-\x1f\x7f\ufffe\uffff]/g, '').replace(/_x[0-9a-f]{4}_/gi, ''))
  .filter((letters) => letters !== '');
const errors = ['#N/A', '#REF!', '#NAME?', '#DIV/0!', '#NULL!', '#VALUE!', '#NUM!'] as const;

const given: fc.Arbitrary<Given> = fc.oneof(
  fc.double({ noNaN: true, noDefaultInfinity: true }).map((number) => ({ cell: number, read: number })),
  fc.integer().map((number) => ({ cell: number, read: number })),
  fc.boolean().map((flag) => ({ cell: flag, read: flag })),
  text.map((letters) => ({ cell: letters, read: letters })),
  fc
    .tuple(text, text)
    .map(([one, two]) => ({
      cell: { richText: [{ text: one }, { font: { bold: true }, text: two }] },
      read: one + two,
    })),
  fc
    .date({ min: new Date('1900-03-01'), max: new Date('2199-12-31'), noInvalidDate: true })
    .map((date) => ({ cell: date, read: date.getTime() / 86_400_000 + 25_569, date: true })),
  fc.constantFrom(...errors).map((error) => ({ cell: { error }, read: null, error })),
  fc
    .tuple(
      fc.constantFrom('A1*2', 'SUM($B$1:C9)', 'IF(A1>1,"a&b","<c>")', "'It''s'!A1"),
      fc.oneof(fc.double({ noNaN: true, noDefaultInfinity: true }), text, fc.boolean()),
    )
    .map(([formula, result]) => ({ cell: { formula, result }, read: result, formula })),
);

const places = fc.uniqueArray(fc.tuple(fc.integer({ min: 1, max: 300 }), fc.integer({ min: 1, max: 40 })), {
  selector: ([row, column]) => row * 100 + column,
  maxLength: 40,
});

test('random cells written by ExcelJS are read back equal', async () => {
  await fc.assert(
    fc.asyncProperty(
      places,
      fc.array(given, { minLength: 40, maxLength: 40 }),
      fc.boolean(),
      async (at, values, useSharedStrings) => {
        const book = new ExcelJS.Workbook();
        const sheet = book.addWorksheet('Random');
        at.forEach(([row, column], index) => {
          sheet.getCell(row, column).value = values[index]?.cell ?? null;
        });
        const bytes = useSharedStrings
          ? await book.xlsx.writeBuffer()
          : await book.xlsx.writeBuffer({ useSharedStrings: false } as Partial<ExcelJS.XlsxWriteOptions>);
        const read = onlySheet(readBook(new Uint8Array(bytes)));
        const cells = new Map([...read.rows.values()].flat().map((cell) => [`${cell.row} ${cell.column}`, cell]));
        expect(cells.size).toBe(at.length);
        at.forEach(([row, column], index) => {
          const wanted = values[index];
          const cell = cells.get(`${row} ${column}`);
          if (!wanted || !cell) throw new Error(`row ${row}, column ${column} is missing`);
          if (wanted.date) expect(Math.abs(Number(cell.value) - Number(wanted.read))).toBeLessThan(1e-9);
          else
            expect(
              cell.value === wanted.read || (Object.is(wanted.read, -0) && cell.value === 0),
              `${String(cell.value)} for ${String(wanted.read)}`,
            ).toBe(true);
          expect([cell.error, cell.formula, cell.date]).toEqual([wanted.error, wanted.formula, wanted.date]);
        });
      },
    ),
    { numRuns: 60 },
  );
}, 60_000);

test('a book of ExcelJS with everything that belongs around a list', async () => {
  const book = new ExcelJS.Workbook();
  book.definedNames.add('Belts!$B$2', 'Friction');
  const sheet = book.addWorksheet('Belts', { views: [{ state: 'frozen', ySplit: 1 }] });
  const hidden = book.addWorksheet('Hidden', { state: 'veryHidden' });
  hidden.getCell('C3').value = { text: 'a page', hyperlink: 'https://example.org/' };
  sheet.mergeCells('A1:C1');
  sheet.getCell('A1').value = 'Belts';
  sheet.getCell('B2').value = 12.5;
  sheet.getCell('B2').numFmt = '0.0" mm"';
  sheet.getCell('C2').value = new Date(Date.UTC(2024, 1, 29));
  sheet.getCell('C2').numFmt = 'dd.mm.yyyy';
  sheet.getCell('B3').dataValidation = { type: 'decimal', operator: 'greaterThan', formulae: [0] };
  sheet.getCell('B2').note = 'measured';
  sheet.addConditionalFormatting({
    ref: 'A1:XFD1048576',
    rules: [{ type: 'expression', priority: 1, formulae: ['A1>1'], style: {} }],
  });
  sheet.addTable({ name: 'List', ref: 'E1', columns: [{ name: 'Belt' }, { name: 'Width' }], rows: [['B-1', 800]] });
  const { sheets, names } = readBook(new Uint8Array(await book.xlsx.writeBuffer()));
  expect(names).toEqual([{ name: 'Friction', reference: 'Belts!$B$2' }]);
  const [belts, kept] = sheets;
  if (!belts || !kept) throw new Error('two sheets expected');
  expect([belts.hidden, kept.hidden]).toEqual([false, true]);
  expect(belts.merges).toEqual([{ top: 1, left: 1, bottom: 1, right: 3 }]);
  const cells = cellsOf(belts);
  expect(cells.get('B2')).toEqual({ row: 2, column: 2, value: 12.5, format: '0.0" mm"' });
  expect(cells.get('C2')).toEqual({ row: 2, column: 3, value: 45_351, format: 'dd.mm.yyyy', date: true });
  expect([...cells].filter(([address]) => /[EF]/.test(address)).map(([, { value }]) => value)).toEqual([
    'Belt',
    'Width',
    'B-1',
    800,
  ]);
  expect(cellsOf(kept).get('C3')?.value).toBe('a page');
});
