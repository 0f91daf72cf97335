import type { CellValue, Worksheet } from 'exceljs';
import { columnLetters, quotedSheet, sheetRow } from '../../formula/address.ts';
import { outOfBounds, type Parameter } from '../../formula/parameter.ts';
import { type Node, printed } from '../../formula/syntax.ts';
import type { NamedValue } from '../../sheet/declaration.ts';
import { valueColumn } from '../../sheet/named-values.ts';
import { isWords, unitOf, type UnitSystem } from '../../units/quantities.ts';
import { bookColumns, compiledSheets, namedSheetOf, namedValue } from '../../workbook/declared.ts';
import type { BookState, SheetState } from '../../workbook/state.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { cellStyle } from './cell-styles.ts';
import { foldColumns } from './column-outline.ts';
import { checkedFormula } from './checked-cells.ts';
import type { LaidSheet, LaidWorking } from './laid-sheets.ts';
import { laidTables, tableAreas } from './laid-tables.ts';

/** The columns to the right of a sheet that only its file has, folded away: working columns, checked named values. */
interface WorkingSide {
  readonly headings: readonly { readonly text: string; readonly note: string }[];
  /** What stands in them beside a record; undefined where it is the sheet's declared formulas. */
  readonly cells: ((record: number) => readonly CellValue[]) | undefined;
}

const nothing: WorkingSide = { headings: [], cells: undefined };

/** The heading of the values of a sheet of named values that may be computed with. */
const checkedValues = 'Value, checked';

/** A named value that formulas compute with: its declaration says what it may be. */
const numberNamed = (name: unknown): NamedValue | undefined => {
  const declared = typeof name === 'string' ? namedValue(name) : undefined;
  return declared === undefined || isWords(declared.kind) ? undefined : declared;
};

/** Where the checked value of a record stands. */
const checkedCell = (sheet: SheetState, record: number, fixed: boolean): string => {
  const letters = columnLetters(bookColumns(sheet).length);
  return fixed ? `$${letters}$${sheetRow(record)}` : `${letters}${sheetRow(record)}`;
};

/** Where the checked number of a named value stands, and whether the value is now one that is not allowed. */
export interface CheckedName {
  readonly reference: string;
  readonly isRefused: boolean;
}

/**
 * The named values that formulas compute with, by their names in small letters. Of a name that stands twice the first
 * counts, as in the book.
 */
export function checkedNames(book: Workbook): ReadonlyMap<string, CheckedName> {
  const found = new Map<string, CheckedName>();
  for (const sheet of book.state.sheets) {
    if (namedSheetOf(sheet.name) === undefined) continue;
    for (const [record, { cells }] of sheet.rows.entries()) {
      const [name] = cells;
      const declared = numberNamed(name);
      const key = String(name).toLowerCase();
      if (declared === undefined || found.has(key)) continue;
      const value = book.value({ sheet: sheet.name, record, column: valueColumn });
      found.set(key, {
        reference: `${quotedSheet(sheet.name)}!${checkedCell(sheet, record, true)}`,
        isRefused: typeof value !== 'number' || !Number.isFinite(value) || outOfBounds(value, limitsOf(declared)),
      });
    }
  }
  return found;
}

const limitsOf = ({ min, above, max }: NamedValue): Parameter => ({
  kind: 'number',
  doc: '',
  ...(min === undefined ? {} : { min }),
  ...(above === undefined ? {} : { above }),
  ...(max === undefined ? {} : { max }),
});

/** The formula beside a named value: its number, or an error. */
function checkedValue(name: unknown, record: number): string | undefined {
  const declared = numberNamed(name);
  if (declared === undefined) return undefined;
  const cell: Node = { type: 'reference', text: `${columnLetters(valueColumn)}${sheetRow(record)}` };
  return printed(checkedFormula(cell, declared));
}

/** The names of tables beside the sheets of named values, with the cells that they are of. */
export function listNames(book: BookState): ReadonlyMap<string, string> {
  const taken = new Set(
    book.sheets.flatMap(({ name, rows }) =>
      namedSheetOf(name) === undefined ? [] : rows.map(({ cells }) => String(cells[0]).toLowerCase()),
    ),
  );
  return new Map(
    book.sheets.flatMap((sheet) =>
      namedSheetOf(sheet.name) === undefined
        ? []
        : tableAreas(sheet).flatMap(([name, area]) =>
            taken.has(name.toLowerCase()) ? [] : [[name, `${quotedSheet(sheet.name)}!${area}`] as const],
          ),
    ),
  );
}

function namedSide(sheet: SheetState): WorkingSide {
  const lists = laidTables(sheet).flatMap(({ columns }) => columns);
  return {
    headings: [
      {
        text: checkedValues,
        note: 'The value where it is a number that is allowed, otherwise an error: formulas compute with this.',
      },
      ...lists.map(({ heading, note }) => ({ text: heading, note })),
    ],
    cells: (record) => {
      const formula = checkedValue(sheet.rows[record]?.cells[0], record);
      return [
        formula === undefined ? null : ({ formula } as CellValue),
        ...lists.map(({ cells }) => cells[record] ?? null),
      ];
    },
  };
}

/** What a working column is, with the unit of the column that it checks, and which columns use it. */
function noteOf({ doc, of, usedBy }: LaidWorking, sheet: string, units: UnitSystem): string {
  const plan = compiledSheets.get(sheet);
  const kind = of === undefined ? undefined : plan?.columns[plan.position.get(of) ?? -1]?.kind;
  const unit = kind === undefined ? '' : unitOf(kind, units);
  const users = usedBy.length > mostUsers ? `${usedBy.slice(0, mostUsers).join(', ')} and others` : usedBy.join(', ');
  return `${doc}${unit === '' ? '' : `, in ${unit}`}.${users === '' ? '' : `\nUsed by: ${users}.`}`;
}

/** Columns that a note names, of those that use a working column. */
const mostUsers = 8;

export function workingSide(state: SheetState, laid: LaidSheet | undefined, units: UnitSystem): WorkingSide {
  if (namedSheetOf(state.name) !== undefined) return namedSide(state);
  return laid === undefined
    ? nothing
    : {
        ...nothing,
        headings: laid.workings.map((working) => ({ text: working.header, note: noteOf(working, state.name, units) })),
      };
}

/** Headings of a sheet's working columns, for its About row. */
export const sideHeaders = (state: SheetState, laid: LaidSheet | undefined): readonly string[] =>
  namedSheetOf(state.name) === undefined
    ? (laid?.workings ?? []).map(({ header }) => header)
    : namedSide(state).headings.map(({ text }) => text);

const sideWidth = 14;

/** Writes the headings of the working columns, and folds them away. */
export function writeSideHeadings(sheet: Worksheet, side: WorkingSide, width: number): void {
  side.headings.forEach(({ text, note }, index) => {
    const column = sheet.getColumn(width + index + 1);
    column.width = sideWidth;
    column.style = cellStyle('computed');
    const cell = sheet.getRow(1).getCell(width + index + 1);
    cell.value = text;
    cell.style = cellStyle('computed header');
    cell.note = note;
  });
  foldColumns(
    sheet,
    side.headings.map((_, index) => width + index),
  );
}
