import { belts } from '../../../sheets/belts/index.ts';
import { plateSeries } from '../../../sheets/series/plate-series.ts';
import { strips } from '../../../sheets/series/strips.ts';
import { recordSheets } from '../../../sheets/index.ts';
import { areas } from '../../../sheets/work/areas.ts';
import { crews } from '../../../sheets/work/crews.ts';
import { outageJobs } from '../../../sheets/work/outage-jobs.ts';
import { steps } from '../../../sheets/work/steps.ts';
import { windows } from '../../../sheets/work/windows.ts';
import type { SheetDeclaration } from '../../sheet/declaration.ts';
import { withoutDittos } from './ditto-marks.ts';
import { matchedHeaders } from './header-matching.ts';
import { type ImportChoices, UnusableList } from './import-model.ts';
import { headerBlock, type ScoredBlock } from './header-rows.ts';
import type { RawBook, RawSheet } from '../read/raw-book.ts';
import { grouped } from '../read/read-limits.ts';
import { cellText, rowCells, spreadMerges, turned } from '../read/raw-cells.ts';
import { chosenRows, type SkippedRow, type TableRows, tableRows } from './table-rows.ts';

/** The lists of a file: which sheets hold which kind of record, where, and in rows or in columns. */
export interface FoundTable {
  /** The file's sheet, turned when the records stand in columns, merged cells spread over their rows. */
  readonly sheet: RawSheet;
  readonly turned: boolean;
  readonly block: ScoredBlock;
  readonly rows: TableRows;
  /** Rows above the header. */
  readonly titles: readonly SkippedRow[];
}

interface FoundSheets {
  readonly tables: readonly FoundTable[];
  /** Sheets that hold no list of ours, with the reason. */
  readonly others: readonly { readonly sheet: RawSheet; readonly why: string }[];
}

/**
 * What a file may hold lists of. Steps are none of them: "Order", "Text" and "Source" head too many other lists, and a
 * wrong guess would put something else in place of a crew's steps.
 */
const listSheets = recordSheets.filter((item) => item !== steps);

/**
 * Lists of an outage go by the name of their sheet too: a log of joints, a list of contacts or of holidays has headers
 * like theirs, and a wrong guess would let a crew work where none is.
 */
const byName: readonly SheetDeclaration[] = [crews, windows, areas, outageJobs];

const listsFor = ({ name }: RawSheet): readonly SheetDeclaration[] =>
  listSheets.filter((item) => !byName.includes(item) || item.name.toLowerCase() === name.trim().toLowerCase());

/** What a header must be worth to be a list of ours; two columns that are called as we call them are 2. */
const leastScore = 1.3;
/** A further list of belts must be worth this share of the best one, or it is a sheet about something else. */
const leastShare = 0.35;
/** Lists in one sheet, one below the other. */
const mostInSheet = 20;

/** Filled cells of a row beyond which a sheet is no list: each is compared with every header that is known. Ours. */
const mostHeaders = 1_000;

const isTooWide = ({ rows }: RawSheet): boolean => [...rows.values()].some(({ length }) => length > mostHeaders);

const tooWide = ({ name }: RawSheet): string =>
  `${name} has a row of more than ${grouped(mostHeaders)} filled cells, so it was not read as a list`;

