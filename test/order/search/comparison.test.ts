import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type ComparedBelt,
  comparison,
  costParts,
  type JointWay,
  yearlyPayment,
} from '../../../src/order/search/skew-comparison.ts';

const amount = fc.integer({ min: 0, max: 5000 });
const way = (skew: number): fc.Arbitrary<JointWay> =>
  fc.record({
    skew: fc.constant(skew),
    jointsPerYear: fc.integer({ min: 0, max: 8 }).map((quarters) => quarters / 4),
    parts: amount,
    belt: amount,
    crewHours: fc.integer({ min: 0, max: 40 }),
    outageHours: fc.integer({ min: 0, max: 24 }),
  });
const belt: fc.Arbitrary<ComparedBelt> = fc.record({
  belt: fc.string(),
  square: way(0),
  skew: way(30),
  lostPerHour: amount,
});

describe('comparison of square and skew', () => {
  test('a belt worked out by hand', () => {
    // Half a joint a year. Square: 0.5 (200 + 30 + 10 h x 60 + 5 h x 1000) and a pulley of 6000 over 15 years.
    const { rows, total, pulleyChangesAvoided } = comparison(
      [
        {
          belt: 'K1',
          lostPerHour: 1000,
          square: {
            skew: 0,
            jointsPerYear: 0.5,
            parts: 200,
            belt: 30,
            crewHours: 10,
            outageHours: 5,
            pulleyChange: { cost: 6000, years: 15 },
          },
          skew: { skew: 30, jointsPerYear: 0.5, parts: 240, belt: 50, crewHours: 11, outageHours: 5.5 },
        },
      ],
      { crew: 60, interest: 0 },
    );
    expect(rows[0]?.square).toEqual({
      parts: 100,
      belt: 15,
      hours: 300,
      lostProduction: 2500,
      pulleys: 400,
      total: 3315,
    });
    expect(rows[0]?.skew).toEqual({ parts: 120, belt: 25, hours: 330, lostProduction: 2750, pulleys: 0, total: 3225 });
    expect(total.saved).toEqual({ parts: -20, belt: -10, hours: -30, lostProduction: -250, pulleys: 400, total: 90 });
    expect(pulleyChangesAvoided).toBe(1);
  });

  test('payments are worth the cost: put back at the interest, they come to it', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1e5 }),
        fc.integer({ min: 1, max: 40 }),
        fc.double({ min: 0.001, max: 0.3, noNaN: true }),
        (cost, years, interest) => {
          const payment = yearlyPayment({ cost, years }, interest);
          let worth = 0;
          for (let year = 1; year <= years; year += 1) worth += payment / (1 + interest) ** year;
          expect(worth / cost).toBeCloseTo(1, 9);
          expect(payment).toBeGreaterThan(yearlyPayment({ cost, years }, 0));
        },
      ),
    );
  });

  test('the total is the sum of the rows, and what is saved the difference of both sides', () => {
    fc.assert(
      fc.property(fc.array(belt, { maxLength: 12 }), fc.integer({ min: 0, max: 100 }), (belts, crew) => {
        const { rows, total, apart } = comparison(belts, { crew, interest: 0.08 });
        expect(apart).toEqual([]);
        expect(rows.map((row) => row.belt)).toEqual(belts.map((one) => one.belt));
        for (const part of costParts) {
          for (const side of ['square', 'skew', 'saved'] as const)
            expect(total[side][part]).toBeCloseTo(
              rows.reduce((sum, row) => sum + row[side][part], 0),
              6,
            );
          for (const row of rows) expect(row.saved[part]).toBeCloseTo(row.square[part] - row.skew[part], 6);
        }
        expect(total.saved.total).toBeCloseTo(
          costParts.slice(0, -1).reduce((sum, part) => sum + total.saved[part], 0),
          6,
        );
      }),
    );
  });

  test('a belt that one way cannot join stands apart, with the reason', () => {
    const [square, skew]: JointWay[] = [0, 45].map((angle) => ({
      skew: angle,
      jointsPerYear: 1,
      parts: 1,
      belt: 1,
      crewHours: 1,
      outageHours: 1,
    }));
    if (square === undefined || skew === undefined) throw new Error('two ways');
    const { rows, apart } = comparison(
      [
        {
          belt: 'K1',
          lostPerHour: 0,
          square,
          skew: { ...skew, impossible: 'the take-up has 300 mm, the joint takes 900 mm' },
        },
        {
          belt: 'K2',
          lostPerHour: 0,
          square: { ...square, impossible: 'no series takes its tension' },
          skew: { ...skew, impossible: 'no series takes its tension' },
        },
      ],
      { crew: 1, interest: 0 },
    );
    expect(rows).toEqual([]);
    expect(apart.map(({ belt: name, way: which }) => [name, which])).toEqual([
      ['K1', 'skew'],
      ['K2', 'both'],
    ]);
  });

  test('impossible figures are refused', () => {
    const joint: JointWay = { skew: 0, jointsPerYear: -1, parts: 1, belt: 1, crewHours: 1, outageHours: 1 };
    expect(() =>
      comparison([{ belt: 'K1', lostPerHour: 0, square: joint, skew: joint }], { crew: 1, interest: 0 }),
    ).toThrow('must be at least 0; belt K1 has -1 at 0 degrees');
    expect(() => comparison([], { crew: 1, interest: -0.1 })).toThrow('must be at least 0, as a share');
    expect(() => yearlyPayment({ cost: 1, years: 0 }, 0)).toThrow('must last more than 0 years');
  });
});
