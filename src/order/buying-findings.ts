import { assumed } from '../records/assumed.ts';
import { issueAt } from '../records/cell-issue.ts';
import type { Finding } from '../records/finding.ts';
import { isEmptyRecord, recordName } from '../records/input-issues.ts';
import type { CellRemark } from '../records/sheet-rows.ts';
import type { SheetName } from '../../sheets/index.ts';
import { sheetRow } from '../formula/address.ts';
import { Refusal } from '../formula/define.ts';
import { capital } from '../units/phrases.ts';
import { unitOf } from '../units/quantities.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { Items } from './items.ts';
import { offered } from './offered.ts';
import { bookStock } from './stock.ts';

/** What the sheets of buying say that an order would leave out or doubt, as findings beside those of the checks. */

const buyingSheets: readonly SheetName[] = ['Suppliers', 'Offers', 'Shelf'];

function finding(book: Workbook, { sheet, record, column, cell, message }: CellRemark): Finding {
  const position = book.findColumn(sheet, column) ?? 0;
  const place = { sheet, record, column: position };
  const value = book.value(place);
  const kind = book.kind(place);
  return {
    sheet,
    record,
    name: recordName(book, sheet, record),
    check: 'input',
    verdict: 'compare',
    column,
    cell,
    message: `${capital(message)} (sheet ${sheet}, row ${sheetRow(record)}, column ${column}).`,
    given: {
      label: column,
      value: typeof value === 'number' || typeof value === 'string' ? value : null,
      kind,
      unit: unitOf(kind, book.units),
    },
    limit: null,
    cures: [`Correct ${column} in ${cell}, or leave it if it is meant.`],
  };
}

/**
 * Everything in Suppliers, Offers and Shelf, and in the prices of series and strips, that an order leaves out, reads in
 * another way or doubts. Cells that hold what no cell of their column may are findings already.
 */
export function buyingFindings(book: Workbook): Finding[] {
  const used = book.state.sheets.some(
    ({ name, rows }) => buyingSheets.some((sheet) => sheet === name) && rows.some(({ cells }) => !isEmptyRecord(cells)),
  );
  if (!used) return [];
  const remarks: CellRemark[] = [];
  try {
    const items = new Items(book);
    bookStock(book, items, remarks);
    const [today, leadDays] = [assumed(book, 'ReviewDate'), assumed(book, 'LeadTime')];
    offered(book, { items, today, leadDays: () => leadDays, wanted: items.ofSeries }, remarks);
  } catch (error) {
    // An assumption that cannot be used is a finding of its own.
    if (!(error instanceof Refusal)) throw error;
  }
  return remarks
    .filter(({ sheet, record, column }) => {
      const position = book.findColumn(sheet, column);
      return position === undefined || issueAt(book, { sheet, record, column: position }) === undefined;
    })
    .map((remark) => finding(book, remark));
}
