import { beforeAll, describe, expect, test, vi } from 'vitest';
import { itemKey } from '../../src/order/search/order-list.ts';
import { loadSolver } from '../../src/solver/solver.ts';
import { type Solver } from '../../src/solver/program.ts';
import {
  chosenSupply,
  fleetOrder,
  type FleetOrder,
  suppliedOrder,
  type SuppliedOrder,
} from '../../src/order/fleet-order.ts';
import { settledOrder } from '../../src/order/settled-order.ts';
import { itemText } from '../../src/order/items.ts';
import { orderBook } from '../../src/order/order-files.ts';
import { feasibleFleet, fleetSeries, seriesChanges } from '../../src/order/fleet-series.ts';
import { fleetShelf } from '../../src/order/shelf-lines.ts';
import { fleetComparison } from '../../src/order/square-or-skew.ts';
import { demoBook } from '../../src/workbook/demo.ts';
import { Workbook } from '../../src/workbook/workbook.ts';
import type { RawBook, RawCell } from '../../src/xlsx/read/raw-book.ts';
import { readBook } from '../../src/xlsx/read/read.ts';
import { tableBook } from '../../src/xlsx/write/table-book.ts';
import { type Table } from '../../src/sheet/table.ts';
import { formulaDifferences } from '../xlsx/write/formula-differences.ts';
import { recalculated } from '../xlsx/libreoffice.ts';
import type { BeltHeader } from '../../sheets/index.ts';

/** The order's workbook: formulas that another program works out to the same values, and that follow a change. */

vi.setConfig({ testTimeout: 180_000, hookTimeout: 180_000 });

/** A cell of a table's record by its header. */
function cell(book: RawBook, name: string, header: string, record: number): RawCell | undefined {
  const sheet = book.sheets.find((one) => one.name === name);
  const column = sheet?.rows
    .get(1)
    ?.find(({ value }) => value === header || String(value).startsWith(`${header} (`))?.column;
  expect(column, `${name}, ${header}`).toBeDefined();
  return sheet?.rows.get(record + 2)?.find((one) => one.column === column);
}

