import type { Content } from '../../formula/values.ts';
import type { Column, SheetDeclaration } from '../../sheet/declaration.ts';
import { type DateOrder, isoDate, readDate } from '../../units/dates.ts';
import type { UnitSystem } from '../../units/quantities.ts';
import {
  allowedFor,
  type DecimalMark,
  inSystemUnit,
  isRefusal,
  readQuantity,
  systemUnit,
  type Unit,
  unitNamed,
} from '../../units/reading.ts';
import { knownService, meansBlank, meansSquare, yesOrNo } from './cell-words.ts';
import { choiceSynonyms } from './choice-words.ts';
import { formatUnitText } from './format-unit.ts';
import type { SkewOrigin } from './import-model.ts';
import type { RawCell } from '../read/raw-book.ts';
import { cellText } from '../read/raw-cells.ts';

/** Cells of a list as contents of the declared column that they stand in. */

interface CellReading {
  readonly content: Content;
  /** Why the content is no value of the column, and what would be. */
  readonly issue?: { readonly why: string; readonly allowed: string };
  /** What a value that was understood leaves unsaid. */
  readonly remark?: string;
  /** The currency that a price names: in its cell, its number format or its heading. */
  readonly currency?: string;
}

interface ReadingSettings {
  /** System of the book. */
  readonly system: UnitSystem;
  /** System of the list, for units that trades use differently. */
  readonly listSystem: UnitSystem;
  readonly unit?: string | undefined;
  readonly decimal?: DecimalMark | undefined;
  readonly dateOrder?: DateOrder | undefined;
  readonly skewFrom?: SkewOrigin | undefined;
  /** Words of another sheet's column that the cells choose from. */
  readonly words?: ReadonlyMap<string, string> | undefined;
}

export interface ColumnReader {
  /** Whether plain numbers come through as they are. */
  readonly unchanged: boolean;
  readonly read: (cell: RawCell, hoursPerYear?: number) => CellReading;
}

/** A text as a content: never taken for a formula. */
export const textContent = (text: string): string => (text.startsWith('=') && text.length > 1 ? `'${text}` : text);

/** A cell as it stands, for columns of the user's own and for what was not understood. */
export function verbatim(cell: RawCell): Content {
  if (cell.error !== undefined || cell.date === true || (cell.value === null && cell.formula !== undefined))
    return textContent(cellText(cell));
  return typeof cell.value === 'string' ? textContent(cell.value) : cell.value;
}

const issue = (cell: RawCell, why: string, allowed: string): CellReading => ({
  content: verbatim(cell),
  issue: { why, allowed },
});

/** The reader of a declared column's cells. */
export function columnReader(column: Column, sheet: SheetDeclaration, settings: ReadingSettings): ColumnReader {
  const reader = readerOf(column, sheet, settings);
  const checked = (cell: RawCell, hoursPerYear?: number): CellReading => {
    if (cell.error !== undefined) return issue(cell, `the cell holds the error ${cell.error}`, allowedIn(column));
    if (cell.value === null)
      return cell.formula === undefined
        ? { content: null }
        : issue(cell, 'the file holds no result for this formula', allowedIn(column));
    return reader.read(cell, hoursPerYear);
  };
  return { unchanged: reader.unchanged, read: checked };
}

/** What may stand in a column, for a message. */
function allowedIn({ kind, choices, several }: Column): string {
  if (choices !== undefined && !('sheet' in choices))
    return `${several === true ? 'one or more of' : 'one of'} ${choices.join(', ')}`;
  if (kind === 'date') return 'a date, best as 2023-05-14';
  return kind === 'text' ? 'a text' : allowedFor(kind);
}

function readerOf(column: Column, sheet: SheetDeclaration, settings: ReadingSettings): ColumnReader {
  if (column.kind === 'date') return { unchanged: true, read: (cell) => readDay(cell, settings.dateOrder) };
  if (column.kind === 'flag') return { unchanged: false, read: (cell) => readFlag(cell, column) };
  if (column.kind === 'text') {
    const { choices } = column;
    // Names of another sheet's records, which may come later.
    if (column.several === true && (choices === undefined || 'sheet' in choices))
      return { unchanged: true, read: (cell) => readWords(cell, true) };
    if (column.several === true) return { unchanged: false, read: (cell) => readService(cell, column) };
    const words =
      choices === undefined ? undefined : 'sheet' in choices ? settings.words : choiceSynonyms(column.header, choices);
    const strict = choices !== undefined && !('sheet' in choices);
    if (choices !== undefined) return { unchanged: false, read: (cell) => readChoice(cell, column, words, strict) };
    const trimmed = column.header === sheet.key;
    return { unchanged: true, read: (cell) => readWords(cell, trimmed) };
  }
  return new QuantityReader(column, settings);
}

