import { otherCurrency } from '../../records/row-currency.ts';
import type { BookState, SheetState } from '../../workbook/state.ts';
import { textContent } from './cell-reading.ts';
import type { NotUnderstood } from './import-model.ts';

/** Prices of a list that say whose money they are. */

/** A price whose cell, number format or heading names a currency. */
export interface NamedCurrency {
  readonly record: number;
  readonly position: number;
  readonly currency: string;
  readonly where: Readonly<Record<'sheet' | 'cell' | 'column' | 'given', string>>;
}

/**
 * A sheet with prices in another currency than their rows' kept as texts, which nothing counts. What they are is told
 * to `notUnderstood`.
 */
function refused(
  state: Pick<BookState, 'sheets'>,
  sheet: SheetState,
  currencies: readonly NamedCurrency[],
  notUnderstood: NotUnderstood[],
): SheetState {
  const rows = [...sheet.rows];
  for (const { record, position, currency, where } of currencies) {
    const other = otherCurrency(state, sheet.name, record, currency);
    const row = rows[record];
    if (other === undefined || row === undefined) continue;
    notUnderstood.push({ ...where, why: other.reason, allowed: other.allowed });
    const given = where.given.includes(currency) ? where.given : `${currency} ${where.given}`;
    rows[record] = {
      cells: row.cells.with(position, textContent(given)),
      notes: { ...row.notes, [position]: `"${given}": ${other.reason}. Allowed: ${other.allowed}.` },
    };
  }
  return { ...sheet, rows };
}

/** Replaces sheets, by name, whose prices name a currency that is not their rows'. */
export function refuseCurrencies(
  sheets: Map<string, SheetState>,
  currencies: ReadonlyMap<string, readonly NamedCurrency[]>,
  notUnderstood: NotUnderstood[],
): void {
  const state = { sheets: [...sheets.values()] };
  for (const [name, own] of currencies) {
    const sheet = sheets.get(name);
    if (sheet !== undefined && own.length > 0) sheets.set(name, refused(state, sheet, own, notUnderstood));
  }
}
