import { type BeltHeader, recordSheets } from '../../../sheets/index.ts';
import { isComputed, type Column, type SheetDeclaration } from '../../sheet/declaration.ts';
import type { DateOrder } from '../../units/dates.ts';
import { convertible, isWords, type UnitSystem } from '../../units/quantities.ts';
import type { DecimalMark } from '../../units/reading.ts';
import { columnName } from '../read/cell-address.ts';
import { cellsFit, type ColumnFacts, columnFacts, joined } from './column-facts.ts';
import { type ColumnUnit, listUnits, type MeasuredColumn } from './column-units.ts';
import type { FoundTable } from './found-tables.ts';
import type { HeaderText } from './header-forms.ts';
import { type HeaderMatch, matchedHeaders, unitInHeader } from './header-matching.ts';
import { headerWords } from './header-words.ts';
import { type ColumnProposal, type ImportChoices, type SkewOrigin, UnusableList } from './import-model.ts';
import type { RawCell } from '../read/raw-book.ts';
import { cellText, rowCells } from '../read/raw-cells.ts';

/** What each column of a list is taken for: the declared column, its unit, its decimal mark and order of dates. */
export interface TableDraft {
  readonly target: SheetDeclaration;
  readonly system: UnitSystem;
  /** Columns whose unit depends on the system. */
  readonly measured: number;
  readonly columns: readonly ColumnProposal[];
  readonly assumed: readonly string[];
}

interface ListColumn {
  readonly column: number;
  readonly header: string;
  readonly text: HeaderText | undefined;
  readonly unitText: string | undefined;
  readonly cells: readonly RawCell[];
  readonly facts: ColumnFacts;
}

export function columnDrafts(tables: readonly FoundTable[], choices: ImportChoices): TableDraft[] {
  const lists = tables.map(listColumns);
  checkMap(tables, lists, choices);
  const matches = tables.map((table, index) => columnMatches(table, lists[index] ?? [], choices));
  const decimal = choices.decimal ?? whole(lists.flat().map(({ facts }) => facts.decimal));
  const first = tables.map((_, index) => unitsOf(lists[index] ?? [], matches[index] ?? [], choices.units ?? 'metric'));
  const told = first.filter(({ by }) => by !== 'nothing').map(({ system }) => system);
  const fallback =
    choices.units ?? (told.filter((system) => system === 'us').length > told.length / 2 ? 'us' : 'metric');
  return tables.map((table, index): TableDraft => {
    const list = lists[index] ?? [];
    const found = matches[index] ?? [];
    const units = unitsOf(list, found, fallback);
    const sheetDecimal = choices.decimal ?? whole(list.map(({ facts }) => facts.decimal)) ?? decimal;
    const unitOf = new Map(units.measured.map((item, at) => [item.position, units.columns[at]] as const));
    return {
      target: table.block.sheet,
      system: units.system,
      measured: units.measured.filter(({ column }) => convertible(column.kind)).length,
      columns: list.map((item, at) =>
        columnProposal(item, found[at], unitOf.get(at), { decimal: sheetDecimal, choices, turned: table.turned }),
      ),
      assumed: [
        ...units.columns.flatMap(({ assumed }) => assumed ?? []),
        ...found.flatMap((match, at) =>
          match.assumed === undefined ? [] : [`${list[at]?.header ?? ''}: ${match.assumed}`],
        ),
      ].map((text) => `${table.sheet.name}, ${text}`),
    };
  });
}

/** What all witnesses agree on; undefined when they say nothing or contradict each other. */
function whole(marks: readonly (DecimalMark | 'both' | undefined)[]): DecimalMark | undefined {
  const said = marks.reduce(joined, undefined);
  return said === 'both' ? undefined : said;
}

/**
 * The list's columns with their cells in the rows of records; a column without a header counts when cells stand in it.
 */
function listColumns({ sheet, block, rows }: FoundTable): ListColumn[] {
  const cells = new Map<number, RawCell[]>(block.headers.map(({ column }) => [column, []]));
  for (const row of rows.records) {
    for (const cell of rowCells(sheet, row)) {
      const column = cells.get(cell.column);
      if (column === undefined) cells.set(cell.column, [cell]);
      else column.push(cell);
    }
  }
  return [...cells]
    .toSorted(([a], [b]) => a - b)
    .map(([column, own]) => {
      const header = block.headers.find((item) => item.column === column);
      return {
        column,
        header:
          header === undefined ? '' : [...header.text.above, header.text.own].join(' ').replaceAll(/\s*\n\s*/g, ' '),
        text: header?.text,
        unitText: header?.unitText,
        cells: own,
        facts: columnFacts(own),
      };
    });
}

