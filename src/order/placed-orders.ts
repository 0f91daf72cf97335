import { orders as ordersSheet } from '../../sheets/buying/orders.ts';
import { type CellRemark, sheetRows } from '../records/sheet-rows.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { byLength, type Items } from './items.ts';
import type { Stocked } from './search/order-list.ts';

/** What is still to come of orders that were placed. */
interface PlacedLine extends Stocked {
  readonly record: number;
  /** Number of the order and its line. */
  readonly name: string;
  /** Packs that are still to come, and what one holds. */
  readonly packs: number;
  readonly pack: number;
}

/** A day after any joint: what comes nobody knows when covers none, but need not be bought for the shelf again. */
const unknownDay = Number.MAX_SAFE_INTEGER;

/** Lines of which packs are neither received nor cancelled, each with the day on which it is expected. */
export function placedLines(book: Workbook, items: Items, remarks: CellRemark[]): PlacedLine[] {
  return sheetRows(book, ordersSheet.name, remarks).flatMap((row): PlacedLine[] => {
    if (!row.keyed('Order line')) return [];
    const item = items.ofRow(row);
    if (item === undefined) return [];
    const header = byLength(item) ? 'Length in pack' : 'Pieces in pack';
    const [ordered, pack] = [row.number('Packs'), row.number(header)];
    if (ordered === undefined || pack === undefined) {
      const lacking = ordered === undefined ? 'Packs' : header;
      row.tell(lacking, `${lacking} is empty, so the order line is left out`);
      return [];
    }
    const gone = (row.number('Received packs') ?? 0) + (row.number('Cancelled packs') ?? 0);
    if (gone > ordered)
      row.tell('Received packs', `${gone} packs were received or cancelled, of ${ordered} ordered: nothing is to come`);
    const packs = ordered - gone;
    if (packs <= 0) return [];
    const day = row.number('Expected on');
    if (day === undefined)
      row.tell('Expected on', 'Expected on is empty, so the order line covers no joint: enter the day it arrives');
    return [
      {
        name: row.text('Order line'),
        record: row.record,
        item,
        packs,
        pack,
        quantity: packs * pack,
        day: day ?? unknownDay,
      },
    ];
  });
}
