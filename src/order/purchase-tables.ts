import { laterPrices } from '../../sheets/buying/offers.ts';
import { discountTiers } from '../../sheets/buying/suppliers.ts';
import type { Table, TableCell } from '../sheet/table.ts';
import { itemText } from './items.ts';
import type { OrderFigures } from './order-figures.ts';
import { formula, totalRow, unitText } from './order-table-cells.ts';
import { orderTableNames, purchaseColumns, rateColumns, supplierColumns } from './order-table-columns.ts';

/** What is bought from whom, with live formulas: packs, prices at breaks, discounts, charges, and one cell a rate. */

/** A hair below a limit counts as reached, as in the search. */
const reached = (value: string, limit: string): string => `AND(ISNUMBER(${limit}),${value}>=N(${limit})*(1-10^-9))`;

type Row = OrderFigures['purchases'][number];

/** Packs of kits in other rows that bring what a row's line needs, as a sum of their cells. */
function inKits({ purchases, cells }: OrderFigures, { line }: Row): string {
  return purchases
    .flatMap(({ included }, record) =>
      included?.line === line
        ? [`-${cells.purchases.cell('Packs', record)}*${cells.purchases.cell('Included per pack', record)}`]
        : [],
    )
    .join('');
}

/** Packs of an article in all rows that buy it: its price goes by them together. */
function packsOfOffer({ purchases, cells }: OrderFigures, { purchase: { offer } }: Row): string {
  const rows = purchases.flatMap((row, record) =>
    row.purchase.offer === offer ? [cells.purchases.cell('Packs', record)] : [],
  );
  return rows.length === 1 ? (rows[0] ?? '0') : `(${rows.join('+')})`;
}

/** What a purchase is to cover, its price at its number of packs, and its share of its supplier's charges. */
function purchaseFormulas(
  figures: OrderFigures,
  row: Row,
  record: number,
): Readonly<Record<'cover' | 'price' | 'charges' | 'rate', string>> {
  const { purchases, cells } = figures;
  const at = (header: string): string => cells.purchases.cell(header, record);
  const bySupplier = (header: string): string =>
    `SUMPRODUCT(EXACT(${cells.suppliers.column('Supplier')},${at('Supplier')})*${cells.suppliers.column(header)})`;
  const toOrder = `INDEX(${cells.list.column('To order')},${at('No.')})`;
  const [quantities, numbers] = [cells.purchases.before('Quantity', record), cells.purchases.before('No.', record)];
  const again = purchases[record - 1]?.line === row.line;
  const above =
    again && quantities !== undefined && numbers !== undefined ? `-SUMIFS(${quantities},${numbers},${at('No.')})` : '';
  const packs = packsOfOffer(figures, row);
  return {
    cover: `MAX(0,${toOrder}${inKits(figures, row)}${above})`,
    price: laterPrices.reduce(
      (before, number) =>
        `IF(AND(ISNUMBER(${at(`Break ${number}`)}),${packs}>=${at(`Break ${number}`)}),` +
        `${at(`Price ${number}`)},${before})`,
      at('Price 1'),
    ),
    charges:
      `${bySupplier('Charges')}*IF(${bySupplier('Goods')}>0,${at('Cost')}/${bySupplier('Goods')},` +
      `1/SUMPRODUCT(--EXACT(${cells.purchases.column('Supplier')},${at('Supplier')})))`,
    rate: rateFormula(figures, at('Currency')),
  };
}

/** The one cell of a currency's rate. */
const rateFormula = ({ cells }: OrderFigures, currency: string): string =>
  `INDEX(${cells.rates.column('Exchange rate')},MATCH(${currency},${cells.rates.column('Currency')},0))`;

function purchaseRow(figures: OrderFigures, row: Row, record: number): TableCell[] {
  const { order, units, cells } = figures;
  const { suppliers, rates } = order.offered;
  const { line, purchase, cover, whole, included } = row;
  const at = (header: string): string => cells.purchases.cell(header, record);
  const formulas = purchaseFormulas(figures, row, record);
  const offer = figures.offerOf(purchase);
  const { breaks } = purchase.offer;
  const currency = suppliers.find(({ name }) => name === purchase.supplier)?.currency ?? '';
  return [
    line + 1,
    itemText(purchase.item, units),
    purchase.supplier,
    offer?.article ?? '',
    offer?.articleNumber ?? '',
    offer?.quote ?? '',
    offer?.leadDays ?? null,
    unitText(purchase, units),
    formula(formulas.cover, cover),
    purchase.pack,
    formula(`ROUNDUP(ROUND(${at('To cover')}/${at('Pack')},9),0)`, whole),
    purchase.packs > whole ? purchase.packs : null,
    purchase.packs >= whole
      ? formula(`MAX(${at('Whole packs')},${at('Minimum packs')})`, purchase.packs)
      : purchase.packs,
    formula(`${at('Packs')}*${at('Pack')}`, purchase.quantity),
    included === undefined ? null : included.line + 1,
    included?.perPack ?? null,
    breaks[0]?.price ?? purchase.price,
    ...laterPrices.flatMap((_, place): TableCell[] => [
      breaks[place + 1]?.from ?? null,
      breaks[place + 1]?.price ?? null,
    ]),
    formula(formulas.price, purchase.price),
    currency,
    formula(`ROUND(${at('Packs')}*${at('Price')},2)`, purchase.amount),
    formula(formulas.rate, rates[currency] ?? 1),
    formula(`ROUND(${at('Amount')}*${at('Exchange rate')},2)`, purchase.cost),
    formula(formulas.charges, figures.chargesOn(purchase)),
  ];
}

