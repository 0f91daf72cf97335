import type { DecimalMark } from '../../units/numbers.ts';
import { type ImportProposal, UnusableList } from '../../xlsx/import/import-model.ts';
import {
  listInParts,
  mayBeTotal,
  nameMarkAt,
  type PartFacts,
  sampleSheet,
  TellingRows,
} from '../../xlsx/import/list-parts.ts';
import { patternedColumns } from '../../xlsx/import/patterned-texts.ts';
import { proposeImport } from '../../xlsx/import/proposal.ts';
import { soleDecimal } from '../../xlsx/read/delimited-text.ts';
import type { RawBook } from '../../xlsx/read/raw-book.ts';
import { grouped, readLimits } from '../../xlsx/read/read-limits.ts';
import { shownBook } from '../../xlsx/read/raw-cells.ts';
import type { ListData, ListPlan, LookedPart, PartWorkers } from './part-model.ts';
import { PartWork } from './part-work.ts';
import { NotPlain, type RowRun, type SheetFrame } from './row-runs.ts';

/** How a long list will be read: found by looking at all its rows, part by part. */
interface PlannedList {
  readonly plan: ListPlan;
  /** The first of its parts. */
  readonly firstRun: RowRun;
  /** Records before each part. */
  readonly records: readonly number[];
  /** Of all parts. */
  readonly total: number;
  /** The belts' columns with texts that other programs take for patterns, "Belts.Service". */
  readonly patterned: ReadonlySet<string>;
}

/** How many bytes each part has. */
export type PartSizes = (part: number) => number;

/** The runs of the list's rows; answers what stands around them. */
type RunsOf = (begun: (before: Uint8Array) => void) => Generator<RowRun, SheetFrame>;

export const runsOf =
  ({ content }: PartWork, sizes: PartSizes): RunsOf =>
  (begun) =>
    content.runs(sizes, begun);

interface Looked {
  readonly decimals: ReadonlySet<DecimalMark>;
  readonly firstRun: RowRun;
  readonly runs: readonly number[];
  readonly facts: readonly PartFacts[];
  readonly head: Uint8Array;
  readonly frame: SheetFrame;
}

/** Looks at all parts, a text's by a decimal mark; the first one says where the header ends. */
async function looked(
  runs: RunsOf,
  { content }: PartWork,
  workers: PartWorkers,
  decimal: DecimalMark | undefined,
  told: (rows: number) => void,
): Promise<Looked> {
  let before: Uint8Array = new Uint8Array(0);
  let head: Uint8Array = new Uint8Array(0);
  const [firsts, facts] = [[] as number[], [] as PartFacts[]];
  const pending: Promise<LookedPart>[] = [];
  const decimals = new Set<DecimalMark>();
  const telling = new TellingRows();
  const settle = async (left: number): Promise<void> => {
    while (pending.length > left) {
      const part = await pending.shift();
      if (part === undefined) return;
      const { decimals: shown, ...found } = part;
      for (const mark of shown) decimals.add(mark);
      if (found.unfit !== undefined) throw new NotPlain(found.unfit);
      facts.push(facts.length === 0 ? found : { ...found, sample: newIn(found, telling) });
      told(found.rows.at(-1) ?? 0);
    }
  };
  let firstRun: RowRun | undefined;
  const cut = runs((bytes) => {
    before = bytes;
  });
  for (;;) {
    const step = cut.next();
    if (step.done === true) {
      await settle(0);
      if (firstRun === undefined) throw new NotPlain('it has no rows');
      return { decimals, firstRun, runs: firsts, facts, head, frame: step.value };
    }
    const { first, rows } = step.value;
    const look = workers.look({ do: 'look', before, head, rows, first, decimal, begins: firsts.length === 0 });
    // One that fails is told when it is waited for.
    look.catch(() => undefined);
    pending.push(look);
    firsts.push(first);
    if (firstRun === undefined) {
      firstRun = step.value;
      await settle(0);
      head = content.upTo(step.value, facts[0]?.headRow ?? 0);
    } else await settle(2 * workers.count);
  }
}

/** Of a part's sample the rows that show something that no part before it has shown; else it would grow with parts. */
const newIn = ({ sample, odd }: PartFacts, telling: TellingRows): PartFacts['sample'] =>
  new Map([...sample].filter(([row, cells]) => telling.isTelling(cells) || odd.has(row)));

/** Rows of all parts in their order, refused when they do not ascend or parts begin differently. */
function allRows(facts: readonly PartFacts[]): Uint32Array {
  const rows = new Uint32Array(facts.reduce((sum, part) => sum + part.rows.length, 0));
  let at = 0;
  let last = 0;
  for (const part of facts) {
    if (part.headRow !== facts[0]?.headRow) throw new NotPlain('rows within it look like another header');
    for (const row of part.rows) {
      if (row <= last) throw new NotPlain('its rows are not in their order in the file');
      rows[at] = last = row;
      at += 1;
    }
  }
  return rows;
}

