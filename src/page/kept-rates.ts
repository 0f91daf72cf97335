import type { SheetHeaders, ValueName } from '../../sheets/index.ts';
import { valueColumn } from '../sheet/named-values.ts';
import { namesSheet } from '../workbook/own-names.ts';
import type { CellPlace } from '../workbook/place.ts';
import type { Workbook } from '../workbook/workbook.ts';

/** What to say when the book counts in another currency than before. */

const suppliers = 'Suppliers';
const nameOf = 'BookCurrency' satisfies ValueName;

/**
 * Exchange rates that were entered for the currency of before; undefined where the cells that were changed do not hold
 * it, or no rate is left. Nothing in a rate says which currency it leads to.
 */
export function keptRates(book: Workbook, changed: readonly CellPlace[]): string | undefined {
  const isCurrency = ({ sheet, record, column }: CellPlace): boolean =>
    sheet === namesSheet && column === valueColumn && book.sheet(namesSheet).rows[record]?.cells[0] === nameOf;
  if (!changed.some(isCurrency)) return undefined;
  const currency = String(book.named(nameOf) ?? '');
  const at = (header: SheetHeaders['Suppliers']): number => book.column(suppliers, header);
  const rates = book.sheet(suppliers).rows.flatMap(({ cells }): string[] => {
    const [of, rate] = [cells[at('Currency')], cells[at('Exchange rate')]];
    return typeof of === 'string' && typeof rate === 'number' && of.trim() !== currency ? [`one ${of} is ${rate}`] : [];
  });
  if (rates.length === 0) return undefined;
  return (
    `The exchange rates in the sheet Suppliers are still those of before: ${rates.join(', ')}. Enter what each is ` +
    `worth in ${currency}: costs are wrong until then. Other amounts in the book's money keep their figures, too.`
  );
}