export function foundSheets(book: RawBook, choices: ImportChoices): FoundSheets {
  const filled = book.sheets.filter(({ rows }) => rows.size > 0);
  const chosen = chosenSheets(filled, choices);
  const alone = filled.filter(({ hidden }) => !hidden).length === 1;
  const found = filled.map((sheet) => ({
    sheet,
    tables: isTooWide(sheet) ? [] : tablesOf(sheet, chosen, choices, alone && !sheet.hidden),
  }));
  const plates = found.some(({ tables }) => tables.some(isPlates));
  const best = Math.max(
    0,
    ...found
      .filter(({ sheet }) => !sheet.hidden || chosen?.has(sheet.name) === true)
      .flatMap(({ tables }) => tables.filter(isBelts).map(({ block }) => block.score)),
  );
  const tables: FoundTable[] = [];
  const others: { sheet: RawSheet; why: string }[] = [];
  for (const { sheet, tables: inSheet } of found) {
    const named = chosen?.has(sheet.name) === true;
    // Beside plates, a list of widths and series without a name for the belts is one of strips.
    const lists = inSheet.filter((table) => named || !plates || !isBelts(table) || namesRecords(table.block));
    const kept = lists.filter((table) =>
      named ? isBelts(table) : !isBelts(table) || (chosen === undefined && table.block.score >= best * leastShare),
    );
    if (kept.length > 0 && (named || !sheet.hidden)) tables.push(...kept);
    else others.push({ sheet, why: isTooWide(sheet) ? tooWide(sheet) : whyNot(sheet, inSheet, kept.length > 0) });
  }
  const wide = filled.find(isTooWide);
  if (wide !== undefined && tables.length === 0)
    throw new UnusableList(
      `No list of belts was found. ${tooWide(wide)}. Delete the columns that the list does not need.`,
    );
  if (!tables.some(isBelts) && !(chosen === undefined && tables.some(isPlates)))
    throw new UnusableList(noBelts(filled, chosen, choices));
  return { tables, others };
}

/** A supplier's workbook of plates or strips, which may come without belts. */
const isPlates = ({ block }: FoundTable): boolean => block.sheet === plateSeries || block.sheet === strips;

export const isBelts = ({ block }: FoundTable): boolean => block.sheet === belts;

function whyNot(sheet: RawSheet, tables: readonly FoundTable[], hiddenList: boolean): string {
  if (sheet.hidden && hiddenList)
    return 'it is hidden, so its list is not read: unhide it in your spreadsheet program, or select it by name';
  const [table] = tables;
  return table === undefined
    ? 'no known header was found in it'
    : `only ${table.block.matched} of its columns look like those of ${table.block.sheet.name}`;
}

function chosenSheets(sheets: readonly RawSheet[], { sheets: names }: ImportChoices): ReadonlySet<string> | undefined {
  if (names === undefined) return undefined;
  return new Set(
    names.map((name) => {
      const sheet =
        sheets.find((item) => item.name === name) ??
        sheets.find((item) => item.name.trim().toLowerCase() === name.trim().toLowerCase());
      if (sheet === undefined)
        throw new UnusableList(
          `The file has no filled sheet "${name}". It has: ${sheets.map((item) => `"${item.name}"`).join(', ')}.`,
        );
      return sheet.name;
    }),
  );
}

function tablesOf(
  sheet: RawSheet,
  chosen: ReadonlySet<string> | undefined,
  choices: ImportChoices,
  alone: boolean,
): FoundTable[] {
  const named = chosen?.has(sheet.name) === true;
  const lists = listsFor(sheet);
  const others = lists.filter((item) => item !== belts);
  const forced = choices.headerRow !== undefined && (named || chosen === undefined) ? choices.headerRow : undefined;
  if (forced !== undefined) {
    // The row is the belts' header; a sheet in which it is none may still hold another list.
    const table = tableFrom(sheet, [belts], 1, choices, forced, named || alone);
    if (table !== undefined) return [table];
  }
  const declared = named ? [belts] : chosen === undefined && forced === undefined ? lists : others;
  if (named && forced !== undefined) return [];
  const tables: FoundTable[] = [];
  let from = 1;
  while (tables.length < mostInSheet) {
    const table = tableFrom(sheet, declared, from, choices, undefined, named);
    if (table === undefined) break;
    tables.push(table);
    if (table.turned || table.rows.next === undefined) break;
    from = table.rows.next;
  }
  return tables;
}

const isList = (block: ScoredBlock | undefined, lenient: boolean): block is ScoredBlock =>
  block !== undefined && (lenient ? block.matched > 0 : block.score >= leastScore && block.measured);

