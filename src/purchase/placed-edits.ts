import { orders as ordersSheet } from '../../sheets/buying/orders.ts';
import { sites as sitesSheet } from '../../sheets/buying/sites.ts';
import type { HeaderOf } from '../../sheets/index.ts';
import type { Content } from '../formula/values.ts';
import { sheetRows } from '../records/sheet-rows.ts';
import { type CellEdit, withContents, withRoom } from '../workbook/state-changes.ts';
import type { BookState } from '../workbook/state.ts';
import type { Workbook } from '../workbook/workbook.ts';
import type { OrderKey, PlacedOrderLine } from './order-key.ts';
import { PriceNotes } from './price-edits.ts';
import { orderNumber } from './site.ts';

/** Orders that were sent, as lines of the sheet Orders: they count as on order from the day they are expected. */

interface PlacedBook {
  readonly state: BookState;
  /** Order lines that were added. */
  readonly added: readonly string[];
  /** Those that were left out, and why. */
  readonly problems: readonly string[];
}

/** How many numbers after the next one are looked at. */
const mostCounted = 1000;

/** The edit that lets the site's numbers go on after those that were used; none where they are others. */
function nextNumber(book: Workbook, keys: readonly OrderKey[]): CellEdit[] {
  const row = sheetRows(book, sitesSheet.name, [])[0];
  const next = row?.text('Next order number') ?? '';
  if (row === undefined || next === '') return [];
  const used = new Set(keys.map(({ order }) => order));
  let after = -1;
  for (let place = 0; place < mostCounted; place += 1) if (used.has(orderNumber(next, place, ''))) after = place;
  if (after < 0) return [];
  const column = book.column(sitesSheet.name, 'Next order number');
  return [{ sheet: sitesSheet.name, record: row.record, column, content: orderNumber(next, after + 1, '') }];
}

/** The book with the lines of orders that were sent; a line that stands there already is left as it is. */
export function placedBook(book: Workbook, lines: readonly PlacedOrderLine[]): PlacedBook {
  const known = new Set(sheetRows(book, ordersSheet.name, []).map((row) => row.text('Order line').toLowerCase()));
  const problems: string[] = [];
  const added: string[] = [];
  const edits: CellEdit[] = [];
  const taken: OrderKey[] = [];
  const prices = new PriceNotes(book);
  let record = book.sheet(ordersSheet.name).rows.length;
  for (const { key, cell, packs, pack, price } of lines) {
    const name = `${key.order}/${key.line}`;
    if (key.units !== book.units) problems.push(`${cell}: the order is in ${key.units} units, the book is in others`);
    else if (known.has(name.toLowerCase())) problems.push(`${cell}: ${name} is in the sheet Orders already`);
    else if (packs > 0) {
      const byLength = key.kind === 'strip' || key.kind === 'belt';
      const cells: readonly (readonly [HeaderOf<'Orders'>, Content])[] = [
        ['Order line', name],
        ['Ordered from', key.supplier],
        ['Kind', key.kind],
        ['Item', key.kind === 'punch' ? null : key.name],
        ['Size', key.size],
        ['Article', key.article],
        ['Packs', packs],
        [byLength ? 'Length in pack' : 'Pieces in pack', pack],
        ['Price', price],
        ['Ordered on', key.ordered],
        ['Expected on', key.expected],
      ];
      for (const [header, content] of cells)
        if (content !== null && content !== '')
          edits.push({ sheet: ordersSheet.name, record, column: book.column(ordersSheet.name, header), content });
      if (typeof price === 'number' && price > 0)
        prices.add({ article: key.article, day: key.ordered, price, packs, from: `order ${key.order}` });
      known.add(name.toLowerCase());
      added.push(name);
      taken.push(key);
      record += 1;
    }
  }
  const all = [...edits, ...prices.edits, ...nextNumber(book, taken)];
  return { state: withContents(withRoom(book.state, all), all), added, problems };
}
