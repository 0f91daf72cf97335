import { beforeAll, describe, expect, test, vi } from 'vitest';
import {
  fleetOrder,
  type FleetOrder,
  suppliedOrder,
  type SuppliedOrder,
  chosenSupply,
} from '../../src/order/fleet-order.ts';
import { orderTables } from '../../src/order/order-tables.ts';
import { auditTables } from '../../src/purchase/audit-tables.ts';
import { scheduleTables } from '../../src/purchase/schedule-tables.ts';
import type { Table } from '../../src/sheet/table.ts';
import { loadSolver } from '../../src/solver/solver.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import { readBook } from '../../src/xlsx/read/read.ts';
import { tableBook } from '../../src/xlsx/write/table-book.ts';
import { recalculated } from '../xlsx/libreoffice.ts';
import { formulaDifferences } from '../xlsx/write/formula-differences.ts';

/** Days, budgets and offers in the order's workbook, worked out by another program, and by hand. */

vi.setConfig({ testTimeout: 180_000, hookTimeout: 120_000 });

describe('the days, budgets and offers of an order', () => {
  let book: Workbook;
  let order: FleetOrder;
  let supplied: SuppliedOrder;
  let tables: readonly Table[];
  const table = (name: string): Table => {
    const found = tables.find((one) => one.name === name);
    if (found === undefined) throw new Error(`no table ${name}`);
    return found;
  };
  const values = (name: string, header: string): unknown[] => {
    const { columns, rows } = table(name);
    const place = columns.findIndex((column) => column.header === header);
    return rows.map((row) => {
      const cell = row[place];
      return typeof cell === 'object' && cell !== null && 'formula' in cell ? cell.value : cell;
    });
  };

  beforeAll(async () => {
    book = new Workbook(demoBook('metric'));
    const record = book.sheet('Assumptions').rows.findIndex(({ cells }) => cells[0] === 'PriceEscalation');
    book.edit([{ sheet: 'Assumptions', record, column: 1, content: 0.03 }]);
    order = fleetOrder(book, { which: 'all' });
    supplied = suppliedOrder(order, await loadSolver());
    tables = [
      ...orderTables(order, supplied, 'metric'),
      ...scheduleTables(book, order, supplied),
      ...auditTables(book, order, supplied, { inputs: [], options: [], unfinished: ['the cutting plan'] }),
    ];
  });

  test('are worked out by another program to the same values', async () => {
    const bytes = await tableBook(book, { title: 'order', tables, about: [] });
    const { formulas, differing } = formulaDifferences(readBook(bytes), await recalculated(bytes));
    expect(differing).toEqual([]);
    expect(formulas).toBeGreaterThan(1000);
  });

  test('add up: months and cost centres to the order, and each day is its margin and lead time away', () => {
    const total = chosenSupply(supplied).total;
    expect(values('Budget by cost centre', 'Cost').at(-1)).toBeCloseTo(total, 6);
    expect(values('Schedule', 'Cost').at(-1)).toBeCloseTo(total, 6);
    const budgeted = Number(values('Schedule', 'Budgeted').at(-1));
    expect(budgeted).toBeGreaterThan(total);
    for (const header of ['Ordered', 'Delivered', 'Paid']) {
      const months = values('Budget by month', header).map(Number);
      expect(months.at(-1)).toBeCloseTo(budgeted, 6);
      expect(months.slice(0, -1).reduce((sum, one) => sum + one, 0)).toBeCloseTo(budgeted, 6);
    }
    const columns = ['Joint due', 'Order by', 'Margin', 'Lead time', 'Days late', 'Today', 'Delivery'] as const;
    const rows = columns.map((header) => values('Schedule', header).slice(0, -1));
    const [dues = [], bys = [], margins = [], leads = [], lates = [], todays = [], deliveries = []] = rows;
    let waiting = 0;
    dues.forEach((due, place) => {
      const at = (list: unknown[]): number => Number(list[place]);
      if (due === null) return;
      waiting += 1;
      expect(at(bys)).toBe(Number(due) - at(margins) - at(leads));
      expect(at(lates)).toBe(Math.max(0, at(todays) + at(leads) - Number(due)));
      expect(at(deliveries)).toBe(Math.max(Number(due) - at(margins), at(todays) + at(leads)));
    });
    expect(waiting).toBeGreaterThan(3);
  });

  test('say of every offer why, and of every item which is cheapest', () => {
    const [why, bought, cheapest, numbers] = ['Why', 'Packs bought', 'Cheapest', 'No.'].map((header) =>
      values('Offers compared', header),
    );
    expect(why?.every((text) => /^(not )?bought: ./.test(String(text)))).toBe(true);
    expect(bought?.filter((packs) => packs !== null).length).toBe(
      why?.filter((text) => String(text).startsWith('bought')).length,
    );
    const items = new Set(numbers);
    expect(items.size).toBeGreaterThan(5);
    for (const item of items)
      expect(cheapest?.some((word, place) => numbers?.[place] === item && word === 'cheapest')).toBe(true);
    expect(values('Audit', 'Said')).toContain('the cutting plan had not ended when this file was written');
  });
});
