import { habitsOf, understood } from '../records/typed-entry.ts';
import type { DecimalMark } from '../units/numbers.ts';
import { formattedMark, withShownMark } from '../units/shown-mark.ts';
import type { HeaderOf, SheetName } from '../../sheets/index.ts';
import { digitsOf } from '../sheet/words.ts';
import { formattedNumber } from '../formula/spreadsheet/number-format.ts';
import { type Content, isFault, isFormula, type Value } from '../formula/values.ts';
import { isDay, isoDate, isoMoment } from '../units/dates.ts';
import type { QuantityKind, UnitSystem } from '../units/quantities.ts';
import { type BookColumn, cellLook } from '../workbook/declared.ts';
import { typedWords } from '../workbook/typed-over.ts';
import { ownFormulaWords } from '../workbook/formula-words.ts';
import type { CellPlace } from '../workbook/place.ts';
import { ownLookAt } from '../workbook/own-look.ts';
import type { NumberLook } from '../workbook/state.ts';
import type { Workbook } from '../workbook/workbook.ts';

/** Values as cells show them and as a person would type them. */

/**
 * A date's serial number as year-month-day, with the time of day where it has one or the column is for one; a number
 * that is no date stays a number.
 */
export const dateText = (serial: number, timed = false): string =>
  isDay(serial) ? (timed ? isoMoment(serial) : isoDate(serial)) : String(serial);

/** A number in full, as it can be typed again. */
const plainNumber = (value: number, mark: DecimalMark | undefined): string => withShownMark(String(value), mark);

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
  return withShownMark(format.format(value).replaceAll(',', '\u202f')).replace('-', '\u2212');
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
    return withShownMark(value.toPrecision(6).replace(/\.?0+(?=e|$)/, ''));
  if (digits === undefined) return formatted(value, 0, freeDigits);
  return formatted(value, digits, entered ? digits + furtherDigits : digits);
}

export function valueText(
  value: Value,
  kind: QuantityKind,
  look: NumberLook,
  units: UnitSystem,
  entered: boolean,
): string {
  if (value === null) return '';
  if (isFault(value)) return value.code;
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  if (typeof value === 'string') return value;
  if (kind === 'date') return dateText(value, look.timed === true);
  if (look.percent === true)
    return `${numberText(value * 100, digitsOf(look, units) ?? (entered ? undefined : 0), entered)}\u202f%`;
  return numberText(value, digitsOf(look, units), entered);
}

/** A number as a column shows it. */
export function inColumn<Sheet extends SheetName>(
  book: Workbook,
  sheet: Sheet,
  header: HeaderOf<Sheet>,
  value: number,
): string {
  const column = book.columns(sheet)[book.column(sheet, header)];
  return numberText(value, digitsOf(column?.look ?? {}, book.units), false);
}

/** A number as the format of a file shows it. */
function formattedText(format: string, value: number): string | undefined {
  const text = formattedNumber(format, value);
  return text === undefined ? undefined : formattedMark(text);
}

/** What a cell shows. */
export function cellText(book: Workbook, column: BookColumn, place: CellPlace): string {
  const value = book.shown(place);
  const kind = book.kind(place);
  const { sheet, record } = place;
  // What the user set on the page counts before what the file said.
  const format =
    book.sheet(sheet).rows[record]?.formats?.[place.column] === undefined ? ownLookAt(book, place)?.format : undefined;
  const shown =
    format === undefined || typeof value !== 'number' || kind === 'date' ? undefined : formattedText(format, value);
  const look = cellLook(book.sheet(sheet), record, column, place.column);
  // What a formula gives is shown as its column says; only what was typed keeps further digits on show.
  return shown ?? valueText(value, kind, look, book.units, !column.computed && !isFormula(book.content(place)));
}

/**
 * A content as the user would type it; `percent` where a number alone is meant so in its cell. With the mark that the
 * page shows, or another one.
 */
export function contentText(content: Content, kind: QuantityKind, percent = false, mark?: DecimalMark): string {
  if (percent && typeof content === 'number') return `${plainNumber(Number((content * 100).toPrecision(15)), mark)}%`;
  if (content === null) return '';
  if (typeof content === 'boolean') return content ? 'TRUE' : 'FALSE';
  if (typeof content === 'number') return kind === 'date' ? dateText(content) : plainNumber(content, mark);
  return content;
}

/** What an editor shows for a cell: the formula behind it, or its content as typed. */
export const entryText = (book: Workbook, place: CellPlace): string =>
  typedFormula(book, place) ?? typedContent(book, place);

function typedContent(book: Workbook, place: CellPlace): string {
  const content = book.content(place);
  // Entered again as it stands, a text of the user's own such as 12 would become a number.
  if (
    typeof content === 'string' &&
    book.columnAt(place)?.own === true &&
    understood(book, place, content).content !== content
  )
    return `'${content}`;
  return contentText(content, book.kind(place), percentIn(book, place), habitsOf(book).decimal ?? 'point');
}

/** The formula behind a cell as it is typed, with columns by their names; undefined for a plain content. */
function typedFormula(book: Workbook, place: CellPlace): string | undefined {
  const content = book.content(place);
  if (content === null) return ownFormulaWords(place.sheet, place.column, book.units);
  return isFormula(content) ? typedWords(content, place, book.state) : undefined;
}

/** Whether a cell of the user's own shows its numbers per cent. */
export function percentIn(book: Workbook, { sheet, record, column }: CellPlace): boolean {
  const found = book.columnAt({ sheet, column });
  return found?.own === true && cellLook(book.sheet(sheet), record, found, column).percent === true;
}

/** A value in full, as a copy hands it to another program. */
export const copiedText = (value: Value, kind: QuantityKind, percent = false): string =>
  isFault(value)
    ? value.code
    : contentText(typeof value === 'string' && isFormula(value) ? `'${value}` : value, kind, percent);
