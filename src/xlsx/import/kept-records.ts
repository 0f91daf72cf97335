import { recordSheets } from '../../../sheets/index.ts';
import type { SheetDeclaration } from '../../sheet/declaration.ts';
import type { BookState, SheetState } from '../../workbook/state.ts';

/** Sheets of records in an order in which each comes after those that it chooses names from. */
export function readingOrder(): readonly SheetDeclaration[] {
  const order: SheetDeclaration[] = [];
  const begun = new Set<string>();
  const visit = (declaration: SheetDeclaration): void => {
    if (begun.has(declaration.name)) return;
    begun.add(declaration.name);
    for (const { choices } of declaration.columns) {
      if (choices === undefined || !('sheet' in choices)) continue;
      const other = recordSheets.find(({ name }) => name === choices.sheet);
      if (other !== undefined) visit(other);
    }
    order.push(declaration);
  };
  recordSheets.forEach(visit);
  return order;
}

/** What stays of the other book's records where a file has none, and what the report says of it. */
interface KeptRecords {
  readonly sheet: SheetState;
  /** Undefined where nothing stays that could. */
  readonly told: string | undefined;
}

/**
 * The other book's records of a sheet that the file lacks.
 *
 * Parts, such as pulleys, stay only where the list has the belt that they belong to; invented ones never do, since a
 * real belt may well be called as one of them.
 */
export function keptRecords(
  declaration: SheetDeclaration,
  from: SheetState,
  base: BookState,
  baseName: string,
  read: readonly SheetState[],
): KeptRecords {
  const { name, partOf, columns } = declaration;
  if (from.rows.length === 0) return { sheet: from, told: undefined };
  if (partOf === undefined) {
    const warning = base.invented ? ', which are invented: enter your own before you rely on them' : '';
    return { sheet: from, told: `${name}: not in the file; the ${from.rows.length} of ${baseName} are kept${warning}` };
  }
  const owner = columns.findIndex(({ header }) => header === partOf.header);
  const wholes = namesIn(
    read.find((sheet) => sheet.name === partOf.sheet),
    partOf.sheet,
  );
  const rows = base.invented
    ? []
    : from.rows.filter(({ cells }) => wholes.has(String(cells[owner] ?? '').toLowerCase()));
  const left = from.rows.length - rows.length;
  const why = base.invented ? 'which are invented' : `for a ${partOf.header.toLowerCase()} that is not in the list`;
  const told = [
    ...(rows.length === 0 ? [] : [`the ${rows.length} of ${baseName} that belong to records of the list are kept`]),
    ...(left === 0 ? [] : [`${left} of ${baseName}, ${why}, are left out`]),
  ].join('; ');
  return { sheet: { ...from, rows }, told: `${name}: not in the file; ${told}` };
}

function namesIn(sheet: SheetState | undefined, name: string): ReadonlySet<string> {
  const declaration = recordSheets.find((item) => item.name === name);
  const at = declaration?.columns.findIndex(({ header }) => header === declaration.key) ?? -1;
  return new Set((sheet?.rows ?? []).map(({ cells }) => String(cells[at] ?? '').toLowerCase()));
}

/** A book without records that are parts of others: what it lends to another fleet. */
export function withoutParts(book: BookState): BookState {
  const parts = recordSheets.filter(({ partOf }) => partOf !== undefined).map(({ name }) => name);
  return { ...book, sheets: book.sheets.map((sheet) => (parts.includes(sheet.name) ? { ...sheet, rows: [] } : sheet)) };
}
