import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { TestBrowser } from '../opened-page.ts';
import { walked, wayName } from './day.ts';
import { days, shortWays } from './days.ts';

/** Each day by mouse in a usual window and by keyboard alone in a small one: nothing is wrong at any of its screens. */

let browser: TestBrowser;
beforeAll(async () => {
  browser = await TestBrowser.start();
});
afterAll(() => browser.stop());

describe.each(days)("the %s's day", (_, steps) => {
  it.each(shortWays.map((way) => [wayName(way), way] as const))('%s', { timeout: 240_000 }, async (__, way) => {
    expect(await walked(browser, steps, way)).toEqual([]);
  });
});
