import { valueColumn } from '../../sheet/named-values.ts';
import { namedSheetOf } from '../../workbook/declared.ts';
import { columnLetters, quotedSheet, sheetRow } from '../../formula/address.ts';
import type { Node } from '../../formula/syntax.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import { madeSheets } from '../made-sheets.ts';
import { FileFormulas } from './file-formulas.ts';
import type { FileNumbers } from './file-numbers.ts';
import { fileSheetNames } from './file-sheet-names.ts';
import type { HeldColumns } from './held-otherwise.ts';
import { laidSheets, type SpeltSheets } from './laid-sheets.ts';
import { nothingSaid } from './said-of-rows.ts';
import { type CheckedName, checkedNames, listNames } from './working-side.ts';
import type { RowSource } from './writing.ts';

/**
 * What a file takes for a defined name: no cell's name, no sign that formulas use. Source: ECMA-376 Part 1, 18.2.5
 * (definedName).
 */
const definable = /^(?![A-Za-z]{1,3}\d+$)(?![rRcC]$)[A-Za-z_\\][\w.\\]{0,254}$/;

interface NamedCell {
  readonly name: string;
  readonly reference: string;
}

/** A named value that formulas compute with is read beside its cell; while it is refused there, only by them. */
function namedCells(book: Workbook, checked: ReadonlyMap<string, CheckedName>): NamedCell[] {
  return book.state.sheets.flatMap(({ name: sheet, rows }) =>
    namedSheetOf(sheet) === undefined
      ? []
      : rows.flatMap(({ cells: [name] }, record) =>
          typeof name === 'string' && definable.test(name)
            ? [
                {
                  name,
                  reference:
                    checked.get(name.toLowerCase())?.isRefused === false
                      ? (checked.get(name.toLowerCase())?.reference ?? '')
                      : `${quotedSheet(sheet)}!$${columnLetters(valueColumn)}$${sheetRow(record)}`,
                },
              ]
            : [],
        ),
  );
}

/** Names that the file defines, in the order in which it does. */
export type DefinedNames = readonly NamedCell[];

/**
 * What a book's rows are made from, and the names that their formulas use; `spelt` where it has some records of a book
 * whose sheets were spelt before.
 */
export function rowSource(
  book: Workbook,
  numbers: FileNumbers,
  held: HeldColumns,
  spelt?: SpeltSheets,
): { readonly source: RowSource; readonly names: DefinedNames } {
  const checked = checkedNames(book);
  const lists = listNames(book.state);
  const names = [...namedCells(book, checked), ...[...lists].map(([name, reference]) => ({ name, reference }))];
  const checkedName = (name: string): Node | undefined => {
    const cell = checked.get(name.toLowerCase());
    return cell?.isRefused === true ? { type: 'reference', text: cell.reference } : undefined;
  };
  const laid = laidSheets(book, held, { checkedName, hasList: (name) => lists.has(name) }, spelt);
  const sheets = fileSheetNames(
    book.state.sheets.map(({ name }) => name),
    madeSheets,
  );
  const formulas = new FileFormulas(
    sheets,
    names.map(({ name }) => name),
    laid,
  );
  return { source: { book, units: book.units, sheets, formulas, laid, numbers, said: nothingSaid() }, names };
}