describe.each(['metric', 'us'] as const)('the order of Tern Quay, %s', (units) => {
  let solver: Solver;
  let book: Workbook;
  let order: FleetOrder;
  let supplied: SuppliedOrder;
  let tables: readonly Table[];
  let bytes: Uint8Array;

  beforeAll(async () => {
    solver = await loadSolver();
    book = new Workbook(demoBook(units));
    const settled = await settledOrder(book, fleetOrder(book, { which: 'all' }), solver, { seconds: 6 });
    ({ order, supplied } = settled);
    const { plans } = settled;
    const fleet = await feasibleFleet(book);
    const series = await fleetSeries(book, fleet, solver);
    const made = orderBook(
      book.state,
      {
        order,
        supplied,
        shelf: fleetShelf(book, order),
        plans,
        series: { answer: series, changes: series.best === undefined ? [] : seriesChanges(book, fleet, series.best) },
        comparison: fleetComparison(book),
      },
      'a test',
    );
    ({ tables } = made);
    bytes = await tableBook(book, made);
  });

  test('is worked out by another program to the same values, formula by formula', async () => {
    const [ours, theirs] = [readBook(bytes), await recalculated(bytes)];
    const { formulas, differing } = formulaDifferences(ours, theirs);
    expect(differing).toEqual([]);
    expect(formulas).toBeGreaterThan(1500);
    const { orders, total } = chosenSupply(supplied);
    expect(Number(cell(theirs, 'Suppliers', 'Cost', orders.length)?.value)).toBeCloseTo(total, 6);
  });

  test('follows a change: twice the joints are twice the quantities, and packs, price and cost go along', async () => {
    const belt = order.joints.belts.find(({ belt: name }) => name === 'Q5');
    const line = order.lines.findIndex(({ item }) => item.kind === 'plates' && item.name === 'Heron');
    const need = order.lines[line];
    const plates = belt?.needs.find(({ item }) => item.kind === 'plates')?.quantity ?? Number.NaN;
    expect(plates).toBeGreaterThan(0);
    const joints = tables
      .find(({ name }) => name === 'Belt by belt')
      ?.columns.findIndex(({ header }) => header === 'Joints');
    if (joints === undefined) throw new Error('no column Joints');
    const changed = tables.map((table) =>
      table.name !== 'Belt by belt'
        ? table
        : {
            ...table,
            rows: table.rows.map((row) => (row[2] === 'Q5' ? row.with(joints, Number(row[joints]) * 2) : row)),
          },
    );
    const theirs = await recalculated(await tableBook(book, { title: 'order', tables: changed, about: [] }));
    expect(cell(theirs, 'Order list', 'Need', line)?.value).toBeCloseTo((need?.need ?? 0) + plates, 9);
    const bought = Number(cell(theirs, 'Order list', 'Bought', line)?.value);
    const toOrder = Number(cell(theirs, 'Order list', 'To order', line)?.value);
    const { shelf = 0, onOrder = 0, shelfLevel = 0 } = need ?? {};
    expect(shelfLevel).toBeGreaterThan(0);
    expect(toOrder).toBeCloseTo(((need?.need ?? 0) + plates) * 1.02 + shelfLevel - shelf - onOrder, 9);
    expect(bought).toBeGreaterThanOrEqual(toOrder);
    expect(bought % 24).toBe(0);
    // 15 packs and more are of the next price: 88.40 in a currency at 1.18.
    expect(bought / 24).toBeGreaterThanOrEqual(15);
    expect(cell(theirs, 'Order list', 'Cost', line)?.value).toBeCloseTo(
      Math.round((bought / 24) * 88.4 * 1.18 * 100) / 100,
      6,
    );
  });

  if (units !== 'metric') return;
  test('follows one rate and one price to the total', async () => {
    const supply = chosenSupply(supplied);
    const change = (name: string, key: unknown, header: string, value: number): readonly Table[] =>
      tables.map((table) => {
        const column = table.columns.findIndex((one) => one.header === header);
        return table.name !== name
          ? table
          : {
              ...table,
              rows: table.rows.map((row) => (row.includes(`${String(key)}`) ? row.with(column, value) : row)),
            };
      });
    const written = async (changed: readonly Table[]): Promise<RawBook> =>
      recalculated(await tableBook(book, { title: 'order', tables: changed, about: [] }));
    const total = (made: RawBook): number => Number(cell(made, 'Suppliers', 'Cost', supply.orders.length)?.value);
    const cents = (amount: number): number => Math.round(amount * 100 * (1 + 1e-12)) / 100;
    const pounds = supply.orders.find(({ currency }) => currency === 'GBP');
    if (pounds === undefined) throw new Error('nothing is bought in GBP');
    const lines = supply.purchases.filter(({ supplier }) => supplier === pounds.supplier);
    const atRate = (rate: number): number =>
      lines.reduce((sum, { amount }) => sum + cents(amount * rate), 0) + cents(pounds.invoiced.freight * rate);
    expect(total(await written(change('Rates', 'GBP', 'Exchange rate', 1.3)))).toBeCloseTo(
      supply.total - atRate(1.18) + atRate(1.3),
      6,
    );
    const [line] = lines;
    if (line === undefined) throw new Error('no line is bought in GBP');
    const article = order.offered.offers.find((offer) => JSON.stringify(offer) === JSON.stringify(line.offer))?.article;
    const dearer = line.offer.breaks.map(({ from, price }) => ({ from, price: price + 10 }));
    const place = dearer.findLastIndex(({ from }) => from <= line.packs);
    const made = await written(change('Purchases', article, `Price ${place + 1}`, dearer[place]?.price ?? 0));
    expect(total(made) - supply.total).toBeGreaterThan(0);
    expect(total(made)).toBeCloseTo(supply.total + cents((line.amount + 10 * line.packs) * 1.18) - line.cost, 6);
  });

  test('every quantity adds up from the belts of the book', () => {
    const column = (header: BeltHeader): number => book.column('Belts', header);
    for (const { item, need, sources } of order.lines) {
      expect(sources.reduce((sum, { quantity }) => sum + quantity, 0)).toBe(need);
      if (item.kind !== 'plates') continue;
      const fromBook = book.sheet('Belts').rows.reduce((sum, _, record) => {
        const value = (header: BeltHeader): unknown => book.value({ sheet: 'Belts', record, column: column(header) });
        const included = order.joints.belts.some((belt) => belt.record === record);
        return included && value('Plate series') === item.name
          ? sum + Number(value('Plates')) * Number(value('Joints'))
          : sum;
      }, 0);
      expect(need, itemText(item, units)).toBe(fromBook);
    }
    const bought = chosenSupply(supplied).purchases;
    for (const { item, toOrder } of order.lines) {
      const quantity = bought
        .filter((one) => itemKey(one.item) === itemKey(item))
        .reduce((sum, one) => sum + one.quantity, 0);
      expect(quantity, itemText(item, units)).toBeGreaterThanOrEqual(toOrder * (1 - 1e-9));
    }
  });
});

test('the same order in both unit systems: lines, packs, cost', async () => {
  const solver = await loadSolver();
  const made = (['metric', 'us'] as const).map((units) => {
    const order = fleetOrder(new Workbook(demoBook(units)), { which: 'all' });
    return { order, supply: chosenSupply(suppliedOrder(order, solver)) };
  });
  const [metric, us] = made;
  expect(us?.order.lines.length).toBe(metric?.order.lines.length);
  expect(us?.supply.total).toBeCloseTo(metric?.supply.total ?? Number.NaN, 6);
  metric?.order.lines.forEach(({ item, toOrder }, place) => {
    const factor = item.kind === 'strip' || item.kind === 'belt' ? 0.3048 : 1;
    expect((us?.order.lines[place]?.toOrder ?? Number.NaN) * factor, item.name).toBeCloseTo(toOrder, 6);
  });
  expect(us?.order.joints.leftOut.map(({ belt, reason }) => [belt, reason])).toEqual(
    metric?.order.joints.leftOut.map(({ belt, reason }) => [belt, reason]),
  );
});
