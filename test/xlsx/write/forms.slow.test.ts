import { expect, test } from 'vitest';
import { demoBook } from '../../../src/workbook/demo.ts';
import { bookColumns, emptyBook } from '../../../src/workbook/declared.ts';
import { type BookState, sheetOf } from '../../../src/workbook/state.ts';
import { Workbook } from '../../../src/workbook/workbook.ts';
import { mergedBook } from '../../../src/merge/merged-book.ts';
import { mergePlan, type MergeBook } from '../../../src/merge/merge-plan.ts';
import { acceptImport } from '../../../src/xlsx/import/acceptance.ts';
import { coveredColumns } from '../../../src/xlsx/import/covered-columns.ts';
import type { ImportReport } from '../../../src/xlsx/import/import-model.ts';
import { proposeImport } from '../../../src/xlsx/import/proposal.ts';
import { cellText } from '../../../src/xlsx/read/raw-cells.ts';
import { readBook } from '../../../src/xlsx/read/read.ts';
import { blankList, roundSheet } from '../../../src/xlsx/write/forms.ts';
import { listFormFile } from '../../../src/xlsx/write/list-form.ts';
import { edited } from '../libreoffice.ts';

/** Forms, filled in with another program by a script. */

/** A line of its Basic that types into a cell, counted from 0. */
const typed = (row: number, column: number, entry: string | number): string =>
  `book.Sheets(0).getCellByPosition(${column}, ${row}).${
    typeof entry === 'number' ? `Value = ${entry}` : `String = "${entry}"`
  }`;

function imported(bytes: Uint8Array): { readonly book: MergeBook; readonly report: ImportReport } {
  const file = readBook(bytes);
  const { state, report } = acceptImport(file, proposeImport(file), emptyBook('metric'));
  const covers = coveredColumns(report);
  return { book: { state, ...(covers === undefined ? {} : { covers }) }, report };
}

const beltsByHeader = (state: BookState): Record<string, unknown>[] => {
  const sheet = sheetOf(state, 'Belts');
  return sheet.rows.map(({ cells }) =>
    Object.fromEntries(
      bookColumns(sheet).flatMap(({ header }, at) => ((cells[at] ?? null) === null ? [] : [[header, cells[at]]])),
    ),
  );
};

test.each(['metric', 'us'] as const)(
  'a blank list in %s units says of each row what is wrong, and is read',
  async (units) => {
    const form = blankList(units);
    const at = (header: string): number => form.columns.findIndex((column) => column.header === header);
    const first = form.lines.length + 2;
    const fill = (row: number, entries: Readonly<Record<string, string | number>>): string[] =>
      Object.entries(entries).map(([header, entry]) => typed(first + row, at(header), entry));
    const good = {
      Belt: 'B1',
      Width: 800,
      Construction: 'EP 400/3 4+2',
      'Smallest pulley': 400,
      'Pulley centres': 90,
      Speed: 2,
    };
    const bytes = await edited(await listFormFile(form), [
      ...fill(0, { ...good, Thickness: 10, 'Top cover': 4, 'Take-up type': 'screw', Service: 'none' }),
      ...fill(1, { Belt: 'B2', Width: -5, 'Wrap angle': 900, Speed: 'fast', 'Take-up type': 'spring' }),
      ...fill(2, { ...good, Belt: 'B3', Thickness: 10, 'Top cover': 12 }),
      ...fill(3, { ...good, Belt: 'B3' }),
      'book.calculateAll()',
    ]);
    const [sheet] = readBook(bytes).sheets;
    const check = (row: number): string => {
      const cell = sheet?.rows.get(first + 1 + row)?.find(({ column }) => column === form.columns.length + 1);
      return cell === undefined ? 'none' : cellText(cell);
    };
    const [length, speed] = units === 'us' ? ['in', 'ft/min'] : ['mm', 'm/s'];
    expect([0, 1, 2, 3].map(check)).toEqual([
      'complete',
      'Construction is missing. Smallest pulley is missing. Pulley centres is missing. ' +
        `Width must be a number more than 0, in ${length}. Speed must be a number more than 0, in ${speed}. ` +
        'Wrap angle must be a number more than 0 and at most 720, in °. Take-up type must be one of: automatic, screw.',
      'Belt is there twice. Top cover must be less than Thickness.',
      'Belt is there twice.',
    ]);
    const { book, report } = imported(bytes);
    expect(report.units).toBe(units);
    expect(report.notKept).toEqual([]);
    expect(beltsByHeader(book.state)[0]).toEqual({
      ...good,
      Thickness: 10,
      'Top cover': 4,
      'Take-up type': 'screw',
      Service: 'none',
    });
    expect(beltsByHeader(book.state)).toHaveLength(4);
    expect(bookColumns(sheetOf(book.state, 'Belts')).filter(({ own }) => own)).toEqual([]);
  },
);

test.each(['metric', 'us'] as const)(
  'an inspection round in %s units changes what was changed on it',
  async (units) => {
    const book = new Workbook(demoBook(units));
    const form = roundSheet(book, 46_000);
    const sent = await listFormFile(form);
    const at = (header: string): number => form.columns.findIndex((column) => column.header === header);
    const first = form.lines.length + 2;
    const filled = await edited(sent, [
      typed(first, at('Take-up travel'), 123),
      typed(first + 4, at('Drive pulley condition'), 'dry'),
      typed(first + 7, at('Inspection remark'), 'edge frayed'),
    ]);
    const [base, theirs] = [imported(sent).book, imported(filled).book];
    const plan = mergePlan({ base, mine: { state: book.state }, theirs });
    // The columns that only the round has are new there, not taken away here.
    expect(plan.items.filter(({ conflict, here }) => conflict || here !== undefined)).toEqual([]);
    const { state } = mergedBook(plan);
    const before = beltsByHeader(book.state);
    const after = beltsByHeader(state);
    const expected = before.map((belt, record) => ({
      ...belt,
      ...(record === 0 ? { 'Take-up travel': 123 } : {}),
      ...(record === 4 ? { 'Drive pulley condition': 'dry' } : {}),
      ...(record === 7 ? { 'Inspection remark': 'edge frayed' } : {}),
    }));
    expect(after).toEqual(expected);
    for (const sheet of book.state.sheets)
      if (sheet.name !== 'Belts') expect(sheetOf(state, sheet.name)).toEqual(sheet);
    book.destroy();
  },
);
