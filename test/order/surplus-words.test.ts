import { expect, test } from 'vitest';
import { chosenSupply, fleetOrder, suppliedOrder } from '../../src/order/fleet-order.ts';
import { surplusTexts } from '../../src/order/surplus-words.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { columnOf } from '../workbook/books.ts';
import { solving } from './search/solving.ts';

test('what is bought to fill up a minimum order is told', async () => {
  const book = new Workbook(demoBook('metric'));
  const sellers = book.sheet('Suppliers').rows;
  const records = [sellers.findIndex(({ cells }) => cells[0] === 'Invented Supplier C')];
  book.edit(
    records.map((record) => ({
      sheet: 'Suppliers',
      record,
      column: columnOf(book, 'Suppliers', 'Minimum order'),
      content: 5000,
    })),
  );
  // S2 takes plates of Supplier C alone.
  const belt = book.sheet('Belts').rows.findIndex((_, record) => {
    const series = book.read('Belts', record, 'Plate series');
    return (series === 'Godwit' || series === 'Whimbrel') && book.read('Belts', record, 'Verdict') !== 'fails';
  });
  const order = fleetOrder(book, { which: 'belts', records: [belt] });
  const supply = chosenSupply(suppliedOrder(order, await solving()));
  expect(supply.orders.map(({ supplier }) => supplier)).toContain('Invented Supplier C');
  expect(surplusTexts(order, supply, 'metric')).toContainEqual(
    expect.stringMatching(/are bought beyond the need, to reach the minimum order of Invented Supplier C$/),
  );
});
