import type { CellErrorValue, CellValue } from 'exceljs';
import { isFault, type Matrix, type Value } from '../../formula/values.ts';
import { compiledSheets } from '../../workbook/declared.ts';
import { cellName, columnLetters, sheetRow } from '../../formula/address.ts';
import type { CellPlace } from '../../workbook/place.ts';
import { formulaMark } from '../about.ts';
import { formulaOnSheet } from '../formula-on-sheet.ts';
import { fileErrors, fileValue } from './file-values.ts';
import type { RowSource } from './writing.ts';

/** A cell beside or below a formula that it fills. */
export interface SpillCell {
  readonly record: number;
  readonly column: number;
  readonly value: CellValue;
}

/** Enough of a formula to know it by; the About sheet holds the whole of it. */
const quotedFormula = (content: string): string => (content.length > 80 ? `${content.slice(0, 79)}…` : content);

type Result = number | string | boolean | CellErrorValue;

/** A formula's result in a file; an empty one reads as 0 in every program. */
const result = (value: Value): Result => fileValue(value).value ?? 0;

/** The values that a formula of a free sheet fills; one in a declared sheet keeps to its cell. */
function filled({ book }: RowSource, place: CellPlace, content: string): Matrix {
  const value = book.value(place);
  if (compiledSheets.has(place.sheet) || isFault(value)) return [[value]];
  const evaluated = book.evaluate(formulaOnSheet(content, place.sheet));
  if (!Array.isArray(evaluated)) return [[value]];
  return (evaluated as Matrix).map((row, down) =>
    row.map((_, right) => book.shown({ ...place, record: place.record + down, column: place.column + right })),
  );
}

/**
 * The cell of a formula that the user typed: live where standard functions can say it, else its value, which is
 * reported.
 *
 * Each cell of a spill gets a formula of its own, or belongs to one array formula.
 */
export function typedCell(
  source: RowSource,
  place: CellPlace,
  content: string,
  spill: (cell: SpillCell) => void,
): { readonly value: CellValue; readonly live: boolean } {
  const { book, formulas, said } = source;
  const { sheet, record, column } = place;
  const value = book.value(place);
  const formula = formulas.typed(content);
  const byCell = formulas.spillsByCell(content);
  const why =
    'why' in formula
      ? formula.why
      : isFault(value) && !fileErrors.has(value.code)
        ? (value.message.split('\n')[0] ?? value.code)
        : formula.array && byCell
          ? 'it calculates with cells that another formula fills'
          : undefined;
  const rows = filled(source, place, content);
  said.typed.push({
    place,
    text: content,
    written: 'why' in formula || why !== undefined ? '' : formulaMark(formula.typed),
  });

  const each = (make: (item: Value, down: number, right: number) => CellValue): void => {
    rows.forEach((row, down) =>
      row.forEach((item, right) => {
        if (down > 0 || right > 0)
          spill({ record: record + down, column: column + right, value: make(item, down, right) });
      }),
    );
  };
  if ('why' in formula || why !== undefined) {
    said.otherwise.push({
      place: cellName(sheet, record, column),
      why: `${quotedFormula(content)} is exported as its value: ${why ?? ''}`,
    });
    each((item) => fileValue(item).value);
    return { value: fileValue(value).value, live: false };
  }
  if (formula.array) {
    const [height, width] = [rows.length, rows[0]?.length ?? 1];
    const first = `${columnLetters(column)}${sheetRow(record)}`;
    const ref =
      height === 1 && width === 1
        ? first
        : `${first}:${columnLetters(column + width - 1)}${sheetRow(record + height - 1)}`;
    each((item) => result(item));
    const array = { formula: formula.text, result: result(value), shareType: 'array', ref };
    return { value: array, live: true };
  }
  each((item, down, right) => {
    const part = formulas.typed(content, { row: down + 1, column: right + 1 });
    return 'why' in part ? fileValue(item).value : { formula: part.text, result: result(item) };
  });
  return { value: { formula: formula.text, result: result(value) }, live: true };
}