/** Every purchase: packs, price, amount and share of the charges. */
export function purchaseTable(figures: OrderFigures): Table {
  const { order, supply, purchases, cells } = figures;
  return {
    name: orderTableNames.purchases,
    columns: purchaseColumns,
    keys: 2,
    total: true,
    currency: order.offered.currency,
    rows: [
      ...purchases.map((row, record) => purchaseRow(figures, row, record)),
      totalRow(
        purchaseColumns,
        cells.purchases,
        { Cost: supply.goods, 'Freight and charges': supply.charges },
        purchases.length,
      ),
    ],
  };
}

function supplierRow(
  figures: OrderFigures,
  one: OrderFigures['supply']['orders'][number],
  record: number,
): TableCell[] {
  const { order, cells } = figures;
  const { suppliers, rates } = order.offered;
  const at = (header: string): string => cells.suppliers.cell(header, record);
  const seller = suppliers.find(({ name }) => name === one.supplier);
  const { goods, discount, surcharge, freight } = one.invoiced;
  const ofSupplier = (header: string): string =>
    `SUMPRODUCT(EXACT(${cells.purchases.column('Supplier')},${at('Supplier')})*${cells.purchases.column(header)})`;
  const share = discountTiers.reduce(
    (before, number) =>
      `IF(${reached(at('Lines'), at(`Discount ${number} from`))},N(${at(`Discount ${number}`)}),${before})`,
    '0',
  );
  const inBook = (header: string): string => `ROUND(${at(header)}*${at('Exchange rate')},2)`;
  return [
    one.supplier,
    one.currency,
    formula(rateFormula(figures, at('Currency')), rates[one.currency] ?? 1),
    formula(`ROUND(${ofSupplier('Amount')},2)`, goods),
    ...discountTiers.flatMap((_, place): TableCell[] => [
      seller?.discounts?.[place]?.from ?? null,
      seller?.discounts?.[place]?.share ?? null,
    ]),
    formula(`ROUND(${at('Lines')}*${share},2)`, discount),
    seller?.surchargeBelow ?? null,
    seller?.surcharge ?? null,
    formula(
      `IF(OR(${at('Lines')}=0,NOT(ISNUMBER(${at('Surcharge below')})),` +
        `${reached(at('Lines'), at('Surcharge below'))}),0,N(${at('Surcharge per order')}))`,
      surcharge,
    ),
    seller?.freightFreeFrom ?? null,
    seller?.freight ?? 0,
    one.deliveries,
    formula(
      `IF(OR(${at('Lines')}=0,${reached(at('Lines'), at('Freight free from'))}),0,` +
        `ROUND(${at('Deliveries')}*ROUND(${at('Freight per delivery')},2),2))`,
      freight,
    ),
    formula(
      `${at('Lines')}-${at('Discount')}+${at('Surcharge')}+${at('Freight')}`,
      goods - discount + surcharge + freight,
    ),
    seller?.minimumOrder ?? null,
    formula(
      `IF(${at('Lines')}>=N(${at('Minimum order')})*(1-10^-9),"yes","no")`,
      goods >= (seller?.minimumOrder ?? 0) * (1 - 1e-9) ? 'yes' : 'no',
    ),
    formula(ofSupplier('Cost'), one.goods),
    formula(`${inBook('Freight')}+${inBook('Surcharge')}-${inBook('Discount')}`, one.charges),
    formula(`${at('Goods')}+${at('Charges')}`, one.goods + one.charges),
  ];
}

/** Every supplier that is ordered from: lines, discount, charges, and whether the minimum order is reached. */
export function supplierTable(figures: OrderFigures): Table {
  const { order, supply, cells } = figures;
  return {
    name: orderTableNames.suppliers,
    columns: supplierColumns,
    keys: 1,
    total: true,
    currency: order.offered.currency,
    rows: [
      ...supply.orders.map((one, record) => supplierRow(figures, one, record)),
      totalRow(
        supplierColumns,
        cells.suppliers,
        { Goods: supply.goods, Charges: supply.charges, Cost: supply.total },
        supply.orders.length,
      ),
    ],
  };
}

/** What each currency is worth, once. */
export const rateTable = ({ order }: OrderFigures): Table => ({
  name: orderTableNames.rates,
  columns: rateColumns,
  keys: 1,
  rows: order.offered.exchangeRates.map(({ currency, rate, day, source }) => [currency, rate, day ?? null, source]),
});
