import type { Among } from './among.ts';
import {
  type CaseFormula,
  type CaseRoom,
  type CaseRow,
  type CaseValues,
  caseValue,
  collected,
  same,
} from './case-values.ts';
import { compiled, conditionalRows, type Fold, foldedRows, type RowFormula, type Scope, type Slot } from './kernel.ts';
import { asNumber } from './standard.ts';
import { type Node, nodesOf } from './syntax.ts';
import { Fault, isFault, type Value } from './values.ts';

/** Look-ups in whole columns over many cases: made once where they ask for the same, else case by case. */

/** Where the placeholders of a formula lead. */
const slotsOf = (node: Node | undefined, scope: Scope): Slot[] =>
  (node === undefined ? [] : nodesOf(node)).flatMap((part) => {
    const slot = part.type === 'placeholder' ? scope.slot(part.name) : undefined;
    return slot === undefined ? [] : [slot];
  });

const rowAt = (at: CaseValues, index: number): number => Number(caseValue(at, index));

/** A formula of the row kernel, case by case, over the cells that it names. */
export function caseByCase(node: Node, scope: Scope): CaseFormula {
  const formula: RowFormula = compiled(node, scope);
  const cells = slotsOf(node, scope).flatMap((slot) => ('cell' in slot ? [slot.cell] : []));
  return ({ cells: values, at, book }, among) => {
    const row: Value[] = [];
    return collected(book.room, among, (index) => {
      for (const cell of cells) row[cell] = caseValue(values[cell] ?? same(null), index);
      return formula(row, book.in(index), rowAt(at, index));
    });
  };
}

/** What follows from one text or the like alone: many records hold the same. */
export function eachOnce(
  room: CaseRoom,
  among: Among,
  values: readonly Value[],
  answer: (value: Value) => Value,
): CaseValues {
  const known = new Map<Value, Value>();
  return collected(room, among, (index) => {
    const value = values[index] ?? null;
    let answered = known.get(value);
    if (answered === undefined) known.set(value, (answered = answer(value)));
    return answered;
  });
}

const indexFault = (): Fault => new Fault('#VALUE!', 'INDEX counts rows from 1');

export function caseIndex(sheet: string, header: string, wanted: CaseFormula): CaseFormula {
  return (row, among) => {
    const { room, cell } = row.book;
    const places = wanted(row, among);
    const fixed = places.of === 'same' ? undefined : row.book.column(sheet, header);
    if (fixed !== undefined)
      return collected(room, among, (index) => {
        const place = asNumber(caseValue(places, index));
        return isFault(place) ? place : place < 1 ? indexFault() : fixed(Math.trunc(place));
      });
    const at = (value: Value): CaseValues => {
      const place = asNumber(value);
      return isFault(place) ? same(place) : place < 1 ? same(indexFault()) : cell(sheet, header, Math.trunc(place));
    };
    if (places.of === 'same') return at(places.value);
    return collected(room, among, (index) => caseValue(at(caseValue(places, index)), index));
  };
}

/** Look-ups of what varies in a column that does not: neighbours often ask for the same. */
export function caseMatch(sheet: string, header: string, wanted: CaseFormula, slow: CaseFormula): CaseFormula {
  return (row, among) => {
    if (row.book.column(sheet, header) === undefined) return slow(row, among);
    const values = wanted(row, among);
    const found = (value: Value, index: number): Value =>
      isFault(value) ? value : row.book.in(index).find(sheet, header, value);
    if (values.of === 'same') return same(found(values.value, among.at[0] ?? 0));
    if (values.of === 'mixed')
      return eachOnce(row.book.room, among, values.values, (value) => found(value, among.at[0] ?? 0));
    return collected(row.book.room, among, (index) => found(caseValue(values, index), index));
  };
}

/** Whether what some nodes name is the same in all cases. */
function fixed(nodes: readonly (Node | undefined)[], scope: Scope): (row: CaseRow) => boolean {
  const slots = nodes.flatMap((node) => slotsOf(node, scope));
  const asksRow = nodes.some(
    (node) => node !== undefined && [...nodesOf(node)].some((part) => part.type === 'call' && part.name === 'ROW'),
  );
  const names = nodes.flatMap((node) =>
    (node === undefined ? [] : nodesOf(node)).flatMap((part) => (part.type === 'name' ? [part.name] : [])),
  );
  return ({ cells, at, book }) =>
    (!asksRow || isSame(at)) &&
    names.every((name) => isSame(book.named(name))) &&
    slots.every((slot) => ('cell' in slot ? isSame(cells[slot.cell]) : !book.varies(slot.sheet, slot.header)));
}

/** A row of values that are the same in all cases; others are left out. */
function fixedRow({ cells }: CaseRow): Value[] {
  return cells.map((cases) => (cases.of === 'same' ? cases.value : null));
}

const firstRow = ({ at }: CaseRow, among: Among): number => rowAt(at, among.at[0] ?? 0);

/** Look-ups of what is the same in all cases, in columns that are so too, are made once. */
export function caseLookedUp(node: Node & { readonly type: 'call' }, scope: Scope): CaseFormula {
  const formula = compiled(node, scope);
  const slow = caseByCase(node, scope);
  const isFixed = fixed([node], scope);
  return (row, among) =>
    isFixed(row) ? same(formula(fixedRow(row), row.book.in(among.at[0] ?? 0), firstRow(row, among))) : slow(row, among);
}

/** Sums and the like over rows that are found once, of values that differ. */
export function caseFolded(node: Node & { readonly type: 'call' }, fold: Fold, scope: Scope): CaseFormula {
  const [column, ...pairs] = node.args;
  const [source] = slotsOf(column, scope);
  if (source === undefined || 'cell' in source) throw new Error(`${node.name} in a sheet formula takes whole columns`);
  const found = conditionalRows(pairs, scope);
  const slow = caseByCase(node, scope);
  const isFixed = fixed(pairs, scope);
  return (row, among) => {
    if (!isFixed(row)) return slow(row, among);
    const { book } = row;
    const rows = found(fixedRow(row), book.in(among.at[0] ?? 0), firstRow(row, among));
    if (isFault(rows)) return same(rows);
    const values = rows.map((place) => book.cell(source.sheet, source.header, place));
    const whole = (index: number): Value =>
      foldedRows(
        fold,
        values.map((cases) => caseValue(cases, index)),
      );
    return values.every(isSame) ? same(whole(0)) : collected(book.room, among, whole);
  };
}

const isSame = (cases: CaseValues | undefined): boolean => cases === undefined || cases.of === 'same';
