import { isCalled } from '../../sheet/header.ts';
import { belts } from '../../../sheets/belts/index.ts';
import { type BeltHeader, recordSheets } from '../../../sheets/index.ts';
import type { UnitSystem } from '../../units/quantities.ts';
import { assumptionRows } from './assumption-rows.ts';
import { systemName } from './column-units.ts';
import { columnDrafts, type TableDraft } from './column-proposals.ts';
import { foundSheets, type FoundTable, isBelts } from './found-tables.ts';
import { type ImportChoices, type ImportProposal, type TableProposal, UnusableList } from './import-model.ts';
import { outsideWords } from './outside-words.ts';
import { exportedTables, readAboutSheet } from './earlier-export.ts';
import type { RawBook, RawSheet } from '../read/raw-book.ts';
import { shownBook } from '../read/raw-cells.ts';
import { proposeStored } from './stored-import.ts';

/**
 * How a file would be read: which sheet and column is taken for what, in which unit, and what was assumed. Nothing is
 * read yet; the user may correct every part and then accept it. Throws UnusableList when there is no list of belts, or
 * when a choice names something that is not there.
 */
export function proposeImport(file: RawBook, choices: ImportChoices = {}): ImportProposal {
  if (file.stored !== undefined) return proposeStored(file.stored, choices);
  const book = shownBook(file);
  const about = readAboutSheet(book);
  if (about !== undefined) {
    return {
      ours: true,
      units: choices.units ?? about.units,
      unitsWhy: 'the file is an export of this program and says so',
      tables: exportedTables(book, about),
      fill: checkedFill(choices),
      values: [],
      assumed: [...withoutUse(choices), ...outsideWords(file)],
    };
  }
  const { tables, others } = foundSheets(book, choices);
  const drafts = columnDrafts(tables, choices, file.text?.decimal);
  const units = choices.units ?? mainSystem(drafts);
  const belted = tables.filter(isBelts);
  const proposals = tables.map((table, index) => tableProposal(table, drafts[index], belted.length));
  const rest = others.map(({ sheet, why }) => otherSheet(sheet, why));
  const order = new Map(book.sheets.map(({ name }, index) => [name, index]));
  return {
    ours: false,
    units,
    unitsWhy: choices.units === undefined ? `most columns of the list are ${systemName(units)}` : 'chosen',
    tables: [...proposals, ...rest].toSorted((a, b) => (order.get(a.sheet) ?? 0) - (order.get(b.sheet) ?? 0)),
    fill: checkedFill(choices),
    values: checkedValues(choices),
    assumed: [...drafts.flatMap(({ assumed }) => assumed), ...outsideWords(file)],
  };
}

/** Choices that an export of ours, which says itself what its cells are, leaves nothing to decide. */
function withoutUse({
  map = [],
  sheets,
  headerRow,
  decimal,
  dateOrder,
  skewFrom,
  values = [],
  leaveOut = [],
  takeRows = [],
}: ImportChoices): string[] {
  const idle = [
    ...(map.length > 0 ? ['columns'] : []),
    ...(sheets === undefined ? [] : ['sheets']),
    ...(values.length > 0 ? ['values'] : []),
    ...(leaveOut.length + takeRows.length > 0 ? ['rows'] : []),
    ...(headerRow === undefined ? [] : ['the header row']),
    ...(decimal === undefined ? [] : ['the decimal mark']),
    ...(dateOrder === undefined ? [] : ['the order of dates']),
    ...(skewFrom === undefined ? [] : ['the origin of skews']),
  ];
  return idle.length === 0
    ? []
    : [`The choice of ${idle.join(', ')} was not used: an export of this program is read exactly as it is`];
}

/** The system that most columns of the lists of belts are in. */
function mainSystem(drafts: readonly TableDraft[]): UnitSystem {
  const weight = (system: UnitSystem): number =>
    drafts
      .filter((draft) => draft.system === system)
      .reduce((sum, { measured, target }) => sum + measured * (target === belts ? 1 : 0.01), 0);
  return weight('us') > weight('metric') ? 'us' : 'metric';
}

function tableProposal(table: FoundTable, draft: TableDraft | undefined, lists: number): TableProposal {
  const { sheet, block, rows, titles } = table;
  const skipped = [...titles, ...rows.skipped];
  const columns = draft?.columns ?? [];
  const areaMissing = isBelts(table) && !columns.some(({ target }) => target === ('Area' satisfies BeltHeader));
  const headings = rows.skipped.some(({ what }) => what === 'heading');
  return {
    sheet: sheet.name,
    hidden: sheet.hidden,
    target: block.sheet.name,
    why: `${block.matched} of its ${block.headers.length} headers are columns of ${block.sheet.name}`,
    turned: table.turned,
    headerTop: block.top,
    headerRow: block.bottom,
    ...(block.unitsRow === undefined ? {} : { unitsRow: block.unitsRow }),
    lastRow: [...rows.records, ...rows.skipped.map(({ row }) => row)].reduce(
      (last, row) => Math.max(last, row),
      block.unitsRow ?? block.bottom,
    ),
    skipped,
    ...(areaMissing && (headings || lists > 1) ? { areaFrom: headings ? 'headings' : 'sheet name' } : {}),
    units: draft?.system ?? 'metric',
    columns,
  };
}

/** A sheet without a list of ours: assumptions, or the user's own. */
function otherSheet(sheet: RawSheet, why: string): TableProposal {
  const assumptions = sheet.hidden ? undefined : assumptionRows(sheet);
  return {
    sheet: sheet.name,
    hidden: sheet.hidden,
    target: assumptions === undefined ? 'free' : 'Assumptions',
    why: assumptions === undefined ? why : `${assumptions.length} of its rows name assumptions`,
    turned: false,
    headerTop: 0,
    headerRow: 0,
    lastRow: sheet.lastRow,
    skipped: [],
    units: 'metric',
    columns: [],
  };
}

/** Fills name declared inputs of belts. */
function checkedFill({ fill = [] }: ImportChoices): ImportProposal['fill'] {
  return fill.map(({ column, value }) => {
    const declared = belts.columns.find((item) => item.formula === undefined && isCalled(item, column));
    if (declared === undefined)
      throw new UnusableList(
        `Blank cells of "${column}" cannot be filled: ${belts.name} has no such input. Its inputs are ${inputNames()}.`,
      );
    return { column: declared.header, value };
  });
}

/** Texts with a meaning stand in declared inputs of belts. */
function checkedValues({ values = [] }: ImportChoices): ImportProposal['values'] {
  return values.map(({ column, from, to }) => {
    const declared = belts.columns.find((item) => item.formula === undefined && isCalled(item, column));
    if (declared === undefined)
      throw new UnusableList(
        `"${from}" of "${column}" cannot be read as "${to}": ${belts.name} has no such input. Its inputs are ` +
          `${inputNames()}.`,
      );
    return { column: declared.header, from, to };
  });
}

const inputNames = (): string =>
  belts.columns
    .filter(({ formula }) => formula === undefined)
    .map(({ header }) => header)
    .join(', ');

/** Names of the sheets that a table may be read into. */
export const importTargets: readonly string[] = [
  ...recordSheets.map(({ name }) => name),
  'Assumptions',
  'free',
  'ignore',
];
