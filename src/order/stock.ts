import { sheetRow } from '../formula/address.ts';
import { type Item, itemKey, type Stocked } from './search/order-list.ts';
import type { ShelfRoll } from './search/cutting-question.ts';
import { orders as ordersSheet } from '../../sheets/buying/orders.ts';
import { shelf as shelfSheet } from '../../sheets/buying/shelf.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { byLength, type Items } from './items.ts';
import { placedLines } from './placed-orders.ts';
import type { PerJoint } from './fleet-joints.ts';
import { type CellRemark, sheetRows } from '../records/sheet-rows.ts';

/** What the sheets Shelf and Orders say: how much of what, which rolls, and how an item is ordered again. */

/** How an item is ordered again; what is not told is left to the assumptions. */
export interface Reorder {
  readonly item: Item;
  readonly bin: string;
  readonly leadDays: number | undefined;
  readonly spreadDays: number | undefined;
  readonly criticality: string;
  readonly orderCost: number | undefined;
  /** Where its bin is, of several sites. */
  readonly site?: string | undefined;
}

/** The site that a row of a sheet belongs to, where a book holds several; undefined where it holds one. */
export type SiteOf = (sheet: string, record: number) => string | undefined;

export interface Stock {
  readonly shelf: readonly Stocked[];
  readonly onOrder: readonly Stocked[];
  /** Rolls and offcuts of strip and belt that are there, and then those that come. */
  readonly rolls: readonly (ShelfRoll & { readonly item: Item })[];
  /** Consumables that every joint takes. */
  readonly consumables: readonly PerJoint[];
  /** An entry an item, of its first bin. */
  readonly reorders: readonly Reorder[];
}

export function bookStock(
  book: Workbook,
  items: Items,
  remarks: CellRemark[],
  siteOf: SiteOf = () => undefined,
): Stock {
  const shelf: Stocked[] = [];
  const onOrder: Stocked[] = [];
  const rolls: (ShelfRoll & { readonly item: Item })[] = [];
  const perJoint = new Map<string, PerJoint>();
  const reorders = new Map<string, Reorder>();
  for (const row of sheetRows(book, shelfSheet.name, remarks)) {
    if (!row.keyed('Bin')) continue;
    const item = items.ofRow(row);
    if (item === undefined) continue;
    const [bin, there, coming] = [row.text('Bin'), row.number('On shelf') ?? 0, row.number('On order') ?? 0];
    const site = siteOf(shelfSheet.name, row.record);
    let each = 1;
    if (byLength(item)) {
      const length = row.number('Length each');
      if (length === undefined) {
        row.tell('Length each', 'Length each is empty, so the bin is left out: enter the length of one roll or offcut');
        continue;
      }
      each = length;
      const name = bin === '' ? `row ${sheetRow(row.record)}` : bin;
      if (there > 0) rolls.push({ item, name, length, quantity: there, source: 'shelf' });
      if (coming > 0) rolls.push({ item, name, length, quantity: coming, source: 'on order' });
    }
    if (there > 0) shelf.push({ item, quantity: there * each, site });
    if (coming > 0) onOrder.push({ item, quantity: coming * each, site });
    const use = row.number('Per joint');
    if (use !== undefined && item.kind === 'consumable' && !perJoint.has(item.name))
      perJoint.set(item.name, { name: item.name, quantity: use });
    if (!reorders.has(itemKey(item))) {
      reorders.set(itemKey(item), {
        item,
        bin,
        leadDays: row.number('Lead time'),
        spreadDays: row.number('Lead time deviation'),
        criticality: row.text('Criticality'),
        orderCost: row.number('Order cost'),
        site,
      });
    }
  }
  for (const { name, record, item, packs, pack, quantity, day } of placedLines(book, items, remarks)) {
    const site = siteOf(ordersSheet.name, record);
    onOrder.push({ item, quantity, site, ...(day === undefined ? {} : { day }) });
    if (byLength(item)) rolls.push({ item, name, length: pack, quantity: packs, source: 'on order', day });
  }
  return { shelf, onOrder, rolls, consumables: [...perJoint.values()], reorders: [...reorders.values()] };
}
