import { areas as areasSheet } from '../../sheets/work/areas.ts';
import { formula } from '../order/order-table-cells.ts';
import { OrderFigures } from '../order/order-figures.ts';
import type { FleetOrder, SuppliedOrder } from '../order/fleet-order.ts';
import { sheetRows } from '../records/sheet-rows.ts';
import { TableCells } from '../sheet/table-cells.ts';
import type { Table, TableCell, TableColumn } from '../sheet/table.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { bookSite } from './site.ts';

/** What each cost centre and its areas pay of an order. */

const name = 'Budget by cost centre';
const bookMoney = { kind: 'money', digits: 2, currency: 'book' } as const;
const moneyHeaders = ['Goods', 'Freight and charges', 'Cost'] as const;

const centreColumns: readonly TableColumn[] = [
  { header: 'Cost centre', kind: 'text' },
  { header: 'Area', kind: 'text' },
  { header: 'Goods', ...bookMoney, computed: true },
  { header: 'Freight and charges', ...bookMoney, computed: true },
  { header: 'Cost', ...bookMoney, computed: true },
];

const sum = (numbers: readonly number[]): number => numbers.reduce((total, one) => total + one, 0);

/** Areas by the cost centre that pays: the area's own, otherwise that of the site. */
function areasByCentre(book: Workbook, areas: readonly string[]): Map<string, string[]> {
  const site = bookSite(book, []);
  const centreOf = new Map(
    sheetRows(book, areasSheet.name, []).map((row) => [row.text('Area'), row.text('Cost centre')]),
  );
  const centres = new Map<string, string[]>();
  for (const area of areas) {
    const centre = [centreOf.get(area), site.costCentre].find((text) => text !== undefined && text !== '') ?? '';
    centres.set(centre, [...(centres.get(centre) ?? []), area]);
  }
  return new Map([...centres].toSorted(([one], [other]) => one.localeCompare(other, 'en')));
}

/** A row an area, a subtotal after each cost centre, and the total of them all. */
export function costCentreTable(book: Workbook, order: FleetOrder, supplied: SuppliedOrder): Table {
  const { cells } = new OrderFigures(order, supplied, book.units);
  const { rows: budget } = supplied.budget;
  const centres = areasByCentre(book, [...new Set(budget.map(({ area }) => area))]);
  const own = new TableCells(name, centreColumns, budget.length + centres.size);
  const figures = (areas: readonly string[]): number[] => {
    const found = budget.filter(({ area }) => areas.includes(area));
    const [goods, cost] = [sum(found.map((row) => row.goods)), sum(found.map((row) => row.cost))];
    return [goods, cost - goods, cost];
  };
  const rows: TableCell[][] = [];
  const subtotals: number[] = [];
  for (const [centre, areas] of centres) {
    const first = rows.length;
    for (const area of areas) {
      const [values, at] = [figures([area]), own.cell('Area', rows.length)];
      rows.push([
        centre,
        area,
        ...moneyHeaders.map((header, place) =>
          formula(
            `SUMPRODUCT(EXACT(${cells.budget.column('Area')},${at})*${cells.budget.column(header)})`,
            values[place] ?? 0,
          ),
        ),
      ]);
    }
    const [values, last] = [figures(areas), rows.length - 1];
    subtotals.push(rows.length);
    rows.push([
      `Total of ${centre === '' ? 'no cost centre' : centre}`,
      null,
      ...moneyHeaders.map((header, place) =>
        formula(`SUM(${own.cell(header, first)}:${own.cell(header, last)})`, values[place] ?? 0),
      ),
    ]);
  }
  const all = figures(budget.map(({ area }) => area));
  const total = moneyHeaders.map((header, place): TableCell =>
    subtotals.length === 0
      ? 0
      : formula(subtotals.map((record) => own.cell(header, record)).join('+'), all[place] ?? 0),
  );
  return {
    name,
    columns: centreColumns,
    keys: 2,
    total: true,
    currency: order.offered.currency,
    rows: [...rows, ['Total', null, ...total]],
  };
}