interface ColumnMatch extends HeaderMatch {
  readonly chosen?: string;
  readonly assumed?: string;
}

const plain = (text: string): string => text.trim().toLowerCase().replaceAll(/\s+/g, ' ');

/** The user's word for a column, by its header, its own part of the header, or its letters. */
const chosenFor = ({ header, text, column }: ListColumn, { map = [] }: ImportChoices): string | undefined =>
  map.find(
    ({ header: said }) =>
      plain(said) === plain(header) ||
      plain(said) === plain(text?.own ?? '') ||
      said.trim().toUpperCase() === columnName(column),
  )?.to;

function checkMap(
  tables: readonly FoundTable[],
  lists: readonly (readonly ListColumn[])[],
  { map = [] }: ImportChoices,
): void {
  for (const entry of map) {
    const hits = lists.map((list) => list.some((item) => chosenFor(item, { map: [entry] }) !== undefined));
    if (!hits.includes(true)) {
      const headers = [...new Set(lists.flat().flatMap(({ header }) => (header === '' ? [] : `"${header}"`)))];
      throw new UnusableList(`The list has no column "${entry.header}". Its columns are ${headers.join(', ')}.`);
    }
    if (!tables.some(({ block }, index) => hits[index] === true && targetNamed(entry.to, block.sheet) !== undefined)) {
      const sheet = tables[hits.indexOf(true)]?.block.sheet ?? recordSheets[0];
      const names = sheet?.columns.filter((column) => !isComputed(column)).map(({ header }) => header) ?? [];
      throw new UnusableList(
        `"${entry.header}" can't be taken for "${entry.to}": ${sheet?.name ?? ''} has the inputs ` +
          `${names.join(', ')}; "own" keeps the column as it is and "ignore" leaves it out.`,
      );
    }
  }
}

function targetNamed(name: string, sheet: SheetDeclaration): string | undefined {
  const said = plain(name);
  if (said === 'own' || said === 'ignore') return said;
  return sheet.columns.find((column) => !isComputed(column) && plain(column.header) === said)?.header;
}

function columnMatches({ block }: FoundTable, list: readonly ListColumn[], choices: ImportChoices): ColumnMatch[] {
  const { sheet } = block;
  const chosen = list.map((item) => {
    const to = chosenFor(item, choices);
    return to === undefined ? undefined : targetNamed(to, sheet);
  });
  const free = list
    .map((item, index) => ({ item, index }))
    .filter(({ item, index }) => chosen[index] === undefined && item.text !== undefined);
  const open = chosen.every((target) => target === undefined)
    ? sheet
    : { ...sheet, columns: sheet.columns.filter(({ header }) => !chosen.includes(header)) };
  const found = matchedHeaders(
    free.map(({ item }) => ({
      text: withUnitText(item.text ?? { own: '', above: [] }, item.unitText),
      fit: (column: Column) => cellsFit(item.cells, item.facts, column, sheet),
    })),
    open,
  );
  const matches = list.map((_, index): ColumnMatch => {
    const target = chosen[index];
    return target === undefined
      ? (found[free.findIndex((item) => item.index === index)] ?? { suggestions: [] })
      : chosenMatch(target, list[index], sheet);
  });
  return withNames(matches, list, sheet);
}

function chosenMatch(target: string, item: ListColumn | undefined, sheet: SheetDeclaration): ColumnMatch {
  const column = sheet.columns.find(({ header }) => header === target);
  if (column === undefined) return { suggestions: [], chosen: target };
  const unit = item?.text === undefined ? undefined : unitInHeader(withUnitText(item.text, item.unitText), column);
  return {
    best: { column, confidence: 1, why: 'chosen', everyday: false, ...(unit === undefined ? {} : { unit }) },
    suggestions: [],
    chosen: target,
  };
}

const withUnitText = (text: HeaderText, unitText: string | undefined): HeaderText =>
  unitText === undefined ? text : { ...text, own: `${text.own} [${unitText}]` };

