import { expect, test } from 'vitest';
import { belts } from '../../sheets/belts/index.ts';
import { isFault, type Value } from '../../src/formula/values.ts';
import { randomNumbers } from '../../src/random/random-numbers.ts';
import { isComputed } from '../../src/sheet/declaration.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import type { SupposedKind, SupposedOf } from '../../src/workbook/supposed-blocks.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** Many suppositions worked out together come to what each comes to alone. */

const random = randomNumbers(20_261_128);
const pick = <Item>(list: readonly Item[]): Item | undefined => list[Math.floor(random() * list.length)];
const told = (value: Value): Value => (isFault(value) ? `${value.code} ${value.message}` : value);

const inputs = belts.columns.flatMap((column, at) => (isComputed(column) || at === 0 ? [] : [at]));
const wanted = belts.columns.flatMap((column, at) => (isComputed(column) ? [at] : []));
const headers = belts.columns.map(({ header }) => header);

/** Suppositions of the same cells for every belt, some of them of a named value too. */
function supposed(book: Workbook): SupposedOf[] {
  const columns = [...new Set(Array.from({ length: 3 }, () => pick(inputs) ?? 1))];
  const contents = [null, 'C', 0, 12, 35, 600, '60', 'VN35'];
  const kind: SupposedKind = { columns, names: random() < 0.5 ? ['PulleyGroup'] : [] };
  return book
    .sheet(belts.name)
    .rows.flatMap((_, record) =>
      [1, 2].map(() => ({
        record,
        kind,
        values: [...columns.map(() => pick(contents) ?? null), pick(['A', 'B', 'C', 'none']) ?? null],
      })),
    );
}

test('suppositions of many belts at once come to what each comes to alone', () => {
  const book = new Workbook(demoBook('metric'));
  book.edit(
    Array.from({ length: 40 }, () => ({
      sheet: belts.name,
      record: Math.floor(random() * book.sheet(belts.name).rows.length),
      column: random() < 0.1 ? (pick(wanted) ?? 1) : (pick(inputs) ?? 1),
      content: pick([null, 'about 5', 0, -3, 1e9, 12]) ?? null,
    })),
  );
  for (let round = 0; round < 6; round += 1) {
    const asked = supposed(book);
    const columns = round < 3 ? wanted : [wanted.at(-1) ?? 0, pick(wanted) ?? 0];
    const answers = book.whatIfs({ sheet: belts.name, wanted: columns, supposed: asked });
    for (const [place, one] of asked.entries()) {
      const alone = book.whatIf(
        'Belts',
        one.record,
        Object.fromEntries(one.kind.columns.map((column, index) => [headers[column], one.values[index] ?? null])),
        { named: Object.fromEntries(one.kind.names.map((name) => [name, one.values.at(-1) ?? null])) },
      );
      const [found, expected] = [
        columns.map((column, index) => `${headers[column] ?? ''}: ${String(told(answers[index]?.[place] ?? null))}`),
        columns.map((column) => `${headers[column] ?? ''}: ${String(told(alone[column] ?? null))}`),
      ];
      expect(found).toEqual(expected);
    }
  }
});
