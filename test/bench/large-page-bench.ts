import type { CDPSession, Page } from 'playwright-core';
import { belts } from '../../sheets/belts/index.ts';
import { columnLetters } from '../../src/formula/address.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { type BookState, sheetOf } from '../../src/workbook/state.ts';
import { setup } from '../browser/built-page.ts';
import { goTo, TestBrowser } from '../browser/opened-page.ts';
import { store } from '../browser/stored-book.ts';
import { fleet } from './fleet.ts';
import { median, milliseconds, quantile, times } from './timing.ts';

/** What a planner waits for in a very large book, against the demo in the same browser. */

/** Milliseconds by what they were measured of, and megabytes of the heap. */
type Figures = Record<string, number>;

interface Watched {
  /** Milliseconds that the page's thread stood still, each time. */
  readonly still: number[];
  /** Milliseconds since the page was asked for until rows, and until the grid, were to be seen. */
  rows: number | undefined;
  grid: number | undefined;
}

/** Runs in the page before its own scripts. */
function watch(): void {
  const watched: Watched = { still: [], rows: undefined, grid: undefined };
  Object.assign(window, { watched });
  new PerformanceObserver((list) => watched.still.push(...list.getEntries().map(({ duration }) => duration))).observe({
    type: 'longtask',
    buffered: true,
  });
  const look = (): void => {
    const rows = document.querySelector('.ht_master td, .first-rows th + td');
    if (rows !== null && /\S/.test(rows.textContent ?? '')) watched.rows ??= performance.now();
    if (document.querySelector('.ht_master td') === null) requestAnimationFrame(look);
    else watched.grid ??= performance.now();
  };
  requestAnimationFrame(look);
}

const watched = (page: Page): Promise<Watched> =>
  page.evaluate(() => (window as unknown as { readonly watched: Watched }).watched);

/** Milliseconds that an act takes. */
async function acted(act: () => Promise<unknown>): Promise<number> {
  const began = performance.now();
  await act();
  return performance.now() - began;
}

const heap = async (tools: CDPSession): Promise<number> => {
  await tools.send('HeapProfiler.collectGarbage');
  return (await tools.send('Runtime.getHeapUsage')).usedSize / 2 ** 20;
};

/** Milliseconds from keys to the end of the frame that follows. */
interface Painted {
  /** Of each key that begins an entry, which opens the editor. */
  readonly begun: readonly number[];
  /** Of each press of Enter that enters a number and goes to the next belt. */
  readonly entered: readonly number[];
}

/** Notes in the page how long each key takes to be painted, by the key. */
async function notePaints(page: Page): Promise<void> {
  await page.evaluate(() => {
    const painted: [string, number][] = [];
    Object.assign(window, { painted });
    window.addEventListener(
      'keydown',
      ({ key }) => {
        const began = performance.now();
        requestAnimationFrame(() => {
          const channel = new MessageChannel();
          channel.port1.addEventListener('message', () => painted.push([key, performance.now() - began]));
          channel.port1.start();
          channel.port2.postMessage(null);
        });
      },
      { capture: true },
    );
  });
}

const paints = (page: Page): Promise<[string, number][]> =>
  page.evaluate(() => {
    const { painted } = window as unknown as { readonly painted: [string, number][] };
    return painted.splice(0);
  });

/** The row of the first entry, and how many follow below it before it begins again there. */
const [firstRow, mostDown] = [10, 100];

/** Enters numbers into the widths of belts that there are: a number below the last one would be a new belt. */
async function edits(page: Page, rows: number, count: number): Promise<Painted> {
  const [begun, entered]: [number[], number[]] = [[], []];
  const down = Math.min(mostDown, rows - firstRow + 2);
  await notePaints(page);
  for (let edit = 0; edit < count; edit += 1) {
    if (edit % down === 0) {
      await goTo(page, `D${firstRow}`);
      await paints(page);
    }
    const [first = '', ...rest] = String(700 + 50 * (edit % 8));
    await page.keyboard.press(first);
    await page.waitForTimeout(30);
    await page.keyboard.type(rest.join(''));
    await page.keyboard.press('Enter');
    await page.waitForTimeout(60);
    if (edit % down < down - 1 && edit < count - 1) continue;
    await page.waitForTimeout(500);
    const all = await paints(page);
    all.forEach(([key, time], at) => {
      if (key === 'Enter') entered.push(time);
      else if (at === 0 || all[at - 1]?.[0] === 'Enter') begun.push(time);
    });
  }
  return { begun, entered };
}

/** Milliseconds that a new belt below the last one takes, to the end of the frame that follows Enter. */
async function newBelt(page: Page, rows: number): Promise<number> {
  await goTo(page, `A${rows + 2}`);
  await paints(page);
  await page.keyboard.type('X');
  await page.keyboard.press('Enter');
  await page.waitForFunction(
    () => (window as unknown as { readonly painted: [string, number][] }).painted.some(([key]) => key === 'Enter'),
    undefined,
    { timeout: 120_000 },
  );
  return (await paints(page)).find(([key]) => key === 'Enter')?.[1] ?? Number.NaN;
}

