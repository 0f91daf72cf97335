import type { Table, TableCell, TableColumn } from '../sheet/table.ts';
import { TableCells } from '../sheet/table-cells.ts';
import type { UnitSystem } from '../units/quantities.ts';
import { chosenSupply, type FleetOrder, type SuppliedOrder } from './fleet-order.ts';
import { itemText } from './items.ts';
import { offerOf } from './order-figures.ts';
import { formula, unitText } from './order-table-cells.ts';
import { deliveriesOf } from './purchase-orders.ts';
import { itemKey } from './search/order-list.ts';
import type { SiteNeed } from './site-needs.ts';

/** What sites that buy together get: every delivery, and what each site then has too much or too little of. */

const names = { deliveries: 'Deliveries', sites: 'Needs by site' } as const;

const amounts = { kind: 'number', digits: 2 } as const;

const deliveryColumns: readonly TableColumn[] = [
  { header: 'No.', kind: 'count', note: 'of the order list' },
  { header: 'Item', kind: 'text' },
  { header: 'Supplier', kind: 'text' },
  { header: 'Article', kind: 'text' },
  { header: 'Site', kind: 'text' },
  { header: 'Unit', kind: 'text' },
  { header: 'Quantity', ...amounts, note: 'that the supplier delivers there; the sites may share a pack' },
];

const siteColumns: readonly TableColumn[] = [
  { header: 'No.', kind: 'count', note: 'of the order list' },
  { header: 'Item', kind: 'text' },
  { header: 'Site', kind: 'text' },
  { header: 'Unit', kind: 'text' },
  { header: 'Need', ...amounts, note: 'of planned joints' },
  { header: 'Allowance', ...amounts },
  { header: 'Shelf level', ...amounts, note: 'kept where the item has its bin' },
  { header: 'On shelf', ...amounts },
  { header: 'On order', ...amounts },
  { header: 'Delivered', ...amounts, computed: true, note: 'by this order: sum of the sheet Deliveries' },
  { header: 'Surplus', ...amounts, computed: true, note: 'there and delivered beyond what is needed' },
  {
    header: 'From other sites',
    ...amounts,
    computed: true,
    alertAbove: 0,
    note: 'what is still needed: take it from the surplus of other sites',
  },
];

interface DeliveryRow {
  readonly line: number;
  readonly supplier: string;
  readonly article: string;
  readonly site: string;
  readonly quantity: number;
}

/** Every delivery of a purchase, and of what comes in its packs. */
function deliveryRows(order: FleetOrder, supplied: SuppliedOrder): DeliveryRow[] {
  const place = new Map(order.lines.map(({ item }, line) => [itemKey(item), line]));
  return chosenSupply(supplied).purchases.flatMap((purchase) => {
    const { item, supplier, quantity: bought, included } = purchase;
    const article = offerOf(purchase, order.offered.offers)?.article ?? '';
    return deliveriesOf(order, purchase).flatMap(({ site, quantity }): DeliveryRow[] => [
      { line: place.get(itemKey(item)) ?? -1, supplier, article, site, quantity },
      ...included.flatMap((content) => {
        const line = place.get(itemKey(content.item));
        const part = (content.quantity * quantity) / bought;
        return line === undefined ? [] : [{ line, supplier, article, site, quantity: part }];
      }),
    ]);
  });
}

const balanceOf = ({ need, allowance, shelfLevel, onShelf, onOrder }: SiteNeed, delivered: number): number =>
  onShelf + onOrder + delivered - need - allowance - shelfLevel;

/** Above 0, and without the crumbs of sums. */
const settledAmount = (amount: number): number => Math.max(0, Math.round(amount * 1e6) / 1e6);

/** The tables of several sites; none where there is one. */
export function siteTables(order: FleetOrder, supplied: SuppliedOrder, units: UnitSystem): Table[] {
  const { lines, sites } = order;
  if (sites === undefined) return [];
  const rows = deliveryRows(order, supplied).toSorted((one, other) => one.line - other.line);
  const cells = new TableCells(names.deliveries, deliveryColumns, rows.length);
  const needs = lines.flatMap(({ item }, line) => (sites.get(itemKey(item)) ?? []).map((need) => ({ line, need })));
  const needCells = new TableCells(names.sites, siteColumns, needs.length);
  const called = (line: number): [string, string] => {
    const of = lines[line];
    return of === undefined ? ['', ''] : [itemText(of.item, units), unitText(of, units)];
  };
  return [
    {
      name: names.deliveries,
      columns: deliveryColumns,
      keys: 2,
      rows: rows.map(({ line, supplier, article, site, quantity }): TableCell[] => {
        const [item, unit] = called(line);
        return [line + 1, item, supplier, article, site, unit, quantity];
      }),
    },
    {
      name: names.sites,
      columns: siteColumns,
      keys: 3,
      rows: needs.map(({ line, need }, record): TableCell[] => {
        const at = (header: string): string => needCells.cell(header, record);
        const delivered = rows
          .filter((row) => row.line === line && row.site === need.site)
          .reduce((sum, { quantity }) => sum + quantity, 0);
        const there = ['On shelf', 'On order', 'Delivered'].map(at).join('+');
        const asked = ['Need', 'Allowance', 'Shelf level'].map(at).join('+');
        const [item, unit] = called(line);
        return [
          line + 1,
          item,
          need.site,
          unit,
          need.need,
          need.allowance,
          need.shelfLevel,
          need.onShelf,
          need.onOrder,
          rows.length === 0
            ? 0
            : formula(
                `SUMIFS(${cells.column('Quantity')},${cells.column('No.')},${at('No.')},` +
                  `${cells.column('Site')},${at('Site')})`,
                delivered,
              ),
          formula(`ROUND(MAX(0,${there}-(${asked})),6)`, settledAmount(balanceOf(need, delivered))),
          formula(`ROUND(MAX(0,${asked}-(${there})),6)`, settledAmount(-balanceOf(need, delivered))),
        ];
      }),
    },
  ];
}
