import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { define } from '../../src/formula/define.ts';
import { argumentKinds, type ArgumentKind, isOptional } from '../../src/formula/parameter.ts';
import { isFault, type Matrix, type Value } from '../../src/formula/values.ts';
import { functions, subjects } from '../../src/functions/index.ts';
import { close, valueOf } from '../evaluation.ts';
import { calls } from './arguments.ts';

const isMatrix = (value: unknown): value is Matrix => Array.isArray(value);
const flat = (value: Value | Matrix): readonly Value[] => (isMatrix(value) ? value.flat() : [value]);

describe.each(functions)('$name', (definition) => {
  test('gives its example the value worked out beside it', () => {
    const [formula, expected] = definition.example;
    const value = valueOf(formula);
    if (typeof expected === 'string') {
      expect(value).toBe(expected);
      return;
    }
    const wanted = typeof expected === 'number' ? [expected] : expected.flat();
    const found = flat(value);
    expect(found.length).toBe(wanted.length);
    for (const [index, number] of wanted.entries()) {
      const item = found[index];
      expect(typeof item === 'number' && close(item, number, 1e-14, 1), `${String(item)} against ${number}`).toBe(true);
    }
  });

  test('says what it is: words, parameters and source', () => {
    expect(definition.example[0].startsWith(`=${definition.name}(`)).toBe(true);
    for (const text of [
      definition.summary,
      definition.source,
      definition.result.doc,
      ...Object.values(definition.parameters).map(({ doc }) => doc),
    ]) {
      expect(text.trim().length).toBeGreaterThan(2);
    }
    const required = Object.values(definition.parameters).map((parameter) => !isOptional(parameter));
    expect(
      required.indexOf(false) < 0 || !required.slice(required.indexOf(false)).includes(true),
      'optional arguments come last',
    ).toBe(true);
  });

  test('gives the same joint, force or length in any units', () => {
    const factors = { l: 1 / 25.4, F: 1 / 4.4482216152605, M: 1 / 0.45359237 };
    const scaleOf = (kind: ArgumentKind): number => {
      const dimension: Readonly<Record<string, number>> = argumentKinds[kind].dimension ?? {};
      return Object.entries(factors).reduce(
        (product, [symbol, factor]) => product * factor ** (dimension[symbol] ?? 0),
        1,
      );
    };
    const kinds = Object.values(definition.parameters).map(({ kind }) => kind);
    const resultScale = scaleOf(definition.result.kind);
    fc.assert(
      fc.property(calls(definition, 0), ({ args }) => {
        const before = definition.evaluate(args);
        // An argument left out has its default in one unit system only.
        fc.pre(
          !isFault(before) &&
            !args.some((argument, index) => (argument ?? undefined) === undefined && kinds[index] === 'gravity'),
        );
        const after = flat(
          definition.evaluate(
            args.map((argument, index) =>
              typeof argument === 'number' ? argument * scaleOf(kinds[index] ?? 'number') : argument,
            ),
          ),
        );
        const size =
          Math.max(0, ...args.filter((argument) => typeof argument === 'number').map(Math.abs)) *
          Math.max(1, resultScale);
        flat(before).forEach((value, index) => {
          const other = after[index];
          if (typeof value !== 'number') expect(other).toBe(value);
          else if (typeof other !== 'number' || !close(value * resultScale, other, 1e-9, size))
            throw new Error(`${value * resultScale} against ${String(other)}`);
        });
      }),
      { numRuns: 60 },
    );
  });
});

test('no two functions share a name', () => {
  const names = functions.map(({ name }) => name);
  expect(new Set(names).size).toBe(names.length);
  expect(subjects.flatMap((subject) => subject.functions).length).toBe(names.length);
});

describe('a declaration that cannot be right is refused at once', () => {
  const declared =
    (formula: string): (() => unknown) =>
    () =>
      define({
        name: 'HALF',
        summary: 'half of a length',
        parameters: { whole: { kind: 'length', doc: 'all of it' } },
        result: { kind: 'length', doc: 'half of it' },
        source: 'arithmetic',
        example: ['=HALF(4)', 2],
        calculate: ({ whole }) => whole / 2,
        formula,
      });
  test('as it stands it is taken', () => expect(declared('{whole}/2')).not.toThrow());
  test('an unknown parameter', () =>
    expect(declared('{whole}/{parts}')).toThrow('HALF: the plain formula names {parts}'));
  test('a parameter left out', () => expect(declared('2/2')).toThrow('HALF: the plain formula leaves {whole} out'));
  test('a formula that cannot be read', () => expect(declared('{whole}/')).toThrow('ends too early'));
  test('a place in a spill where nothing spills', () => expect(declared('{whole}/{row}')).toThrow('{row}'));
});
