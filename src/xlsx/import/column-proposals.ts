import { belts } from '../../../sheets/belts/index.ts';
import { type BeltHeader } from '../../../sheets/index.ts';
import { isComputed, type SheetDeclaration } from '../../sheet/declaration.ts';
import type { DateOrder } from '../../units/dates.ts';
import { convertible, isWords, type UnitSystem } from '../../units/quantities.ts';
import type { DecimalMark } from '../../units/reading.ts';
import { rowCheckHeader } from '../row-check-header.ts';
import { columnName } from '../read/cell-address.ts';
import type { RawCell } from '../read/raw-book.ts';
import { rowCells } from '../read/raw-cells.ts';
import { columnFacts, joined } from './column-facts.ts';
import { checkMap, type ColumnMatch, columnMatches, type ListColumn } from './column-matches.ts';
import { withoutNumberedJoints } from './numbered-joints.ts';
import { type ColumnUnit, listUnits, type MeasuredColumn } from './column-units.ts';
import type { FoundTable } from './found-tables.ts';
import type { ColumnProposal, ImportChoices } from './import-model.ts';
import { skewOrigin } from './skew-origin.ts';

/** What each column of a list is taken for: the declared column, its unit, its decimal mark and order of dates. */
export interface TableDraft {
  readonly target: SheetDeclaration;
  readonly system: UnitSystem;
  /** Columns whose unit depends on the system. */
  readonly measured: number;
  readonly columns: readonly ColumnProposal[];
  readonly assumed: readonly string[];
}

/** `ofText` is the decimal mark that a file of text agrees on in all its numbers. */
export function columnDrafts(
  tables: readonly FoundTable[],
  choices: ImportChoices,
  ofText: DecimalMark | undefined,
): TableDraft[] {
  const lists = tables.map(listColumns);
  checkMap(tables, lists, choices);
  const matches = tables.map((table, index) => {
    const list = lists[index] ?? [];
    const found = columnMatches(table, list, choices);
    return table.block.sheet === belts ? withoutNumberedJoints(found, list) : found;
  });
  const decimal = choices.decimal ?? whole(lists.flat().map(({ facts }) => facts.decimal)) ?? ofText;
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
        ...found.flatMap((match, at) => {
          const item = list[at];
          const origin =
            item === undefined || choices.skewFrom !== undefined || !isSkew(match)
              ? undefined
              : skewOrigin(item.header, item.facts);
          return [
            ...(match.assumed === undefined ? [] : [`${item?.header ?? ''}: ${match.assumed}`]),
            ...(origin?.assumed === undefined ? [] : [origin.assumed]),
          ];
        }),
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

const isSkew = (match: ColumnMatch | undefined): boolean =>
  match?.best?.column.header === ('Skew' satisfies BeltHeader);

interface ListSettings {
  readonly decimal: DecimalMark | undefined;
  readonly choices: ImportChoices;
  readonly turned: boolean;
}

/** Likeness below which a column is not even offered: most such share one word of everyday. Ours. */
const leastOffered = 0.42;

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
    .filter(({ column, confidence }) => column !== best?.column && !isComputed(column) && confidence >= leastOffered)
    .map(({ column, confidence }) => ({ target: column.header, confidence }));
  // A unit below a header that is not ours has no other place to stay than the header.
  const kept = { ...place, header: item.unitText === undefined ? item.header : `${item.header} (${item.unitText})` };
  if (item.header.trim() === rowCheckHeader && match?.chosen === undefined)
    return { ...kept, target: 'ignore', confidence: 0, why: 'the check of a form of this program', suggestions: [] };
  if (match?.chosen === 'own' || match?.chosen === 'ignore')
    return { ...kept, target: match.chosen, confidence: 0, why: 'chosen', suggestions };
  if (best === undefined)
    return {
      ...kept,
      target: 'own',
      confidence: 0,
      why: match?.doubt ?? (item.header === '' ? 'it has no header' : 'no matching column in the book'),
      suggestions,
    };
  const { column } = best;
  if (isComputed(column))
    return { ...kept, target: 'own', confidence: 0, why: `the book calculates ${column.header} itself`, suggestions };
  const mark = choices.decimal ?? (facts.decimal === 'both' ? undefined : (facts.decimal ?? decimal));
  const dateOrder: DateOrder | undefined =
    choices.dateOrder ?? (facts.dateOrder === 'both' ? undefined : facts.dateOrder);
  const skewFrom = isSkew(match) ? (choices.skewFrom ?? skewOrigin(item.header, facts)?.origin) : undefined;
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
