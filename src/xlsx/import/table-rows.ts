import type { SheetDeclaration } from '../../sheet/declaration.ts';
import { readUnit } from '../../units/reading.ts';
import { columnNumber } from '../read/cell-address.ts';
import { exactColumns } from './header-matching.ts';
import type { HeaderBlock } from './header-rows.ts';
import type { RawCell, RawSheet } from '../read/raw-book.ts';
import { cellText, isText, rangeAt, rowCells } from '../read/raw-cells.ts';

/**
 * Which rows under a header are records, and what the others are: totals, repeated headers, headings of groups,
 * remarks.
 */

type OtherRow = 'left out' | 'title' | 'total' | 'repeated header' | 'heading' | 'remark' | 'formulas only';

export interface SkippedRow {
  readonly row: number;
  readonly what: OtherRow;
  readonly text: string;
}

/** What the user says of rows, by the record's name in them or their first text. */
export interface RowChoices {
  readonly leaveOut?: readonly string[];
  /** Records that look like something else. */
  readonly takeRows?: readonly string[];
}

export interface TableRows {
  readonly records: readonly number[];
  readonly skipped: readonly SkippedRow[];
  /** The row that another list's header stands in, when one follows in the same sheet. */
  readonly next?: number;
}

const totals = [
  'totals?|sum|average|avg|mean|median|count|subtotal|summe|gesamt(?:summe)?|zwischensumme|mittelwert|durchschnitt|' +
    'somme|moyenne',
  'suma|promedio|media|totaal|som|gemiddelde|totale|razem|suma końcowa|średnia|[σ∑]|total g[eé]n[eé]ral',
].join('|');
const totalAlone = new RegExp(String.raw`^(?:grand\s+|sub-?\s*)?(?:${totals})\s*[:=]?$`, 'i');
const ofWhat = 'of|for|all|belts?|conveyors?|joints?|plates?|general|général|länge|length|number';
const totalOf = new RegExp(
  [
    String.raw`^(?:grand\s+|sub-?\s*)?(?:${totals})(?:\s*[:=]|\s+(?:${ofWhat}|no\.?|-|\d))`,
    String.raw`^(?:sub-?\s?totals?|zwischensumme|sous-total|subtotale?s?)\b`,
    String.raw`^(?:number|no\.?|anzahl|nombre|n[uú]mero|aantal)\s+(?:of|de|der|van)\s`,
  ].join('|'),
  'i',
);
/** A total of what it names, as "Total North": only of a row that says little else. */
const totalNamed = /^(?:grand\s+|sub-?\s*)?(?:totals?|summe|somme|totaal|totale|razem)\s+\S/i;
const isTotal = (text: string): boolean => totalAlone.test(text) || totalOf.test(text);
const aggregate = /\b(?:SUM|AVERAGE|SUBTOTAL|COUNTA?|MIN|MAX|MEDIAN|AGGREGATE|SUMPRODUCT)\s*\(/i;
const remarks = [
  String.raw`\*+|†|notes?|n\.b|nb|remarks?|source|legend|key|page|see|end(?: of)?`,
  String.raw`\d{1,2}\)|prepared|printed|issued|revision|rev|checked|approved|updated|last update`,
  'all (?:dimensions|sizes)|anmerkung|hinweis|bemerkung|stand|remarque|nota|observa|opmerking',
].join('|');
/** What is explained after these goes on in the lines below them. */
const legendWords = /^(?:legend|key|notes?|remarks?|colou?rs?|legende|légende|leyenda|anmerkung(?:en)?)\s*[:.]?$/i;
const remarkWords = new RegExp(String.raw`^(?:${remarks})(?![\p{L}\d])`, 'iu');

/** Sorts the rows below a header. The key column holds the records' names; 0 when the list has none. */
export function tableRows(
  sheet: RawSheet,
  block: HeaderBlock,
  key: number,
  declared: readonly SheetDeclaration[],
): TableRows {
  const first = (block.unitsRow ?? block.bottom) + 1;
  const left = Math.min(...block.headers.map(({ column }) => column));
  const headerTexts = new Map(block.headers.map(({ column, text }) => [column, plain(text.own)]));
  const titles = new Set(block.headers.flatMap(({ text }) => [text.own, ...text.above].map(plain)));
  const sorted: { row: number; cells: readonly RawCell[]; what: OtherRow | 'record' | 'lone' }[] = [];
  let next: number | undefined;
  for (const [row, cells] of sheet.rows) {
    if (row < first) continue;
    const what = rowKind(sheet, row, cells, { block, key, headerTexts, titles, declared });
    if (what === 'other list') {
      next = row;
      break;
    }
    sorted.push({ row, cells, what });
  }
  // A lone text above another list's header is that list's title.
  while (next !== undefined && sorted.at(-1)?.what === 'lone') next = sorted.pop()?.row;
  const records = sorted.filter(({ what }) => what === 'record');
  const lastRecord = records.at(-1)?.row ?? 0;
  const digits = records.filter(({ cells }) => /\d/.test(nameIn(cells, key))).length;
  // Names with a number in them are the rule in lists; a lone word without one then heads the records below it.
  const numbered = records.length >= 3 && digits >= records.length * 0.7;
  let explaining = false;
  const kinds = sorted.map(
    ({ row, cells, what }): { row: number; cells: readonly RawCell[]; what: OtherRow | 'record' } => {
      if (what !== 'lone') {
        explaining = false;
        return { row, cells, what };
      }
      const [cell] = cells;
      const text = cell === undefined ? '' : cellText(cell).trim();
      explaining ||= row > lastRecord && legendWords.test(text);
      if (explaining) return { row, cells, what: 'remark' };
      if (cell?.column !== key)
        return {
          row,
          cells,
          what: row < lastRecord && cell !== undefined && isText(cell) && cell.column === left ? 'heading' : 'remark',
        };
      const closing = row > lastRecord && (text.length > 40 || (numbered && !/\d/.test(text)));
      if (remarkWords.test(text) || closing) return { row, cells, what: 'remark' };
      if (text.endsWith(':') || (numbered && row < lastRecord && !/\d/.test(text)))
        return { row, cells, what: 'heading' };
      return { row, cells, what: 'record' };
    },
  );
  const named = summed(kinds, key);
  return {
    records: named.filter(({ what }) => what === 'record').map(({ row }) => row),
    skipped: named.flatMap(({ row, cells, what }) => (what === 'record' ? [] : [{ row, what, text: textOf(cells) }])),
    ...(next === undefined ? {} : { next }),
  };
}

/** The rows as the user has them: some that look like records are none, and the other way round. */
export function chosenRows(
  { records, skipped, ...rest }: TableRows,
  sheet: RawSheet,
  key: number,
  { leaveOut = [], takeRows = [] }: RowChoices,
): TableRows {
  if (leaveOut.length === 0 && takeRows.length === 0) return { records, skipped, ...rest };
  const called = (names: readonly string[]): ReadonlySet<string> => new Set(names.map(plain));
  const [out, taken] = [called(leaveOut), called(takeRows)];
  const nameOf = (row: number): string => plain(rowName(rowCells(sheet, row), key));
  const left = records.filter((row) => out.has(nameOf(row)));
  const added = skipped.filter(({ row }) => taken.has(nameOf(row))).map(({ row }) => row);
  return {
    ...rest,
    records: [...records.filter((row) => !left.includes(row)), ...added].toSorted((a, b) => a - b),
    skipped: [
      ...skipped.filter(({ row }) => !added.includes(row)),
      ...left.map((row): SkippedRow => ({ row, what: 'left out', text: textOf(rowCells(sheet, row)) })),
    ].toSorted((a, b) => a.row - b.row),
  };
}

/** What a row goes by: the record's name, else its first text. */
const rowName = (cells: readonly RawCell[], key: number): string => {
  const named = nameIn(cells, key);
  return named === '' && cells[0] !== undefined ? cellText(cells[0]).trim() : named;
};

const plain = (text: string): string => text.trim().toLowerCase().replaceAll(/\s+/g, ' ');
const textOf = (cells: readonly RawCell[]): string => cells.map((cell) => cellText(cell).trim()).join(' | ');
const nameIn = (cells: readonly RawCell[], key: number): string => {
  const cell = cells.find(({ column }) => column === key);
  return cell === undefined ? '' : cellText(cell).trim();
};

interface RowContext {
  readonly block: HeaderBlock;
  readonly key: number;
  readonly headerTexts: ReadonlyMap<number, string>;
  /** Every text of the header, titles of groups included. */
  readonly titles: ReadonlySet<string>;
  readonly declared: readonly SheetDeclaration[];
}

function rowKind(
  sheet: RawSheet,
  row: number,
  cells: readonly RawCell[],
  { block, key, headerTexts, titles, declared }: RowContext,
): OtherRow | 'record' | 'lone' | 'other list' {
  const texts = cells.filter(isText);
  const name = nameIn(cells, key);
  if (texts.length === cells.length && cells.length >= 2) {
    const repeated = cells.filter((cell) => headerTexts.get(cell.column) === plain(cellText(cell))).length;
    if (repeated >= Math.max(2, cells.length * 0.6) || cells.every((cell) => titles.has(plain(cellText(cell)))))
      return 'repeated header';
    if (texts.every((cell) => /^[\s\-–—]*$/.test(cell.value) || readUnit(cell.value).length > 0))
      return 'repeated header';
    if (texts.length >= 2 && isOtherHeader(texts, headerTexts, declared)) return 'other list';
  }
  if (row === (block.unitsRow ?? block.bottom) + 1 && isCount(cells)) return 'remark';
  const [only] = cells;
  const range = only === undefined ? undefined : rangeAt(sheet, row, only.column);
  if (
    cells.length === 1 &&
    range !== undefined &&
    range.right - range.left >= 1 &&
    only !== undefined &&
    isText(only)
  ) {
    return titles.has(plain(only.value))
      ? 'repeated header'
      : isTotal(only.value.trim())
        ? 'total'
        : remarkWords.test(only.value.trim())
          ? 'remark'
          : 'heading';
  }
  const leading = texts[0] === undefined ? '' : texts[0].value.trim();
  const totalled = cells.some((cell) => cell.formula !== undefined && sumsAbove(cell.formula, cell, block.bottom));
  const few = cells.length <= Math.max(3, headerTexts.size * 0.6);
  const saysTotal = totalOf.test(leading) || totalNamed.test(leading);
  if ((name === '' || name === leading) && (totalAlone.test(leading) || (saysTotal && (totalled || few))))
    return 'total';
  // A spreadsheet's own subtotals end with the word: "Primary Total".
  if ((name === '' || name === leading) && /\s(?:sub-?\s?)?totals?$/i.test(leading) && (totalled || few))
    return 'total';
  if (name === '' && totalled) return 'total';
  if (name === '' && cells.every(({ formula }) => formula !== undefined)) return 'formulas only';
  return cells.length === 1 ? 'lone' : 'record';
}

/** Whether a row only numbers the columns: 1, 2, 3 and so on. */
const isCount = (cells: readonly RawCell[]): boolean =>
  cells.length >= 4 &&
  cells.every(
    (cell, index) =>
      typeof cell.value === 'number' && cell.formula === undefined && cell.value === Number(cells[0]?.value) + index,
  ) &&
  Math.abs(Number(cells[0]?.value)) <= 1;

/** Whether a row of texts is a header, but of another list. */
function isOtherHeader(
  texts: readonly (RawCell & { readonly value: string })[],
  headerTexts: ReadonlyMap<number, string>,
  declared: readonly SheetDeclaration[],
): boolean {
  return declared.some((declaration) => {
    const named = texts.filter(
      ({ value, column }) =>
        value.length <= 60 &&
        headerTexts.get(column) !== plain(value) &&
        exactColumns({ own: value, above: [] }, declaration).length > 0,
    );
    // A header that comes again beside others, in its own column, is no text that a record would have there.
    const again = texts.filter(({ value, column }) => headerTexts.get(column) === plain(value)).length;
    return (named.length >= 3 || (again > 0 && named.length > 0)) && named.length + again >= texts.length * 0.6;
  });
}

/** Whether a formula adds up, counts or averages at least two rows above it in its own column. */
function sumsAbove(formula: string, { row, column }: RawCell, header: number): boolean {
  if (!aggregate.test(formula)) return false;
  return [...formula.matchAll(/\$?([A-Z]{1,3})\$?(\d{1,7}):\$?([A-Z]{1,3})\$?(\d{1,7})/gi)].some(
    ([, from = '', top, to = '', bottom]) => {
      const [start, end] = [Number(top), Number(bottom)];
      return (
        columnNumber(from) === column && columnNumber(to) === column && end > start && start >= header && end < row
      );
    },
  );
}

interface KnownRow {
  readonly row: number;
  readonly cells: readonly RawCell[];
  readonly what: OtherRow | 'record';
}

/** Cells of a row that may be nothing but totals. */
export const mostOfTotal = 4;

/** Last rows without a name whose few numbers are the sums or means of the records above are totals too. */
function summed(rows: readonly KnownRow[], key: number): readonly KnownRow[] {
  const last = rows.findLastIndex(({ what }) => what === 'record');
  const row = rows[last];
  if (row === undefined || key === 0 || nameIn(row.cells, key) !== '' || row.cells.length > mostOfTotal) return rows;
  const above = rows.slice(0, last).filter(({ what }) => what === 'record');
  const isTotal =
    above.length >= 2 &&
    row.cells.every((cell) => {
      if (typeof cell.value !== 'number') return false;
      const numbers = above
        .flatMap(({ cells }) => cells.find(({ column }) => column === cell.column)?.value ?? [])
        .filter((value) => typeof value === 'number');
      const sum = numbers.reduce((total, value) => total + value, 0);
      return (
        numbers.length >= 2 &&
        [sum, sum / numbers.length].some(
          (figure) => Math.abs(figure - Number(cell.value)) <= 1e-6 * Math.abs(figure) + 1e-9,
        )
      );
    });
  return isTotal ? rows.map((item, index) => (index === last ? { ...item, what: 'total' as const } : item)) : rows;
}
