import { expect, test } from 'vitest';
import { loadSolver } from '../../src/solver/solver.ts';
import { fleetOutage } from '../../src/outage/fleet-outage.ts';
import { planOutage } from '../../src/outage/search/plan.ts';
import type { OutagePlan } from '../../src/outage/search/request.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { countedClock } from './counted-clock.ts';
import { broken } from './outage-checker.ts';

/** How long plans take in seconds is told by `npm run bench`. */

test('a plan is at hand before anything is searched, and the search ends when its time is over', async () => {
  const book = new Workbook(demoBook('metric'));
  const { request } = fleetOutage(book, {
    scope: { which: 'all' },
    failing: true,
    aim: 'earliest finish',
    step: 15,
    dueLimits: true,
  });
  const clock = countedClock();
  const found: { readonly plan: OutagePlan; readonly looks: number }[] = [];
  const plan = await planOutage(request, {
    solver: loadSolver,
    seconds: 2,
    found: (best) => found.push({ plan: best, looks: clock.looks() }),
  }).finally(clock.stop);
  expect(found[0]?.looks).toBeLessThan(10);
  expect(clock.looks()).toBeGreaterThan(2000);
  // Once it is over, what is under way looks again before it lets go.
  expect(clock.looks()).toBeLessThan(2 * 2000);
  for (const one of [plan, ...found.map((each) => each.plan)]) expect(broken(request, one.planned)).toEqual([]);
  book.destroy();
});
