import { placeWords } from '../../workbook/place-words.ts';
import { cellName } from '../../../src/formula/address.ts';
import { isFault, type Value } from '../../../src/formula/values.ts';
import type { Workbook } from '../../../src/workbook/workbook.ts';
import { readAboutSheet } from '../../../src/xlsx/import/earlier-export.ts';
import type { RawBook, RawCell } from '../../../src/xlsx/read/raw-book.ts';
import { unescaped } from '../../../src/xlsx/read/xml-text.ts';
import { fileErrors } from '../../../src/xlsx/write/file-values.ts';
import { fileText } from '../../../src/xlsx/write/file-text.ts';

/** The values of an exported file that another program has worked out, beside the book's own. */

export const cellAt = (book: RawBook, sheet: string, row: number, column: number): RawCell | undefined =>
  book.sheets
    .find(({ name }) => name === sheet)
    ?.rows.get(row)
    ?.find((cell) => cell.column === column);

/** What a cell of the other program shows. */
export const shown = (cell: RawCell | undefined): number | string | boolean | null =>
  cell?.error ?? (cell?.value === '' ? null : (cell?.value ?? null));

/** What it has to show for a value of the book's: an empty formula counts 0, and an error that files lack is #N/A. */
function expected(value: Value, isFormula: boolean): number | string | boolean | null {
  if (isFault(value)) return fileErrors.has(value.code) ? value.code : '#N/A';
  if (value === null) return isFormula ? 0 : null;
  return value === '' ? null : typeof value === 'string' ? unescaped(fileText(value).text) : value;
}

export const near = (one: unknown, other: unknown): boolean =>
  typeof one === 'number' && typeof other === 'number'
    ? Math.abs(one - other) <= 1e-9 * Math.max(Math.abs(one), Math.abs(other))
    : one === other;

/** Of a sheet's own formulas the file keeps that there is an error, not which of two wrong cells speaks first. */
const isError = (value: unknown): boolean => typeof value === 'string' && value.startsWith('#');

export type Shown = ReturnType<typeof shown>;

export interface Comparison {
  readonly compared: number;
  /** Every cell in which the file, worked out elsewhere, and the book differ, in words. */
  readonly differing: string[];
  readonly pairs: (readonly [ours: Shown, theirs: Shown, told: string])[];
}

export function differences(book: Workbook, file: RawBook): Comparison {
  const about = readAboutSheet(file);
  const differing: string[] = [];
  const pairs: [Shown, Shown, string][] = [];
  let compared = 0;
  for (const { name, rows } of book.state.sheets) {
    const written = about?.sheets.find((sheet) => sheet.name === name)?.written ?? name;
    if (!file.sheets.some((sheet) => sheet.name === written)) differing.push(`the sheet ${name} is missing`);
    rows.forEach((_, record) =>
      book.columns(name).forEach(({ header }, column) => {
        const place = { sheet: name, record, column };
        const formula = book.formula(place);
        const ours = expected(
          book.content(place) === null && formula === undefined ? book.shown(place) : book.value(place),
          formula !== undefined,
        );
        const theirs = shown(cellAt(file, written, record + 2, column + 1));
        compared += 1;
        if (near(ours, theirs) || (book.content(place) === null && isError(ours) && isError(theirs))) return;
        const told =
          `${placeWords(book, name, record, header)} (${cellName(name, record, column)}): ${String(ours)} here, ` +
          `${String(theirs)} there; ${formula ?? String(book.content(place))}`;
        differing.push(told);
        pairs.push([ours, theirs, told]);
      }),
    );
  }
  return { compared, differing, pairs };
}
