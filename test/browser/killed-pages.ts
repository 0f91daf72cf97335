import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { type Browser, chromium, type Page } from 'playwright-core';
import { columnLetters } from '../../src/formula/address.ts';
import { randomNumbers } from '../../src/random/random-numbers.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { headerPosition } from '../../src/workbook/declared.ts';
import { readBook } from '../../src/xlsx/read/read.ts';
import { listFile } from '../cli/lists.ts';
import { browserCommand, browserOptions, goTo, servedPage } from './opened-page.ts';
import { storedCells } from './stored-book.ts';

/** Pages whose browser is killed at random moments of edits, imports and exports, and what is left of their books. */

interface Killed {
  readonly kills: number;
  readonly edits: number;
  readonly imports: number;
  readonly exports: number;
  /** What must not be, in words. */
  readonly wrong: readonly string[];
}

/** The widths of the first belts: what is typed and looked at. */
const watched = 4;
const width = headerPosition('Belts', 'Width');
const widthLetter = columnLetters(width);

/** The book at a moment, as far as it is watched. `done` is when the page had it; undefined while it may have it. */
interface Moment {
  readonly widths: readonly unknown[];
  done: number | undefined;
}

/** A browser of its own process group, so that all of it is killed at once. */
interface OwnBrowser {
  readonly child: ChildProcess;
  readonly browser: Browser;
}

async function begun(profile: string): Promise<OwnBrowser> {
  const port = join(profile, 'DevToolsActivePort');
  rmSync(port, { force: true });
  const child = spawn(
    browserCommand(),
    [...browserOptions, '--headless=new', '--remote-debugging-port=0', `--user-data-dir=${profile}`, 'about:blank'],
    { stdio: 'ignore', detached: true },
  );
  for (let waited = 0; !existsSync(port) || !readFileSync(port, 'utf8').includes('\n'); waited += 1) {
    if (waited > 600) throw new Error('the browser did not start within a minute');
    await setTimeout(100);
  }
  const [number = ''] = readFileSync(port, 'utf8').split('\n');
  return { child, browser: await chromium.connectOverCDP(`http://127.0.0.1:${number}`) };
}

async function killed({ child, browser }: OwnBrowser): Promise<void> {
  const gone = new Promise((resolve) => child.once('exit', resolve));
  if (child.pid !== undefined) process.kill(-child.pid, 'SIGKILL');
  await gone;
  await browser.close().catch(() => undefined);
}

class Session {
  readonly #page: Page;
  readonly #chance: () => number;
  readonly #list: string;
  readonly #number: () => number;
  readonly moments: Moment[];
  edits = 0;
  imports = 0;
  exports = 0;
  /** The download that was offered last, whole when it is there at all. */
  readonly files: Promise<string>[] = [];

  constructor(page: Page, start: readonly unknown[], chance: () => number, list: string, number: () => number) {
    this.#page = page;
    this.#chance = chance;
    this.#list = list;
    this.#number = number;
    this.moments = [{ widths: start, done: Date.now() }];
  }

  get now(): readonly unknown[] {
    return this.moments.at(-1)?.widths ?? [];
  }

  async #becomes(widths: readonly unknown[], act: () => Promise<void>): Promise<void> {
    const moment: Moment = { widths, done: undefined };
    this.moments.push(moment);
    await act();
    moment.done = Date.now();
  }

  async #type(): Promise<void> {
    const record = Math.floor(this.#chance() * watched);
    const number = this.#number();
    const formula = this.#chance() < 0.2;
    await goTo(this.#page, `${widthLetter}${record + 2}`);
    await this.#becomes(this.now.with(record, formula ? `=${number}+0` : number), async () => {
      if (this.#chance() < 0.3) await this.#page.locator('#formula').fill(formula ? `=${number}+0` : String(number));
      else await this.#page.keyboard.type(formula ? `=${number}+0` : String(number));
      await this.#page.keyboard.press('Enter');
    });
    this.edits += 1;
  }

  async #import(): Promise<void> {
    const number = this.#number();
    const widths = Array.from({ length: watched }, (_, record) => number + record);
    await listFile(this.#list, {
      Belts: [['Belt', 'Width (mm)', 'Thickness (mm)'], ...widths.map((width, at) => [`B${at + 1}`, width, 10])],
    });
    await this.#page.keyboard.press('Control+o');
    await this.#page.setInputFiles('input[type=file]', this.#list);
    const accept = this.#page
      .locator('.import-dialog')
      .getByRole('button', { name: /^(?:Import|Replace this book)$/, disabled: false });
    await accept.waitFor({ timeout: 60_000 });
    await this.#becomes(widths, () => accept.click());
    this.imports += 1;
  }

  async #export(): Promise<void> {
    const offered = this.#page.waitForEvent('download', { timeout: 20_000 });
    this.files.push(
      offered.then(
        (file) => file.path(),
        () => '',
      ),
    );
    await this.#page.keyboard.press('Control+s');
    this.exports += 1;
  }

  /** Goes on until it is killed. */
  async run(): Promise<void> {
    for (;;) {
      const what = this.#chance();
      if (what < 0.85) await this.#type();
      else if (what < 0.93) await this.#import();
      else await this.#export();
      await setTimeout(300 * this.#chance());
    }
  }
}

