import type { SheetName, SheetHeaders } from '../../sheets/index.ts';
import type { Content } from '../formula/values.ts';
import { declaredValue, headerPosition } from '../workbook/declared.ts';
import { assumption } from '../workbook/lent-sheets.ts';
import type { BookState } from '../workbook/state.ts';

/** Whose money the prices of a row are in, and whether a sign that was typed is it. */

/** Currencies by the signs that people type; a dollar sign is that of any dollar. */
const meant: Readonly<Record<string, RegExp>> = { '€': /^EUR$/i, $: /^(?:USD|AUD|CAD|NZD|SGD|HKD)$/i, '£': /^GBP$/i };

type Named = Extract<SheetName, 'Suppliers' | 'Offers' | 'Plate series' | 'Strips'>;

/** The column that names a row's supplier. */
const sellers: { readonly [Sheet in Named]: SheetHeaders[Sheet] } = {
  Suppliers: 'Supplier',
  Offers: 'Sold by',
  'Plate series': 'Supplier',
  Strips: 'Supplier',
};

const isNamed = (sheet: string): sheet is Named => Object.hasOwn(sellers, sheet);

const textOf = (content: Content | undefined): string => (typeof content === 'string' ? content.trim() : '');

const bookCurrency = (state: Pick<BookState, 'sheets'>): string => {
  const given = textOf(assumption(state, 'BookCurrency'));
  return given === '' ? String(declaredValue('BookCurrency').value) : given;
};

/** The currency of a row's prices; undefined for an offer that names no supplier. */
function rowCurrency(state: Pick<BookState, 'sheets'>, sheet: string, record: number): string | undefined {
  const own = bookCurrency(state);
  if (!isNamed(sheet)) return own;
  const rows = state.sheets.find(({ name }) => name === sheet)?.rows;
  const seller = textOf(rows?.[record]?.cells[headerPosition(sheet, sellers[sheet])]).toLowerCase();
  if (seller === '') return sheet === 'Offers' ? undefined : own;
  const suppliers = state.sheets.find(({ name }) => name === 'Suppliers')?.rows ?? [];
  const row =
    sheet === 'Suppliers'
      ? rows?.[record]
      : suppliers.find(({ cells }) => textOf(cells[headerPosition('Suppliers', 'Supplier')]).toLowerCase() === seller);
  const currency = textOf(row?.cells[headerPosition('Suppliers', 'Currency')]);
  return currency === '' ? own : currency;
}

/** Why a currency that was typed with a price cannot be its row's; undefined where it is, or none was typed. */
export function otherCurrency(
  state: Pick<BookState, 'sheets'>,
  sheet: string,
  record: number,
  sign: string,
): { readonly reason: string; readonly allowed: string } | undefined {
  const currency = rowCurrency(state, sheet, record);
  if (currency === undefined)
    return {
      reason: `the price is in ${sign}, and the row names no supplier whose currency could be compared`,
      allowed: 'a price once Sold by is entered, or a number alone',
    };
  const is = meant[sign];
  if (is === undefined ? sign.toLowerCase() === currency.toLowerCase() : is.test(currency)) return undefined;
  return {
    reason: `the price is in ${sign}, and the row counts in ${currency}`,
    allowed:
      `a price in ${currency}; if that is the wrong currency, correct it ` +
      (isNamed(sheet) ? 'in the sheet Suppliers' : 'in BookCurrency, in the sheet Assumptions'),
  };
}
