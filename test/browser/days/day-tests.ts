import { afterAll, beforeAll, expect, it } from 'vitest';
import { TestBrowser } from '../opened-page.ts';
import { walked, wayName } from './day.ts';
import { days, shortWays, type User } from './days.ts';

/** A day by mouse in a usual window, or by keyboard alone in a small one: nothing is wrong at any of its screens. */
export function dayTests(user: User): void {
  let browser: TestBrowser;
  beforeAll(async () => {
    browser = await TestBrowser.start();
  });
  afterAll(() => browser.stop());

  it.each(shortWays[user].map((way) => [wayName(way), way] as const))('%s', { timeout: 240_000 }, async (_, way) => {
    const steps = days[user];
    expect(steps.length).toBeGreaterThan(5);
    expect(await walked(browser, steps, way)).toEqual([]);
  });
}
