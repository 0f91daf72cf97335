import { expect, test } from 'vitest';
import { findings } from '../../src/checks/findings.ts';
import { joinedBooks } from '../../src/order/joined-books.ts';
import { siteBooks } from '../../src/page/order/site-books.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { exportedBook } from '../../src/xlsx/write/write.ts';
import { half } from '../order/halved-demo.ts';
import { withSheet } from '../../src/workbook/state-changes.ts';

const file = async (book: Workbook): Promise<Uint8Array<ArrayBuffer>> =>
  new Uint8Array((await exportedBook(book, findings(book))).bytes);

test('sites that are added by their files are joined as the command line joins them', async () => {
  const [quay, mill] = [half(0), half(1)];
  const bytes = await file(mill);
  const added = await siteBooks(quay.state, 'quay', [{ name: 'mill.xlsx', bytes }], false);
  const joined = joinedBooks([
    { file: 'quay', book: quay },
    { file: 'mill.xlsx', book: mill },
  ]);
  expect(added.sites).toEqual(['Quay', 'Mill']);
  expect(added.conflicts).toEqual([]);
  expect(added.state.sheets.find(({ name }) => name === 'Belts')?.rows).toEqual(
    joined.state.sheets.find(({ name }) => name === 'Belts')?.rows,
  );
  const belts = quay.sheet('Belts').rows.length;
  expect(added.rows['Belts']?.[belts]).toEqual({ book: 1, record: 0 });
  expect(added.inputs.map(({ name }) => name)).toEqual(['mill.xlsx']);

  const other = half(1, (state) =>
    withSheet(state, 'Plate series', (sheet) => ({
      ...sheet,
      rows: sheet.rows.map(({ cells }) => ({
        cells: cells.map((cell, column) => (column > 0 && typeof cell === 'number' ? 2 * cell : cell)),
      })),
    })),
  );
  const wrong = [{ name: 'other.xlsx', bytes: await file(other) }];
  expect((await siteBooks(quay.state, 'quay', wrong, false)).conflicts.length).toBeGreaterThan(0);
  expect((await siteBooks(quay.state, 'quay', wrong, true)).conflicts).toEqual([]);
  const none = { name: 'note.xlsx', bytes: new TextEncoder().encode('no book') };
  await expect(siteBooks(quay.state, 'quay', [none], false)).rejects.toThrow(/^note\.xlsx could not be used: /);
}, 60_000);
