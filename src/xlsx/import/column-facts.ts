import type { BeltHeader } from '../../../sheets/index.ts';
import type { Column, SheetDeclaration } from '../../sheet/declaration.ts';
import { type DateOrder, dateOrderShown, readDate } from '../../units/dates.ts';
import { isWords } from '../../units/quantities.ts';
import { type DecimalMark, decimalShown, isRefusal, readQuantity, readUnit, type Unit } from '../../units/reading.ts';
import { formatUnitText } from './format-unit.ts';
import type { RawCell } from '../read/raw-book.ts';
import { cellText, isText } from '../read/raw-cells.ts';
import { knownService, meansBlank, yesOrNo } from './cell-words.ts';

/** What the cells of one column of a list show together: kinds of content, decimal mark, order of dates, units. */
export interface ColumnFacts {
  readonly filled: number;
  /** Plain numbers, and the first sizes among numbers and texts that are one. */
  readonly numbers: number;
  readonly sizes: readonly number[];
  readonly dates: number;
  readonly texts: number;
  /** Texts with a digit in them. */
  readonly figures: number;
  /** 'both' when cells contradict each other. */
  readonly decimal?: DecimalMark | 'both';
  readonly dateOrder?: DateOrder | 'both';
}

/** Enough cells to judge a column by. */
const judged = 200;
const keptSizes = 1000;
/** One separator at most, of which three digits would leave open what it means. */
const plainNumber = /^\s*\d+(?:[.,]\d{1,2})?\s*$/;

export function columnFacts(cells: readonly RawCell[]): ColumnFacts {
  const sizes: number[] = [];
  let [numbers, dates, texts, figures] = [0, 0, 0, 0];
  let decimal: ColumnFacts['decimal'];
  let dateOrder: ColumnFacts['dateOrder'];
  for (const cell of cells) {
    const { value } = cell;
    if (cell.date === true) dates += 1;
    else if (typeof value === 'number') {
      numbers += 1;
      if (sizes.length < keptSizes) sizes.push(value);
    } else if (typeof value === 'string') {
      texts += 1;
      if (!/\d/.test(value)) continue;
      figures += 1;
      if (sizes.length < keptSizes && plainNumber.test(value)) sizes.push(Number(value.trim().replace(',', '.')));
      const separator = /\d(?:([.,])|[/-])\d/.exec(value);
      if (separator === null) continue;
      if (separator[1] !== undefined && decimal !== 'both') decimal = joined(decimal, decimalShown(value));
      if (separator[1] !== ',' && dateOrder !== 'both') dateOrder = joined(dateOrder, dateOrderShown(value));
    }
  }
  return {
    filled: cells.length,
    numbers,
    sizes,
    dates,
    texts,
    figures,
    ...(decimal === undefined ? {} : { decimal }),
    ...(dateOrder === undefined ? {} : { dateOrder }),
  };
}

/** What two witnesses say together. */
export const joined = <T extends string>(
  one: T | 'both' | undefined,
  other: T | 'both' | undefined,
): T | 'both' | undefined => (one === undefined || one === other ? other : other === undefined ? one : 'both');

/**
 * A belt's designation, as "EP 400/3", "630/4 6+2", "ST 1000", "3 ply". A single letter and a number are a name as
 * well, as "B-01", so of "E 400/3" the plies count.
 */
const designation =
  /\b(?:EP|EE|PP|NN|PN|CC|ST|SW|PVC|PVG)[\s-]?\d{2,4}\b|\b\d{3,4}\s*\/\s*\d\b|\b\d\s*-?\s*pl(?:y|ies)\b/i;

/** How well a column's cells go with a declared column, above 1 when they speak for it. */
export function cellsFit(
  cells: readonly RawCell[],
  facts: ColumnFacts,
  column: Column,
  sheet: SheetDeclaration,
): number {
  if (facts.filled < 3) return 1;
  const sample = cells.slice(0, judged);
  const share = (fits: (cell: RawCell) => boolean): number => sample.filter(fits).length / sample.length;
  const poor = (part: number): number => (part < 0.3 ? 0.75 : 1);
  if (column.kind === 'date') return poor(share((cell) => cell.date === true || isDay(cell)));
  if (column.kind === 'flag')
    return poor(share((cell) => typeof cell.value === 'boolean' || yesOrNo(cellText(cell)) !== undefined));
  if (!isWords(column.kind)) {
    return poor(
      share(
        (cell) =>
          cell.date !== true &&
          (typeof cell.value === 'number' ||
            (isText(cell) && (meansBlank(cell.value) || isQuantity(cell.value, column)))),
      ),
    );
  }
  // What is worked out in numbers is a size, no word.
  if (share(({ formula, value }) => formula !== undefined && typeof value === 'number') > 0.5) return 0.6;
  const numeric = facts.numbers / facts.filled;
  if (column.several === true) return share((cell) => knownService(cellText(cell)).known.length > 0) > 0.5 ? 1.02 : 1;
  // Names that say what a part belongs to may be numbers and stand often; a part's own name may come again in another
  // whole.
  if (column.header === sheet.partOf?.header || (sheet.partOf !== undefined && column.header === sheet.key)) return 1;
  if (column.choices !== undefined) return numeric > 0.8 ? 0.75 : 1;
  const designated = share((cell) => designation.test(cellText(cell)));
  if (column.header === sheet.key) {
    const names = new Set(sample.map((cell) => cellText(cell).trim().toLowerCase()));
    return designated > 0.5 ? 0.7 : names.size < sample.length * 0.5 ? 0.85 : names.size === sample.length ? 1.01 : 1;
  }
  return column.header === ('Construction' satisfies BeltHeader)
    ? designated > 0.5
      ? 1.04
      : numeric > 0.8
        ? 0.75
        : 1
    : 1;
}

const isDay = (cell: RawCell): boolean =>
  typeof cell.value === 'number'
    ? cell.value > 20_000 && cell.value < 80_000
    : isText(cell) &&
      (!isRefusal(readDate(cell.value, 'day first')) || !isRefusal(readDate(cell.value, 'month first')));

const isQuantity = (text: string, { kind }: Column): boolean =>
  [undefined, 'point' as const].some(
    (decimal) => !isRefusal(readQuantity(text, kind, { system: 'us', decimal, hoursPerYear: 1 })),
  );

/** Units that cells name themselves, by text or number format, with how many do. */
export function unitsInCells(
  cells: readonly RawCell[],
  suits: (unit: Unit) => boolean,
): Map<string, { readonly unit: Unit; readonly byFormat: boolean; count: number }> {
  const found = new Map<string, { readonly unit: Unit; readonly byFormat: boolean; count: number }>();
  for (const cell of cells) {
    const { value, format } = cell;
    const text =
      typeof value === 'string'
        ? unitPart(value)
        : typeof value === 'number' && format !== undefined
          ? formatUnitText(format)
          : '';
    if (text === '') continue;
    const unit = readUnit(text).find(suits);
    if (unit === undefined) continue;
    const kept = found.get(unit.symbol);
    if (kept === undefined) found.set(unit.symbol, { unit, byFormat: typeof cell.value === 'number', count: 1 });
    else kept.count += 1;
  }
  return found;
}

/** What follows the number of a text. */
const unitPart = (text: string): string =>
  /\d\s*((?!e[+-]?\d)[a-z°"'%″′”’µ][^\d]*(?:[²³]|\d(?!\d))?)$/i.exec(text)?.[1] ?? '';
