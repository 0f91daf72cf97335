import { expect, test } from 'vitest';
import { belts } from '../../sheets/belts/index.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { ChangeRefused, typedChange } from '../../src/what-if/typed-change.ts';
import { variantDifferences, variantLines, variantTables } from '../../src/what-if/variant-differences.ts';
import { applyVariant, type Variant, variantNamed, variantsOf, withVariant } from '../../src/what-if/variants.ts';
import { readBack } from '../xlsx/file-and-back.ts';
import { stamp } from '../xlsx/write/exported-book.ts';
import { writtenBook } from '../xlsx/write/written-book.ts';

const made = (): { readonly book: Workbook; readonly variant: Variant } => {
  const book = new Workbook(demoBook('metric'));
  book.replace(withVariant(book, 'wide', typedChange(book, 'Q1:Width=800')), 'keep variant');
  const changes = ['Q3:Skew=30', 'Q3:Plate series=Plover', 'StartFactor=1.6'].flatMap((one) => typedChange(book, one));
  book.replace(withVariant(book, 'steeper', changes), 'keep variant');
  return { book, variant: variantNamed(book, 'Steeper') };
};

const all = (book: Workbook): number[] => [...book.sheet(belts.name).rows.keys()];

test('variants stand in a sheet of the book, in place of what they were', () => {
  const { book } = made();
  expect(variantsOf(book)).toEqual([
    { name: 'wide', changes: [{ cell: 'Q1:Width', value: 800 }] },
    {
      name: 'steeper',
      changes: [
        { cell: 'Q3:Skew', value: 30 },
        { cell: 'Q3:Plate series', value: 'Plover' },
        { cell: 'StartFactor', value: 1.6 },
      ],
    },
  ]);
  book.replace(withVariant(book, 'wide', typedChange(book, 'Q1:Width=1000')), 'keep variant');
  expect(variantNamed(book, 'wide').changes).toEqual([{ cell: 'Q1:Width', value: 1000 }]);
  book.undo();
  expect(variantNamed(book, 'wide').changes).toEqual([{ cell: 'Q1:Width', value: 800 }]);
});

test('differences are those of the book once the variant is applied, which one undo takes back', () => {
  const { book, variant } = made();
  const before = book.state;
  const found = variantDifferences(book, variant, all(book));
  const values = (): string[] =>
    all(book).map((record) =>
      JSON.stringify(belts.columns.map(({ header }) => String(book.read(belts.name, record, header)))),
    );
  const now = values();
  applyVariant(book, variant);
  const then = values();
  const changed = all(book).filter((record) => now[record] !== then[record]);
  expect(found.belts.map(({ belt }) => belt.record)).toEqual(changed);
  expect(changed.length).toBeGreaterThan(5);
  for (const { belt, columns } of found.belts)
    for (const { header, after } of columns)
      expect(String(after)).toBe(String(book.read(belts.name, belt.record, header)));
  const cost = found.totals.find(({ header }) => header === 'Joint cost');
  expect((cost?.after ?? 0) - (cost?.before ?? 0)).not.toBe(0);
  expect(variantLines(found, 'metric')[0]).toBe('steeper: Q3:Skew=30, Q3:Plate series=Plover and StartFactor=1.6.');
  book.undo();
  expect(book.state).toEqual(before);
});

test('the base may change under a variant; what it can no longer be is told by its name', () => {
  const { book, variant } = made();
  book.edit([{ sheet: belts.name, record: 2, column: book.column(belts.name, 'Belt'), content: 'Q3b' }]);
  expect(() => variantDifferences(book, variant, all(book))).toThrow(
    new ChangeRefused('Variant steeper: There is no belt "Q3". Did you mean Q3b, Q1 or Q2?'),
  );
});

test('variants stand side by side, each cell that any of them changes', () => {
  const { book, variant } = made();
  const found = [variantNamed(book, 'wide'), variant].map((one) => variantDifferences(book, one, all(book)));
  const table = variantTables(found, 'fleet.xlsx', 'metric').tables.find(({ name }) => name === 'Side by side');
  expect(table?.columns.map(({ header }) => header)).toEqual(['Belt', 'Column', 'Now', 'wide', 'steeper', 'Unit']);
  const row = (belt: string, header: string): unknown =>
    table?.rows.find(([one, two]) => one === belt && two === header);
  const now = book.read(belts.name, 0, 'Width');
  expect(row('Q1', 'Width')).toEqual(['Q1', 'Width', now, 800, now, 'mm']);
  expect(row('Q3', 'Skew')).toEqual(['Q3', 'Skew', 45, 45, 30, '°']);
  expect(row('Q3', 'Width')).toBeUndefined();
  const differing = new Set(
    found.flatMap((one) =>
      one.belts.flatMap(({ belt, columns }) => columns.map(({ header }) => `${belt.name}, ${header}`)),
    ),
  );
  expect(table?.rows).toHaveLength(differing.size);
});

test('a file keeps variants', async () => {
  const { book } = made();
  const back = new Workbook(readBack(await writtenBook(book, [], { stamp })));
  expect(variantsOf(back)).toEqual(variantsOf(book));
});
