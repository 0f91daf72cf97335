import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import ICAL from 'ical.js';
import type { Page } from 'playwright-core';
import { SaxesParser } from 'saxes';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { fleetOutage, type OutageTerms } from '../../src/outage/fleet-outage.ts';
import { momentOf, momentText } from '../../src/outage/moments.ts';
import { readDate } from '../../src/units/dates.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import type { BookState } from '../../src/workbook/state.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { readBook } from '../../src/xlsx/read/read.ts';
import { broken, type Placed } from '../outage/outage-checker.ts';
import { goTo, shot, TestBrowser } from './opened-page.ts';
import { store } from './stored-book.ts';

/**
 * The planner's view: what it plans breaks no rule, what does not fit is said, a search can be ended, and files hold
 * the plan.
 */

let browser: TestBrowser;

beforeAll(async () => {
  browser = await TestBrowser.start();
});

afterAll(() => browser.stop());

const serial = (text: string): number => {
  const read = readDate(text);
  return 'serial' in read ? read.serial : Number.NaN;
};

/** What the dialog opens with, for the demo's review date in 2026. */
const usual: OutageTerms = {
  scope: { which: 'due', until: serial('2027-12-31') },
  failing: false,
  aim: 'minimum lost production',
  step: 30,
  dueLimits: true,
};

const opened = (page: Page): Promise<void> =>
  page.keyboard.press('Alt+Shift+U').then(() => page.locator('.outage-dialog').waitFor());

/** Waits until nothing is searched for. */
const settled = (page: Page): Promise<void> =>
  page.locator('.planning-search').waitFor({ state: 'detached', timeout: 55_000 });

const planned = (page: Page): Promise<void> => page.locator('.outage-table').waitFor({ timeout: 55_000 });

const tab = (page: Page, name: string): Promise<void> => page.click(`.outage-dialog [role=tab]:has-text("${name}")`);

const sum = (page: Page): Promise<string> =>
  page
    .locator('.outage-dialog .planning-sum')
    .innerText()
    .then((text) => text.replaceAll(/\s+/g, ' '));

/** The table's rows as a plan: columns are found by what stands above them. */
async function shown(page: Page): Promise<Placed[]> {
  const rows = await page.evaluate(() => {
    const table = document.querySelector('.outage-table');
    const headers = [...(table?.querySelectorAll('thead th') ?? [])].map((cell) => cell.textContent?.trim() ?? '');
    return [...(table?.querySelectorAll('tbody tr') ?? [])].map((row) => {
      const of = (header: string): string => {
        const cell = row.children[headers.indexOf(header)]?.cloneNode(true);
        if (!(cell instanceof Element)) return '';
        cell.querySelector('.outage-people')?.remove();
        return cell.textContent?.replaceAll(/\s+/g, ' ').trim() ?? '';
      };
      return { key: of('Belt'), start: of('Start'), end: of('End'), crews: of('Crews') };
    });
  });
  return rows.map(({ key, start, end, crews }) => ({
    key,
    start: momentOf(serial(start)),
    end: momentOf(serial(end)),
    crews: crews.split(', '),
  }));
}

async function downloaded(page: Page, button: string): Promise<{ readonly name: string; readonly bytes: Buffer }> {
  const file = page.waitForEvent('download');
  await page.click(`.outage-files button:text-is("${button}")`);
  const download = await file;
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
}

