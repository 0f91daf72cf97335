import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { fleet } from '../bench/fleet.ts';
import { arrivedAt, formula, goTo, type OpenedPage, TestBrowser, told } from './opened-page.ts';
import { store } from './stored-book.ts';

/** Ten thousand belts in the page: restored from the browser's store, then worked on. */
const belts = 10_000;

/**
 * Runs in the page before its own scripts: notes what comes to stand in it, in which order, and how many frames are
 * drawn while the book is worked out.
 */
function noteOrder(): void {
  const seen: string[] = [];
  const frames = { count: 0 };
  Object.assign(window, { seen, frames });
  const frame = (): void => {
    if (/Working out/.test(document.querySelector('.first-rows [role=status]')?.textContent ?? '')) frames.count += 1;
    if (document.querySelector('.ht_master td') === null) requestAnimationFrame(frame);
  };
  requestAnimationFrame(frame);
  new MutationObserver(() => {
    const rows = document.querySelector('.first-rows td:last-child')?.textContent ?? '';
    const state = rows !== '' ? 'first rows' : document.querySelector('.ht_master td') !== null ? 'the grid' : '';
    if (state !== '' && seen.at(-1) !== state) seen.push(state);
  }).observe(document, { subtree: true, childList: true });
}

const seen = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => (window as unknown as { readonly seen: readonly string[] }).seen);

let browser: TestBrowser;
let opened: OpenedPage;

beforeAll(async () => {
  browser = await TestBrowser.start();
  opened = await browser.open();
  const { page } = opened;
  await store(page, fleet(belts));
  await page.addInitScript(noteOrder);
  await page.reload();
  await page.waitForFunction((count) => document.querySelector('.count')?.textContent?.includes(String(count)), belts, {
    timeout: 60_000,
  });
});

afterAll(() => browser.stop());

/** Cells of the grid that stand in the page, and how many of its nodes an act changes. */
async function changedBy(page: Page, act: () => Promise<void>): Promise<{ readonly cells: number; changed: number }> {
  await page.evaluate(() => {
    const changed = { nodes: 0 };
    Object.assign(window, { changed });
    const grid = document.querySelector('.ht_master');
    if (grid === null) throw new Error('no grid');
    new MutationObserver((list) => {
      changed.nodes += list.reduce(
        (sum, { addedNodes, type }) => sum + (type === 'childList' ? addedNodes.length : 1),
        0,
      );
    }).observe(grid, { subtree: true, childList: true, attributes: true, characterData: true });
  });
  await act();
  return page.evaluate(() => ({
    cells: document.querySelectorAll('td').length,
    changed: (window as unknown as { readonly changed: { readonly nodes: number } }).changed.nodes,
  }));
}

/** Presses "Stop" of the next change that is being worked out as soon as it can be pressed. */
function stopAtOnce(): void {
  const seer = new MutationObserver(() => {
    const stop = document.querySelector<HTMLButtonElement>('.notice button[aria-label^="Stop"]');
    if (stop === null) return;
    seer.disconnect();
    stop.click();
  });
  seer.observe(document.body, { subtree: true, childList: true });
}

/** Frames that the page draws while it tells something, from an act on. */
async function framesBefore(page: Page, act: () => Promise<void>, text: string): Promise<number> {
  await page.evaluate((said) => {
    const counted = { frames: 0, over: false };
    Object.assign(window, { counted });
    const frame = (): void => {
      const told = document.querySelector('.notices')?.textContent?.includes(said) === true;
      if (told) counted.frames += 1;
      else if (counted.frames > 0) counted.over = true;
      if (!counted.over) requestAnimationFrame(frame);
    };
    requestAnimationFrame(frame);
  }, text);
  await act();
  await page.waitForFunction(
    () => (window as unknown as { readonly counted: { readonly over: boolean } }).counted.over,
  );
  return page.evaluate(() => (window as unknown as { readonly counted: { readonly frames: number } }).counted.frames);
}

