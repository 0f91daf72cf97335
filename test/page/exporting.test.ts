import { afterEach, expect, test, vi } from 'vitest';
import { Desk } from '../../src/page/desk.ts';
import { exportRoundSheet, writeBook } from '../../src/page/exporting.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** A file that is written beside the page: what is shown meanwhile, and what puts an end to it. */

class IdleWorker extends EventTarget {
  static last: IdleWorker | undefined;
  ended = false;

  constructor() {
    super();
    IdleWorker.last = this;
  }

  postMessage(): void {
    this.ended = false;
  }

  terminate(): void {
    this.ended = true;
  }

  answer(data: object): void {
    if (!this.ended) this.dispatchEvent(new MessageEvent('message', { data }));
  }
}

afterEach(() => void vi.unstubAllGlobals());

function begun() {
  vi.stubGlobal('Worker', IdleWorker);
  const desk = new Desk(new Workbook(demoBook('metric')));
  const delivered: Blob[] = [];
  writeBook(desk, 'quay.xlsx', (file) => Promise.resolve(void delivered.push(file)));
  const worker = IdleWorker.last;
  if (worker === undefined) throw new Error('nobody was asked to write');
  return { desk, delivered, worker, texts: () => desk.notices.map(({ text }) => text) };
}

test('its share is shown, and it is delivered once it is whole', async () => {
  const { desk, delivered, worker, texts } = begun();
  expect(desk.exporting).toMatchObject({ name: 'quay.xlsx', share: 0 });
  worker.answer({ done: 'share', share: 0.4 });
  expect(desk.exporting).toMatchObject({ name: 'quay.xlsx', share: 0.4 });
  const file = new Blob([Uint8Array.of(1, 2)]);
  worker.answer({ done: 'file', file, digest: '12', otherwise: [] });
  worker.answer({ done: 'end' });
  await vi.waitFor(() => expect(desk.exporting).toBeUndefined());
  expect(delivered).toEqual([file]);
  expect(texts()).toEqual(['quay.xlsx was written.']);
});

test('stopped, nothing is delivered, and the next can be written', () => {
  const { desk, delivered, worker, texts } = begun();
  worker.answer({ done: 'share', share: 0.4 });
  desk.exporting?.stop();
  expect(worker.ended).toBe(true);
  expect([desk.exporting, delivered, texts()]).toEqual([undefined, [], ['quay.xlsx was not written: you stopped it.']]);
  writeBook(desk, 'again.xlsx', () => Promise.resolve());
  expect(desk.exporting).toMatchObject({ name: 'again.xlsx' });
});

test('a round sheet of more belts than it can hold is refused in words, and none is begun', () => {
  vi.stubGlobal('Worker', IdleWorker);
  IdleWorker.last = undefined;
  const desk = new Desk(new Workbook(demoBook('metric')));
  const rows = Array.from({ length: 20_001 }, () => ({ cells: [] }));
  vi.spyOn(desk.book, 'sheet').mockReturnValue({ name: 'Belts', userColumns: [], rows });
  exportRoundSheet(desk);
  expect(desk.notices.map(({ text }) => text).join()).toContain('at most 20,000 belts; this book has 20,001');
  expect([desk.exporting, IdleWorker.last]).toEqual([undefined, undefined]);
});