function tableFrom(
  sheet: RawSheet,
  declared: readonly SheetDeclaration[],
  from: number,
  choices: ImportChoices,
  forced: number | undefined,
  lenient: boolean,
): FoundTable | undefined {
  const upright = headerBlock(sheet, declared, from, forced);
  const sideways = from > 1 || forced !== undefined ? undefined : headerBlock(turned(corner(sheet)), declared);
  if (isList(sideways, lenient) && sideways.matched >= 3 && sideways.score > 1.3 * (upright?.score ?? 0) + 0.5) {
    return { turned: true, block: sideways, ...rowsOf(turned(sheet), sideways, 1, choices) };
  }
  return isList(upright, lenient)
    ? { turned: false, block: upright, ...rowsOf(sheet, upright, from, choices) }
    : undefined;
}

/** Enough of a sheet to see whether its headers stand in a column. */
function corner(sheet: RawSheet): RawSheet {
  const rows = new Map(
    [...sheet.rows]
      .filter(([row]) => row <= 200)
      .map(([row, cells]) => [row, cells.filter(({ column }) => column <= 8)]),
  );
  return { ...sheet, rows, lastRow: Math.min(200, sheet.lastRow), lastColumn: Math.min(8, sheet.lastColumn) };
}

function rowsOf(
  found: RawSheet,
  block: ScoredBlock,
  from: number,
  choices: ImportChoices,
): Pick<FoundTable, 'sheet' | 'rows' | 'titles'> {
  const spread = spreadMerges(found, block.bottom + 1);
  const key = keyColumn(block);
  const rows = chosenRows(tableRows(spread, block, key, listsFor(spread)), spread, key, choices);
  const sheet = withoutDittos(spread, rows.records, key);
  const titles: SkippedRow[] = [];
  for (let row = from; row < block.top; row += 1) {
    const cells = rowCells(sheet, row);
    if (cells.length > 0)
      titles.push({ row, what: 'title', text: cells.map((cell) => cellText(cell).trim()).join(' | ') });
  }
  return { sheet, rows, titles };
}

/** Whether a header names the records, or the first column is free to. */
function namesRecords({ headers, sheet }: ScoredBlock): boolean {
  const matches = matchedHeaders(
    headers.map(({ text }) => ({ text })),
    sheet,
  );
  return matches[0]?.best === undefined || matches.some(({ best }) => best?.column.header === sheet.key);
}

/** The column that holds the records' names: the one that is called so, else the first. */
export function keyColumn(block: ScoredBlock): number {
  const matches = matchedHeaders(
    block.headers.map(({ text }) => ({ text })),
    block.sheet,
  );
  const named = matches.findIndex(({ best }) => best?.column.header === block.sheet.key);
  return (block.headers[named] ?? block.headers[0])?.column ?? 0;
}

function noBelts(
  sheets: readonly RawSheet[],
  chosen: ReadonlySet<string> | undefined,
  { headerRow }: ImportChoices,
): string {
  const looked =
    chosen === undefined ? sheets.filter(({ hidden }) => !hidden) : sheets.filter(({ name }) => chosen.has(name));
  const hidden = sheets.filter((sheet) => sheet.hidden && !looked.includes(sheet)).map(({ name }) => `"${name}"`);
  const seen = looked.slice(0, 6).map((sheet) => {
    const [first] = sheet.rows.keys();
    const row = headerRow ?? first ?? 1;
    const texts = rowCells(sheet, row)
      .slice(0, 6)
      .map((cell) => `"${cellText(cell).trim().slice(0, 40)}"`);
    return `sheet "${sheet.name}", row ${row}: ${texts.length === 0 ? 'empty' : texts.join(', ')}`;
  });
  return [
    `No list of belts was found${headerRow === undefined ? '' : ` with its header in row ${headerRow}`}.`,
    `Looked for a header row that names the belts and at least one size, such as Belt, Width, Thickness, Smallest ` +
      `pulley or Speed, under these or other usual names.`,
    seen.length === 0
      ? 'The file has no filled sheet to search.'
      : `Found ${seen.join('; ')}${looked.length > 6 ? ` and ${looked.length - 6} more sheets` : ''}.`,
    ...(hidden.length === 0 ? [] : [`Hidden sheets were not searched: ${hidden.join(', ')}.`]),
    'Add a header row, or say which sheet and row hold it.',
  ].join(' ');
}
