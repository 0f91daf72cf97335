import { recordSheets } from '../../../sheets/index.ts';
import { isCalled } from '../../sheet/header.ts';
import { type Column, isComputed, type SheetDeclaration } from '../../sheet/declaration.ts';
import { columnName } from '../read/cell-address.ts';
import type { RawCell } from '../read/raw-book.ts';
import { cellText } from '../read/raw-cells.ts';
import { cellsFit, type ColumnFacts } from './column-facts.ts';
import type { FoundTable } from './found-tables.ts';
import type { HeaderText } from './header-forms.ts';
import { type HeaderMatch, matchedHeaders, unitInHeader } from './header-matching.ts';
import { type ImportChoices, UnusableList } from './import-model.ts';

/** Which declared column each column of a list is: as the user says, else by its header and its cells. */

export interface ListColumn {
  readonly column: number;
  readonly header: string;
  readonly text: HeaderText | undefined;
  readonly unitText: string | undefined;
  readonly cells: readonly RawCell[];
  readonly facts: ColumnFacts;
}

export interface ColumnMatch extends HeaderMatch {
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

/** Throws UnusableList when the user's words name no column of the list, or none that there is. */
export function checkMap(
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
        `"${entry.header}" cannot be mapped to "${entry.to}": ${sheet?.name ?? ''} has the inputs ` +
          `${names.join(', ')}; "own" keeps the column as your own and "ignore" leaves it out.`,
      );
    }
  }
}

function targetNamed(name: string, sheet: SheetDeclaration): string | undefined {
  const said = plain(name);
  if (said === 'own' || said === 'ignore') return said;
  return sheet.columns.find((column) => !isComputed(column) && plain(column.header) === said)?.header;
}

export function columnMatches(
  { block }: FoundTable,
  list: readonly ListColumn[],
  choices: ImportChoices,
): ColumnMatch[] {
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
  const column = sheet.columns.find((item) => isCalled(item, target));
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
  const assumed = `no header names the ${sheet.record}; the first column is used`;
  return [
    {
      best: { column: key, confidence: 0.75, why: 'first column, every cell different', everyday: true },
      suggestions: [],
      assumed,
    },
    ...matches.slice(1),
  ];
}
