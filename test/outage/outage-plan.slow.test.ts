import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { loadSolver } from '../../src/solver/solver.ts';
import { momentOf } from '../../src/outage/moments.ts';
import { planOutage } from '../../src/outage/search/plan.ts';
import { type OutageJob, OutageRefusal, type OutageRequest, requestFaults } from '../../src/outage/search/request.ts';
import type { WholeSolver } from '../../src/solver/program.ts';
import { serialOf } from '../../src/units/dates.ts';
import { countedClock } from './counted-clock.ts';
import { bestOfAll, broken, worth, shared } from './outage-checker.ts';

const loaded = loadSolver();
const solver = (): Promise<WholeSolver> => loaded;
const saturday = momentOf(serialOf(2027, 3, 6) ?? Number.NaN);
const hour = (hours: number): number => saturday + hours * 60;
const job = (key: string, given: Partial<OutageJob> = {}): OutageJob => ({
  key,
  belt: key,
  area: 'Quay',
  work: { hours: 2 },
  crews: 1,
  lostPerHour: 10,
  ...given,
});
const request = (given: Partial<OutageRequest> = {}): OutageRequest => ({
  jobs: [job('Q1'), job('Q2')],
  crews: [{ name: 'Red', people: 3 }],
  windows: [{ name: 'Saturday', start: hour(6), end: hour(14) }],
  step: 60,
  aim: 'minimum lost production',
  ...given,
});

const area = fc.constantFrom('Quay', 'Shed');
const smallRequest: fc.Arbitrary<OutageRequest> = fc
  .record({
    jobs: fc.array(
      fc.record({
        area,
        work: fc.oneof(
          fc.record({ hours: fc.constantFrom(1, 1.5, 2, 3) }),
          fc
            .tuple(fc.constantFrom(3, 6), fc.constantFrom(0, 1))
            .map(([crewHours, fixedHours]) => shared(crewHours, fixedHours)),
        ),
        crews: fc.constantFrom(1, 1, 2),
        lostPerHour: fc.constantFrom(0, 10, 40),
        due: fc.option(fc.integer({ min: 3, max: 9 }), { nil: undefined, freq: 3 }),
        earliest: fc.option(fc.integer({ min: 0, max: 4 }), { nil: undefined, freq: 3 }),
        weight: fc.constantFrom(1, 1, 2),
        afterFirst: fc.boolean(),
        onlySecond: fc.constantFrom(false, false, true),
      }),
      { minLength: 1, maxLength: 3 },
    ),
    crews: fc.array(
      fc.record({
        people: fc.constantFrom(2, 3),
        from: fc.constantFrom(0, 0, 2),
        always: fc.boolean(),
        only: fc.option(area, { nil: undefined, freq: 2 }),
      }),
      { minLength: 1, maxLength: 2 },
    ),
    windows: fc.array(
      fc.record({
        from: fc.integer({ min: 0, max: 5 }),
        long: fc.integer({ min: 2, max: 5 }),
        area: fc.option(area, { nil: undefined }),
        lossShare: fc.constantFrom(0, 0.5, 1),
      }),
      { minLength: 1, maxLength: 2 },
    ),
    atOnce: fc.option(fc.constantFrom(1, 2), { nil: undefined }),
    standsAtLoss: fc.option(fc.constantFrom(0, 25), { nil: undefined }),
    aim: fc.constantFrom('minimum lost production' as const, 'earliest finish' as const),
  })
  .map(({ jobs, crews, windows, atOnce, standsAtLoss, aim }) => ({
    jobs: jobs.map(({ due, earliest, afterFirst, onlySecond, ...rest }, index) => ({
      key: `J${index}`,
      belt: `B${index}`,
      ...rest,
      ...(due === undefined ? {} : { due: hour(due) }),
      ...(earliest === undefined ? {} : { earliest: hour(earliest) }),
      ...(afterFirst && index > 0 ? { after: ['J0'] } : {}),
      ...(onlySecond && windows.length > 1 ? { windows: ['W1'] } : {}),
    })),
    crews: crews.map(({ people, from, always, only }, index) => ({
      name: `C${index}`,
      people,
      ...(only === undefined ? {} : { area: only }),
      ...(always
        ? {}
        : {
            available: [
              { start: hour(from), end: hour(7) },
              { start: hour(7), end: hour(9) },
            ],
          }),
    })),
    windows: windows.map(({ from, long, area: only, lossShare }, index) => ({
      name: `W${index}`,
      start: hour(from),
      end: hour(from + long),
      lossShare,
      ...(only === undefined ? {} : { area: only }),
    })),
    areas: [
      { name: 'Quay', ...(atOnce === undefined ? {} : { atOnce }) },
      { name: 'Shed', ...(standsAtLoss === undefined ? {} : { standsAtLoss }) },
    ],
    step: 60,
    aim,
  }));

