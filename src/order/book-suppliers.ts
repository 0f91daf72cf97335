import { discountTiers, suppliers as suppliersSheet } from '../../sheets/buying/suppliers.ts';
import { assumedText } from '../records/assumed.ts';
import { type CellRemark, type SheetRow, sheetRows } from '../records/sheet-rows.ts';
import type { Workbook } from '../workbook/workbook.ts';
import type { Supplier } from './search/offers.ts';

/** Who sells, in which currency, and what a currency is worth: each rate once, with its day and source. */

export interface ExchangeRate {
  readonly currency: string;
  /** What one unit is in the book's currency. */
  readonly rate: number;
  /** Day of the rate, as a serial number; undefined when it is not told, and for the book's own currency. */
  readonly day: number | undefined;
  readonly source: string;
}

export interface BookSuppliers {
  /** The book's own currency. */
  readonly currency: string;
  readonly rates: readonly ExchangeRate[];
  readonly suppliers: readonly Supplier[];
  /** Suppliers whose currency has no rate, in small letters: nothing is bought from them. */
  readonly unusable: ReadonlySet<string>;
}

type Row = SheetRow<'Suppliers'>;

const optional = <Key extends string>(key: Key, value: number | undefined): Partial<Record<Key, number>> =>
  value === undefined ? {} : ({ [key]: value } as Record<Key, number>);

/** Discounts by order value; those that are half given, or out of order, are reported and left out. */
function discountsOf(row: Row): NonNullable<Supplier['discounts']> {
  const discounts: { from: number; share: number }[] = [];
  for (const number of discountTiers) {
    const [from, share] = [row.number(`Discount ${number} from`), row.number(`Discount ${number}`)];
    if (from === undefined && share === undefined) continue;
    if (from === undefined || share === undefined) {
      const lacking = from === undefined ? (`Discount ${number} from` as const) : (`Discount ${number}` as const);
      row.tell(lacking, `${lacking} is empty, so the discount is left out`);
    } else if (from <= (discounts.at(-1)?.from ?? 0))
      row.tell(
        `Discount ${number} from`,
        `Discount ${number} from is ${from}, not more than that of the discount before it, so it is left out`,
      );
    else discounts.push({ from, share });
  }
  return discounts;
}

function surchargeIn(row: Row): Pick<Supplier, 'surcharge' | 'surchargeBelow'> {
  const [surcharge, surchargeBelow] = [row.number('Surcharge'), row.number('Surcharge below')];
  if (surcharge === undefined && surchargeBelow === undefined) return {};
  if (surcharge !== undefined && surchargeBelow !== undefined) return { surcharge, surchargeBelow };
  const lacking = surcharge === undefined ? 'Surcharge' : 'Surcharge below';
  row.tell(lacking, `${lacking} is empty, so no surcharge is counted`);
  return {};
}

const supplierIn = (row: Row, name: string, currency: string): Supplier => ({
  name,
  currency,
  ...optional('freight', row.number('Freight')),
  ...optional('freightFreeFrom', row.number('Freight free from')),
  ...optional('minimumOrder', row.number('Minimum order')),
  ...surchargeIn(row),
  discounts: discountsOf(row),
});

const sameCurrency = (one: string, other: string): boolean => one.toLowerCase() === other.toLowerCase();

/** The rates of the book's currencies, each from the first row that has one. */
function ratesIn(rows: readonly Row[], own: string): ExchangeRate[] {
  const rates: ExchangeRate[] = [{ currency: own, rate: 1, day: undefined, source: '' }];
  for (const row of rows) {
    const [name, rate] = [row.text('Currency'), row.number('Exchange rate')];
    const currency = name === '' ? own : name;
    if (rate === undefined) continue;
    const known = rates.find((one) => sameCurrency(one.currency, currency));
    if (known === undefined)
      rates.push({ currency, rate, day: row.number('Rate date'), source: row.text('Rate source') });
    else if (known.rate !== rate)
      row.tell(
        'Exchange rate',
        sameCurrency(currency, own)
          ? `Exchange rate is ${rate}, but ${own} is the book's own currency, so 1 is used: correct it, or the ` +
              'BookCurrency of the Assumptions'
          : `${currency} has the exchange rate ${known.rate} in another row, which is used`,
      );
  }
  return rates;
}

export function bookSuppliers(book: Workbook, remarks: CellRemark[]): BookSuppliers {
  const currency = assumedText(book, 'BookCurrency');
  const rows = sheetRows(book, suppliersSheet.name, remarks).filter((row) => row.keyed('Supplier'));
  const rates = ratesIn(rows, currency);
  const suppliers: Supplier[] = [];
  const unusable = new Set<string>();
  for (const row of rows) {
    const [name, given] = [row.text('Supplier'), row.text('Currency')];
    if (name === '') continue;
    const rate = rates.find((one) => sameCurrency(one.currency, given === '' ? currency : given));
    if (rate === undefined || row.isWrong('Currency')) {
      row.tell(
        'Exchange rate',
        `Exchange rate is empty, so nothing is bought from ${name}: enter the value of one ${given} in ${currency}`,
      );
      unusable.add(name.toLowerCase());
      continue;
    }
    if (given === '')
      row.tell('Currency', `Currency is empty, so ${name} counts as selling in ${currency}: enter it if it does not`);
    suppliers.push(supplierIn(row, name, rate.currency));
  }
  return { currency, rates, suppliers, unusable };
}
