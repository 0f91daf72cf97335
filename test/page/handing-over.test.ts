import { describe, expect, it, test } from 'vitest';
import { handedRows, handOver, isHanded, isHandedRows, rowless, RowsAhead } from '../../src/page/handing-over.ts';
import { stateText } from '../../src/page/library/state-text.ts';
import { findings } from '../../src/checks/findings.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import type { BookState } from '../../src/workbook/state.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { fleet } from '../bench/fleet.ts';
import { everythingBook } from '../workbook/everything-book.ts';

/** Large books on their way between the page, its workers and the browser's store: in pieces, and whole again. */

const large = fleet(1_234);

/** What a worker is handed. */
class Hearing {
  readonly heard: object[] = [];

  postMessage(message: object): void {
    this.heard.push(structuredClone(message));
  }
}

const whole = (messages: readonly object[]): object | undefined => {
  const ahead = new RowsAhead();
  for (const message of messages)
    if (isHanded(message)) ahead.take(message);
    else return ahead.whole(message);
  return undefined;
};

describe('a task for a worker', () => {
  it('of a small book goes in one piece, at once', () => {
    const worker = new Hearing();
    handOver(worker, { do: 'order', state: demoBook('metric') }, () => true);
    expect(worker.heard).toEqual([{ do: 'order', state: demoBook('metric') }]);
  });

  it('of a large one goes with its rows ahead, and is whole again', async () => {
    const worker = new Hearing();
    handOver(worker, { do: 'order', state: large }, () => true);
    await expect.poll(() => worker.heard.some((message) => !isHanded(message))).toBe(true);
    const rows = worker.heard.filter(isHandedRows);
    expect(rows.length).toBeGreaterThan(2);
    expect(Math.max(...rows.map((run) => run.rows.length))).toBeLessThanOrEqual(500);
    expect(whole(worker.heard)).toEqual({ do: 'order', state: large });
  });

  it('of a large one that has findings goes with them ahead, in their order', async () => {
    const found = findings(new Workbook(demoBook('metric')));
    const task = { state: large, findings: Array.from({ length: 2_000 }, (_, at) => found[at % found.length]) };
    const worker = new Hearing();
    handOver(worker, task, () => true);
    await expect.poll(() => worker.heard.some((message) => !isHanded(message))).toBe(true);
    expect(whole(worker.heard)).toEqual(task);
  });

  it('that nobody waits for any more goes no further', async () => {
    const worker = new Hearing();
    let isWanted = true;
    handOver(worker, { state: large }, () => isWanted);
    isWanted = false;
    await new Promise((done) => setTimeout(done, 50));
    expect(worker.heard).toHaveLength(1);
  });
});

test('rows that came for one book are not those of the next', () => {
  const ahead = new RowsAhead();
  for (const run of handedRows(large)) ahead.take(run);
  expect(ahead.joined(rowless(large))).toEqual(large);
  expect(ahead.joined(rowless(large))).toEqual(rowless(large));
});

describe('a book as text in pieces', () => {
  const books: readonly BookState[] = [large, demoBook('us'), ...[1, 2, 3, 4, 5].map(everythingBook)];
  it.each(books.map((book) => [book.title, book] as const))('%s is the text that it is in one', (_, book) => {
    const pieces = [...stateText(book)];
    // Compared here, since what differs of such texts is told for minutes.
    expect(pieces.join('') === JSON.stringify(book)).toBe(true);
    expect(pieces.length).toBeGreaterThan(book.sheets.length);
  });
});
