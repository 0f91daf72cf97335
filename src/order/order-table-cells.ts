import type { FormulaCell, TableCell, TableColumn } from '../sheet/table.ts';
import type { TableCells } from '../sheet/table-cells.ts';
import { unitOf, type UnitSystem } from '../units/quantities.ts';
import { amountKind } from './items.ts';
import type { OrderLine } from './search/order-list.ts';

/** Cells that the tables of an order have in common. */

export const formula = (text: string, value: number | string): FormulaCell => ({ formula: text, value });

export const unitText = (line: Pick<OrderLine, 'item'>, units: UnitSystem): string => {
  const unit = unitOf(amountKind(line.item), units);
  return unit === '' ? 'pieces' : unit;
};

/** A row of totals under the columns that have one. */
export const totalRow = (
  columns: readonly TableColumn[],
  cells: TableCells,
  totals: Readonly<Record<string, number>>,
  rows: number,
): TableCell[] =>
  columns.map(({ header }, place): TableCell => {
    const total = totals[header];
    if (total === undefined) return place === 0 ? 'Total' : null;
    return rows === 0 ? 0 : formula(`SUM(${cells.above(header)})`, total);
  });
