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
import { rowOf } from '../workbook/books.ts';
import { withSheet } from '../../src/workbook/state-changes.ts';
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
    book = new Workbook(
      withSheet(demoBook('metric'), 'Price history', (sheet) => ({
        ...sheet,
        rows: [
          { 'Priced on': 46_000, 'Price then': 90, 'Packs then': 4 },
          { 'Priced on': 45_600, 'Price then': 85 },
        ].map((cells, place) =>
          rowOf('Price history', { 'Price entry': `entry ${place}`, 'Priced article': 'B-HER-24', ...cells }),
        ),
      })),
    );
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
    expect(values('Budget by cost centre', 'Budgeted').at(-1)).toBeCloseTo(
      Number(values('Schedule', 'Budgeted').at(-1)),
      6,
    );
    expect(values('Schedule', 'Cost').at(-1)).toBeCloseTo(total, 6);
    const budgeted = Number(values('Schedule', 'Budgeted').at(-1));
    expect(budgeted).toBeGreaterThan(total);
    for (const header of ['Ordered', 'Delivered', 'Paid']) {
      const months = values('Budget by month', header).map(Number);
      expect(months.at(-1)).toBeCloseTo(budgeted, 6);
      expect(months.slice(0, -1).reduce((sum, one) => sum + one, 0)).toBeCloseTo(budgeted, 6);
    }
    const [by, areas, totals] = ['By', 'Area', 'Total'].map((header) => values('Budget by area', header));
    for (const header of ['Ordered', 'Delivered', 'Paid']) {
      const own = totals?.filter((_, place) => by?.[place] === header).map(Number) ?? [];
      const ofAreas = own.filter((_, place) => areas?.[place] !== null && areas?.[place] !== undefined);
      expect(ofAreas.length).toBeGreaterThan(3);
      expect(own.at(-1)).toBeCloseTo(budgeted, 6);
      expect(ofAreas.reduce((sum, one) => sum + one, 0)).toBeCloseTo(budgeted, 6);
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
    // Side by side: the row's minimum is the cheapest, and who sells nothing of it has a reason.
    const { columns, rows } = table('Comparison of offers');
    expect(rows.length).toBe(items.size);
    const sellers = columns.slice(2, -3).map(({ header }) => header);
    expect(sellers.length).toBeGreaterThan(2);
    for (const header of sellers) expect(values('Comparison of offers', header)).toHaveLength(rows.length);
    rows.forEach((_, row) => {
      const costs = sellers.map((header) => values('Comparison of offers', header)[row]);
      const known = costs.filter((cost) => typeof cost === 'number');
      expect(costs[sellers.indexOf(String(values('Comparison of offers', 'Cheapest goods')[row]))]).toBe(
        Math.min(...known),
      );
      const bought = String(values('Comparison of offers', 'Bought from')[row] ?? '').split(', ');
      const lost = String(values('Comparison of offers', 'The others')[row] ?? '');
      sellers.forEach((seller, place) => {
        if (costs[place] !== null && !bought.includes(seller)) expect(lost).toContain(`${seller}: not bought: `);
      });
    });
    // The newest first; a price at four packs is compared with that of today's offer at four.
    expect(values('Price history', 'Price then')).toEqual([90, 85]);
    const changes = values('Price history', 'Change').map(Number);
    const now = values('Price history', 'Price now').map(Number);
    expect(changes).toEqual([(now[0] ?? 0) / 90 - 1, (now[1] ?? 0) / 85 - 1]);
    expect(values('Audit', 'Said')).toContain('the cutting plan had not ended when this file was written');
  });
});
