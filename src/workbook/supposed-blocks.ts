import { sheetRow } from '../formula/address.ts';
import { type CaseBook, type CaseValues, caseValue, same } from '../formula/case-values.ts';
import type { BookValues } from '../formula/kernel.ts';
import type { Value } from '../formula/values.ts';
import { lookedInto, precedents } from '../sheet/declared-formula.ts';
import { caseFormula } from './case-formulas.ts';
import type { ComputingStep } from './compiled-book.ts';
import { amongOpen, caseBook, roomFor } from './computed-blocks.ts';
import { compiledSheets } from './declared.ts';
import { followingSteps, kinSheets } from './dependence.ts';
import { blockSize, mergedColumn, packed } from './record-blocks.ts';
import type { Records } from './records.ts';
import { kinRecords } from './supposition.ts';

/**
 * Many records of a sheet, each under a supposition of its own, worked out at once: the cases of a block are what is
 * supposed. What reaches beyond the record itself is left to its row.
 */

/** Which inputs, by column, and which named values are supposed to be others; one object for all that are alike. */
export interface SupposedKind {
  readonly columns: readonly number[];
  readonly names: readonly string[];
}

/** A record, and what is supposed of it: values of the columns, then of the names. */
export interface SupposedOf {
  readonly record: number;
  readonly kind: SupposedKind;
  readonly values: readonly Value[];
}

/** What is supposed of which records of a sheet, and the columns that are asked for. */
export interface ManySupposed {
  readonly sheet: string;
  readonly wanted: readonly number[];
  readonly supposed: readonly SupposedOf[];
}

/** Suppositions below which a block's own work is more than theirs. */
const fewestSupposed = 4;

/** What follows from changes of the same inputs and named values. */
interface Following {
  readonly steps: readonly ComputingStep[];
  /** Columns of the record that the steps read, or that are asked for, beside what they work out. */
  readonly read: readonly number[];
  /** Sheets of its kin in which something follows: a record that has kin there is worked out alone. */
  readonly kin: readonly string[];
  /** Whether it reaches other records or other sheets, whatever kin there is. */
  readonly reachesOut: boolean;
}

const known = new Map<string, Following>();

function following(sheet: string, { columns, names }: SupposedKind, wanted: readonly number[]): Following {
  const mark = `${sheet}.${columns.join(',')}=${names.join(',')}>${wanted.join(',')}`;
  const before = known.get(mark);
  if (before !== undefined) return before;
  const all = followingSteps(sheet, { columns, names, wanted });
  const own = all.filter(({ plan, column }) => plan.declaration.name === sheet && !columns.includes(column));
  const elsewhere = [...new Set(all.map(({ plan }) => plan.declaration.name))].filter((name) => name !== sheet);
  const plan = compiledSheets.get(sheet);
  const position = (header: string): number => plan?.position.get(header) ?? -1;
  const moved = new Set([...columns, ...own.map(({ column }) => column)]);
  const looksBack = own.some((step) =>
    lookedInto(step.plan.columns[step.column] ?? {}).some(
      (looked) => looked.sheet === sheet && moved.has(position(looked.header)),
    ),
  );
  const kin = kinSheets(sheet);
  const read = own.flatMap((step) => precedents(step.plan.columns[step.column] ?? {}).map(position));
  const found: Following = {
    steps: own,
    read: [...new Set([...read, ...wanted, ...own.map(({ column }) => column)])],
    kin: elsewhere,
    reachesOut: looksBack || elsewhere.some((name) => !kin.includes(name)),
  };
  known.set(mark, found);
  return found;
}

/** Suppositions of one kind together, by their places. */
function alike(supposed: readonly SupposedOf[]): Map<SupposedKind, number[]> {
  const groups = new Map<SupposedKind, number[]>();
  for (let place = 0; place < supposed.length; place += 1) {
    const kind = supposed[place]?.kind;
    const places = kind === undefined ? undefined : groups.get(kind);
    if (places !== undefined) places.push(place);
    else if (kind !== undefined) groups.set(kind, [place]);
  }
  return groups;
}

