import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { holeTable } from '../../src/drawing/hole-table.ts';
import { jointReport } from '../../src/drawing/joint-report.ts';
import { fineText, onTape, tapeNumber, tapeStep, tapeText } from '../../src/drawing/tape.ts';
import { readLength } from './read-length.ts';
import { rowsOf } from '../evaluation.ts';
import { drawn, joints, large, near, strips } from './joints.ts';

const units = ['mm', 'in'] as const;

describe('a tape', () => {
  it('rounds to the nearest mark, half a mark at most', () => {
    fc.assert(
      fc.property(fc.double({ min: -5000, max: 5000, noNaN: true }), fc.constantFrom(...units), (value, unit) => {
        const taped = onTape(value, unit);
        expect(Math.abs(taped - value)).toBeLessThanOrEqual(tapeStep[unit] / 2);
        expect(Number.isInteger(taped / tapeStep[unit])).toBe(true);
        expect(readLength(tapeNumber(value, unit))).toBe(taped);
      }),
    );
  });

  it('shows fractions in lowest terms', () => {
    expect(
      [3.3125, 3.25, 3.5, 3, 0.0625, 0, 0.03, -0.03, -3.3125, -0.75, 2.96].map((value) => tapeText(value, 'in')),
    ).toEqual([
      '3 5/16 in',
      '3 1/4 in',
      '3 1/2 in',
      '3 in',
      '1/16 in',
      '0 in',
      '0 in',
      '0 in',
      '-3 5/16 in',
      '-3/4 in',
      '2 15/16 in',
    ]);
    expect([919.2388, 0.4, -0.4, -12.6].map((value) => tapeText(value, 'mm'))).toEqual([
      '919 mm',
      '0 mm',
      '0 mm',
      '-13 mm',
    ]);
    expect([fineText(6.3, 'mm'), fineText(0.2480315, 'in')]).toEqual(['6.3 mm', '0.248 in']);
  });
});

describe('the hole table', () => {
  it('names every hole where HOLESPOTS has it, from the marked corner, whatever the hand', () => {
    fc.assert(
      fc.property(joints, ({ unit, inputs }) => {
        const {
          width,
          skew,
          series: { pitch, plate, leastEdge, holeBack, holeGap, perSide },
        } = inputs;
        const table = holeTable(drawn(inputs), unit);
        const rows = rowsOf('HOLESPOTS', [width, skew, pitch, plate, leastEdge, holeBack, holeGap, perSide]);
        const turn = (skew * Math.PI) / 180;
        expect(table).toHaveLength(rows.length);
        expect(table.map(({ number, plate: of }) => [number, of])).toEqual(
          rows.map((_, index) => [index + 1, 1 + Math.floor(index / (2 * perSide))]),
        );
        const wrong = table.filter(({ along, across, run, back, end }, index) => {
          const [x, y] = rows[index] ?? [];
          // Run and back lead to the same spot.
          const side = end === 'leading' ? 1 : -1;
          const [byRun, byBack] = [
            run.exact * Math.sin(turn) + side * back.exact * Math.cos(turn),
            run.exact * Math.cos(turn) - side * back.exact * Math.sin(turn),
          ];
          return !(near(along.exact, x) && near(across.exact, y) && near(byRun, x) && near(byBack, y));
        });
        expect(wrong).toEqual([]);
      }),
    );
  });

  it('keeps every rounded figure within half a mark, and its steps sum to each run', () => {
    fc.assert(
      fc.property(joints, ({ unit, inputs }) => {
        const table = holeTable(drawn(inputs), unit);
        const off = table
          .flatMap(({ along, across, run, back }) => [along, across, run, back])
          .filter(({ exact, tape }) => !(Math.abs(tape - exact) <= tapeStep[unit] * (0.5 + 1e-9)));
        expect(off).toEqual([]);
        for (const end of ['trailing', 'leading'] as const) {
          const rows = table.filter((row) => row.end === end).toSorted((one, other) => one.run.exact - other.run.exact);
          const sums = rows.map((_, index) => rows.slice(0, index + 1).reduce((sum, { step }) => sum + step, 0));
          expect(sums).toEqual(rows.map(({ run }) => run.tape));
        }
      }),
    );
  });

  it('differs from a table of rounded steps, whose error grows with the plates', () => {
    const table = holeTable(
      drawn({ width: 1600, skew: 45, series: { ...large, pitch: 71.45, perSide: 1 } }),
      'mm',
    ).filter(({ end }) => end === 'trailing');
    const [first, last] = [table[0], table.at(-1)];
    if (first === undefined || last === undefined) throw new Error('no holes');
    const added = first.run.tape + (table.length - 1) * Math.round(71.45);
    expect(Math.abs(added - last.run.exact)).toBeGreaterThan(10);
    expect(Math.abs(last.run.tape - last.run.exact)).toBeLessThanOrEqual(0.5);
    expect(new Set(table.slice(1).map(({ step }) => step))).toEqual(new Set([71, 72]));
  });
});

describe('the report', () => {
  it('has every number of a joint under its name, exact and on the tape', () => {
    const { dimensions, tightening, hand, skewed } = jointReport(
      drawn({ width: 650, skew: 45, hand: 'left', series: large, strips }),
      'mm',
    );
    const texts = Object.fromEntries(dimensions.map(({ key, text }) => [key, text]));
    expect(texts).toEqual({
      width: '650 mm',
      skew: '45°',
      back: '650 mm',
      diagonal: '919 mm',
      offset: '650 mm',
      cut: '919 mm',
      loss: '650 mm',
      plates: '12',
      pitch: '71 mm',
      plate: '63.5 mm',
      edge: '37 mm',
      holes: '48',
      holesPerSide: '2',
      holeBack: '32.5 mm',
      holeGap: '28.5 mm',
      punch: '11.8 mm',
      strips: '3',
      strip: '979 mm',
      stripTotal: '2938 mm',
    });
    expect(dimensions.find(({ key }) => key === 'cut')?.value).toBeCloseTo(650 * Math.SQRT2, 9);
    expect(dimensions.find(({ key }) => key === 'stripTotal')?.tape).toBe(2938);
    expect({ hand, skewed, tightening }).toEqual({
      hand: 'left',
      skewed: true,
      tightening: [1, 2, 3, 4, 5, 6, 12, 11, 10, 9, 8, 7],
    });
  });

  it('says of a joint without plates what it has, and why it lacks them', () => {
    const { dimensions, remarks, tightening } = jointReport(drawn({ width: 30, skew: 0, series: large }), 'mm');
    expect(dimensions.map(({ key }) => key)).toEqual(['width', 'skew', 'back', 'diagonal', 'offset', 'cut', 'loss']);
    expect(tightening).toEqual([]);
    expect(remarks.join(' ')).toMatch(/No plates are drawn/);
  });
});
