import { expect, test } from 'vitest';
import { columnLetters } from '../../src/formula/address.ts';
import { isFault } from '../../src/formula/values.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { compiledSheets, headerPosition } from '../../src/workbook/declared.ts';
import { BookNames } from '../../src/workbook/names.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** What is said of a formula that comes round to its own result: by which cells. */

const at = (sheet: string, header: string): number => compiledSheets.get(sheet)?.position.get(header) ?? -1;
const cell = (header: string, record: number): string => `${columnLetters(at('Belts', header))}${record + 2}`;

function message(book: Workbook, header: string, record: number): string {
  const value = book.value({ sheet: 'Belts', record, column: at('Belts', header) });
  return isFault(value) ? value.message : String(value);
}

test('a circle through computed cells names each of them, the formula last', () => {
  const book = new Workbook(demoBook('metric'));
  const place = { sheet: 'Belts', record: 2, column: at('Belts', 'Width') };
  book.edit([{ ...place, content: `=${cell('Cut length', 2)}*0.7` }]);
  expect(message(book, 'Width', 2)).toBe(
    `the formula depends on its own result, by way of Belts!${cell('Cut length', 2)} (Cut length), then ` +
      `Belts!${cell('Width', 2)} (Width)`,
  );
  book.edit([{ ...place, content: 1000 }]);
  expect(message(book, 'Width', 2)).toBe('1000');
});

test('among formulas alone, by a named value, and of a cell on itself', () => {
  const book = new Workbook(demoBook('metric'));
  const width = { sheet: 'Belts', record: 0, column: at('Belts', 'Width') };
  book.edit([
    { ...width, content: `=${cell('Width', 1)}` },
    { ...width, record: 1, content: `=${cell('Width', 0)}+1` },
    { ...width, record: 4, content: `=${cell('Width', 4)}` },
  ]);
  expect(message(book, 'Width', 0)).toBe(
    `the formula depends on its own result, by way of Belts!${cell('Width', 1)} (Width), then ` +
      `Belts!${cell('Width', 0)} (Width)`,
  );
  expect(message(book, 'Width', 4)).toBe(
    `the formula depends on its own result, by way of Belts!${cell('Width', 4)} (Width)`,
  );
  const strip = new BookNames(book.state).places.find(({ name }) => name === 'StripOverhang');
  if (strip === undefined) throw new Error('the demo has no StripOverhang');
  book.edit([
    {
      sheet: strip.sheet,
      record: strip.record,
      column: strip.column,
      content: `=Belts!${cell('Strip length each', 2)}/100`,
    },
  ]);
  const value = book.named('StripOverhang');
  expect(isFault(value) ? value.message : value).toMatch(
    new RegExp(`by way of Belts!${cell('Strip length each', 2)} \\(Strip length each\\), then .*\\(StripOverhang\\)$`),
  );
});

test('a long way is shortened, and the way through a pulley list stays with its belt', () => {
  const book = new Workbook(demoBook('metric'));
  const width = { sheet: 'Belts', column: at('Belts', 'Width') };
  const count = 20;
  book.edit(
    Array.from({ length: count }, (_, record) => ({
      ...width,
      record,
      content: `=${cell('Width', (record + 1) % count)}`,
    })),
  );
  expect(message(book, 'Width', 0)).toMatch(/then 15 more cells, then Belts!\w+ \(Width\)$/);
  book.undo();
  const record = book.sheet('Pulleys').rows.findIndex((_, row) => book.read('Pulleys', row, 'Belt') !== null);
  const name = book.read('Pulleys', record, 'Belt');
  const belt = book.sheet('Belts').rows.findIndex((_, row) => book.read('Belts', row, 'Belt') === name);
  book.edit([
    {
      sheet: 'Pulleys',
      record,
      column: headerPosition('Pulleys', 'Diameter'),
      content: `=Belts!${cell('Loop length', belt)}/100`,
    },
  ]);
  const value = book.read('Pulleys', record, 'Diameter');
  const told = isFault(value) ? value.message : String(value);
  expect(told).toContain(`by way of Belts!${cell('Loop length', belt)} (Loop length), then `);
  expect(told).toMatch(/\(Diameter\)$/);
});