/** What is stored; the demo's as long as nothing is. */
async function read(page: Page): Promise<readonly unknown[]> {
  const cells = await storedCells(page, width, watched);
  return cells.length > 0
    ? cells
    : (demoBook('metric')
        .sheets[0]?.rows.slice(0, watched)
        .map((row) => row.cells[width]) ?? []);
}

/** What the page said just before it was killed: whether all is saved. */
const saidSaved = async (page: Page): Promise<boolean> =>
  (await page.locator('.saved').innerText({ timeout: 500 })).startsWith('Saved');

/** Whether what is stored is the book as it was at most a second before the kill, or later. */
function verdict(stored: readonly unknown[], { moments }: Session, saved: number | undefined, at: number): string {
  const text = (widths: readonly unknown[]): string => widths.map(String).join(', ');
  const due = moments.findLastIndex(({ done }) => done !== undefined && at - done > 1000);
  const first = Math.max(0, due, saved ?? 0);
  const allowed = moments.slice(first).map(({ widths }) => text(widths));
  return allowed.includes(text(stored)) ? '' : `stored ${text(stored)}; allowed ${allowed.join(' or ')}`;
}

/** Kills `count` browsers, one after the other, over the same store. */
export async function killedPages({ count, seed }: { readonly count: number; readonly seed: number }): Promise<Killed> {
  const profile = mkdtempSync(join(tmpdir(), 'killed-page-'));
  const chance = randomNumbers(seed);
  const { address, stop } = await servedPage();
  const wrong: string[] = [];
  let [edits, imports, exports, number] = [0, 0, 0, 1000];
  try {
    let before: readonly unknown[] | undefined;
    for (let kill = 0; kill <= count; kill += 1) {
      const own = await begun(profile);
      const context = own.browser.contexts()[0] ?? (await own.browser.newContext());
      const page = context.pages()[0] ?? (await context.newPage());
      const complaints: string[] = [];
      page.on('pageerror', ({ message }) => complaints.push(message));
      await page.goto(address);
      // Now and then it dies while it opens.
      if (kill > 0 && kill < count && chance() < 0.1) {
        await setTimeout(1500 * chance());
        await killed(own);
        continue;
      }
      await page.waitForSelector('.ht_master td', { timeout: 60_000 });
      if (complaints.length > 0) wrong.push(`kill ${kill}: the page opened with ${complaints.join('; ')}`);
      await goTo(page, `${widthLetter}2`);
      const start = await read(page);
      if (before !== undefined && start.join() !== before.join())
        wrong.push(`kill ${kill}: opened with ${start.join()}, stored were ${before.join()}`);
      if (kill === count) {
        await killed(own);
        break;
      }
      const session = new Session(page, start, chance, join(profile, 'list.xlsx'), () => (number += 10));
      const running = session.run().catch((error: unknown) => error);
      await setTimeout(600 + 4000 * chance());
      const length = session.moments.length;
      const said = await saidSaved(page).catch(() => false);
      // What was under way when it was asked may have come after the answer.
      const saved =
        said && session.moments.length === length && session.moments.at(-1)?.done !== undefined
          ? length - 1
          : undefined;
      const at = Date.now();
      await killed(own);
      await running;
      for (const path of await Promise.all(session.files))
        if (path !== '' && existsSync(path)) {
          try {
            readBook(readFileSync(path));
          } catch (error) {
            wrong.push(`kill ${kill}: a file that was offered is not whole: ${String(error)}`);
          }
        }
      edits += session.edits;
      imports += session.imports;
      exports += session.exports;
      // Opened again, the store is asked.
      const again = await begun(profile);
      const asking = again.browser.contexts()[0] ?? (await again.browser.newContext());
      const other = asking.pages()[0] ?? (await asking.newPage());
      await other.goto(`${address}icon.svg`);
      const stored = await read(other);
      await killed(again);
      const why = verdict(stored, session, saved, at);
      if (why !== '') wrong.push(`kill ${kill} (seed ${seed}): ${why}`);
      before = stored;
    }
    return { kills: count, edits, imports, exports, wrong };
  } finally {
    await stop();
    rmSync(profile, { recursive: true, force: true });
  }
}
