import type { OrderSites } from '../../src/order/fleet-order.ts';
import type { JoinedBooks } from '../../src/order/joined-books.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import type { BookState } from '../../src/workbook/state.ts';
import { withSheet } from '../../src/workbook/state-changes.ts';
import { Workbook } from '../../src/workbook/workbook.ts';

/** Every second belt of the demo as a site of its own; the first keeps the stock. */
export function half(place: 0 | 1, change: (state: BookState) => BookState = (state) => state): Workbook {
  const demo = demoBook('metric');
  const kept = new Set(
    (demo.sheets.find(({ name }) => name === 'Belts')?.rows ?? []).flatMap(({ cells }, record) =>
      record % 2 === place ? [cells[0]] : [],
    ),
  );
  const ofHalf = ['Belts', 'Pulleys'].reduce(
    (state, name) =>
      withSheet(state, name, (sheet) => ({ ...sheet, rows: sheet.rows.filter(({ cells }) => kept.has(cells[0])) })),
    demo,
  );
  const sited = withSheet(ofHalf, 'Sites', (sheet) => ({
    ...sheet,
    rows: sheet.rows.map(({ cells }) => ({ cells: cells.with(0, place === 0 ? 'Quay' : 'Mill') })),
  }));
  return new Workbook(change(place === 0 ? sited : withSheet(sited, 'Shelf', (sheet) => ({ ...sheet, rows: [] }))));
}

/** The sites of joined books, as an order takes them. */
export const sitesOf = ({ sites, placeOf }: JoinedBooks, apart: boolean): OrderSites => ({
  names: sites,
  siteOf: (sheet, record) => sites[placeOf(sheet, record)?.book ?? -1],
  apart,
});
