import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { setup } from '../browser/built-page.ts';
import { drawn, goTo, TestBrowser } from '../browser/opened-page.ts';
import { writeLongList } from './long-lists.ts';
import { milliseconds, times } from './timing.ts';

/** A list read into the page, changed as a whole and written as a workbook, against `calc` of the same list. */

/** Longer than anything here takes on a busy machine. */
const patience = 900_000;

interface Step {
  readonly what: string;
  readonly took: number;
  /** The longest that the page's thread stood still. */
  readonly stood: number;
}

/** Runs in the page before its own scripts. */
function watch(): void {
  const stops: number[] = [];
  Object.assign(window, { stops });
  new PerformanceObserver((list) => stops.push(...list.getEntries().map(({ duration }) => duration))).observe({
    type: 'longtask',
    buffered: true,
  });
}

async function step(page: Page, what: string, act: () => Promise<unknown>): Promise<Step> {
  await page.evaluate(() => (window as unknown as { readonly stops: number[] }).stops.splice(0));
  const began = performance.now();
  await act();
  const took = performance.now() - began;
  await drawn(page);
  const stops = await page.evaluate(() => (window as unknown as { readonly stops: readonly number[] }).stops);
  return { what, took, stood: Math.max(0, ...stops) };
}

const workedOut = (page: Page): Promise<void> =>
  page.locator('.notice', { hasText: 'Working out' }).waitFor({ state: 'detached', timeout: patience });

/** The steps, and bytes of the workbook that was written. */
async function steps(page: Page, list: string): Promise<{ readonly done: readonly Step[]; readonly written: number }> {
  const done: Step[] = [];
  let written = 0;
  const primary = page.locator('.import-dialog .dialog-foot button.primary:not([disabled])');
  await page.keyboard.press('Control+o');
  done.push(
    await step(page, 'list read and looked at', async () => {
      await page.locator('.import-dialog input[type=file]').setInputFiles(list);
      await primary.waitFor({ timeout: patience });
    }),
    await step(page, 'import taken over', async () => {
      await page.locator('.import-dialog .dialog-foot button', { hasText: /^(Import|Replace this book)$/ }).click();
      await page.locator('.notice', { hasText: 'is open. Undo' }).waitFor({ timeout: patience });
    }),
    await step(page, 'saved, with what it was before', () =>
      page.locator('text=/^Saved/').first().waitFor({ timeout: patience }),
    ),
    await step(page, 'a column filled down', async () => {
      await goTo(page, 'D2');
      await page.keyboard.press('Control+Shift+ArrowDown');
      await page.keyboard.press('Control+d');
      await page.locator('.notice', { hasText: 'Working out' }).waitFor();
      await workedOut(page);
    }),
    await step(page, 'that undone', async () => {
      await page.keyboard.press('Control+z');
      await page.locator('.notice', { hasText: 'Working out' }).waitFor();
      await workedOut(page);
    }),
    await step(page, 'workbook written', async () => {
      const [file] = await Promise.all([
        page.waitForEvent('download', { timeout: patience }),
        page.keyboard.press('Control+s'),
      ]);
      written = statSync(await file.path()).size;
    }),
  );
  return { done, written };
}

/** Milliseconds that a call of the command line takes. */
function called(args: readonly string[]): number {
  const began = performance.now();
  const { status } = spawnSync(process.execPath, ['src/launch/run.mjs', 'src/cli/main.ts', ...args], {
    stdio: 'ignore',
  });
  if (status !== 0) throw new Error(`${args[0]} ended with ${String(status)}`);
  return performance.now() - began;
}

export async function pageFilesBench(count: number, write: (text: string) => void): Promise<void> {
  setup();
  const folder = mkdtempSync(join(tmpdir(), 'skewbook-bench-'));
  const browser = await TestBrowser.start();
  try {
    const [list, book] = [join(folder, 'list.xlsx'), join(folder, 'book.xlsx')];
    await writeLongList(list, count);
    const { page, context } = await browser.open();
    await page.addInitScript(watch);
    await page.reload();
    await page.waitForSelector('.ht_master td');
    const { done, written } = await steps(page, list);
    await context.close();
    // Builds the program where it has to be, which is no part of its time.
    called(['--version']);
    const calc = called(['calc', list, book]);
    write(
      `Files on the page: a list of ${count.toLocaleString('en-US')} belts; calc of it takes ${milliseconds(calc)}`,
    );
    for (const { what, took, stood } of done)
      write(
        `  ${what.padEnd(32)} ${milliseconds(took).padStart(10)}  ${times(took / calc).padStart(6)} of calc  ` +
          `page stands still for at most ${milliseconds(stood)}`,
      );
    const megabytes = (bytes: number): string => `${Math.round(bytes / 1e6)} MB`;
    write(`  workbook of ${megabytes(written)}, that of calc ${megabytes(statSync(book).size)}`);
  } finally {
    await browser.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}
