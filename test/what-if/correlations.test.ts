import { describe, expect, test } from 'vitest';
import { normalQuantile } from '../../src/functions/normal-quantile.ts';
import { Belt } from '../../src/records/belt.ts';
import {
  checkCorrelations,
  correlationMatrix,
  lowerTriangle,
  typedCorrelation,
} from '../../src/what-if/correlations.ts';
import { quantileInterval } from '../../src/what-if/quantiles.ts';
import { type BeltDraws, simulatedPart } from '../../src/what-if/simulated-part.ts';
import { gathered, simulated, type Simulation } from '../../src/what-if/simulation.ts';
import { dealtOut, simulationAsked, type SimulationTask } from '../../src/what-if/simulation-task.ts';
import { ChangeRefused } from '../../src/what-if/typed-change.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import type { BeltHeader } from '../../sheets/index.ts';

const book = new Workbook(demoBook('metric'));
const record = book.sheet('Belts').rows.findIndex(({ cells }) => cells[0] === 'Q3');
const belt = new Belt(book, record);
const z = normalQuantile(0.975);

/** Everything exact but for what is given, which the demo's other figures are not. */
function run(
  tolerances: readonly string[],
  correlations: readonly string[],
  columns: readonly BeltHeader[],
): Simulation {
  const draws = 3000;
  const task = { records: [record], columns, draws, seed: 4, tolerances, correlations };
  const asked = simulationAsked(book, task);
  const named = tolerances.map((text) => text.split('=')[0]);
  return simulated(book, {
    ...asked,
    tolerances: (factor, of) => (named.includes(factor.name) ? asked.tolerances(factor, of) : undefined),
  });
}

const drawn = (simulation: Simulation, header: BeltHeader): Float64Array =>
  simulation.belts[0]?.figures.get(header) ?? new Float64Array();

function expectQuantiles(draws: Float64Array, truth: (share: number) => number): void {
  for (const share of [0.05, 0.25, 0.5, 0.75, 0.95]) {
    const [low, high] = quantileInterval(draws, share);
    expect({ share, holds: low <= truth(share) && truth(share) <= high }).toEqual({ share, holds: true });
  }
}

describe('closed forms', () => {
  test.each([-0.8, 0.6])(
    'a sum of normals that are wrong together by %s is normal, a belt’s with a named value’s',
    (r) => {
      const per = 1 / Math.cos(((belt.number('Skew') ?? NaN) * Math.PI) / 180);
      const overhangs = ((belt.number('Strip length each') ?? NaN) - (belt.number('Cut length') ?? NaN)) / 60;
      const [one, other] = [20 * per, 15 * overhangs];
      const deviation = Math.sqrt(one ** 2 + other ** 2 + 2 * r * one * other) / z;
      expectQuantiles(
        drawn(
          run(['Width=20', 'StripOverhang=15'], [`StripOverhang~Width=${r}`], ['Strip length each']),
          'Strip length each',
        ),
        (share) => (belt.number('Strip length each') ?? NaN) + normalQuantile(share) * deviation,
      );
    },
  );

  test('a quotient of lognormals that are wrong together is lognormal, with less spread', () => {
    const [power, speed] = [Math.log(1.2) / z, Math.log(1.1) / z];
    const r = 0.7;
    const middle = belt.number('Effective tension by power') ?? NaN;
    expectQuantiles(
      drawn(
        run(['Power=20% lognormal', 'Speed=10% lognormal'], [`Power~Speed=${r}`], ['Effective tension by power']),
        'Effective tension by power',
      ),
      (share) => middle * Math.exp(normalQuantile(share) * Math.sqrt(power ** 2 + speed ** 2 - 2 * r * power * speed)),
    );
  });

  test('even figures stay even, and their ranks correlate by 6/pi asin(r/2)', () => {
    const r = 0.6;
    const simulation = run(
      ['Width=20 even', 'StripOverhang=15 even'],
      [`Width~StripOverhang=${r}`],
      ['Cut length', 'Strip length each'],
    );
    const per = 1 / Math.cos(((belt.number('Skew') ?? NaN) * Math.PI) / 180);
    expectQuantiles(
      drawn(simulation, 'Cut length'),
      (share) => ((belt.number('Width') ?? NaN) + (2 * share - 1) * 20) * per,
    );
    // Of even figures the correlation is that of their ranks: var(a+b) tells it.
    const overhangs = ((belt.number('Strip length each') ?? NaN) - (belt.number('Cut length') ?? NaN)) / 60;
    const sum = drawn(simulation, 'Strip length each');
    const mean = sum.reduce((total, value) => total + value, 0) / sum.length;
    const variance = sum.reduce((total, value) => total + (value - mean) ** 2, 0) / sum.length;
    const [one, other] = [(20 * per) / Math.sqrt(3), (15 * overhangs) / Math.sqrt(3)];
    const found = (variance - one ** 2 - other ** 2) / (2 * one * other);
    // Three standard errors of a correlation over 3000 draws.
    expect(Math.abs(found - (6 / Math.PI) * Math.asin(r / 2))).toBeLessThan(
      (3 * (1 - r ** 2)) / Math.sqrt(3000) + 0.04,
    );
  });
});

