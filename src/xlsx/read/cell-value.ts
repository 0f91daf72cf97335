import type { CellPosition } from './cell-address.ts';
import type { CellFormat } from './cell-formats.ts';
import { dateSerial, days1904 } from './date-serial.ts';
import type { RawCell, SharedFormula } from './raw-book.ts';
import type { RawLook } from './raw-look.ts';
import { grouped } from './read-limits.ts';
import { UnreadableFile } from './unreadable-file.ts';
import { isTrue, unescaped } from './xml-text.ts';

/** A cell as its element says it, before it is understood. */
interface CellElement {
  readonly position: CellPosition;
  /** The t attribute; numbers have none. */
  readonly type: string | undefined;
  /** The s attribute. */
  readonly style: string | undefined;
  readonly value: string | undefined;
  readonly inline: string | undefined;
  readonly formula: string | undefined;
  readonly shared: SharedFormula | undefined;
}

export interface CellContext {
  readonly texts: readonly string[];
  readonly formats: readonly CellFormat[];
  /** Whether the workbook counts days from 1904. */
  readonly from1904: boolean;
}

export type FilledCell = { -readonly [Key in keyof RawCell]: RawCell[Key] };

/**
 * A cell with what nearly all cells have kept within the object: what is added later takes a second object for each of
 * millions.
 */
class PlainCell implements FilledCell {
  readonly row: number;
  readonly column: number;
  value: RawCell['value'];
  declare formula?: string;
  declare format?: string;
  declare look?: RawLook;

  constructor({ row, column }: CellPosition, value: RawCell['value'], formula: string | undefined, shown?: CellFormat) {
    this.row = row;
    this.column = column;
    this.value = value;
    if (formula !== undefined) this.formula = formula;
    if (shown?.code !== undefined) this.format = shown.code;
    if (shown?.look !== undefined) this.look = shown.look;
  }
}

/** A cell whose formula is written out when it is asked for. */
class SharingCell implements RawCell {
  readonly row: number;
  readonly column: number;
  readonly value: RawCell['value'];
  readonly shared: SharedFormula;
  declare format?: string;
  declare look?: RawLook;

  constructor({ row, column }: CellPosition, value: RawCell['value'], shared: SharedFormula, shown?: CellFormat) {
    this.row = row;
    this.column = column;
    this.value = value;
    this.shared = shared;
    if (shown?.code !== undefined) this.format = shown.code;
    if (shown?.look !== undefined) this.look = shown.look;
  }

  get formula(): string {
    return this.shared.at(this);
  }
}

const formulaCell = (
  position: CellPosition,
  value: RawCell['value'],
  element: CellElement,
  shown?: CellFormat,
): FilledCell =>
  element.shared === undefined
    ? new PlainCell(position, value, element.formula, shown)
    : new SharingCell(position, value, element.shared, shown);

const decimal = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;

/** A number, or the text itself where a writer put something else, such as a decimal comma: nothing is lost. */
function numberOrText(text: string): number | string {
  const trimmed = text.trim();
  const number = decimal.test(trimmed) ? Number(trimmed) : Number.NaN;
  return Number.isFinite(number) ? number : text;
}

function sharedText(index: string, { texts }: CellContext, place: () => string): string {
  const text = /^\s*\d+\s*$/.test(index) ? texts[Number(index)] : undefined;
  if (text === undefined) {
    throw new UnreadableFile(
      'bad reference',
      `The file is damaged: ${place()} names shared text "${index.slice(0, 20)}", and the file holds ` +
        `${grouped(texts.length)}. ` +
        'Open it in your spreadsheet program, let it repair the file, and save it again as .xlsx.',
    );
  }
  return text;
}

/** What the cell holds; undefined where it is an error code, null where it is empty. */
function contentOf(
  cell: CellElement,
  context: CellContext,
  place: () => string,
): { value: RawCell['value']; error?: string; dated?: boolean } {
  if (cell.inline !== undefined) return { value: cell.inline };
  const text = cell.value;
  if (text === undefined || (text === '' && cell.type !== 'str' && cell.type !== 'inlineStr')) return { value: null };
  switch (cell.type) {
    case 's':
      return { value: sharedText(text, context, place) };
    case 'e':
      return { value: null, error: text.trim() };
    case 'b': {
      const bare = text.trim();
      if (isTrue(bare)) return { value: true };
      return { value: bare === '0' || bare === 'false' ? false : text };
    }
    case 'd': {
      const serial = dateSerial(text);
      return serial === undefined ? { value: text } : { value: serial, dated: true };
    }
    case undefined:
    case 'n':
      return { value: numberOrText(text) };
    default:
      return { value: unescaped(text) };
  }
}

/**
 * The cell as the rest of the program sees it; undefined when nothing but a format or an empty text is in it.
 *
 * A style number that the file does not define counts as General. Times without a date keep their number in workbooks
 * that count from 1904: there they are a part of a day, or hours elapsed, and the day they count from is no matter.
 *
 * Source: ECMA-376 Part 1, 18.3.1.4 (c), 18.18.11 (ST_CellType), 18.17.4 (dates).
 */
export function filledCell(cell: CellElement, context: CellContext, place: () => string): FilledCell | undefined {
  const content = contentOf(cell, context, place);
  let { value } = content;
  const { formula, shared } = cell;
  if (formula === undefined && shared === undefined && content.error === undefined && (value === null || value === ''))
    return undefined;
  const format = cell.style === undefined ? context.formats[0] : context.formats[Number(cell.style)];
  const kind = content.dated ? 'date' : (format?.kind ?? 'number');
  if (context.from1904 && kind === 'date' && !content.dated && typeof value === 'number') value += days1904;
  const filled = formulaCell(cell.position, value, cell, format);
  if (content.error !== undefined) filled.error = content.error;
  if (kind !== 'number' && (typeof value === 'number' || (value === null && content.error === undefined)))
    filled.date = true;
  return filled;
}
