import { expect, test } from 'vitest';
import { fleetOrder, suppliedOrder } from '../../src/order/fleet-order.ts';
import { orderFiles, orderPapers } from '../../src/purchase/order-papers.ts';
import type { FilledSheet } from '../../src/purchase/request-answers.ts';
import { requestDocuments } from '../../src/purchase/request-document.ts';
import { requestFiles } from '../../src/purchase/request-papers.ts';
import { withReturnedFiles } from '../../src/purchase/returned-files.ts';
import { loadSolver } from '../../src/solver/solver.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { sheetOf } from '../../src/workbook/state.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { readBook } from '../../src/xlsx/read/read.ts';
import { laidBook } from '../../src/xlsx/write/laid-book.ts';

type Cells = FilledSheet['rows'] extends ReadonlyMap<number, infer Row> ? Row : never;

const state = demoBook('metric');
const book = new Workbook(state);
const order = fleetOrder(book, { which: 'all' });

test('enters an order that was sent, once, and tells a file that is none of ours', async () => {
  const supplied = suppliedOrder(order, await loadSolver());
  const { papers } = orderPapers(book, order, supplied, { inputs: [], options: [], unfinished: [] });
  const files = await orderFiles(papers.slice(0, 1), 'metric', laidBook);
  const [sent] = files.filter(({ name }) => name.endsWith('.xlsx'));
  const { sheets } = readBook(sent?.bytes ?? new Uint8Array());
  const lines = papers[0]?.document.lines.length ?? 0;
  const taken = withReturnedFiles(state, [
    { name: 'sent.xlsx', sheets },
    { name: 'other.xlsx', sheets: [] },
    { name: 'sent.xlsx', sheets },
  ]);
  expect(taken.changed).toBe(true);
  expect(sheetOf(taken.state, 'Orders').rows).toHaveLength(lines);
  expect(taken.said[0]).toMatch(new RegExp(`^sent\\.xlsx: ${lines} order lines? entered in the sheet Orders\\.$`));
  expect(taken.said[1]).toMatch(
    /^other\.xlsx could not be used: it is no request for quotation and no order of ours\./,
  );
  expect(taken.said[2]).toBe('sent.xlsx: 0 order lines entered in the sheet Orders.');
  expect(withReturnedFiles(state, [{ name: 'other.xlsx', sheets: [] }])).toMatchObject({ changed: false, state });
});

test('takes a price over that a supplier answered, and says what it was before', async () => {
  const documents = requestDocuments(book, order, { suppliers: ['Invented Supplier B'], everything: false });
  const [file] = await requestFiles(documents, 'metric', laidBook);
  const sheets = readBook(file?.bytes ?? new Uint8Array()).sheets.map((sheet): FilledSheet => {
    const head = [...sheet.rows].find(([, cells]) => cells.some(({ value }) => value === 'Price per pack'));
    const column = head?.[1].find(({ value }) => value === 'Price per pack')?.column ?? 0;
    const first = (head?.[0] ?? 0) + 1;
    const answered = [...(sheet.rows.get(first) ?? [])].filter((cell) => cell.column !== column);
    return {
      name: sheet.name,
      rows: new Map(
        [...sheet.rows].map(([row, cells]): [number, Cells] => [
          row,
          row === first ? [...answered, { column, value: 111.11 }] : cells,
        ]),
      ),
    };
  });
  const { changed, said, state: after } = withReturnedFiles(state, [{ name: 'answer.xlsx', sheets }]);
  expect(changed).toBe(true);
  expect(said[0]).toMatch(/^answer\.xlsx: \d+ cells? of Offers changed\.$/);
  const price = said.find((text) => / Price (?:[\d.]+|blank) → 111\.11/.test(text));
  expect(price).toBeDefined();
  expect(sheetOf(after, 'Offers').rows.some(({ cells }) => cells.includes(111.11))).toBe(true);
  expect(sheetOf(after, 'Belts')).toBe(sheetOf(state, 'Belts'));
});