/** Reads the cells of a column of quantities; a skew from the edge becomes one from the square line. */
class QuantityReader implements ColumnReader {
  readonly #kind: Column['kind'];
  readonly #settings: ReadingSettings;
  /** The column's unit, for cells that name none. */
  readonly #unit: Unit | undefined;
  readonly #isSkew: boolean;
  readonly #fromEdge: boolean;
  readonly #formats = new Map<string, Unit | undefined>();
  readonly unchanged: boolean;

  constructor({ kind, header }: Column, settings: ReadingSettings) {
    const { system, listSystem, skewFrom } = settings;
    const unit =
      (settings.unit === undefined ? undefined : unitNamed(settings.unit, kind, listSystem)) ??
      systemUnit(kind, listSystem);
    this.#kind = kind;
    this.#settings = settings;
    this.#unit = unit;
    this.#isSkew = header === 'Skew';
    this.#fromEdge = this.#isSkew && skewFrom === 'edge';
    this.unchanged =
      !this.#fromEdge &&
      (unit === undefined ||
        kind === 'money' ||
        (unit.measure !== 'calendar' && inSystemUnit(1, unit, kind, system) === 1));
  }

  #unitOf(format: string | undefined): Unit | undefined {
    if (format === undefined) return this.#unit;
    if (!this.#formats.has(format)) {
      const named = unitNamed(formatUnitText(format), this.#kind, this.#settings.listSystem);
      // A number shown as per cent is the share itself.
      this.#formats.set(format, named ?? (/%/.test(format) && this.#unit?.symbol === '%' ? undefined : this.#unit));
    }
    return this.#formats.get(format);
  }

