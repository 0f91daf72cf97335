import { describe, expect, test } from 'vitest';
import { Belt } from '../../src/records/belt.ts';
import { factorNamed } from '../../src/what-if/known-factors.ts';
import { typedGoal } from '../../src/what-if/goal.ts';
import { type Solved, solvedBelt } from '../../src/what-if/solved-belt.ts';
import { presentLine, solvedLines } from '../../src/what-if/solved-words.ts';
import { ChangeRefused } from '../../src/what-if/typed-change.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { randomQuestion } from './random-questions.ts';

const book = new Workbook(demoBook('metric'));
const belt = new Belt(
  book,
  book.sheet('Belts').rows.findIndex(({ cells }) => cells[0] === 'Q3'),
);
const solved = (goal: string, by: string): Solved => solvedBelt(belt, typedGoal(book, goal), factorNamed(book, by));

const numbers = (goal: string, by: string): Extract<Solved['answer'], { readonly of: 'numbers' }> => {
  const { answer } = solved(goal, by);
  if (answer.of !== 'numbers') throw new Error(`${goal} by ${by}: ${answer.of}`);
  return answer;
};

describe('closed forms', () => {
  test('the skew of an edge offset, and of a cut length', () => {
    const width = belt.number('Width') ?? NaN;
    const offset = numbers('Edge offset=700', 'Skew').solutions.roots;
    expect(offset).toHaveLength(1);
    expect(offset[0]).toBeCloseTo((Math.atan(700 / width) * 180) / Math.PI, 10);
    const cut = numbers('Cut length=1500', 'Skew').solutions.roots;
    expect(cut).toHaveLength(1);
    expect(cut[0]).toBeCloseTo((Math.acos(width / 1500) * 180) / Math.PI, 10);
  });

  test('the skew from which a joint runs over a pulley', () => {
    // The pulley of the joint as it is asks for the skew as it is, and for no smaller one.
    const figure = belt.number('Joint minimum pulley') ?? NaN;
    const { stretches } = numbers(`Joint minimum pulley<=${figure}`, 'Skew').solutions;
    expect(stretches).toHaveLength(1);
    expect(stretches[0]?.exactFrom).toBeCloseTo(belt.number('Skew') ?? NaN, 6);
  });
});

describe('in words', () => {
  test('solutions, the standard pulleys among them, and the nearest where there is none', () => {
    const pulley = solved('Pulley check', 'Smallest pulley');
    expect([presentLine(pulley), ...solvedLines(pulley)]).toEqual([
      'Belt Q3: Pulley check passes? Now yes: Pulley check is fits.',
      'Smallest pulley: Pulley check passes with 297 mm to 3000 mm (exactly from 296.25 mm). Tried from 25 mm to ' +
        '3000 mm in steps of 1 mm.',
      '  Standard pulleys: 315 mm and larger.',
    ]);
    const inches = new Workbook(demoBook('us'));
    const sameBelt = new Belt(inches, belt.record);
    const inUs = solvedBelt(sameBelt, typedGoal(inches, 'Pulley check'), factorNamed(inches, 'Smallest pulley'));
    expect(solvedLines(inUs)[1]).toBe('  Usual inch pulleys: 12 in and larger.');
    expect(solvedLines(solved('Cut length=15000', 'Skew'))).toEqual([
      'Skew: no value from 0° to 60° in steps of 0.5° gives Cut length equal to 15000 mm. Nearest: Cut length is ' +
        '2000 mm at 60°.',
    ]);
    expect(solvedLines(solved('Tension check', 'Area'))).toEqual(['Area: Tension check does not depend on it.']);
    expect(solvedLines(solved('Verdict=fits', 'Plate series'))[0]).toContain('Nearest: Verdict is tight with Plover.');
  });

  test('what can not be asked is refused with what can', () => {
    const refusal = (goal: string, by: string): string => {
      try {
        solved(goal, by);
      } catch (error) {
        if (error instanceof ChangeRefused) return error.message;
      }
      return 'taken';
    };
    expect(refusal('Cut lenght=1', 'Skew')).toContain('no column "Cut lenght". Did you mean Cut length');
    expect(refusal('Cut length', 'Skew')).toContain('says no goal. Write Cut length<=VALUE');
    expect(refusal('Verdict=good', 'Skew')).toContain('Verdict is fits, tight, not known or fails');
    expect(refusal('Cut length=long', 'Skew')).toContain('"long" was not understood');
    expect(refusal('Verdict', 'Cut length')).toContain('Cut length is calculated');
  });
});

test('solutions hold when they are entered, and steps beside them do not', () => {
  const asked = Array.from({ length: 40 }, (_, number) => randomQuestion(number));
  expect(asked.flatMap(({ wrong }) => wrong)).toEqual([]);
  expect(asked.filter((one) => one.asked === 'numbers').length).toBeGreaterThan(15);
});
