import { describe, expect, it } from 'vitest';
import { beltPull } from '../../src/advice/belt-pull.ts';
import { Belt } from '../../src/records/belt.ts';
import { listedPulleys } from '../../src/records/belt-pulleys.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { beltPath, placedPulleys } from '../../src/advice/belt-path.ts';
import { bookOf, type Cells, soundBelt } from '../workbook/books.ts';

/** What the panel of the pull says of a belt. */

const full: Cells = { ...soundBelt, Capacity: 500, 'Known tension': 20 };
const bookWith = (cells: Cells): Workbook => new Workbook(bookOf({ belts: [{ ...full, ...cells }] }));

describe('the routes of a belt', () => {
  it('stand side by side, the used one marked', () => {
    const book = bookWith({});
    const { routes, from, working, forced } = beltPull(book, 0);
    expect(routes.map(({ name }) => name)).toEqual(['entered', 'resistances', 'power', 'belt rating']);
    expect(routes.every(({ tension }) => tension.value !== undefined)).toBe(true);
    expect(routes.filter(({ used }) => used).map(({ name }) => name)).toEqual(['entered']);
    expect({ from, forced, working: working.value }).toEqual({ from: 'entered', forced: undefined, working: 20 });
  });

  it('give the working tension of the one that is forced', () => {
    for (const name of ['resistances', 'power', 'belt rating']) {
      const { routes, working, forced, from } = beltPull(bookWith({ 'Tension method': name }), 0);
      const used = routes.find((route) => route.used);
      expect({ used: used?.name, forced, from }).toEqual({ used: name, forced: name, from: name });
      expect(working.value).toBe(used?.tension.value);
    }
  });

  it('say what they lack, and only that', () => {
    const { routes } = beltPull(bookWith({ 'Known tension': null, Capacity: null, Lift: null, Power: null }), 0);
    const lacks = Object.fromEntries(routes.map((route) => [route.name, route.lacks]));
    expect(lacks['entered']).toEqual(['Known tension']);
    expect([...(lacks['resistances'] ?? [])].toSorted()).toEqual(['Capacity', 'Lift']);
    expect(lacks['power']).toEqual(['Power']);
    expect(lacks['belt rating']).toEqual([]);
  });

  it('tell by how much they differ, and the margin', () => {
    const { difference, margin, routes } = beltPull(bookWith({}), 0);
    const known = routes.filter(({ name }) => name !== 'belt rating').map(({ tension }) => tension.value ?? Number.NaN);
    expect(difference).toBeCloseTo(1 - Math.min(...known) / Math.max(...known), 12);
    expect(margin).toBeGreaterThan(0);
  });
});

describe('the cases of load', () => {
  const { cases, points } = beltPull(bookWith({}), 0);

  it('have the greatest tension of the loop in one of them, and none at the tail is more', () => {
    const greatest = points.find(({ force: { header } }) => header === 'Maximum tension')?.force.value ?? Number.NaN;
    const tail = points.find(({ force: { header } }) => header === 'Tail tension')?.force.value ?? Number.NaN;
    expect(Math.max(...cases.map(({ most }) => most.value ?? Number.NaN))).toBeCloseTo(greatest, 6);
    expect(tail).toBeLessThanOrEqual(greatest);
  });

  it('are eight, and none is known where the resistances are not', () => {
    expect(cases).toHaveLength(8);
    expect(
      beltPull(bookWith({ Capacity: null }), 0).cases.every(
        ({ pull, most }) => pull.value === undefined && most.value === undefined,
      ),
    ).toBe(true);
  });
});

describe('the listed pulleys', () => {
  const book = new Workbook(demoBook('metric'));
  const record = (belt: string): number =>
    book.sheet('Belts').rows.findIndex((_, at) => book.read('Belts', at, 'Belt') === belt);

  it('come in the order of the sheet, and where all have a place, the belt goes round them as the sheet says', () => {
    for (const belt of ['Q1', 'S2', 'K1', 'L2']) {
      const pulleys = listedPulleys(new Belt(book, record(belt)));
      expect(pulleys.length).toBeGreaterThan(2);
      const placed = placedPulleys(book, pulleys);
      if (placed === undefined) throw new Error(`${belt} has pulleys without a place`);
      const path = beltPath(placed);
      expect(path.length).toBeCloseTo(Number(book.read('Belts', record(belt), 'Loop length')), 6);
      path.pulleys.forEach(({ wrap, reverse }, index) => {
        expect(wrap).toBeCloseTo(pulleys[index]?.number('Wrap angle used') ?? Number.NaN, 6);
        expect(reverse).toBe(pulleys[index]?.text('Reverse bend') === 'yes');
      });
    }
  });

  it('are none for a belt that is not in the list, and have no places where one is missing', () => {
    expect(listedPulleys(new Belt(book, record('Q3')))).toEqual([]);
    expect(placedPulleys(book, listedPulleys(new Belt(book, record('K3'))))).toBeUndefined();
  });
});
