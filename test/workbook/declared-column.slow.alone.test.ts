import { columnOf } from './books.ts';
import { expect, test, vi } from 'vitest';
import { type Content, isFault } from '../../src/formula/values.ts';
import { emptyBook } from '../../src/workbook/declared.ts';
import { explained } from '../../src/workbook/explanation.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { exportedBook } from '../../src/xlsx/write/write.ts';
import { recalculated } from '../xlsx/libreoffice.ts';
import { stamp } from '../xlsx/write/exported-book.ts';
import { differences } from './differences.ts';

/**
 * A column added as DEVELOPERS.md says: plain arithmetic, what is optional, what must hold, and no guard. The rows, the
 * engine and another program come to the same values, whatever stands in the inputs.
 */

vi.mock('../../sheets/index.ts', async (original) => {
  const sheets = await original<typeof import('../../sheets/index.ts')>();
  // Imports at the top are not there yet when the module is asked for.
  const { declareSheet } = await import('../../src/sheet/declaration.ts');
  const spares = declareSheet({
    name: 'Spares',
    purpose: 'Plates to take along',
    record: 'joint',
    key: 'Joint',
    columns: [
      { header: 'Joint', kind: 'text', doc: 'its name' },
      { header: 'Plates', kind: 'count', min: 1, max: 500, doc: 'in the joint' },
      { header: 'Reserve plates', kind: 'count', min: 0, max: 50, doc: 'beside them; none when it is blank' },
      { header: 'Used', kind: 'count', min: 0, doc: 'already' },
      {
        header: 'To take',
        kind: 'count',
        doc: 'plates and their reserve',
        formula: '{Plates}+{Reserve plates}',
        optional: { 'Reserve plates': 0 },
      },
      {
        header: 'Left',
        kind: 'count',
        doc: 'of those taken along; nothing where nobody counted',
        formula: 'IF({Used}>{To take}/2,{To take}-{Used},{To take}*1-{Used})',
        must: ['{Used}<={To take}'],
        emptyWithout: ['{Used}'],
      },
    ],
  });
  return { ...sheets, recordSheets: [...sheets.recordSheets, spares], declarations: [...sheets.declarations, spares] };
});

/** Plates, reserve and used, with what comes of them to take and left; errors by their code. */
const cases: readonly (readonly [Content, Content, Content, Content, Content])[] = [
  [24, 3, 10, 27, 17],
  [24, null, 20, 24, 4],
  [24, 0, null, 24, ''],
  [24, '=1/0', 2, '#DIV/0!', '#DIV/0!'],
  [24, '2', 2, '#VALUE!', '#VALUE!'],
  [24, -1, 2, '#NUM!', '#NUM!'],
  [24, 51, 'two', '#NUM!', ''],
  [null, 3, 2, '#VALUE!', '#VALUE!'],
  [501, null, 2, '#NUM!', '#NUM!'],
  ['?', null, null, '#VALUE!', ''],
  [24, null, 25, 24, '#NUM!'],
  [24, null, -1, 24, '#NUM!'],
];

const state = {
  ...emptyBook('metric'),
  sheets: emptyBook('metric').sheets.map((sheet) =>
    sheet.name === 'Spares'
      ? {
          ...sheet,
          rows: cases.map(([plates, reserve, used], row) => ({
            cells: [`J${row}`, plates, reserve, used, null, null],
          })),
        }
      : sheet,
  ),
};
const wanted = cases.map(([, , , take, left]) => [take, left]);

test('rows answer what was declared', () => {
  const book = new Workbook(state);
  const shown = (record: number, header: string): Content => {
    const value = book.value({ sheet: 'Spares', record, column: columnOf(book, 'Spares', header) });
    return isFault(value) ? value.code : value;
  };
  expect(cases.map((_, record) => ['To take', 'Left'].map((header) => shown(record, header)))).toEqual(wanted);
});

test('the engine answers the same', () => {
  expect(differences(state)).toEqual([]);
});

test('another program answers the same', async () => {
  const { bytes } = await exportedBook(new Workbook(state), [], { stamp });
  const rows = (await recalculated(bytes)).sheets.find(({ name }) => name === 'Spares')?.rows;
  const cell = (record: number, column: number): unknown => {
    const found = rows?.get(record + 2)?.find((item) => item.column === column);
    return found?.error === undefined ? (found?.value ?? '') : 'error';
  };
  // A file need not repeat which of two wrong inputs spoke first: it is an error, and Findings says why.
  const inFile = wanted.map((row) => row.map((value) => (String(value).startsWith('#') ? 'error' : value)));
  expect(cases.map((_, record) => [cell(record, 5), cell(record, 6)])).toEqual(inFile);
}, 240_000);

test('people read it without guards', () => {
  const words = (column: number): unknown =>
    explained(new Workbook(state), { sheet: 'Spares', record: 0, column }).words;
  expect(words(4)).toBe('=[Plates]+IF(ISBLANK([Reserve plates]),0,[Reserve plates])');
  expect(words(5)).toBe('=IF([Used]>[To take]/2,[To take]-[Used],[To take]*1-[Used])');
});