test('a triangle times its transpose is the matrix', () => {
  const names = ['a', 'b', 'c'];
  const given = ['a~b=0.5', 'a~c=-0.3', 'b~c=0.2'].map(typedCorrelation);
  const matrix = correlationMatrix(names, given);
  const lower = lowerTriangle(matrix) ?? [];
  for (const [row, line] of matrix.entries())
    for (const [column, value] of line.entries())
      expect((lower[row] ?? []).reduce((sum, one, place) => sum + one * (lower[column]?.[place] ?? 0), 0)).toBeCloseTo(
        value,
        14,
      );
});

test('what cannot be had together, or is no correlation, is refused with what to do', () => {
  const refused = (texts: readonly string[]): string => {
    try {
      checkCorrelations(texts.map(typedCorrelation));
    } catch (error) {
      if (error instanceof ChangeRefused) return error.message;
      throw error;
    }
    return '';
  };
  // Of three alike by 0.9, 0.9 and -0.9 the matrix has the eigenvalue 1 - 1.8.
  expect(refused(['a~b=0.9', 'a~c=0.9', 'b~c=-0.9'])).toMatch(/not positive definite.*multiplied by 0\.55/);
  expect(refused(['a~b=0.5', 'b~a=0.4'])).toMatch(/two correlations, 0\.5 and 0\.4/);
  expect(refused(['a~a=0.5'])).toMatch(/cannot be correlated with itself/);
  expect(refused(['a~b=1'])).toMatch(/says no correlation/);
  expect(refused(['a~b=0.5', 'b~a=0.5'])).toBe('');
});

test('a fleet comes to the same numbers however its belts are dealt out', () => {
  const task: Omit<SimulationTask, 'state'> = {
    records: [0, 1, 2, 3, 4],
    columns: ['Working tension', 'Joint cost'],
    draws: 600,
    seed: 9,
    tolerances: [],
    correlations: ['Power~StartFactor=0.5', 'Power~Capacity=0.5'],
  };
  const all = (records: readonly number[]): BeltDraws[] => {
    const generator = simulatedPart(book, { ...simulationAsked(book, task), records });
    for (;;) {
      const step = generator.next();
      if (step.done === true) return step.value;
    }
  };
  const whole = gathered(book, simulationAsked(book, task), all(task.records));
  const dealt = gathered(book, simulationAsked(book, task), [...all([3, 1]), ...all([4]), ...all([2, 0])]);
  expect(dealt).toEqual(whole);
  expect(dealtOut({ records: [0, 1, 2, 3, 4], draws: 100_000 }, 2)).toEqual([
    [0, 2, 4],
    [1, 3],
  ]);
  expect(dealtOut({ records: [0, 1], draws: 100 }, 2)).toEqual([[0, 1]]);
});