/** Milliseconds between frames while rows go by, a few at a time and by leaps. */
const frames = (page: Page): Promise<number[]> =>
  page.evaluate(async () => {
    const holder = document.querySelector('.ht_master .wtHolder');
    if (holder === null) throw new Error('no grid');
    const lengths: number[] = [];
    let last = performance.now();
    for (let step = 0; step < 120; step += 1) {
      holder.scrollTop = (holder.scrollTop + (step % 10 === 9 ? holder.scrollHeight / 20 : 300)) % holder.scrollHeight;
      await new Promise((done) => requestAnimationFrame(done));
      const now = performance.now();
      lengths.push(now - last);
      last = now;
    }
    return lengths;
  });

const cellIn = (header: string): string =>
  `${columnLetters(belts.columns.findIndex((column) => column.header === header))}2`;

/** The menu of a column, with all values that it holds. */
async function openMenu(page: Page, header: string): Promise<void> {
  await goTo(page, cellIn(header));
  await page.keyboard.press('Alt+Shift+ArrowDown');
  await page.locator('.htUIMultipleSelectHot').waitFor({ timeout: 120_000 });
}

async function rowsFigures(page: Page): Promise<Figures> {
  const menu = await acted(() => openMenu(page, 'Lift'));
  const sort = await acted(async () => {
    await page.locator('.htDropdownMenu td', { hasText: 'Sort: largest or Z first' }).click();
    await page.locator('.chip', { hasText: 'Sorted by' }).waitFor({ timeout: 120_000 });
  });
  await openMenu(page, 'Area');
  await page.locator('.htUIClearAll a').click();
  await page.locator('.htUIMultipleSelectHot .ht_master td').nth(1).click();
  const filter = await acted(async () => {
    await page.locator('.htUIButtonOK input').click();
    await page.locator('.chip-filter').waitFor({ timeout: 120_000 });
  });
  const clear = await acted(async () => {
    await page.keyboard.press('Alt+Shift+O');
    await page.locator('.chip-filter').waitFor({ state: 'detached', timeout: 120_000 });
  });
  await page.keyboard.press('Control+f');
  await page.locator('#find-text').waitFor();
  await page.waitForTimeout(200);
  const find = await acted(async () => {
    await page.keyboard.type('C');
    await page.locator('.find-count', { hasText: ' of ' }).waitFor({ timeout: 120_000 });
  });
  await page.keyboard.press('Escape');
  return { 'menu of a column': menu, sort, filter, 'clear sort and filter': clear, 'first cells found': find };
}

async function figuresOf(browser: TestBrowser, state: BookState): Promise<Figures> {
  const count = sheetOf(state, belts.name).rows.length;
  const { page, context } = await browser.open();
  const tools = await context.newCDPSession(page);
  // A planner's own book: what is left of the demo is looked for in no row.
  await store(page, { ...state, invented: false });
  await page.addInitScript(watch);
  await page.reload({ timeout: 300_000 });
  await page.waitForFunction(
    () => (window as unknown as { readonly watched: Watched }).watched.grid !== undefined,
    undefined,
    { timeout: 300_000, polling: 200 },
  );
  const opened = await watched(page);
  const afterOpening = await heap(tools);
  const { begun, entered } = await edits(page, count, 100);
  const scrolled = await frames(page);
  const rows = await rowsFigures(page);
  const belt = await newBelt(page, count);
  await page.locator('.findings-panel .finding-list, .findings-panel .empty').first().waitFor({ timeout: 120_000 });
  const figures = {
    'first rows to be seen': opened.rows ?? Number.NaN,
    'all worked out, the grid drawn': opened.grid ?? Number.NaN,
    'longest that the opening stops the page': Math.max(0, ...opened.still),
    'first digit to repaint, median': median(begun),
    'first digit to repaint, 99th percentile': quantile(begun, 0.99),
    'edit to repaint, median': median(entered),
    'edit to repaint, 99th percentile': quantile(entered, 0.99),
    'edit to repaint, slowest of 100': Math.max(...entered),
    'scrolling, median frame': median(scrolled),
    'scrolling, longest frame': Math.max(...scrolled),
    ...rows,
    'a new belt, to repaint': belt,
    'heap after opening, MB': afterOpening,
    'heap at the end, MB': await heap(tools),
  };
  await context.close();
  return figures;
}

export async function largePageBench(count: number, write: (text: string) => void): Promise<void> {
  setup();
  const browser = await TestBrowser.start();
  try {
    const demo = await figuresOf(browser, demoBook('metric'));
    const large = await figuresOf(browser, fleet(count));
    write(`The page with a stored book of ${count.toLocaleString('en-US')} belts`);
    for (const [what, value] of Object.entries(large)) {
      const of = demo[what] ?? Number.NaN;
      const shown = (number: number): string => (what.endsWith('MB') ? number.toFixed(0) : milliseconds(number));
      write(`  ${what.padEnd(40)} ${shown(value).padStart(10)}  demo ${shown(of).padStart(10)}  ${times(value / of)}`);
    }
  } finally {
    await browser.stop();
  }
}
