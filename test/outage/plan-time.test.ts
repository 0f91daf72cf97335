import { expect, test } from 'vitest';
import { loadSolver } from '../../src/solver/solver.ts';
import { fleetOutage } from '../../src/outage/fleet-outage.ts';
import { planOutage } from '../../src/outage/search/plan.ts';
import type { OutagePlan } from '../../src/outage/search/request.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { broken } from './outage-checker.ts';

/** Seconds: what loading the solver and building its program may take beside the search, on a busy machine. */
const beside = 10;

test('a plan is at hand at once, and the search ends in its time however many places there are', async () => {
  const book = new Workbook(demoBook('metric'));
  const { request } = fleetOutage(book, {
    scope: { which: 'all' },
    failing: true,
    aim: 'earliest finish',
    step: 15,
    dueLimits: true,
  });
  await loadSolver();
  const began = performance.now();
  const after = (): number => (performance.now() - began) / 1000;
  const found: { readonly plan: OutagePlan; readonly after: number }[] = [];
  const plan = await planOutage(request, {
    solver: loadSolver,
    seconds: 2,
    found: (best) => found.push({ plan: best, after: after() }),
  });
  expect(after()).toBeLessThan(2 + beside);
  expect(found[0]?.after).toBeLessThan(1);
  for (const one of [plan, ...found.map((each) => each.plan)]) expect(broken(request, one.planned)).toEqual([]);
  book.destroy();
});