/** What of the rows in view does not agree with the number before the row; with it, which rows are in view. */
const rowsInView = (page: Page): Promise<{ readonly wrong: readonly string[]; readonly rows: readonly number[] }> =>
  page.evaluate(() => {
    const wrong: string[] = [];
    const rows = [...document.querySelectorAll('.ht_master tbody tr')].map((row) => {
      const number = Number(row.querySelector('th')?.textContent);
      const cells = [...row.querySelectorAll('td')];
      const name = `B${String(number - 1).padStart(5, '0')}`;
      if (row.getAttribute('aria-rowindex') !== String(number)) wrong.push(`row ${number}: index`);
      for (const cell of cells) {
        const said = cell.getAttribute('aria-label') ?? '';
        const [text = ''] = (cell.textContent ?? '').match(/[^✓≈✕?\s].*/u) ?? [];
        if (!said.includes(`: ${text === '' ? 'empty' : text}`)) wrong.push(`row ${number}: "${said}" for "${text}"`);
        if (said.startsWith('Belt:') && cell.textContent !== name) wrong.push(`row ${number}: ${cell.textContent}`);
        if (cell.getAttribute('role') !== 'gridcell') wrong.push(`row ${number}: no cell`);
      }
      return number;
    });
    const frozen = [...document.querySelectorAll('.ht_clone_inline_start tbody tr')].map(
      (row) => `${row.querySelector('th')?.textContent}: ${row.querySelector('td')?.textContent}`,
    );
    for (const [at, number] of rows.entries())
      if (frozen[at] !== `${number}: B${String(number - 1).padStart(5, '0')}`) wrong.push(`frozen ${frozen[at]}`);
    if (document.querySelectorAll('.ht_master td.current').length > 1) wrong.push('two selected cells');
    return { wrong, rows };
  });

/** Scrolls, and waits until that is drawn. */
const scrollTo = (page: Page, top: number, left = 0): Promise<void> =>
  page.evaluate(
    async ([down, right]) => {
      document.querySelector('.ht_master .wtHolder')?.scrollTo(right, down);
      for (let frame = 0; frame < 2; frame += 1) await new Promise((done) => requestAnimationFrame(done));
    },
    [top, left] as const,
  );

