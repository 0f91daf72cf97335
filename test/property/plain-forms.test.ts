import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parsed } from '../../src/formula/syntax.ts';
import { isFault, type Matrix, type Value } from '../../src/formula/values.ts';
import { functions } from '../../src/functions/index.ts';
import { close } from '../evaluation.ts';
import { calls, type Case } from './arguments.ts';
import { evaluated, hasPlain, plainText, plainValue } from './spreadsheet.ts';

/**
 * Every function's plain equivalent, evaluated by a spreadsheet that knows none of ours, against the function itself.
 */

/**
 * Agreement of two values; of two errors only that both are when several arguments are wrong, since any may speak
 * first.
 */
function agrees(ours: Value, plain: Value, oddities: number, scale: number): boolean {
  if (isFault(ours)) return isFault(plain) && (oddities > 1 || plain.code === ours.code);
  if (typeof ours === 'number') return typeof plain === 'number' && close(ours, plain, 1e-9, scale);
  return ours === plain;
}

/** The size of what was given, against which a difference near zero is judged. */
const sizeOf = ({ args }: Case): number =>
  Math.max(0, ...args.flatMap((argument) => (typeof argument === 'number' ? [Math.abs(argument)] : [])));

const isMatrix = (value: unknown): value is Matrix => Array.isArray(value);

/** Places of a spill to look at: the first, some within, the last, and one beyond each end. */
function places(rows: Matrix): { row: number; column: number; value: Value }[] {
  const height = rows.length;
  const width = rows[0]?.length ?? 0;
  const chosen = [1, 2, Math.ceil(height / 2), height].filter((row) => row <= height);
  const inside = chosen.flatMap((row) =>
    Array.from({ length: width }, (_, index) => ({ row, column: index + 1, value: rows[row - 1]?.[index] ?? null })),
  );
  return [...inside, { row: height + 1, column: 1, value: '' }, { row: 1, column: width + 1, value: '' }];
}

test.each(functions.filter((definition) => !hasPlain(definition)))(
  '$name has no plain equivalent',
  ({ name, example }) => {
    const call = parsed(example[0]);
    expect(call.type === 'call' && plainText(name, call.args)).toBeUndefined();
  },
);

describe.each(functions.filter(hasPlain))('$name', (definition) => {
  const runs = definition.spills ? 80 : 250;
  test('agrees with its plain equivalent, refusals included', { timeout: 120_000 }, () => {
    let answered = 0;
    fc.assert(
      fc.property(calls(definition), (call) => {
        const ours = definition.evaluate(call.args);
        const expected = isMatrix(ours) ? places(ours) : [{ row: 1, column: 1, value: ours }];
        if (!isFault(ours)) answered += 1;
        for (const { row, column, value } of expected) {
          const plain = plainValue(definition.name, call.args, { row, column });
          if (!agrees(value, plain, call.oddities, sizeOf(call))) {
            throw new Error(`row ${row}, column ${column}: ${String(value)} here, ${String(plain)} as plain formula`);
          }
        }
      }),
      { numRuns: runs },
    );
    expect(answered, 'calls that gave a value').toBeGreaterThan(runs / 5);
  });

  test('agrees with its plain equivalent on its example, the arguments written out', () => {
    const call = parsed(definition.example[0]);
    if (call.type !== 'call') throw new Error('an example is a call');
    const text = plainText(call.name, call.args);
    if (text === undefined) throw new Error('no plain equivalent');
    const [, expected] = definition.example;
    const first = Array.isArray(expected) ? expected[0]?.[0] : expected;
    expect(agrees(first as Value, evaluated(text), 0, 0), `${String(evaluated(text))} for ${String(first)}`).toBe(true);
  });
});
