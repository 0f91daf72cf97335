import type { Page } from 'playwright-core';
import { presentColumns } from '../../src/workbook/adapted-book.ts';
import type { BookState } from '../../src/workbook/state.ts';

/** Puts a book where the page keeps its own, in one run of rows a sheet. */
export async function store(page: Page, { sheets, ...head }: BookState): Promise<void> {
  await page.evaluate(
    async ({ heads, rows }) => {
      const database = await new Promise<IDBDatabase>((done, failed) => {
        const request = indexedDB.open('skewbook');
        request.onsuccess = () => done(request.result);
        request.onerror = () => failed(request.error);
      });
      const writing = database.transaction(['head', 'runs'], 'readwrite');
      writing.objectStore('head').put({ ...heads, at: new Date() }, 'book');
      rows.forEach((run, sheet) => writing.objectStore('runs').put(run, [sheet, 0]));
      await new Promise((done) => writing.addEventListener('complete', done));
    },
    {
      heads: {
        version: 2,
        columns: presentColumns(),
        ...head,
        sheets: sheets.map(({ name, userColumns, rows }) => ({ name, userColumns, rows: rows.length })),
        writer: 'test',
      },
      rows: sheets.map((sheet) => sheet.rows),
    },
  );
}

/** What the store holds in a column of the first records of the first sheet; none when it holds no book. */
export const storedCells = (page: Page, column: number, records: number): Promise<readonly unknown[]> =>
  page.evaluate(
    ([at, count]) =>
      new Promise<unknown[]>((done, failed) => {
        const request = indexedDB.open('skewbook');
        let none = false;
        request.onerror = () => (none ? done([]) : failed(request.error));
        request.onupgradeneeded = () => {
          none = true;
          request.transaction?.abort();
        };
        request.onsuccess = () => {
          const run = request.result.transaction('runs', 'readonly').objectStore('runs').get([0, 0]);
          run.onsuccess = () => {
            const rows = (run.result ?? []) as { cells: unknown[] }[];
            request.result.close();
            done(rows.slice(0, count).map(({ cells }) => cells[at]));
          };
        };
      }),
    [column, records] as const,
  );