/** A list in which no header names the records: its first column does, when its texts are all different. */
function withNames(
  matches: readonly ColumnMatch[],
  list: readonly ListColumn[],
  sheet: SheetDeclaration,
): ColumnMatch[] {
  const key = sheet.columns.find(({ header }) => header === sheet.key);
  const named = matches.some(({ best, chosen }) => best?.column.header === sheet.key || chosen === sheet.key);
  const [first] = list;
  const records = Math.max(0, ...list.map(({ cells }) => cells.length));
  if (
    named ||
    key === undefined ||
    first === undefined ||
    matches[0]?.best !== undefined ||
    matches[0]?.chosen !== undefined
  )
    return [...matches];
  const texts = new Set(first.cells.map((cell) => plain(cellText(cell))));
  if (records === 0 || first.cells.length < records * 0.9 || texts.size < first.cells.length * 0.9) return [...matches];
  const assumed = `no header names the ${sheet.record}; its first column is taken for it`;
  return [
    {
      best: {
        column: key,
        confidence: 0.75,
        why: 'the first column, in which every cell is different',
        everyday: true,
      },
      suggestions: [],
      assumed,
    },
    ...matches.slice(1),
  ];
}

function unitsOf(list: readonly ListColumn[], matches: readonly ColumnMatch[], fallback: UnitSystem) {
  const measured = list.flatMap((item, position): (MeasuredColumn & { readonly position: number })[] => {
    const match = matches[position];
    const column = match?.best?.column;
    if (column === undefined || isComputed(column) || isWords(column.kind) || column.kind === 'date') return [];
    const unit = match?.best?.unit;
    return [
      {
        position,
        header: item.header,
        column,
        cells: item.cells,
        facts: item.facts,
        ...(unit === undefined ? {} : { said: { unit, from: item.unitText === undefined ? 'header' : 'units row' } }),
      },
    ];
  });
  return { ...listUnits(measured, fallback), measured };
}

interface ListSettings {
  readonly decimal: DecimalMark | undefined;
  readonly choices: ImportChoices;
  readonly turned: boolean;
}

function columnProposal(
  item: ListColumn,
  match: ColumnMatch | undefined,
  unit: ColumnUnit | undefined,
  { decimal, choices, turned }: ListSettings,
): ColumnProposal {
  const { facts } = item;
  const best = match?.best;
  const place = { letter: turned ? String(item.column) : columnName(item.column), header: item.header };
  const suggestions = (match?.suggestions ?? [])
    .filter(({ column }) => column !== best?.column && !isComputed(column))
    .map(({ column, confidence }) => ({ target: column.header, confidence }));
  if (match?.chosen === 'own' || match?.chosen === 'ignore')
    return { ...place, target: match.chosen, confidence: 0, why: 'chosen', suggestions };
  if (best === undefined)
    return {
      ...place,
      target: 'own',
      confidence: 0,
      why: match?.doubt ?? (item.header === '' ? 'it has no header' : 'no column of ours is called so'),
      suggestions,
    };
  const { column } = best;
  if (isComputed(column))
    return { ...place, target: 'own', confidence: 0, why: `the book works out ${column.header} itself`, suggestions };
  const mark = choices.decimal ?? (facts.decimal === 'both' ? undefined : (facts.decimal ?? decimal));
  const dateOrder: DateOrder | undefined =
    choices.dateOrder ?? (facts.dateOrder === 'both' ? undefined : facts.dateOrder);
  const skewFrom =
    column.header === ('Skew' satisfies BeltHeader) ? (choices.skewFrom ?? skewOrigin(item.header)) : undefined;
  return {
    ...place,
    target: column.header,
    ...(unit?.unit === undefined ? {} : { unit: unit.unit.symbol }),
    ...(unit?.from === undefined ? {} : { unitFrom: unit.from }),
    ...(mark === undefined || isWords(column.kind) || column.kind === 'date' || facts.figures === 0
      ? {}
      : { decimal: mark }),
    ...(column.kind === 'date' && dateOrder !== undefined ? { dateOrder } : {}),
    ...(skewFrom === undefined ? {} : { skewFrom }),
    confidence: best.confidence,
    why: best.why,
    suggestions,
  };
}

const edgeWords = new Set(['edge', 'kante', 'gurtkante', 'rand', 'bord', 'borde', 'kant']);

/** Where a header says that the skew counts from. */
function skewOrigin(header: string): SkewOrigin | undefined {
  const words = headerWords(header);
  return words.some((word) => edgeWords.has(word)) ? 'edge' : words.includes('square') ? 'square' : undefined;
}
