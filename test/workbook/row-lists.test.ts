import fc from 'fast-check';
import { expect, test } from 'vitest';
import { differingRecords, withRowsAt } from '../../src/workbook/row-lists.ts';
import type { BookRow } from '../../src/workbook/state.ts';

const rowsOf = (count: number): BookRow[] => Array.from({ length: count }, (_, record) => ({ cells: [record] }));

const compared = (before: readonly BookRow[], now: readonly BookRow[]): number[] =>
  [...Array(Math.max(before.length, now.length)).keys()].filter((record) => before[record] !== now[record]);

/** From which of the lists so far the next is made, and what is put into it. */
const steps = fc.array(
  fc.record({ from: fc.nat(), records: fc.array(fc.nat({ max: 12 }), { maxLength: 4 }), back: fc.boolean() }),
  { minLength: 1, maxLength: 40 },
);

test('two lists differ where comparing all rows finds it, however one came from the other', () => {
  fc.assert(
    fc.property(steps, fc.boolean(), (made, onward) => {
      const lists: (readonly BookRow[])[] = [rowsOf(10), rowsOf(12)];
      for (const { from, records, back } of made) {
        const before = lists[onward ? lists.length - 1 : from % lists.length] ?? [];
        const first = lists[from % lists.length] ?? [];
        lists.push(
          withRowsAt(
            before,
            records.map((record) => [record, (back ? first[record] : undefined) ?? { cells: [lists.length] }]),
          ),
        );
      }
      for (const one of lists)
        for (const other of lists)
          expect(differingRecords(one, other).toSorted((left, right) => left - right)).toEqual(compared(one, other));
    }),
    { numRuns: 60 },
  );
});

test('after an edit no row but the one that it put in is looked at', () => {
  const rows = rowsOf(100);
  const looked = new Set<PropertyKey>();
  const watched = (list: readonly BookRow[]): readonly BookRow[] =>
    new Proxy(list, {
      get(target, key, receiver) {
        looked.add(key);
        return Reflect.get(target, key, receiver) as unknown;
      },
    });
  const first = watched(rows);
  const second = withRowsAt(first, [[40, { cells: [] }]]);
  const third = withRowsAt(second, [[7, { cells: [] }]]);
  looked.clear();
  expect(differingRecords(first, third)).toEqual([40, 7]);
  expect([...looked]).toEqual(['40', '7']);
});

test('what is beyond the changes that are noted is found all the same', () => {
  const lists: (readonly BookRow[])[] = [rowsOf(5)];
  for (let step = 1; step <= 600; step += 1) lists.push(withRowsAt(lists[step - 1] ?? [], [[step % 3, { cells: [] }]]));
  for (const [one, other] of [
    [0, 600],
    [0, 2],
    [255, 258],
    [599, 600],
  ] as const)
    expect(differingRecords(lists[one] ?? [], lists[other] ?? []).toSorted()).toEqual(
      compared(lists[one] ?? [], lists[other] ?? []),
    );
});
