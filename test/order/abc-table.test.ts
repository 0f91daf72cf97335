import { expect, test } from 'vitest';
import { abcFigures, abcTable } from '../../src/order/abc-table.ts';
import { fleetOrder } from '../../src/order/fleet-order.ts';
import { fleetShelf } from '../../src/order/shelf-lines.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

test('items of the first four fifths of the yearly value are A, up to 95 % B, the rest C', () => {
  const book = new Workbook(demoBook('metric'));
  const order = fleetOrder(book, { which: 'all' });
  const shelf = fleetShelf(book, order);
  const { columns, rows } = abcTable(shelf, order, 'metric');
  const place = (header: string): number => columns.findIndex((column) => column.header === header);
  const value = (row: (typeof rows)[number] | undefined, header: string): unknown => {
    const cell = row?.[place(header)];
    return typeof cell === 'object' && cell !== null && 'formula' in cell ? cell.value : cell;
  };
  const items = rows.slice(0, -1);
  expect(items).toHaveLength(shelf.lines.length);
  const values = items.map((row) => Number(value(row, 'Use per year')) * Number(value(row, 'Unit price') ?? 0));
  expect(values).toEqual(values.toSorted((one, other) => other - one));
  const total = values.reduce((sum, one) => sum + one, 0);
  expect(value(rows.at(-1), 'Value per year')).toBeCloseTo(total, 6);
  let before = 0;
  const classes = values.map((one) => {
    const word = one === 0 ? 'C' : before < 0.8 * total ? 'A' : before < 0.95 * total ? 'B' : 'C';
    before += one;
    return word;
  });
  expect(items.map((row) => value(row, 'Class'))).toEqual(classes);
  expect(new Set(classes)).toEqual(new Set(['A', 'B', 'C']));
  // 48 plates at 58.56 a pack of Supplier A, or 200 at SEK 2490 of 0.089: the shelf is valued at the offer taken.
  const plover = items.find((row) => row[0] === 'plates Plover');
  expect([58.56 / 48, (2490 * 0.089) / 200].some((price) => price === value(plover, 'Unit price'))).toBe(true);
  expect(value(plover, 'Stock value')).toBeCloseTo(
    Number(value(plover, 'On shelf')) * Number(value(plover, 'Unit price')),
    9,
  );
  // The page says the same, bin by bin.
  const byBin = new Map(items.map((row) => [value(row, 'Bin'), row]));
  for (const [line, { class: word, stockValue }] of abcFigures(shelf, order).entries()) {
    const row = byBin.get(shelf.lines[line]?.bin);
    expect(word).toBe(value(row, 'Class'));
    expect(stockValue ?? 0).toBeCloseTo(Number(value(row, 'Stock value')), 9);
  }
});
