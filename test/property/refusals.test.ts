import { describe, expect, test } from 'vitest';
import type { EngineeringFunction } from '../../src/formula/define.ts';
import { argumentKinds, isOptional, type Parameter } from '../../src/formula/parameter.ts';
import { Fault, isFault, type Matrix, type Value } from '../../src/formula/values.ts';
import { functions } from '../../src/functions/index.ts';
import { callOf, named, refusal, valueOf } from '../evaluation.ts';

/**
 * Every function, every parameter: the wrong type, a blank, nothing at all and each bound, with the message a planner
 * reads.
 */

type Argument = Value | Matrix | undefined;

/** The arguments of a function's example, as a call that is right. */
function rightArguments(definition: EngineeringFunction): Argument[] {
  const { args } = callOf(definition.example[0]);
  const { length } = Object.keys(definition.parameters);
  return Array.from({ length: Math.max(length, args.length) }, (_, index) => args[index]);
}

function faultOf(definition: EngineeringFunction, place: number, argument: Argument): Fault {
  const args = rightArguments(definition);
  args[place] = argument;
  const value = definition.evaluate(args);
  if (isFault(value)) return value;
  throw new Error(`${definition.name} is not refused: it gives ${String(value)}`);
}

/** Numbers just outside each bound, with the words of that bound. */
function outside({ min, above, max, below, whole }: Parameter): { given: number; words: string }[] {
  return [
    ...(min === undefined ? [] : [{ given: min - 0.001, words: String(min) }]),
    ...(above === undefined ? [] : [{ given: above, words: `more than ${above}` }]),
    ...(max === undefined ? [] : [{ given: max + 0.001, words: String(max) }]),
    ...(below === undefined ? [] : [{ given: below, words: `less than ${below}` }]),
    ...(whole === true ? [{ given: (min ?? 1) + 0.5, words: 'a whole number' }] : []),
  ];
}

