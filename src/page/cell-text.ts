import type { HeaderOf, SheetName } from '../../sheets/index.ts';
import { digitsOf } from '../sheet/words.ts';
import { formattedNumber } from '../formula/spreadsheet/number-format.ts';
import { type Content, isFault, isFormula, type Value } from '../formula/values.ts';
import { isDay, isoDate, isoMoment } from '../units/dates.ts';
import type { QuantityKind, UnitSystem } from '../units/quantities.ts';
import type { BookColumn } from '../workbook/declared.ts';
import type { CellPlace } from '../workbook/place.ts';
import { ownLookAt } from '../workbook/own-look.ts';
import type { Workbook } from '../workbook/workbook.ts';

/** Values as cells show them and as a person would type them. */

/**
 * A date's serial number as year-month-day, with the time of day where it has one or the column is for one; a number
 * that is no date stays a number.
 */
export const dateText = (serial: number, timed = false): string =>
  isDay(serial) ? (timed ? isoMoment(serial) : isoDate(serial)) : String(serial);

/** A number in full, as it can be typed again. */
const plainNumber = (value: number): string => String(value);

const formats = new Map<string, Intl.NumberFormat>();

function formatted(value: number, least: number, most: number): string {
  const name = `${least},${most}`;
  let format = formats.get(name);
  // A narrow space parts thousands (ISO 80000-1), since points and commas are read two ways.
  if (format === undefined)
    formats.set(
      name,
      (format = new Intl.NumberFormat('en', {
        minimumFractionDigits: least,
        maximumFractionDigits: most,
        useGrouping: 'min2',
      })),
    );
  return format.format(value).replaceAll(',', '\u202f').replace('-', '\u2212');
}

/** Digits beyond its column's that an entered number keeps on show, so that a cell never hides what was typed. */
const furtherDigits = 2;
const freeDigits = 6;

/**
 * A number for a person: the column's digits, and a few more where it was entered with more. For tests: numbers are
 * shown and read back.
 */
export function numberText(value: number, digits: number | undefined, entered: boolean): string {
  if (value !== 0 && (Math.abs(value) >= 1e12 || Math.abs(value) < 1e-6))
    return value.toPrecision(6).replace(/\.?0+(?=e|$)/, '');
  if (digits === undefined) return formatted(value, 0, freeDigits);
  return formatted(value, digits, entered ? digits + furtherDigits : digits);
}

export function valueText(
  value: Value,
  kind: QuantityKind,
  column: BookColumn,
  units: UnitSystem,
  entered: boolean,
): string {
  if (value === null) return '';
  if (isFault(value)) return value.code;
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  if (typeof value === 'string') return value;
  if (kind === 'date') return dateText(value, column.declared?.timed === true);
  if (column.declared?.percent === true)
    return `${numberText(value * 100, digitsOf(column.declared ?? {}, units) ?? 0, false)}\u202f%`;
  return numberText(value, digitsOf(column.declared ?? {}, units), entered);
}

/** A number as a column shows it. */
export function inColumn<Sheet extends SheetName>(
  book: Workbook,
  sheet: Sheet,
  header: HeaderOf<Sheet>,
  value: number,
): string {
  const column = book.columns(sheet)[book.column(sheet, header)];
  return numberText(value, digitsOf(column?.declared ?? {}, book.units), false);
}

/** What a cell shows. */
export function cellText(book: Workbook, column: BookColumn, place: CellPlace): string {
  const value = book.shown(place);
  const format = ownLookAt(book, place)?.format;
  const kind = book.kind(place);
  const shown =
    format === undefined || typeof value !== 'number' || kind === 'date' ? undefined : formattedNumber(format, value);
  return shown ?? valueText(value, kind, column, book.units, !column.computed);
}

/** A content as the user would type it. */
export function contentText(content: Content, kind: QuantityKind): string {
  if (content === null) return '';
  if (typeof content === 'boolean') return content ? 'TRUE' : 'FALSE';
  if (typeof content === 'number') return kind === 'date' ? dateText(content) : plainNumber(content);
  return content;
}

/** What an editor shows for a cell: the formula behind it, or its content as typed. */
export const entryText = (book: Workbook, place: CellPlace): string =>
  book.formula(place) ?? contentText(book.content(place), book.kind(place));

/** A value in full, as a copy hands it to another program. */
export const copiedText = (value: Value, kind: QuantityKind): string =>
  isFault(value) ? value.code : contentText(typeof value === 'string' && isFormula(value) ? `'${value}` : value, kind);
