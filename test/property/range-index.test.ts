import fc from 'fast-check';
import { expect, test } from 'vitest';
import { Engine } from '../../src/formula/engine.ts';
import { type Content, isFault, type Value } from '../../src/formula/values.ts';
import { functions } from '../../src/functions/index.ts';

/** Formulas that share a range give what each gives alone in its book, where nothing is noted for others. */

const rows = 9;
const numbers: readonly Content[] = [1, 1 + 2 ** -50, 0.3, 0.1 + 0.2, -5, 1e10, 1e10 + 1, 0];
const texts = 'Äpfel äpfel Apfel a*b ab A? ~ >1 true 0.3 1 2026-11-26 =1/0 =0.1*3'.split(' ');
const content = fc.constantFrom(...numbers, ...texts, null, true, false);
const compared = 'A@ "="&A@ ">"&B@ "<"&B@ ">="&B@ "<="&B@ "<>"&A@'.split(' ');
const written = '"a*" "ä*" "=ab" "" "<>" 0.3 "0.3" TRUE ">a" "A~*b" 1'.split(' ');
const condition = fc.constantFrom(...compared, ...written);
const range = (column: string): fc.Arbitrary<string> =>
  fc.constantFrom(`${column}$1:${column}$9`, `${column}$1:${column}@`, `${column}:${column}`);
const formula = fc.oneof(
  fc
    .tuple(fc.constantFrom('A', 'B'), condition)
    .chain(([column, one]) => range(column).map((cells) => `=COUNTIF(${cells},${one})`)),
  fc
    .tuple(fc.constantFrom('SUMIFS', 'AVERAGEIFS', 'MINIFS', 'MAXIFS'), condition, condition, fc.constantFrom('9', '@'))
    .map(([name, one, other, end]) =>
      `=${name}(B$1:B$${end},A$1:A$${end},${one},B$1:B$${end},${other})`.replace('$@', '@'),
    ),
  condition.map((one) => `=SUMIF(A$1:A$9,${one},B$1:B$9)`),
  fc
    .tuple(fc.constantFrom('A@', 'B@', '"apfel"', '0.3'), range('A'))
    .map(([key, cells]) => `=MATCH(${key},${cells},0)`),
  fc.constantFrom('A@', 'B@', '"ab"').map((key) => `=VLOOKUP(${key},A$1:B$9,2,FALSE)`),
  fc.constantFrom('1', '-1').map((way) => `=XLOOKUP(B@,A$1:A$9,B$1:B$9,"none",0,${way})`),
);

const built = (cells: readonly (readonly Content[])[]): Engine =>
  Engine.build(functions, [{ name: 'S', rows: cells }], []);
/** A value, and of an error its code: the message of one in a cell says where it comes from. */
const told = (value: Value): unknown => (isFault(value) ? value.code : value);
const results = (engine: Engine): unknown[] => engine.values('S').map((row) => told(row[2] ?? null));

/** What each row's formula gives in a book that has none; an edit before each ends what was noted for the last. */
function alone(cells: readonly (readonly Content[])[]): unknown[] {
  const engine = built(cells.map((row) => row.slice(0, 2)));
  const values = cells.map((row, own) => {
    engine.set({ sheet: 'S', row: 0, column: 4 }, [[own]]);
    return told(engine.evaluate(String(row[2]), 'S') as Value);
  });
  engine.destroy();
  return values;
}

test('formulas over one range, filled down and after an edit, as each of them alone', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(content, content), { minLength: rows, maxLength: rows }),
      formula.map((text) => text.replaceAll('$@', '@')),
      fc.nat(rows - 1),
      content,
      (pairs, text, edited, to) => {
        const cells = pairs.map((pair, row): Content[] => [...pair, text.replaceAll('@', String(row + 1))]);
        const engine = built(cells);
        expect(results(engine)).toEqual(alone(cells));
        engine.set({ sheet: 'S', row: edited, column: 0 }, [[to]]);
        const after = cells.map((row, at) => (at === edited ? [to, ...row.slice(1)] : row));
        expect(results(engine)).toEqual(alone(after));
        engine.destroy();
      },
    ),
    { numRuns: 40 },
  );
});