/** The book with other named values in each case. */
function namedBook(records: Records, book: CaseBook, named: ReadonlyMap<string, CaseValues>): CaseBook {
  if (named.size === 0) return book;
  let at = 0;
  const one: BookValues = {
    cell: records.cell,
    find: records.find,
    all: records.all,
    named(name) {
      const cases = named.get(name);
      return cases === undefined ? records.named(name) : caseValue(cases, at);
    },
  };
  return {
    ...book,
    named: (name) => named.get(name) ?? book.named(name),
    in(index) {
      at = index;
      return one;
    },
  };
}

/** One block of suppositions of the same inputs: the record's columns in all of them. */
function supposedBlock(
  records: Records,
  sheet: string,
  block: readonly SupposedOf[],
  { columns, names }: SupposedKind,
  { steps, read }: Following,
  filled: ReadonlyMap<number, ReadonlySet<number>> | undefined,
): readonly CaseValues[] {
  const [count, values] = [block.length, records.sheet(sheet)];
  const own = Int32Array.from(block, ({ record }) => record);
  const given = (index: number): CaseValues => packed(count, (place) => block[place]?.values[index] ?? null);
  const cells: CaseValues[] = [];
  for (const column of read) cells[column] = values.gathered(column, own);
  for (const [index, column] of columns.entries()) cells[column] = given(index);
  const named = new Map(names.map((name, index) => [name, given(columns.length + index)] as const));
  const book = namedBook(records, caseBook(records, roomFor(count)), named);
  const at = packed(count, (index) => sheetRow(own[index] ?? -1));
  for (const step of steps) {
    const taken = filled?.get(step.column);
    const among = amongOpen(count, (index) => taken?.has(own[index] ?? -1) !== true, taken);
    if (among.count === 0) continue;
    const before = cells[step.column] ?? same(null);
    cells[step.column] = mergedColumn(before, caseFormula(step)({ cells, book, at }, among), count, among);
    book.room.free();
  }
  return cells;
}

/**
 * The wanted columns' values, by column and by supposition. `filled` are the records whose computed cells hold
 * something of the user's, by column; `alone` works a record's row out.
 */
export function supposedColumns(
  records: Records,
  { sheet, supposed, wanted }: ManySupposed,
  filled: ReadonlyMap<number, ReadonlySet<number>> | undefined,
  alone: (supposed: SupposedOf) => readonly Value[],
): Value[][] {
  const answers = wanted.map(() => Array.from<Value>({ length: supposed.length }).fill(null));
  for (const [kind, group] of alike(supposed)) {
    const follows = following(sheet, kind, wanted);
    const hasKin = new Map<number, boolean>();
    const isAlone = (record: number): boolean => {
      let has = hasKin.get(record);
      if (has === undefined) {
        has = follows.kin.some((name) => kinRecords(records, name, { sheet, record }).length > 0);
        hasKin.set(record, has);
      }
      return has;
    };
    const together = follows.reachesOut ? [] : group.filter((place) => !isAlone(supposed[place]?.record ?? -1));
    const inBlocks = new Set(together.length < fewestSupposed ? [] : together);
    for (const place of group) {
      const one = supposed[place];
      if (one === undefined || inBlocks.has(place)) continue;
      const row = alone(one);
      for (const [index, column] of wanted.entries()) {
        const answer = answers[index];
        if (answer !== undefined) answer[place] = row[column] ?? null;
      }
    }
    const places = [...inBlocks];
    for (let first = 0; first < places.length; first += blockSize) {
      const here = places.slice(first, first + blockSize);
      const block = here.flatMap((place) => supposed[place] ?? []);
      const cells = supposedBlock(records, sheet, block, kind, follows, filled);
      for (const [index, column] of wanted.entries()) {
        const [answer, values] = [answers[index], cells[column] ?? same(null)];
        if (answer !== undefined) for (const [at, place] of here.entries()) answer[place] = caseValue(values, at);
      }
    }
  }
  return answers;
}
