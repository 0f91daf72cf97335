import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { define } from '../../src/formula/define.ts';
import { parameterAt } from '../../src/formula/parameter.ts';
import { Engine } from '../../src/formula/engine.ts';
import { PlainForms } from '../../src/formula/plain.ts';
import { Fault, isFault, type Matrix, type Value } from '../../src/formula/values.ts';
import { functions } from '../../src/functions/index.ts';
import { calls } from './arguments.ts';
import { plainText, plainValue } from './spreadsheet.ts';

/** A last parameter that takes any number of cells and ranges, on functions that no book has. */

const longest = define({
  name: 'LONGESTPIECE',
  summary: 'the longest of some pieces, as often as it is cut',
  parameters: {
    cuts: { kind: 'count', min: 1, whole: true, doc: 'how often' },
    piece: { kind: 'length', above: 0, max: 3000, rest: true, doc: 'lengths of pieces' },
  },
  result: { kind: 'length', doc: 'a length' },
  source: 'definition',
  example: ['=LONGESTPIECE(2,3,5)', 10],
  calculate: ({ cuts, piece }) => cuts * piece.reduce((most, one) => Math.max(most, one)),
  formula: '{cuts}*MAX(0,EACH(2*{piece}/2))',
});
const counted = define({
  name: 'HOLESINALL',
  summary: 'holes of some plates',
  parameters: { holes: { kind: 'count', min: 0, whole: true, rest: true, doc: 'holes of each' } },
  result: { kind: 'count', doc: 'holes' },
  source: 'definition',
  example: ['=HOLESINALL(2,3)', 5],
  calculate: ({ holes }) => holes.reduce((sum, one) => sum + one, 0),
  formula: 'SUM(EACH({holes}))',
});
const made = [longest, counted];
const forms = new PlainForms(made);

const agrees = (ours: Value | Matrix, plain: Value, oddities: number): boolean =>
  isFault(ours)
    ? isFault(plain) && (oddities > 1 || plain.code === ours.code)
    : typeof plain === 'number' && Math.abs(Number(ours) - plain) < 1e-9;

test.each(made)('$name agrees with its plain equivalent over cells and ranges, refusals included', (definition) => {
  let answered = 0;
  fc.assert(
    fc.property(calls(definition), ({ args, oddities }) => {
      const ours = definition.evaluate(args);
      if (!isFault(ours)) answered += 1;
      const plain = plainValue(definition.name, args, undefined, forms);
      expect(agrees(ours, plain, oddities), `${String(ours)} here, ${String(plain)} as plain formula`).toBe(true);
    }),
    { numRuns: 250 },
  );
  expect(answered).toBeGreaterThan(50);
});

describe('messages say which argument is wrong', () => {
  test.each<[readonly (Value | Matrix)[], string]>([
    [[1], '#VALUE! LONGESTPIECE: piece is missing; it must be a length'],
    [[1, 5, 'long'], '#VALUE! LONGESTPIECE: piece 2 must be a length; the text "long" was given'],
    [[1, 5, [[7], [null]]], '#VALUE! LONGESTPIECE: piece 2 must be a length; nothing (an empty cell) was given'],
    [[1, 5, [[7, -1]]], '#NUM! LONGESTPIECE: each piece must be more than 0 and at most 3000; -1 was given'],
    [[[[1], [2]], 5], '#VALUE! LONGESTPIECE: cuts must be a whole number; a range of cells was given'],
    [[1, [['long'], [new Fault('#REF!', 'gone')]]], '#REF! gone'],
  ])('%j', (args, message) => {
    expect(String(longest.evaluate(args))).toBe(message);
  });
});

test('the engine takes them, errors in cells included', () => {
  const engine = Engine.build(
    [...functions, ...made],
    [
      {
        name: 'Pieces',
        rows: [
          ['piece', 'other'],
          [3, 4],
          [9, '=1/0'],
        ],
      },
    ],
    [],
  );
  expect(engine.evaluate('=LONGESTPIECE(2,Pieces!A2:A3,1)')).toBe(18);
  expect(engine.evaluate('=HOLESINALL(Pieces!A2:B2,Pieces!A3,5)')).toBe(21);
  expect(String(engine.evaluate('=LONGESTPIECE(2,Pieces!A2:B3)'))).toContain('#DIV/0!');
  engine.destroy();
});

test('help, and who asks which parameter an argument is', () => {
  expect(longest.signature).toBe('LONGESTPIECE(cuts, piece, …)');
  expect([0, 1, 7].map((index) => parameterAt(longest.parameters, index)?.[0])).toEqual(['cuts', 'piece', 'piece']);
  expect(parameterAt(functions[0]?.parameters ?? {}, 40)).toBeUndefined();
});

test('one that is left out among others has no plain equivalent', () => {
  const one = { type: 'number', value: 1, text: '1' } as const;
  expect(plainText('LONGESTPIECE', [one, one], undefined, forms)).toBe('1*MAX(0,2*1/2)');
  expect(plainText('LONGESTPIECE', [one, one, undefined], undefined, forms)).toBeUndefined();
  expect(plainText('LONGESTPIECE', [one], undefined, forms)).toBeUndefined();
});

describe('a declaration that cannot be right is refused at once', () => {
  const declared =
    (formula: string, more: { readonly optional?: true; readonly kind?: 'text' } = {}): (() => unknown) =>
    () =>
      define({
        name: 'SUMOF',
        summary: 'the sum of lengths',
        parameters: { length: { kind: 'length', rest: true, doc: 'lengths', ...more } },
        result: { kind: 'length', doc: 'their sum' },
        source: 'arithmetic',
        example: ['=SUMOF(4)', 4],
        calculate: () => 4,
        formula,
      });
  test('as it stands it is taken', () => expect(declared('SUM(EACH({length}))')).not.toThrow());
  test.each<[string, () => unknown, string]>([
    ['without EACH', declared('SUM({length})'), 'names {length} outside EACH'],
    ['EACH that is no argument', declared('EACH({length})+1'), 'names {length} outside EACH'],
    ['that may be left out', declared('SUM(EACH({length}))', { optional: true }), "can't be left out"],
    ['of texts', declared('SUM(EACH({length}))', { kind: 'text' }), 'of the kind text'],
    [
      'before another',
      () =>
        define({
          name: 'SUMOF',
          summary: 'the sum of lengths',
          parameters: { length: { kind: 'length', rest: true, doc: 'lengths' }, other: { kind: 'length', doc: 'one' } },
          result: { kind: 'length', doc: 'their sum' },
          source: 'arithmetic',
          example: ['=SUMOF(4,1)', 5],
          calculate: () => 5,
          formula: 'SUM(EACH({length}),{other})',
        }),
      'it must be the last',
    ],
    [
      'EACH where no parameter takes any number',
      () =>
        define({
          name: 'HALF',
          summary: 'half of a length',
          parameters: { whole: { kind: 'length', doc: 'all of it' } },
          result: { kind: 'length', doc: 'half of it' },
          source: 'arithmetic',
          example: ['=HALF(4)', 2],
          calculate: ({ whole }) => whole / 2,
          formula: 'SUM(EACH({whole}/2))',
        }),
      'no parameter takes any number',
    ],
  ])('%s', (_, made, message) => expect(made).toThrow(message));
});
