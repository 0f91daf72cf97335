import { isComputed, type SheetDeclaration } from '../sheet/declaration.ts';
import { lookedInto, namesUsed, precedents } from '../sheet/declared-formula.ts';
import type { ComputingStep } from './compiled-book.ts';
import { computingSteps, compiledSheets } from './declared.ts';

/**
 * How far a change reaches: the same record; the records that belong together, a whole and its parts (a belt and its
 * pulleys); or every record.
 */
type Reach = 'record' | 'kin' | 'all';

/** Which computed columns follow when a column or a named value moves. */
export interface Dependent {
  readonly sheet: string;
  readonly column: number;
  readonly reach: Reach;
}

const reaches: readonly Reach[] = ['record', 'kin', 'all'];
const farther = (one: Reach, other: Reach): Reach => (reaches.indexOf(one) >= reaches.indexOf(other) ? one : other);

/** The sheet of wholes that a sheet's records are or belong to. */
const wholeOf = ({ name, partOf }: SheetDeclaration): string => partOf?.sheet ?? name;

/** Where a sheet's records name the whole that they are or belong to. */
export const wholeName = (sheet: string): string => {
  const declaration = compiledSheets.get(sheet)?.declaration;
  return declaration?.partOf?.header ?? declaration?.key ?? '';
};

/** Sheets whose records belong together with those of a sheet, itself among them. */
export function kinSheets(sheet: string): readonly string[] {
  const own = compiledSheets.get(sheet)?.declaration;
  if (own === undefined) return [sheet];
  return [...compiledSheets.values()].flatMap(({ declaration }) =>
    wholeOf(declaration) === wholeOf(own) ? [declaration.name] : [],
  );
}

/**
 * A formula of one sheet that looks into another of its kin does so by the whole's name; the names themselves may be
 * any.
 */
const lookedReach = (from: string, sheet: string, header: string): Reach =>
  kinSheets(from).includes(sheet) && header !== wholeName(sheet) ? 'kin' : 'all';

const direct = new Map<string, Dependent[]>();
const columnMark = (sheet: string, header: string): string => `${sheet}.${header}`;
const nameMark = (name: string): string => `=${name}`;

for (const { columns, declaration } of compiledSheets.values()) {
  columns.forEach((column, index) => {
    if (!isComputed(column)) return;
    const add = (mark: string, reach: Reach): void => {
      const list = direct.get(mark) ?? [];
      const before = list.findIndex((item) => item.sheet === declaration.name && item.column === index);
      const known = list[before];
      if (known === undefined) list.push({ sheet: declaration.name, column: index, reach });
      else list[before] = { ...known, reach: farther(known.reach, reach) };
      direct.set(mark, list);
    };
    for (const header of precedents(column)) add(columnMark(declaration.name, header), 'record');
    for (const { sheet, header } of lookedInto(column))
      add(columnMark(sheet, header), lookedReach(declaration.name, sheet, header));
    for (const name of namesUsed(column)) add(nameMark(name), 'all');
  });
}

const closures = new Map<string, readonly Dependent[]>();

/** All columns that follow, directly or through others, with the farthest reach of the ways to them. */
function closure(mark: string): readonly Dependent[] {
  const known = closures.get(mark);
  if (known !== undefined) return known;
  const found = new Map<string, Dependent>();
  const visit = (from: string, reach: Reach): void => {
    for (const next of direct.get(from) ?? []) {
      const reached = farther(reach, next.reach);
      const id = `${next.sheet}.${next.column}`;
      const before = found.get(id);
      if (before !== undefined && farther(before.reach, reached) === before.reach) continue;
      found.set(id, { ...next, reach: reached });
      visit(columnMark(next.sheet, compiledSheets.get(next.sheet)?.columns[next.column]?.header ?? ''), reached);
    }
  };
  visit(mark, 'record');
  const list = [...found.values()];
  closures.set(mark, list);
  return list;
}

export const columnDependents = (sheet: string, column: number): readonly Dependent[] =>
  closure(columnMark(sheet, compiledSheets.get(sheet)?.columns[column]?.header ?? ''));

export const nameDependents = (name: string): readonly Dependent[] =>
  closure(nameMark(name)).map((item) => ({ ...item, reach: 'all' }));

const chosen = new Map<string, readonly ComputingStep[]>();

/** What is changed: columns of a sheet's records, named values, cells of other sheets; and what is asked for. */
interface Changed {
  readonly columns: readonly number[];
  readonly names: readonly string[];
  readonly others?: readonly { readonly sheet: string; readonly column: number }[] | undefined;
  /** The columns of the sheet that are asked for; undefined for all. */
  readonly wanted?: readonly number[] | undefined;
}

/**
 * The computing steps that follow from changed columns in a sheet and its kin, and from named values and cells of other
 * sheets in these and in whatever sheets lead there; of columns wanted only those that these need.
 */
export function followingSteps(
  sheet: string,
  { columns, names, others = [], wanted }: Changed,
): readonly ComputingStep[] {
  const elsewhere = [...new Set(others.map((other) => `${other.sheet}.${other.column}`))];
  const mark = `${sheet}.${columns.join(',')}=${names.join(',')}|${elsewhere.join(',')}>${wanted?.join(',') ?? ''}`;
  const known = chosen.get(mark);
  if (known !== undefined) return known;
  const step = (item: { readonly sheet: string; readonly column: number }): string => `${item.sheet}.${item.column}`;
  const fromOutside = [
    ...names.flatMap(nameDependents),
    ...others.flatMap((other) => columnDependents(other.sheet, other.column)),
  ];
  const outside = new Set(fromOutside.map(step));
  const following = new Set([...columns.flatMap((column) => columnDependents(sheet, column)).map(step), ...outside]);
  const kin = kinSheets(sheet);
  const leadsHere = (from: string, column: number): boolean =>
    outside.has(`${from}.${column}`) && columnDependents(from, column).some((item) => kin.includes(item.sheet));
  const asked = wanted === undefined ? undefined : new Set(wanted);
  const leads = (from: string, column: number): boolean =>
    asked === undefined ||
    (from === sheet && asked.has(column)) ||
    columnDependents(from, column).some((item) => item.sheet === sheet && asked.has(item.column));
  const steps = computingSteps.filter(
    ({ plan: { declaration }, column }) =>
      (kin.includes(declaration.name) || leadsHere(declaration.name, column)) &&
      following.has(`${declaration.name}.${column}`) &&
      leads(declaration.name, column),
  );
  chosen.set(mark, steps);
  return steps;
}
