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
