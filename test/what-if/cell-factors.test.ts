import { describe, expect, test } from 'vitest';
import type { Content } from '../../src/formula/values.ts';
import { Belt } from '../../src/records/belt.ts';
import { listedPulleys } from '../../src/records/belt-pulleys.ts';
import { effects, type Tolerances } from '../../src/what-if/effects.ts';
import { factorValue } from '../../src/what-if/factor.ts';
import { factorNamed, factorsFor } from '../../src/what-if/known-factors.ts';
import { typedGoal } from '../../src/what-if/goal.ts';
import { nearestSolution } from '../../src/what-if/nearest-solution.ts';
import { simulated } from '../../src/what-if/simulation.ts';
import { solvedBelt } from '../../src/what-if/solved-belt.ts';
import { ChangeRefused, namedPlaces, placeName, typedChange } from '../../src/what-if/typed-change.ts';
import { variantDifferences } from '../../src/what-if/variant-differences.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** Figures of plates and pulleys: changed to see what belts come to. */

const book = new Workbook(demoBook('metric'));
const beltNamed = (name: string): Belt =>
  new Belt(
    book,
    book.sheet('Belts').rows.findIndex(({ cells }) => cells[0] === name),
  );
const plate = beltNamed('Q3');
const listing = book.sheet('Belts').rows.findIndex((_, record) => listedPulleys(new Belt(book, record)).length > 2);
const listed = new Belt(book, listing);

const pitch = `Plate series!${plate.text('Plate series')}:Pitch`;
const diameter = `Pulleys!${listed.name}/${listedPulleys(listed)[0]?.text('Pulley') ?? ''}:Diameter`;

describe('a figure of another sheet', () => {
  test('is named as it is typed, and read back', () => {
    for (const belt of [plate, listed])
      for (const factor of factorsFor(belt).filter(({ of }) => of === 'cell')) {
        expect(namedPlaces(book, factor.name)).toEqual([factor.place(belt)]);
        expect(placeName(book, factor.place(belt))).toBe(factor.name);
        expect(factorNamed(book, factor.name).columns).toEqual(factor.columns);
      }
    expect(factorsFor(listed).map(({ name }) => name)).toContain(diameter);
  });

  test('is refused where nothing follows from it, by name', () => {
    const why = (name: string): string => {
      try {
        return factorNamed(book, name).name;
      } catch (error) {
        if (error instanceof ChangeRefused) return error.message;
        throw error;
      }
    };
    expect(why('Q3:Skew')).toMatch(/named by its column alone: Skew/);
    expect(why('Plate series!*:Pitch')).toMatch(/names \d+ cells/);
    expect(why(`Plate series!${plate.text('Plate series')}:Remark`)).toMatch(/No belt follows/);
    expect(why(`Pulleys!${listed.name}/${listedPulleys(listed)[0]?.text('Pulley') ?? ''}:Tension`)).toMatch(
      /calculated/,
    );
  });

  test('meets a goal where solving says so', () => {
    const count = Number(plate.value('Plates'));
    const solved = solvedBelt(plate, typedGoal(book, `Plates<=${count - 1}`), factorNamed(book, pitch));
    const value = nearestSolution(solved);
    expect(typeof value).toBe('number');
    const trial = new Workbook(demoBook('metric'));
    trial.edit([{ ...solved.factor.place(plate), content: value as Content }]);
    expect(trial.read('Belts', plate.record, 'Plates')).toBe(count - 1);
  });

  test('is ranked among what a figure depends on, and drawn by chance', () => {
    const tolerances: Tolerances = (factor, of) =>
      factor.name === pitch ? { half: 0.1 * Number(factorValue(factor, of)), shape: 'even' } : undefined;
    const found = effects(plate, 'Load per plate', tolerances).map(({ factor }) => factor.name);
    const { belts } = simulated(book, {
      records: [plate.record],
      columns: ['Load per plate'],
      draws: 300,
      seed: 1,
      tolerances,
    });
    expect(found).toContain(pitch);
    expect(belts[0]?.shares.get('Load per plate')?.[0]).toMatchObject({ name: pitch });
    expect(belts[0]?.shares.get('Load per plate')?.[0]?.share).toBeGreaterThan(0.5);
  });

  test('of a pulley makes a variant', () => {
    const before = factorValue(factorNamed(book, diameter), listed);
    const variant = { name: 'smaller', changes: [{ cell: diameter, value: Number(before) / 2 }] };
    const { belts } = variantDifferences(book, variant, [...book.sheet('Belts').rows.keys()]);
    expect(belts.map(({ belt }) => belt.name)).toEqual([listed.name]);
    expect(typedChange(book, `${diameter}=300`)).toHaveLength(1);
  });
});
