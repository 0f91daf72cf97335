import type { Page } from 'playwright-core';
import { presentColumns } from '../../src/workbook/adapted-book.ts';
import type { BookState } from '../../src/workbook/state.ts';

/** Rows in a run of the store, and those handed to the browser at once, as text: as objects they take minutes. */
const [runLength, handedAtOnce] = [100, 5_000];

/** Puts a book where the page keeps its own, in runs as the page makes them. */
export async function store(page: Page, { sheets, ...head }: BookState): Promise<void> {
  const writing = async (heads: object | undefined, runs: readonly (readonly [number[], unknown])[]): Promise<void> =>
    page.evaluate(
      async ([stored, text]) => {
        const database = await new Promise<IDBDatabase>((done, failed) => {
          const request = indexedDB.open('skewbook');
          request.onsuccess = () => done(request.result);
          request.onerror = () => failed(request.error);
        });
        const put = database.transaction(['head', 'runs'], 'readwrite');
        if (stored !== undefined) put.objectStore('head').put({ ...stored, at: new Date() }, 'book');
        for (const [key, run] of JSON.parse(text) as [number[], unknown][]) put.objectStore('runs').put(run, key);
        await new Promise((done) => put.addEventListener('complete', done));
        database.close();
      },
      [heads, JSON.stringify(runs)] as const,
    );
  for (const [sheet, { rows }] of sheets.entries())
    for (let from = 0; from < rows.length; from += handedAtOnce) {
      const handed = rows.slice(from, from + handedAtOnce);
      await writing(
        undefined,
        Array.from({ length: Math.ceil(handed.length / runLength) }, (_, run) => [
          [sheet, from / runLength + run],
          handed.slice(run * runLength, (run + 1) * runLength),
        ]),
      );
    }
  await writing(
    {
      version: 2,
      columns: presentColumns(),
      ...head,
      sheets: sheets.map(({ name, userColumns, rows }) => ({ name, userColumns, rows: rows.length })),
      writer: 'test',
    },
    [],
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