/** Names that stand twice, with where they stand first; by open addressing, as a list may have a million. */
function repeatedNames(
  facts: readonly PartFacts[],
  rows: Uint32Array,
  recordAt: (row: number) => number | undefined,
): ListPlan['firsts'] {
  let size = 16;
  while (size < rows.length * 2) size *= 2;
  const table = new Uint32Array(size);
  const names = new Uint32Array(2 * rows.length);
  let at = 0;
  for (const part of facts) {
    names.set(part.names, at);
    at += part.names.length;
  }
  const firsts = new Map<string, { readonly row: number; readonly record: number }>();
  for (let index = 0; index < rows.length; index += 1) {
    const [one = 0, other = 0] = [names[2 * index], names[2 * index + 1]];
    const record = recordAt(rows[index] ?? 0);
    if (one === 0 || record === undefined) continue;
    let slot = one % size;
    for (; table[slot] !== 0; slot = (slot + 1) % size) {
      const known = (table[slot] ?? 0) - 1;
      if (names[2 * known] !== one || names[2 * known + 1] !== other) continue;
      const row = rows[known] ?? 0;
      firsts.set(nameMarkAt(one, other), { row, record: recordAt(row) ?? 0 });
      break;
    }
    if (table[slot] === 0) table[slot] = index + 1;
  }
  return firsts;
}

function allDates(facts: readonly PartFacts[]): Map<number, boolean> {
  const dates = new Map<number, boolean>();
  for (const part of facts)
    for (const [column, days] of part.dates) dates.set(column, (dates.get(column) ?? true) && days);
  return dates;
}

interface LookedList extends Looked {
  /** The mark that all numbers of a text agree on. */
  readonly decimal: DecimalMark | undefined;
}

/** The file with the rows of its list that the import judges by. */
function sampleBook({ content }: PartWork, { frame, head, decimal, facts }: LookedList, sheetName: string): RawBook {
  const around = shownBook(content.read({ ...frame, head, rows: new Uint8Array(0), first: 1, decimal }).book);
  const samples = facts.map((part) => part.sample);
  return {
    ...around,
    sheets: around.sheets.map((sheet) => (sheet.name === sheetName ? sampleSheet(sheet, samples) : sheet)),
  };
}

/** Refuses more belts than a sheet of a workbook holds: a text may have them. */
function refuseBeyondSheet(sheet: string, records: number): void {
  if (records < readLimits.rowNumber) return;
  throw new UnusableList(
    `${sheet} has ${grouped(records)} belts; a sheet of a book holds at most ${grouped(readLimits.rowNumber - 1)}. ` +
      `Split the list into several files.`,
  );
}

/** Looks at all parts by the decimal mark that all numbers of a text agree on, as its beginning says it or anew. */
async function lookedByMark(
  runs: RunsOf,
  work: PartWork,
  workers: PartWorkers,
  told: (rows: number) => void,
): Promise<LookedList> {
  const { decimal: expected } = work.content;
  const found = await looked(runs, work, workers, expected, told);
  const decimal = soleDecimal(found.decimals);
  return { ...(decimal === expected ? found : await looked(runs, work, workers, decimal, told)), decimal };
}

/** A plan for the list; throws NotPlain where it has to be read whole. */
export async function plannedList(
  data: ListData,
  work: PartWork,
  runs: RunsOf,
  workers: PartWorkers,
  told: (rows: number) => void,
): Promise<PlannedList> {
  const found = await lookedByMark(runs, work, workers, told);
  const { decimal, firstRun, runs: starts, facts, head, frame } = found;
  const rows = allRows(facts);
  const sheetName = data.sheet.name;
  const sample = sampleBook(work, found, sheetName);
  const headRow = facts[0]?.headRow ?? 0;
  if (sample.sheets.some(({ name, merges }) => name === sheetName && merges.some(({ bottom }) => bottom > headRow)))
    throw new NotPlain('it has merged cells');
  const proposal = proposeImport(sample, data.choices);
  const list = listInParts(proposal, sheetName);
  if (typeof list === 'string') throw new NotPlain(list);
  if ((list.unitsRow ?? list.headerRow) !== headRow) throw new NotPlain('its header is not clear');
  const skipped = new Set(list.skipped.map(({ row }) => row));
  const records = rows.filter((row) => !skipped.has(row));
  refuseBeyondSheet(sheetName, records.length);
  const last = records.at(-1);
  if (last !== undefined && facts.some((part) => mayBeTotal(part, last)))
    throw new NotPlain('its last row has no name and may be a total');
  const recordAt = (row: number): number | undefined => (skipped.has(row) ? undefined : lowerBound(records, row));
  const whole: ImportProposal = {
    ...proposal,
    tables: proposal.tables.map((table) =>
      table === list ? { ...table, lastRow: Math.max(table.lastRow, rows.at(-1) ?? 0) } : table,
    ),
  };
  return {
    firstRun,
    plan: {
      proposal: whole,
      ...frame,
      head,
      decimal,
      dates: allDates(facts),
      firsts: repeatedNames(facts, rows, recordAt),
    },
    records: starts.map((first) => lowerBound(records, first)),
    total: records.length,
    patterned: patternedColumns(
      facts.map((part) => part.patterned),
      list,
      proposal,
    ),
  };
}

/** How many of ascending numbers are less than one. */
function lowerBound(numbers: Uint32Array, number: number): number {
  let [low, high] = [0, numbers.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((numbers[middle] ?? 0) < number) low = middle + 1;
    else high = middle;
  }
  return low;
}
