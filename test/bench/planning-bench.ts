import { fleetOrder } from '../../src/order/fleet-order.ts';
import { fleetOutage } from '../../src/outage/fleet-outage.ts';
import { planOutage } from '../../src/outage/search/plan.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { fleet } from './fleet.ts';
import { median, milliseconds, timed, times } from './timing.ts';

/** What a planner waits for before any search goes on: the order list, and the first of the outage plans. */

const rounds = 5;

const line = (what: string, own: number, book: number): string =>
  `  ${what.padEnd(34)} ${milliseconds(own).padStart(11)}, ${times(own / book).padStart(7)} building the book`;

export async function planningBench(count: number, write: (text: string) => void): Promise<void> {
  const state = fleet(count);
  const [builds, lists]: [number[], number[]] = [[], []];
  for (let round = 0; round < rounds; round += 1) {
    let book = new Workbook(demoBook('metric'));
    builds.push(timed(() => (book = new Workbook(state))));
    lists.push(timed(() => fleetOrder(book, { which: 'all' })));
  }
  write(`${count.toLocaleString('en-US')} belts (medians of ${rounds})`);
  write(line('order list', median(lists), median(builds)));

  const firsts: number[] = [];
  const demoBuilds: number[] = [];
  for (let round = 0; round < rounds; round += 1) {
    let book: Workbook | undefined;
    demoBuilds.push(timed(() => (book = new Workbook(demoBook('metric')))));
    if (book === undefined) continue;
    const { request } = fleetOutage(book, {
      scope: { which: 'all' },
      failing: true,
      aim: 'earliest finish',
      step: 15,
      dueLimits: true,
    });
    const begun = performance.now();
    await planOutage(request, {
      solver: () => Promise.reject(new Error('no search is asked for')),
      seconds: 0,
      found: () => void firsts.push(performance.now() - begun),
    });
  }
  write('the demo fleet, all joints, steps of 15 minutes');
  write(line('first outage plan', median(firsts), median(demoBuilds)));
}