/** The text of what is printed, page by page. */
async function printed(page: Page): Promise<readonly string[]> {
  const folder = mkdtempSync(join(tmpdir(), 'skewbook-print-'));
  try {
    const path = join(folder, 'print.pdf');
    await page.pdf({ path, preferCSSPageSize: true, printBackground: true });
    return execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' }).split('\f').slice(0, -1);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

describe('the outage plan', () => {
  it('is printed in place of the sheets behind it, and they are again once it is closed', async () => {
    const { page, context } = await browser.open();
    await opened(page);
    await planned(page);
    await settled(page);
    const [plan = '', ...more] = await printed(page);
    expect(more).toEqual([]);
    expect(plan).toMatch(/^ *Tern Quay: Outage plan, Plan +metric units/);
    for (const { key } of await shown(page)) expect(plan).toMatch(new RegExp(` ${key} +\\d `));
    expect(plan).toContain('it does not authorise work');
    expect(plan).not.toContain('Calendar .ics');
    await tab(page, 'Picture');
    await page.locator('.outage-picture svg').waitFor();
    expect((await printed(page)).join('')).toMatch(/Spring stop/);
    await page.keyboard.press('Escape');
    expect((await printed(page))[0]).toMatch(/^ *Tern Quay: Belts +metric units/);
    await context.close();
  });

  it('opens by its key, breaks no rule, and gives its plan as calendar, workbook and picture', async () => {
    const { page, context, complaints } = await browser.open();
    await opened(page);
    expect(await page.locator('.outage-files button:disabled').count()).toBe(4);
    await planned(page);
    await settled(page);
    const plan = await shown(page);
    const { request, leftOut } = fleetOutage(new Workbook(demoBook('metric')), usual);
    expect(plan.map(({ key }) => key).toSorted()).toEqual(request.jobs.map(({ key }) => key).toSorted());
    expect(broken(request, plan)).toEqual([]);
    expect(await sum(page)).toMatch(
      new RegExp(
        `^${plan.length} of ${plan.length} belts planned ${leftOut.length} left out last end ` +
          `${momentText(Math.max(...plan.map(({ end }) => end)))} [0-9,.]+ t lost`,
      ),
    );
    expect(await page.locator('.outage-table tr', { hasText: 'S5' }).innerText()).toContain('overdue');

    const calendar = await downloaded(page, 'Calendar .ics');
    expect(calendar.name).toBe('Tern Quay outage plan.ics');
    const events = new ICAL.Component(ICAL.parse(calendar.bytes.toString('utf8')))
      .getAllSubcomponents('vevent')
      .map((component) => new ICAL.Event(component));
    expect(
      events.map(({ summary, startDate }) => `${summary} ${startDate.toString().slice(0, 16).replace('T', ' ')}`),
    ).toEqual(plan.map(({ key, start }) => `Belt ${key}: joint ${momentText(start)}`));

    const workbook = await downloaded(page, 'Workbook .xlsx');
    expect(workbook.name).toBe('Tern Quay outage plan.xlsx');
    const [sheet] = readBook(workbook.bytes).sheets;
    expect(sheet?.name).toBe('Outage plan');
    const cells = [...(sheet?.rows.values() ?? [])].flatMap((row) =>
      [...row.values()].map((cell) => String(cell.value)),
    );
    for (const { key } of plan) expect(cells).toContain(key);

    await tab(page, 'Picture');
    await page.locator('.outage-picture svg').waitFor();
    const picture = await downloaded(page, 'Picture .svg');
    expect(picture.name).toBe('Tern Quay outage plan.svg');
    const titles: string[] = [];
    const parser = new SaxesParser();
    parser.on('error', (error) => {
      throw error;
    });
    parser.on('text', (text) => titles.push(text));
    parser.write(picture.bytes.toString('utf8')).close();
    for (const { key } of plan)
      expect(
        titles.some((text) => text.includes(`. ${key}, `)),
        key,
      ).toBe(true);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('plans anew for other belts, crews and windows, and says what does not fit and what is left out', async () => {
    const { page, context, complaints } = await browser.open();
    const [belt] = fleetOutage(new Workbook(demoBook('metric')), { ...usual, scope: { which: 'all' } }).belts;
    await goTo(page, `A${(belt?.record ?? Number.NaN) + 2}`);
    await opened(page);
    await page.click('.outage-kind[aria-label=Windows] button:text-is("None")');
    await page.locator('.outage-empty', { hasText: 'No window is ticked' }).waitFor();
    await settled(page);
    expect(await page.locator('.outage-files button').first().getAttribute('title')).toBe('Nothing is planned');
    expect(await page.locator('.outage-files button:disabled').count()).toBe(4);

    await page.check('.outage-kind[aria-label=Windows] label:has-text("Crusher day") input');
    await page.uncheck('.outage-kind[aria-label=Crews] label:has-text("Day crew") input');
    await planned(page);
    await settled(page);
    const terms: OutageTerms = {
      ...usual,
      windows: ['Crusher day'],
      crews: ['Night crew', 'Crusher fitters', 'Hired crew'],
    };
    const { request, leftOut } = fleetOutage(new Workbook(demoBook('metric')), terms);
    const plan = await shown(page);
    expect(broken(request, plan)).toEqual([]);
    const unplanned = request.jobs.length - plan.length;
    expect(unplanned).toBeGreaterThan(0);
    expect(await sum(page)).toContain(
      `${plan.length} of ${request.jobs.length} belts planned ${unplanned} do not fit ${leftOut.length} left out`,
    );
    expect(await page.locator('.outage-short').innerText()).toContain(`${unplanned} belts do not fit:`);
    await page.click('.outage-note button:text-is("see which and why")');
    expect(await page.locator('.outage-left tbody tr').count()).toBe(unplanned + leftOut.length);

    await page.selectOption('.planning-terms select[aria-label="Joints"]', 'selected');
    await page.locator('.planning-sum', { hasText: /^\s*\d of 1 belt / }).waitFor();
    await page.selectOption('.planning-terms select[aria-label="Joints"]', 'due');
    await page.fill('.planning-terms input[type=date]', '2026-01-01');
    await page.keyboard.press('Tab');
    await tab(page, 'Plan');
    await page.locator('.outage-empty', { hasText: 'No joint due by 2026-01-01 can be planned' }).waitFor();
    await page.click('.outage-empty button:text-is("See why")');
    await page.click('.outage-left button:text-is("K5")');
    await page.locator('.outage-dialog').waitFor({ state: 'detached' });
    const record = new Workbook(demoBook('metric')).sheet('Belts').rows.findIndex(({ cells }) => cells[0] === 'K5');
    expect(await page.locator('#formula').getAttribute('aria-label')).toMatch(new RegExp(`[A-Z]${record + 2}$`));
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('keeps the best plan so far when it is cancelled, and says that it is not proven', async () => {
    const { page, context, complaints } = await browser.open();
    await opened(page);
    await page.selectOption('.planning-terms select[aria-label="Joints"]', 'all');
    await page.selectOption('.planning-terms select[aria-label="Aim"]', 'earliest finish');
    await page.selectOption('.planning-terms select[aria-label="Time grid, minutes"]', '15');
    await page.check('.planning-terms label:has-text("include failing joints") input');
    await planned(page);
    await page.click('.planning-search button');
    await page.locator('.outage-dialog .why', { hasText: 'It is not proven optimal' }).waitFor();
    const plan = await shown(page);
    const { request } = fleetOutage(new Workbook(demoBook('metric')), {
      ...usual,
      scope: { which: 'all' },
      aim: 'earliest finish',
      step: 15,
      failing: true,
    });
    expect(plan.length).toBeGreaterThan(10);
    expect(broken(request, plan)).toEqual([]);
    expect(await sum(page)).toMatch(/not proven best$/);
    const calendar = await downloaded(page, 'Calendar .ics');
    expect(new ICAL.Component(ICAL.parse(calendar.bytes.toString('utf8'))).getAllSubcomponents('vevent')).toHaveLength(
      plan.length,
    );
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('goes by the keyboard alone, and gives the keys back to the grid', async () => {
    const { page, context, complaints } = await browser.open();
    await goTo(page, 'A2');
    await opened(page);
    await planned(page);
    await page.keyboard.press('ArrowRight');
    await page.locator('.outage-picture svg').waitFor();
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('ArrowLeft');
    await page.locator('.outage-left').waitFor();
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('outage-tab-left');
    await page.keyboard.press('Escape');
    await page.locator('.outage-dialog').waitFor({ state: 'detached' });
    await page.keyboard.press('ArrowDown');
    await page.locator('#formula[aria-label="Formula or content of A3"]').waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  });

  it('leads to the sheets that are empty', async () => {
    const { page, context, complaints } = await browser.open();
    await page.click('.menu-button:has-text("Book")');
    await page.click('.menu-list button:has-text("New empty book")');
    await page.locator('.count', { hasText: '0 rows' }).waitFor();
    await page.click('.menu-button:has-text("Book")');
    await page.click('.menu-list button:has-text("Outage plan")');
    await page.locator('.outage-empty', { hasText: 'No shutdown windows yet' }).waitFor();
    await shot(page, 'outage-empty');
    await page.click('.outage-empty button:text-is("Go to the sheet Crews")');
    await page.locator('.outage-dialog').waitFor({ state: 'detached' });
    await page.locator('.foot .tab[aria-selected=true]', { hasText: 'Crews' }).waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  });
});

/** The demo with names as long as people make them. */
function longNames(): BookState {
  const names = new Map([
    ['Q4', 'Q4 reversible shuttle conveyor below the transfer tower at berth 4'],
    ['Day crew', 'Day crew of the western workshop with the second crane'],
    ['Crusher day', 'Planned stop of the primary crusher for its yearly inspection of the mantle'],
  ]);
  const book = demoBook('us');
  return {
    ...book,
    sheets: book.sheets.map((sheet) => ({
      ...sheet,
      rows: sheet.rows.map((row) => ({
        ...row,
        cells: row.cells.map((cell) => (typeof cell === 'string' ? (names.get(cell) ?? cell) : cell)),
      })),
    })),
  };
}

/** What of the dialog is wider than its place: the picture may be, and scrolls. */
const tooWide = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    [
      ...document.querySelectorAll<HTMLElement>(
        '.outage-dialog, .outage-dialog .planning-head, .outage-choice, .outage-kind, .outage-dialog .button, ' +
          '.planning-body',
      ),
    ]
      .filter((element) => element.scrollWidth > element.clientWidth + 1)
      .map((element) => `${element.className}: ${element.scrollWidth} in ${element.clientWidth}`),
  );

describe('its look', () => {
  let page: Page;
  let complaints: readonly string[];
  let close: () => Promise<void>;

  // Planned once: a look needs the plan, not its search.
  beforeAll(async () => {
    const opening = await browser.open();
    ({ page, complaints } = opening);
    close = () => opening.context.close();
    await store(page, longNames());
    await page.reload();
    await page.waitForSelector('.ht_master td');
    await opened(page);
    await planned(page);
    await page.click('.planning-search button', { timeout: 2000 }).catch(() => undefined);
    await settled(page);
  });

  afterAll(() => close());

  it.each([
    ['dark', 1440, 900],
    ['light', 1024, 768],
  ] as const)('%s %d x %d', async (scheme, width, height) => {
    await page.emulateMedia({ colorScheme: scheme });
    await page.setViewportSize({ width, height });
    expect(await page.locator('.planning-sum').innerText()).toContain('short ton');
    for (const [name, mark] of [
      ['Plan', '.outage-table'],
      ['Picture', '.outage-picture svg'],
      ['Not planned', '.outage-left'],
    ] as const) {
      await tab(page, name);
      await page.locator(mark).waitFor();
      await shot(page, `outage-${name.toLowerCase().replaceAll(' ', '-')}-${scheme}-${width}`);
      expect(await tooWide(page), name).toEqual([]);
    }
    expect(complaints).toEqual([]);
  });
});
