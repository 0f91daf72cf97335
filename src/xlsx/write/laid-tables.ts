import type { CellValue } from 'exceljs';
import {
  type FileTable,
  fileTables,
  type TableCell,
  tableFigures,
  writtenOut,
} from '../../../sheets/values/file-tables.ts';
import { inputTables } from '../../../sheets/belts/completeness.ts';
import { type LineTable, lineLists } from '../../../sheets/values/table-lines.ts';
import { lineTables } from '../../../sheets/values/tables.ts';
import { columnLetters, sheetRow } from '../../formula/address.ts';
import { type Answer, answerWithin, eitherOf, unknownAnswer } from '../../formula/answers.ts';
import { mapped, type Node, printed } from '../../formula/syntax.ts';
import { bookColumns, namedSheetOf, namedValue } from '../../workbook/declared.ts';
import type { SheetState } from '../../workbook/state.ts';

/**
 * The tables beside a sheet of named values in a file, to the right of "Value, checked": of those whose figures all
 * stand in the sheet. A figure is read beside its value, so that one that is not allowed is an error.
 */

interface ListColumn {
  readonly heading: string;
  readonly note: string;
  readonly cells: readonly CellValue[];
}

interface LaidTable {
  readonly columns: readonly ListColumn[];
  /** The names of areas, by the first and the last of the columns that they are of. */
  readonly names: readonly { readonly name: string; readonly first: number; readonly last: number }[];
}

const allTables: readonly FileTable[] = [...fileTables, ...inputTables];

/** The first column of tables. */
const firstColumn = (sheet: SheetState): number => bookColumns(sheet).length + 1;

/** Where the checked value of a name stands; of a name that stands twice the first counts. */
const checkedReference = (sheet: SheetState, name: string): string => {
  const record = sheet.rows.findIndex(({ cells }) => cells[0] === name);
  return `$${columnLetters(bookColumns(sheet).length)}$${sheetRow(record)}`;
};

function linesLaid(table: LineTable, sheet: SheetState, start: number): LaidTable {
  const { points, heading, goesOn } = table;
  const { at, is, slope } = lineLists(table);
  const [places, figures] = [columnLetters(start), columnLetters(start + 1)];
  const slopeFrom = (index: number): CellValue => {
    const rise = (letters: string): string => `(${letters}${sheetRow(index + 1)}-${letters}${sheetRow(index)})`;
    return { formula: `${rise(figures)}/${rise(places)}` } as CellValue;
  };
  const last = points.length - 1;
  const slopes = points.map((_, index) => (index < last ? slopeFrom(index) : goesOn ? slopeFrom(index - 1) : 0));
  const called = (name: string): string => `Formulas call this list ${name}.`;
  return {
    columns: [
      { heading: `${heading}: at`, note: called(at), cells: points.map(({ place }) => place) },
      {
        heading: `${heading}: figure`,
        note: called(is),
        cells: points.map(({ name }) => ({ formula: checkedReference(sheet, name) }) as CellValue),
      },
      { heading: `${heading}: slope to the next`, note: called(slope), cells: slopes },
    ],
    names: [at, is, slope].map((name, index) => ({ name, first: index, last: index })),
  };
}

function cellLaid(cell: TableCell, sheet: SheetState): CellValue {
  if (typeof cell !== 'object') return cell;
  if (!('figure' in cell)) return { formula: cell.formula } as CellValue;
  const reference = checkedReference(sheet, cell.figure);
  return { formula: cell.formula?.(reference) ?? reference } as CellValue;
}

const tableLaid = ({ name, columns }: FileTable, sheet: SheetState): LaidTable => ({
  columns: columns.map(({ heading, name: list, cells }) => ({
    heading,
    note: list === undefined ? `Formulas call this table ${name}.` : `Formulas call this list ${list}.`,
    cells: cells.map((cell) => cellLaid(cell, sheet)),
  })),
  names: [
    { name, first: 0, last: columns.length - 1 },
    ...columns.flatMap(({ name: list }, index) =>
      list === undefined ? [] : [{ name: list, first: index, last: index }],
    ),
  ],
});

export function laidTables(sheet: SheetState): readonly LaidTable[] {
  const declared = new Set(namedSheetOf(sheet.name)?.values.map(({ name }) => name));
  const there = new Set(sheet.rows.map(({ cells: [name] }) => name));
  const isHere = (figures: readonly string[]): boolean =>
    figures.every((name) => declared.has(name) && there.has(name));
  const laid: LaidTable[] = [];
  let start = firstColumn(sheet);
  const add = (table: LaidTable): void => {
    laid.push(table);
    start += table.columns.length;
  };
  for (const table of lineTables) if (isHere(table.points.map(({ name }) => name))) add(linesLaid(table, sheet, start));
  for (const table of allTables) {
    const { beside = sheet.name } = table;
    if (beside === sheet.name && isHere(tableFigures(table))) add(tableLaid(table, sheet));
  }
  return laid;
}

/** The names of all tables, by the area of the sheet that each is of. */
export function tableAreas(sheet: SheetState): readonly (readonly [name: string, area: string])[] {
  let start = firstColumn(sheet);
  return laidTables(sheet).flatMap(({ columns, names }) => {
    const from = start;
    start += columns.length;
    const last = sheetRow((columns[0]?.cells.length ?? 1) - 1);
    return names.map((area) => {
      const [left, right] = [area.first, area.last].map((column) => columnLetters(from + column));
      return [area.name, `$${left ?? ''}$${sheetRow(0)}:$${right ?? ''}$${last}`] as const;
    });
  });
}

const numberIn = (cell: TableCell): Answer =>
  typeof cell === 'number' ? answerWithin({ min: cell, max: cell }) : unknownAnswer;

/** What a look-up in a table may find: of figures numbers within their bounds. */
export function foundInTable(name: string): Answer {
  const table = allTables.find((other) => other.name === name);
  if (table === undefined) return { ...unknownAnswer, number: true };
  if (table.columns.length === 1) return eitherOf(table.columns.flatMap(({ cells }) => cells.map(numberIn)));
  const answers = table.columns.slice(1).flatMap(({ cells }) =>
    cells.map((cell) => {
      if (typeof cell !== 'object' || !('figure' in cell) || cell.formula !== undefined) return unknownAnswer;
      const declared = namedValue(cell.figure);
      return declared === undefined ? unknownAnswer : answerWithin(declared);
    }),
  );
  return eitherOf(answers);
}

const numberNode = (cell: TableCell): Node => ({ type: 'number', value: Number(cell), text: String(cell) });

const namesByText = new Map(
  writtenOut.map(({ name, columns }) => [
    printed({ type: 'array', rows: (columns[0]?.cells ?? []).map((cell) => [numberNode(cell)]) }),
    name,
  ]),
);

/** The tree with the names of lists that it holds written out. */
export const withListNames = (tree: Node, hasList: (name: string) => boolean): Node =>
  mapped(tree, (node) => {
    const name = node.type === 'array' ? namesByText.get(printed(node)) : undefined;
    return name === undefined || !hasList(name) ? undefined : { type: 'name', name };
  });