describe.each(functions)('$name', (definition) => {
  const { name } = definition;
  const entries = Object.entries(definition.parameters).map(([key, parameter], place) => ({ key, parameter, place }));
  // Those that take any number of arguments have test/property/rest-arguments.test.ts.
  const strict = entries.filter(
    ({ parameter }) => parameter.rest !== true && parameter.kind !== 'check' && parameter.kind !== 'verdict',
  );

  test('takes no more arguments than it has, unless it takes any number', () => {
    const right = rightArguments(definition);
    if (entries.at(-1)?.parameter.rest === true) {
      expect(definition.evaluate([...right, ...right])).toBe(definition.evaluate(right));
      return;
    }
    const value = definition.evaluate([...right, 1]);
    expect(String(value)).toContain(
      `#VALUE! ${name} takes ${entries.length} arguments (${entries.map(({ key }) => key).join(', ')}); ` +
        `${entries.length + 1} were given`,
    );
  });

  test.each(entries.filter(({ parameter }) => !isOptional(parameter)))(
    '$key must not be left out',
    ({ key, parameter, place }) => {
      const value = definition.evaluate(
        parameter.rest === true
          ? rightArguments(definition).slice(0, place)
          : rightArguments(definition).with(place, undefined),
      );
      expect(String(value)).toBe(
        `#VALUE! ${name}: ${key} is missing; it must be ${argumentKinds[parameter.kind].says}`,
      );
    },
  );

  test.each(strict.filter(({ parameter }) => !isOptional(parameter)))(
    '$key must not be an empty cell',
    ({ key, place }) => {
      const fault = faultOf(definition, place, null);
      expect(fault.code).toBe('#VALUE!');
      expect(fault.message).toContain(`${name}: ${key} must`);
      expect(fault.message).toContain('nothing (an empty cell)');
    },
  );

  test.each(strict)('$key must be of its kind', ({ key, parameter, place }) => {
    const wrong = parameter.kind === 'text' ? 4711 : 'forty';
    const fault = faultOf(definition, place, wrong);
    expect(fault.code).toBe('#VALUE!');
    expect(fault.message).toContain(`${name}: ${key} must`);
    expect(fault.message).toContain(String(wrong));
    if (parameter.kind !== 'numbers') {
      expect(faultOf(definition, place, true).code).toBe('#VALUE!');
      expect(faultOf(definition, place, [[1], [2]]).message).toContain('a range of cells was given');
    }
  });

  test.each(strict)('an error in $key is handed on as it is', ({ place }) => {
    const root = new Fault('#DIV/0!', 'from another cell');
    expect(faultOf(definition, place, root)).toBe(root);
  });

  const bounded = strict.flatMap(({ key, parameter, place }) =>
    outside(parameter).map((beyond) => ({ key, parameter, place, ...beyond })),
  );
  test.each(bounded)('$key must be $words: not $given', ({ key, parameter, place, given, words }) => {
    const right = rightArguments(definition)[place];
    const fault = faultOf(
      definition,
      place,
      Array.isArray(right) ? (right as Matrix).map((row, index) => (index === 0 ? [given] : row)) : given,
    );
    expect(fault.code).toBe('#NUM!');
    expect(fault.message).toContain(`${key} must be `);
    expect(fault.message).toContain(words);
    expect(fault.message).toContain(`${given} was given`);
    if (parameter.advice !== undefined) expect(fault.message.endsWith(`. ${parameter.advice}`)).toBe(true);
  });

  const worded = entries.filter(({ parameter }) => parameter.choices !== undefined);
  test.each(worded)('$key must be one of its words', ({ key, parameter, place }) => {
    expect(String(faultOf(definition, place, 'wool'))).toBe(
      `#VALUE! ${name}: ${key} must be one of ${(parameter.choices ?? []).join(', ')}; the text "wool" was given`,
    );
    expect(faultOf(definition, place, '').message).toContain('nothing (an empty cell)');
  });

  const lenient = entries.filter(({ parameter }) => parameter.kind === 'check' || parameter.kind === 'verdict');
  test.each(lenient)('$key may be an error or empty: that is not known, never a pass', ({ place }) => {
    for (const unknown of [null, new Fault('#NUM!', ''), 4711, 'forty', true]) {
      const args = rightArguments(definition);
      args[place] = unknown;
      const value = definition.evaluate(args);
      expect(isFault(value)).toBe(false);
      if (unknown !== 4711) expect(['not known', 'fails']).toContain(value);
    }
  });
});

describe('what a planner enters by mistake', () => {
  test('a joint named by its angle to the edge', () => {
    expect(String(refusal('=SKEWLENGTH(650,90)'))).toBe(
      '#NUM! SKEWLENGTH: skew must be from 0 to 60; 90 was given. Skew counts from the square cut: a joint named by ' +
        'its angle to the belt edge ("90 degrees") is square, so enter 90 less that angle',
    );
  });
  test('a service in per cent', () => {
    expect(refusal('=POISSONSTOCK(4,95)').message).toContain(
      'service must be more than 0 and less than 1; 95 was given. A service of 95 per cent is 0.95',
    );
    expect(refusal('=REORDERPOINT(5,2,3,95)').message).toContain(
      'service must be at least 0.5 and less than 1; 95 was given',
    );
  });
  test('a number that is too large to compute with', () => {
    expect(String(refusal(`=SQUAREDIAGONAL(1${'0'.repeat(200)},1)`))).toBe(
      '#NUM! SQUAREDIAGONAL: the result is too large to be a number',
    );
  });
  test('a blank cell in place of an optional argument, which is the same as leaving it out', () => {
    expect(named('BELTPULL').evaluate([300, 15, 14.8, 6.5, 15, 111, 0.022, 1.31, null])).toBe(
      valueOf('=BELTPULL(300,15,14.8,6.5,15,111,0.022,1.31)'),
    );
    expect(named('STRIPLENGTH').evaluate([650, 45, 50, null])).toBe(valueOf('=STRIPLENGTH(650,45,50)'));
    expect(named('CARCASSPULLEY').evaluate(['EP', 4, null, null])).toBe(432);
  });
});