describe('an outage plan', () => {
  test('breaks no rule and is as good as the best of all plans (property, brute force)', async () => {
    await fc.assert(
      fc.asyncProperty(smallRequest, async (given) => {
        const plan = await planOutage(given, { solver });
        expect(broken(given, plan.planned)).toEqual([]);
        expect(plan.planned.length + plan.unplanned.length).toBe(given.jobs.length);
        const { weight, lost, finish, ends } = worth(given, plan.planned);
        expect(plan.lost).toBeCloseTo(lost, 6);
        expect(plan.proven).toBe(true);
        const best = bestOfAll(given);
        const reached = given.aim === 'earliest finish' ? [-weight, finish, lost, ends] : [-weight, lost, ends];
        for (const [place, value] of reached.entries())
          expect(value, `aim ${place} of ${best.join(', ')}`).toBeCloseTo(best[place] ?? Number.NaN, 4);
      }),
      { numRuns: 100, seed: 20_270_306 },
    );
  }, 60_000);

  test('of larger requests breaks no rule either, and is the same every time', async () => {
    for (const seed of [1, 2]) {
      const jobs = Array.from({ length: 6 }, (_, index) =>
        job(`J${index}`, {
          area: index % 2 === 0 ? 'Quay' : 'Shed',
          work: shared(6 + ((index * 7 + seed) % 9), 1),
          crews: index % 4 === 0 ? 2 : 1,
          lostPerHour: 10 * ((index * 3 + seed) % 5),
          ...(index === 5 ? { after: ['J1', 'J2'] } : {}),
          ...(index === 4 ? { due: hour(12) } : {}),
        }),
      );
      const given = request({
        jobs,
        crews: [
          { name: 'Red', people: 3 },
          { name: 'Blue', people: 3 },
          { name: 'Green', people: 2, available: [{ start: hour(6), end: hour(16) }] },
        ],
        windows: [
          { name: 'Saturday', start: hour(6), end: hour(18), lossShare: 0.5 },
          { name: 'Sunday', start: hour(30), end: hour(38) },
        ],
        areas: [
          { name: 'Quay', atOnce: 2 },
          { name: 'Shed', standsAtLoss: 30 },
        ],
        step: 60,
      });
      const plan = await planOutage(given, { solver, seconds: 5 });
      expect(broken(given, plan.planned)).toEqual([]);
      expect(plan.lost).toBeCloseTo(worth(given, plan.planned).lost, 6);
      for (const stage of plan.stages)
        expect(
          stage.name === 'jobs planned' ? stage.bound >= stage.value - 1e-6 : stage.bound <= stage.value + 1e-6,
          stage.name,
        ).toBe(true);
      if (plan.proven) expect(await planOutage(given, { solver, seconds: 5 })).toEqual(plan);
    }
  }, 90_000);

  test('puts jobs where less is lost', async () => {
    const plan = await planOutage(
      request({
        windows: [
          { name: 'Saturday', start: hour(6), end: hour(14) },
          { name: 'Holiday', start: hour(30), end: hour(34), lossShare: 0 },
        ],
      }),
      { solver },
    );
    expect(plan.planned.map(({ key, window, lost }) => [key, window, lost])).toEqual([
      ['Q1', 'Holiday', 0],
      ['Q2', 'Holiday', 0],
    ]);
    expect(plan.stages.map(({ name, proven, gap }) => [name, proven, gap])).toEqual([
      ['jobs planned', true, 0],
      ['lost production', true, 0],
      ['sum of ends', true, 0],
    ]);
  });

  test('finishes early when that is the aim', async () => {
    const plan = await planOutage(
      request({
        aim: 'earliest finish',
        crews: [
          { name: 'Red', people: 3 },
          { name: 'Blue', people: 3 },
        ],
        windows: [
          { name: 'Saturday', start: hour(6), end: hour(14) },
          { name: 'Holiday', start: hour(30), end: hour(34), lossShare: 0 },
        ],
      }),
      { solver },
    );
    expect(plan.finish).toBe(hour(8));
    expect(plan.planned.map(({ crews }) => crews)).toEqual([['Red'], ['Blue']]);
  });

  test('lets an area that stands as a whole stand once', async () => {
    const given = request({
      crews: [
        { name: 'Red', people: 3 },
        { name: 'Blue', people: 3 },
      ],
      areas: [{ name: 'Quay', standsAtLoss: 100 }],
    });
    const plan = await planOutage(given, { solver });
    expect(plan.standing).toEqual([{ area: 'Quay', hours: 2, lost: 200 }]);
    expect(plan.lost).toBe(200);
    expect(new Set(plan.planned.map(({ start }) => start)).size).toBe(1);
  });

  test('says why a job does not fit', async () => {
    const given = request({
      jobs: [
        job('long', { work: { hours: 9 } }),
        job('elsewhere', { area: 'Shed' }),
        job('crowd', { crews: 2 }),
        job('late', { due: hour(7) }),
        job('night', { windows: ['Night'], area: 'Quay' }),
        job('behind', { after: ['long'] }),
        job('unready', { earliest: hour(13) }),
        job('a', { work: { hours: 5 } }),
        job('b', { work: { hours: 5 } }),
      ],
      windows: [
        { name: 'Saturday', start: hour(6), end: hour(14), area: 'Quay' },
        { name: 'Night', start: hour(20), end: hour(24), area: 'Quay' },
      ],
      crews: [{ name: 'Red', people: 3, available: [{ start: hour(0), end: hour(16) }] }],
    });
    const plan = await planOutage(given, { solver });
    expect(plan.unplanned.map(({ key, cause, reason }) => [key, cause, reason])).toEqual([
      [
        'long',
        'window',
        'no window is long enough: the job takes 9 h, and the longest window, Saturday, has 8 h in whole steps',
      ],
      ['elsewhere', 'window', 'there is no window for the area Shed'],
      ['crowd', 'crew', 'it needs 2 crews at once; 1 is available'],
      [
        'late',
        'due',
        'it is due by 2027-03-06 07:00; the earliest possible end is 2027-03-06 08:00, in the window Saturday',
      ],
      ['night', 'crew', 'no window has a crew available for the 2 h that the job takes at least'],
      ['behind', 'order', 'it comes after long, which does not fit'],
      [
        'unready',
        'due',
        'it must not begin before 2027-03-06 13:00, and after that no window has enough time and crews',
      ],
      [
        'b',
        'room',
        'of its 4 possible starts, from 2027-03-06 06:00, at 4 the crews are on other jobs (the job takes at least 5 ' +
          'h); no plan can hold more jobs, by priority (proven)',
      ],
    ]);
    expect(plan.planned.map(({ key }) => key)).toEqual(['a']);
  });

  test('is empty without windows, crews or jobs', async () => {
    expect((await planOutage(request({ windows: [] }), { solver })).unplanned.map(({ reason }) => reason)).toEqual([
      'there is no window for the area Quay',
      'there is no window for the area Quay',
    ]);
    expect((await planOutage(request({ crews: [] }), { solver })).unplanned.map(({ reason }) => reason)).toEqual([
      'it needs 1 crew at once; 0 are available',
      'it needs 1 crew at once; 0 are available',
    ]);
    expect(await planOutage(request({ jobs: [] }), { solver })).toMatchObject({
      planned: [],
      unplanned: [],
      lost: 0,
      proven: true,
    });
  });

  test('does not load the solver where the quick plan is proven best; ends at once with it when stopped', async () => {
    const never = (): Promise<WholeSolver> => Promise.reject(new Error('the solver was loaded'));
    const easy = await planOutage(request({ jobs: [job('Q1')] }), { solver: never });
    expect(easy).toMatchObject({ proven: true, planned: [{ key: 'Q1', start: hour(6), end: hour(8) }] });
    const stopped = await planOutage(
      request({ jobs: [job('a', { work: { hours: 5 } }), job('b', { work: { hours: 5 } })] }),
      { solver: never, signal: { aborted: true } },
    );
    expect(stopped).toMatchObject({ proven: false, stages: [], planned: [{ key: 'a' }] });
    expect(stopped.unplanned[0]?.reason).toContain('a longer search may find a plan that holds it');
    await expect(
      planOutage(request({ jobs: [job('a', { work: { hours: 5 } }), job('b', { work: { hours: 5 } })] }), {
        solver: never,
      }),
    ).rejects.toThrow('the solver was loaded');
  });

  test('ends a search when its progress says so, with a plan that breaks no rule', async () => {
    const jobs = Array.from({ length: 14 }, (_, index) =>
      job(`J${index}`, {
        area: index % 2 === 0 ? 'Quay' : 'Shed',
        work: shared(6 + ((index * 7) % 9), 1),
        lostPerHour: 10 * (index % 5),
      }),
    );
    const windows = [0, 48, 96].map((from) => ({
      name: `W${from}`,
      start: hour(from + 6),
      end: hour(from + 16),
      lossShare: from === 48 ? 0.5 : 1,
    }));
    const given = request({
      jobs,
      windows,
      crews: [
        { name: 'Red', people: 3 },
        { name: 'Blue', people: 2 },
      ],
      areas: [{ name: 'Quay', atOnce: 1 }],
      step: 30,
    });
    const signal = { aborted: false };
    const stages = new Set<string>();
    let reports = 0;
    const plan = await planOutage(given, {
      solver,
      seconds: 600,
      signal,
      progress: ({ stage, best, bound }) => {
        stages.add(stage);
        reports += 1;
        expect([best, bound].every((figure) => figure === undefined || figure >= 0)).toBe(true);
        signal.aborted = true;
      },
    });
    expect(stages.size).toBe(1);
    // The solver may report again before it heeds the signal; it does not go on for its ten minutes.
    expect(reports).toBeLessThan(10);
    expect(plan.proven).toBe(false);
    expect(broken(given, plan.planned)).toEqual([]);
  });

  test(
    'of what is too large for the solver is made by moving jobs: it breaks no rule, is better than the first, and ' +
      'holds to its time',
    async () => {
      const weekends = Array.from({ length: 12 }, (_, week) => ({
        name: `W${week}`,
        start: hour(168 * week),
        end: hour(168 * week + 36),
        lossShare: week % 4 === 3 ? 0 : 0.5,
      }));
      const jobs = Array.from({ length: 48 }, (_, index) =>
        job(`J${index}`, {
          area: index % 3 === 0 ? 'Quay' : 'Shed',
          work: shared(12 + ((index * 7) % 9), 1),
          lostPerHour: 100 * (1 + (index % 5)),
          ...(index % 8 === 7 ? { after: [`J${index - 1}`] } : {}),
        }),
      );
      const given = request({
        jobs,
        crews: [
          { name: 'Red', people: 3 },
          { name: 'Blue', people: 4, area: 'Shed' },
        ],
        windows: weekends,
        areas: [
          { name: 'Quay', standsAtLoss: 150 },
          { name: 'Shed', atOnce: 1 },
        ],
        step: 30,
      });
      const found: number[] = [];
      const clock = countedClock();
      const plan = await planOutage(given, {
        solver: () => Promise.reject(new Error('it is not asked')),
        seconds: 8,
        found: ({ lost }) => void found.push(lost),
      }).finally(clock.stop);
      expect(clock.looks()).toBeGreaterThan(1000);
      expect(clock.looks()).toBeLessThan(2 * 8000);
      expect(broken(given, plan.planned)).toEqual([]);
      expect(plan.unplanned).toEqual([]);
      expect(plan.lost).toBeLessThanOrEqual(found[0] ?? 0);
      const lost = plan.stages.find(({ name }) => name === 'lost production');
      expect(lost).toMatchObject({ proven: false });
      expect(lost?.bound).toBeLessThan(plan.lost);
      expect(plan.proven).toBe(false);
    },
    40_000,
  );

  test('refuses what is no question, all of it at once', async () => {
    const given = request({
      jobs: [
        job('a', { after: ['b'], work: { hours: 0 } }),
        job('b', { after: ['a'], windows: ['Monday'], crews: 0 }),
        job('b', { after: ['z'], lostPerHour: Number.NaN }),
      ],
      crews: [{ name: 'Red', people: 0 }],
      windows: [{ name: 'Saturday', start: hour(6), end: hour(6), lossShare: 2 }],
      areas: [{ name: 'Quay', atOnce: 0, standsAtLoss: -1 }],
      step: 0.5,
    });
    expect(requestFaults(given).map(({ what, reason }) => `${what}: ${reason}`)).toEqual([
      'job b: the name is used twice; give each its own',
      'step: it must be a whole number of minutes, at least 1; 0.5 is given',
      'window Saturday: its end must be after its start',
      'window Saturday: its production loss must be from 0 to 1; 2 is given',
      'crew Red: it needs at least 1 person; 0 are given',
      'area Quay: the maximum of jobs at once must be a whole number, at least 1; 0 is given',
      'area Quay: its loss per hour must be at least 0; -1 is given',
      'job a: its hours must be more than 0; 0 are given',
      'job b: its crews at once must be a whole number, at least 1; 0 is given',
      'job b: there is no window Monday',
      'job b: its loss per hour must be at least 0; NaN is given',
      'job b: it comes after z, which is not in this plan',
    ]);
    await expect(planOutage(given, { solver })).rejects.toThrow(OutageRefusal);
    expect(
      requestFaults(request({ jobs: [job('a', { after: ['b'] }), job('b', { after: ['a'] })] })).map(
        ({ reason }) => reason,
      ),
    ).toEqual(['the order runs in a circle: a after b after a']);
    await expect(
      planOutage(
        request({
          jobs: Array.from({ length: 12 }, (_, index) => job(`J${index}`)),
          step: 1,
          windows: [{ name: 'Month', start: hour(0), end: hour(700) }],
        }),
        { solver },
      ),
    ).rejects.toThrow('choose longer steps, fewer jobs or shorter windows');
    await expect(
      planOutage(request({ step: 1, windows: [{ name: 'Year', start: hour(0), end: hour(8760) }] }), { solver }),
    ).rejects.toThrow(
      'step: from the first window to the last there are 525600 steps, more than 50000: choose a longer step',
    );
  });
});
