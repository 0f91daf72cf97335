import { expect, test } from 'vitest';
import { namedSheets } from '../../sheets/index.ts';
import { isFault, type Value } from '../../src/formula/values.ts';
import { valueColumn } from '../../src/sheet/named-values.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** A what-if of a named value is what the book itself comes to with that value, in every column of a belt. */

const comparable = (value: Value | undefined): Value | undefined => (isFault(value) ? value.code : value);

test('a supposed named value gives what an edit of it gives, by way of other sheets too', () => {
  const book = new Workbook(demoBook('metric'));
  const differences: string[] = [];
  for (const { declaration, values, editable } of namedSheets) {
    if (!editable) continue;
    for (const [record, { name }] of values.entries()) {
      const place = { sheet: declaration.name, record, column: valueColumn };
      const present = book.value(place);
      if (typeof present !== 'number') continue;
      const other = present === 0 ? 1 : present * 1.5;
      const belts = [0, 8, 20];
      const supposed = belts.map((belt) => book.whatIf('Belts', belt, {}, { named: { [name]: other } }));
      book.edit([{ ...place, content: other }]);
      for (const [at, belt] of belts.entries())
        for (const [column, { header }] of book.columns('Belts').entries()) {
          const real = comparable(book.value({ sheet: 'Belts', record: belt, column }));
          if (real !== comparable(supposed[at]?.[column])) differences.push(`${name}: ${header}`);
        }
      book.undo();
    }
  }
  expect(differences).toEqual([]);
});