describe('a book of ten thousand belts', () => {
  it('shows the first rows before it is worked out', async () =>
    expect(await seen(opened.page)).toEqual(['first rows', 'the grid']));

  it('goes on drawing while it is worked out', async () => {
    const drawn = await opened.page.evaluate(
      () => (window as unknown as { readonly frames: { readonly count: number } }).frames.count,
    );
    // In one piece it would be drawn once before and once after.
    expect(drawn).toBeGreaterThan(3);
  });

  // How many milliseconds it takes is told by `npm run bench`.
  it('holds the cells in view alone, and draws no more at an edit', async () => {
    const { page } = opened;
    await goTo(page, 'D5000');
    const { cells, changed } = await changedBy(page, async () => {
      await page.keyboard.type('700');
      await page.keyboard.press('Enter');
      await goTo(page, 'D5000');
      await page.locator('.told', { hasText: '700 mm' }).waitFor();
    });
    expect(cells).toBeLessThan(5000);
    expect(changed).toBeGreaterThan(0);
    expect(changed).toBeLessThan(10 * cells);
  });

  it('shows each row what is its own, wherever it scrolls', async () => {
    const { page } = opened;
    await goTo(page, 'D5000');
    const first: number[] = [];
    for (const [top, left] of [
      [50_000, 0],
      [50_025, 0],
      [50_400, 0],
      [50_200, 300],
      [50_800, 900],
      [120_000, 0],
      [119_600, 0],
      [240_000, 0],
      [0, 0],
      [130, 0],
    ] as const) {
      await scrollTo(page, top, left);
      const { wrong, rows } = await rowsInView(page);
      expect(wrong).toEqual([]);
      first.push(rows[0] ?? 0);
    }
    expect(new Set(first).size).toBeGreaterThan(6);
  });

  it('changes in the rows that stay in view nothing when others come', async () => {
    const { page } = opened;
    await scrollTo(page, 60_000);
    const texts = (): Promise<number> =>
      page.evaluate(() => {
        const changed = new Set<Node>();
        const grid = document.querySelector('.ht_master tbody');
        if (grid === null) throw new Error('no grid');
        const watching = new MutationObserver((list) => {
          for (const { target, type } of list)
            if (type === 'characterData') changed.add(target.parentNode ?? target);
            else if (target instanceof HTMLTableCellElement) changed.add(target);
        });
        watching.observe(grid, { subtree: true, childList: true, characterData: true });
        Object.assign(window, { texts: () => changed.size });
        return grid.querySelectorAll('td').length;
      });
    const cells = await texts();
    await scrollTo(page, 60_200);
    const changed = await page.evaluate(() => (window as unknown as { readonly texts: () => number }).texts());
    // Eight rows of some thirty have come.
    expect(changed).toBeGreaterThan(0);
    expect(changed).toBeLessThan(0.5 * cells);
  });

  it('marks the selected cell and its headers alone when a key brings rows into view', async () => {
    const { page } = opened;
    const marked = (): Promise<unknown> =>
      page.evaluate(() => ({
        headers: [
          ...document.querySelectorAll(
            '.ht_clone_top th.ht__highlight .header-letter, .ht_clone_inline_start th.ht__highlight .rowHeader',
          ),
        ].map(({ textContent }) => textContent),
        selected: document.querySelectorAll('.ht_master td.current').length,
        focused: document.activeElement === document.querySelector('.ht_master td.current'),
      }));
    await goTo(page, 'C700');
    for (let row = 701; row <= 712; row += 1) await page.keyboard.press('ArrowDown');
    await arrivedAt(page, 'C712');
    expect(await marked()).toEqual({ headers: ['C', '712'], selected: 1, focused: true });
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowDown');
    await arrivedAt(page, 'D713');
    expect(await marked()).toEqual({ headers: ['D', '713'], selected: 1, focused: true });
    expect((await rowsInView(page)).wrong).toEqual([]);
  });

  it('computes the edited belt at once', async () => {
    const { page } = opened;
    await goTo(page, 'D9000');
    await page.keyboard.type('650');
    await page.keyboard.press('Enter');
    await goTo(page, 'D9000');
    expect(await formula(page)).toBe('650');
    expect(await told(page)).toContain('650 mm');
  });

  it('fills a whole column beside the page: it can be stopped, and one undo takes it back', async () => {
    const { page } = opened;
    const fillDown = async (): Promise<void> => {
      await goTo(page, 'D2');
      await page.keyboard.press('Control+Shift+ArrowDown');
      await page.keyboard.press('Control+d');
    };
    const at9000 = async (): Promise<string> => {
      await goTo(page, 'D9000');
      return formula(page);
    };
    await page.evaluate(stopAtOnce);
    await fillDown();
    await page.locator('.notice', { hasText: '"fill down" was stopped: the book is as it was' }).waitFor();
    expect(await at9000()).toBe('650');
    expect(await framesBefore(page, fillDown, 'Working out "fill down"')).toBeGreaterThan(3);
    expect(await at9000()).not.toBe('650');
    await page.keyboard.press('Control+z');
    await page.locator('.notice', { hasText: 'Working out "undo fill down"' }).waitFor();
    await page.locator('.notice', { hasText: 'Working out' }).waitFor({ state: 'detached' });
    expect(await at9000()).toBe('650');
  });

  it('sorts and filters, and says how many rows are left', async () => {
    const { page } = opened;
    await goTo(page, 'Belts!A2');
    await page.keyboard.press('Alt+Shift+ArrowDown');
    await page.getByRole('menuitem', { name: 'Sort: largest or Z first' }).click();
    await page.locator('.chip', { hasText: 'Sorted by Belt' }).waitFor();
    await page
      .locator('.ht_master .wtHolder')
      .first()
      .evaluate((holder) => (holder.scrollTop = 0));
    await expect.poll(() => page.locator('.ht_master tbody td').first().innerText()).toContain(`B${belts}`);
    await goTo(page, 'Belts!B2');
    await page.keyboard.press('Alt+Shift+ArrowDown');
    await page.locator('.htUIClearAll a').click();
    // The first of them is of empty cells, which only the row below the last belt has.
    await page.locator('.htUIMultipleSelectHot .ht_master td').nth(1).click();
    await page.locator('.htUIButtonOK input').click();
    await page.locator('.count', { hasText: new RegExp(`^\\d+ of ${belts}`) }).waitFor();
    const left = Number.parseInt(await page.locator('.count').innerText(), 10);
    expect(left).toBeGreaterThan(0);
    expect(left).toBeLessThan(belts);
  });

  it('says nothing on the console', () => expect(opened.complaints).toEqual([]));
});
