import { writtenBook } from '../xlsx/write/written-book.ts';
import ExcelJS from 'exceljs';
import { describe, expect, test, vi } from 'vitest';
import { stepRows } from '../../src/card/card-values.ts';
import { readSteps } from '../../src/job/job-steps.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { emptyBook } from '../../src/workbook/declared.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { acceptImport } from '../../src/xlsx/import/acceptance.ts';
import { proposeImport } from '../../src/xlsx/import/proposal.ts';
import { readBook } from '../../src/xlsx/read/read.ts';
import { standardSteps } from '../../sheets/work/standard-steps.ts';

vi.setConfig({ testTimeout: 60_000 });

const standard = readSteps(standardSteps);
const stepsOf = (book: Workbook): ReturnType<typeof readSteps> => readSteps(stepRows(book));

async function imported(bytes: Uint8Array): Promise<Workbook> {
  const raw = readBook(bytes);
  return new Workbook(acceptImport(raw, proposeImport(raw), emptyBook('metric')).state);
}

describe('the sheet of steps', () => {
  test('begins with the standard steps in a new book and in the demo, without a fault', () => {
    expect(standard.faults).toEqual([]);
    for (const state of [emptyBook('metric'), emptyBook('us'), demoBook('metric'), demoBook('us')])
      expect(stepsOf(new Workbook(state))).toEqual(standard);
  });

  test('comes with a list that has none; a sheet of orders is not taken for it', async () => {
    const file = new ExcelJS.Workbook();
    file.addWorksheet('Fleet').addRows([
      ['Belt', 'Width (mm)', 'Skew'],
      ['A 1', 800, 30],
      ['A 2', 1000, 45],
    ]);
    file.addWorksheet('Orders').addRows([
      ['Order', 'Supplier', 'Source', 'Amount'],
      [4711, 'one', 'web', 3],
      [4712, 'two', 'mail', 5],
    ]);
    const book = await imported(new Uint8Array(await file.xlsx.writeBuffer()));
    expect(book.sheet('Belts').rows).toHaveLength(2);
    expect(stepsOf(book)).toEqual(standard);
  });

  test('comes back from an export with what the user changed', async () => {
    const book = new Workbook(demoBook('metric'));
    book.edit([
      { sheet: 'Steps', record: 3, column: book.column('Steps', 'Text'), content: 'Mark {Midpoints} middles.' },
      { sheet: 'Steps', record: 3, column: book.column('Steps', 'Hold point'), content: 'yes' },
    ]);
    book.addRecords('Steps', 5, [
      [55, 'Own step', 'skew', 'Look at {Cut length}.', 'eyes', 'no', 'yes', 'pinch', null, null],
    ]);
    const back = stepsOf(await imported(await writtenBook(book, [])));
    expect(back).toEqual(stepsOf(book));
    expect(back.steps.some(({ title }) => title === 'Own step')).toBe(true);
  });
});
