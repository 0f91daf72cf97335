import { afterAll, beforeAll, expect, it } from 'vitest';
import { TestBrowser } from '../opened-page.ts';
import { walked, wayName } from './day.ts';
import { days, shortWays } from './days.ts';

/** A day by mouse in a usual window and by keyboard alone in a small one: nothing is wrong at any of its screens. */
export function dayTests(user: 'planner' | 'buyer' | 'engineer'): void {
  let browser: TestBrowser;
  beforeAll(async () => {
    browser = await TestBrowser.start();
  });
  afterAll(() => browser.stop());

  it.each(shortWays.map((way) => [wayName(way), way] as const))('%s', { timeout: 240_000 }, async (_, way) => {
    const [, steps = []] = days.find(([name]) => name === user) ?? [];
    expect(steps.length).toBeGreaterThan(5);
    expect(await walked(browser, steps, way)).toEqual([]);
  });
}