  #sized(cell: RawCell, value: number, said: string | undefined, named?: Unit): CellReading {
    const content = this.#fromEdge ? 90 - (value > 90 ? 180 - value : value) : value;
    const remark = said === undefined ? {} : { remark: said };
    return this.#isSkew && !this.#fromEdge && value > 60
      ? { content, issue: { why: skewReason(value, cell), allowed: skewAllowed } }
      : { content, ...remark, ...(named?.measure === 'money' ? { currency: named.symbol } : {}) };
  }

  #quantity(cell: RawCell, text: string, hoursPerYear: number | undefined): CellReading {
    const { system, listSystem, decimal } = this.#settings;
    const [kind, unit] = [this.#kind, this.#unit];
    const read = readQuantity(text, kind, { system, unit, listSystem, decimal, hoursPerYear });
    if (isRefusal(read)) return issue(cell, read.reason, read.allowed);
    if (kind === 'money' && read.unit !== undefined && unit !== undefined && read.unit.symbol !== unit.symbol) {
      return issue(
        cell,
        `the price is in ${read.unit.symbol}, the other prices of the column in ${unit.symbol}`,
        `a price in ${unit.symbol}`,
      );
    }
    return this.#sized(cell, read.value, read.remark, read.unit ?? unit);
  }

  readonly read = (cell: RawCell, hoursPerYear?: number): CellReading => {
    const { value } = cell;
    if (cell.date === true)
      return issue(
        cell,
        'the cell holds a date: programs turn fractions and ranges such as 3/8 into dates',
        allowedFor(this.#kind),
      );
    if (typeof value === 'number') {
      const named = this.#unitOf(cell.format);
      if (named?.measure === 'calendar') return this.#quantity(cell, String(value), hoursPerYear);
      const inUnit = named === undefined ? value : inSystemUnit(value, named, this.#kind, this.#settings.system);
      return this.#sized(cell, inUnit, undefined, named);
    }
    if (typeof value !== 'string') return issue(cell, 'it is neither a number nor a text', allowedFor(this.#kind));
    if (value.trim() === '') return { content: null };
    if (meansBlank(value)) return { content: null, remark: 'read as blank' };
    if (this.#isSkew && meansSquare(value)) return { content: 0, remark: 'read as 0, a square joint' };
    return this.#quantity(cell, value, hoursPerYear);
  };
}

const skewAllowed = 'degrees from the square line, 0 to 60: 0 is a square joint, 45 the usual skew';

const skewReason = (value: number, cell: RawCell): string =>
  [
    `Skew is measured from the square line, and ${cellText(cell).trim()} is not possible there.`,
    'Some lists give the angle to the belt edge: there a square joint is 90 degrees',
    ...(value < 90 ? [`and this one ${Math.round((90 - value) * 1e6) / 1e6} degrees from square`] : []),
  ].join(' ') +
  '. If your list does so, select that skew is measured from the edge, or name the column "Skew from edge"';

function readDay(cell: RawCell, order: DateOrder | undefined): CellReading {
  const { value } = cell;
  const allowed = 'a date, best as 2023-05-14';
  if (typeof value === 'number') {
    if (cell.date === true)
      return value > 0 ? { content: value } : issue(cell, 'the cell holds only a time of day', allowed);
    const compact = /^(19|20)(\d\d)(\d\d)(\d\d)$/.exec(String(value));
    if (compact !== null) {
      const read = readDate(`${compact[1]}${compact[2]}-${compact[3]}-${compact[4]}`);
      if (!isRefusal(read)) return { content: read.serial, remark: `read as ${isoDate(read.serial)}` };
    }
    if (value >= 20_000 && value < 80_000)
      return { content: value, remark: `read as the day number of ${isoDate(value)}` };
    return issue(
      cell,
      value >= 1900 && value < 2100 ? 'only a year is given: enter a full date' : 'it is not a date',
      allowed,
    );
  }
  if (typeof value !== 'string') return issue(cell, 'it is not a date', allowed);
  if (value.trim() === '') return { content: null };
  if (meansBlank(value)) return { content: null, remark: 'read as blank' };
  const read = readDate(value, order);
  return isRefusal(read) ? issue(cell, read.reason, allowed) : { content: read.serial };
}

function readFlag(cell: RawCell, column: Column): CellReading {
  if (typeof cell.value === 'boolean') return { content: cell.value ? 'yes' : 'no' };
  const text = cellText(cell);
  if (text.trim() === '') return { content: null };
  const word = yesOrNo(text);
  if (word !== undefined) return { content: word };
  return meansBlank(text)
    ? { content: null, remark: 'read as blank' }
    : issue(cell, 'it is neither yes nor no', allowedIn(column));
}

/** A number format of zeros alone shows leading zeros, which belong to a name. */
const shown = (cell: RawCell): string =>
  typeof cell.value === 'number' &&
  cell.format !== undefined &&
  /^0{2,}$/.test(cell.format) &&
  Number.isInteger(cell.value) &&
  cell.value >= 0
    ? String(cell.value).padStart(cell.format.length, '0')
    : cellText(cell);

function readWords(cell: RawCell, trimmed: boolean): CellReading {
  const text = shown(cell);
  if (text.trim() === '') return { content: null };
  const content = textContent(trimmed ? text.trim() : text);
  if (cell.date === true)
    return {
      content,
      issue: { why: 'the cell holds a date: programs turn names such as 3-2 into dates', allowed: 'the name as text' },
    };
  return content.startsWith("'=") ? { content, remark: 'kept as text, not as a formula' } : { content };
}

function readChoice(
  cell: RawCell,
  column: Column,
  words: ReadonlyMap<string, string> | undefined,
  strict: boolean,
): CellReading {
  const text = shown(cell).trim();
  if (text === '') return { content: null };
  if (meansBlank(text)) return { content: null, remark: 'read as blank' };
  const word = words?.get(text.toLowerCase());
  if (word !== undefined) return { content: word };
  return strict ? issue(cell, 'it is not one of the allowed words', allowedIn(column)) : { content: textContent(text) };
}

function readService(cell: RawCell, column: Column): CellReading {
  const text = cellText(cell).trim();
  if (text === '') return { content: null };
  if (meansBlank(text)) return { content: null, remark: 'read as blank: enter none when nothing applies' };
  const { known, unknown, hint } = knownService(text);
  if (unknown.length > 0) {
    const asked = unknown.map((part) => `"${part}"`).join(', ');
    return issue(
      cell,
      `${asked} is not a known service` +
        `${hint === undefined ? '' : `; did you mean ${hint}?`}` +
        `${known.length === 0 ? '' : `; the rest is read as ` + `${known.join(', ')}`}`,
      allowedIn(column),
    );
  }
  if (known.includes('none') && known.length > 1)
    return issue(cell, 'none and another service are both given', allowedIn(column));
  const content = known.join(', ');
  return content === text ? { content } : { content, remark: `read as ${content}` };
}

/** Reads cells of the user's own columns: as they are, dates as such where the whole column holds them. */
export const verbatimReader = (asDates: boolean): ColumnReader => ({
  unchanged: true,
  read: (cell) => (asDates && typeof cell.value === 'number' ? { content: cell.value } : { content: verbatim(cell) }),
});
