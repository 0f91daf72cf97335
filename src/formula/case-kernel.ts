import type { Among } from './among.ts';
import { caseBinary, caseStandard } from './case-arithmetic.ts';
import { chosen, faultOf } from './case-choices.ts';
import { caseGuard } from './case-guards.ts';
import {
  type CaseFormula,
  type CaseRoom,
  type CaseRow,
  type CaseValues,
  caseValue,
  collected,
  joined,
  parted,
  same,
} from './case-values.ts';
import type { EngineeringFunction } from './define.ts';
import {
  compiled,
  conditionalRows,
  type Fold,
  foldedRows,
  folds,
  type RowFormula,
  type Scope,
  type Slot,
} from './kernel.ts';
import { asNumber } from './standard.ts';
import { type Node, nodesOf } from './syntax.ts';
import { Fault, isFault, type Matrix, type Value } from './values.ts';

/**
 * A sheet's own formulas as functions of a row in many cases at once.
 *
 * The same trees as kernel.ts compiles, with the same values to the last bit; a test holds the two against each other
 * over random books. What depends on nothing that varies is worked out once. A choice is made once where all cases
 * choose alike, else each branch is worked out for the cases that take it. Look-ups by what varies are left to the row
 * kernel, case by case.
 */

/** Where the placeholders of a formula lead. */
const slotsOf = (node: Node | undefined, scope: Scope): Slot[] =>
  (node === undefined ? [] : nodesOf(node)).flatMap((part) => {
    const slot = part.type === 'placeholder' ? scope.slot(part.name) : undefined;
    return slot === undefined ? [] : [slot];
  });

const rowAt = (at: CaseValues, index: number): number => Number(caseValue(at, index));

/** A formula of the row kernel, case by case, over the cells that it names. */
function caseByCase(node: Node, scope: Scope): CaseFormula {
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

function caseIf(condition: CaseFormula, then: CaseFormula, otherwise: CaseFormula): CaseFormula {
  return (row, among) => {
    const { room } = row.book;
    const asked = condition(row, among);
    const [yes, no, faulty] = chosen(room, asked, among);
    if (yes.count === among.count) return then(row, among);
    if (no.count === among.count) return otherwise(row, among);
    return joined(room, [
      [yes.count === 0 ? same(null) : then(row, yes), yes],
      [no.count === 0 ? same(null) : otherwise(row, no), no],
      [faulty.count === 0 ? same(null) : collected(room, faulty, (index) => faultOf(caseValue(asked, index))), faulty],
    ]);
  };
}

function caseIfError(first: CaseFormula, second: CaseFormula): CaseFormula {
  return (row, among) => {
    const { room } = row.book;
    const value = first(row, among);
    if (value.of === 'same') return isFault(value.value) ? second(row, among) : value;
    if (value.of !== 'mixed') return value;
    const [faulty, right] = parted(room, among, (index) => isFault(value.values[index]));
    return faulty.count === 0
      ? value
      : joined(room, [
          [value, right],
          [second(row, faulty), faulty],
        ]);
  };
}

const indexFault = (): Fault => new Fault('#VALUE!', 'INDEX counts rows from 1');

function caseIndex(sheet: string, header: string, wanted: CaseFormula): CaseFormula {
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
function caseMatch(sheet: string, header: string, wanted: CaseFormula, slow: CaseFormula): CaseFormula {
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
function caseLookedUp(node: Node & { readonly type: 'call' }, scope: Scope): CaseFormula {
  const formula = compiled(node, scope);
  const slow = caseByCase(node, scope);
  const isFixed = fixed([node], scope);
  return (row, among) =>
    isFixed(row) ? same(formula(fixedRow(row), row.book.in(among.at[0] ?? 0), firstRow(row, among))) : slow(row, among);
}

/** Sums and the like over rows that are found once, of values that differ. */
function caseFolded(node: Node & { readonly type: 'call' }, fold: Fold, scope: Scope): CaseFormula {
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

/** What follows from one text or the like alone: many records hold the same. */
function eachOnce(room: CaseRoom, among: Among, values: readonly Value[], answer: (value: Value) => Value): CaseValues {
  const known = new Map<Value, Value>();
  return collected(room, among, (index) => {
    const value = values[index] ?? null;
    let answered = known.get(value);
    if (answered === undefined) known.set(value, (answered = answer(value)));
    return answered;
  });
}

function caseOurs(definition: EngineeringFunction, args: readonly (CaseFormula | undefined)[]): CaseFormula {
  const { evaluate, overCases } = definition;
  const single = (value: Value | Matrix): Value =>
    Array.isArray(value) ? ((value as Matrix)[0]?.[0] ?? null) : (value as Value);
  return (row, among) => {
    const { room } = row.book;
    const given = args.map((argument) => argument?.(row, among));
    const values = given.map((cases) => (cases?.of === 'same' ? cases.value : undefined));
    const varied = given.flatMap((cases, place) =>
      cases === undefined || cases.of === 'same' ? [] : [{ cases, place }],
    );
    if (varied.length === 0) return same(single(evaluate(values)));
    const rows = given.map((cases) =>
      cases?.of === 'numbers' ? cases.values : cases?.of === 'same' ? cases.value : undefined,
    );
    const quick = varied.every(({ cases }) => cases.of === 'numbers') ? overCases(rows, among) : undefined;
    if (quick !== undefined) return collected(room, among, (index) => single(quick(index)));
    const [first] = varied;
    if (varied.length === 1 && first?.cases.of === 'mixed')
      return eachOnce(room, among, first.cases.values, (value) => {
        values[first.place] = value;
        return single(evaluate(values));
      });
    return collected(room, among, (index) => {
      for (let each = 0; each < varied.length; each += 1) {
        const argument = varied[each];
        if (argument !== undefined) values[argument.place] = caseValue(argument.cases, index);
      }
      return single(evaluate(values));
    });
  };
}

function caseCall(node: Node & { readonly type: 'call' }, scope: Scope): CaseFormula {
  const { name, args } = node;
  const argument = (index: number): CaseFormula => {
    const part = args[index];
    return part === undefined ? () => same(null) : caseCompiled(part, scope);
  };
  switch (name) {
    case 'IF':
      return caseIf(argument(0), argument(1), args.length > 2 ? argument(2) : () => same(false));
    case 'IFERROR':
      return caseIfError(argument(0), argument(1));
    case 'ROW':
      return ({ at }) => at;
    case 'INDEX': {
      const [column] = args;
      const slot = column?.type === 'placeholder' ? scope.slot(column.name) : undefined;
      if (slot === undefined || 'cell' in slot) throw new Error('INDEX in a sheet formula takes a whole column');
      return caseIndex(slot.sheet, slot.header, argument(1));
    }
    case 'MATCH': {
      const [, column] = args;
      const slot = column?.type === 'placeholder' ? scope.slot(column.name) : undefined;
      if (slot === undefined || 'cell' in slot) throw new Error('MATCH in a sheet formula takes a whole column');
      return caseMatch(slot.sheet, slot.header, argument(0), caseLookedUp(node, scope));
    }
    case 'COUNTIFS':
      return caseLookedUp(node, scope);
  }
  const fold = folds[name];
  if (fold !== undefined) return caseFolded(node, fold, scope);
  const inner = args.map((part) => (part === undefined ? undefined : caseCompiled(part, scope)));
  const definition = scope.functions.get(name);
  return definition === undefined ? caseStandard(name, inner) : caseOurs(definition, inner);
}

type EmptyQuestion = Node & { readonly type: 'binary'; readonly left: { readonly args: readonly [Node] } };

/** LEN(…)=0: whether there is a text at all. */
const isEmptyQuestion = (node: Node & { readonly type: 'binary' }): node is EmptyQuestion =>
  node.operator === '=' &&
  node.left.type === 'call' &&
  node.left.name === 'LEN' &&
  node.left.args[0] !== undefined &&
  node.right.type === 'number' &&
  node.right.value === 0;

/** A number has digits, so it need not be written out to be counted. */
function caseEmpty(text: CaseFormula): CaseFormula {
  const length = caseStandard('LEN', [text]);
  const counted = caseBinary('=', length, () => same(0));
  return (row, among) => (text(row, among).of === 'numbers' ? same(false) : counted(row, among));
}

/** A formula's tree as a function of a row in many cases. Throws on what sheet formulas may not use. */
export function caseCompiled(node: Node, scope: Scope): CaseFormula {
  switch (node.type) {
    case 'number':
    case 'text':
    case 'boolean': {
      const constant = same(node.value);
      return () => constant;
    }
    case 'group':
      return caseCompiled(node.value, scope);
    case 'name':
      return ({ book }) => book.named(node.name);
    case 'placeholder': {
      const slot = scope.slot(node.name);
      if (slot === undefined || !('cell' in slot)) throw new Error(`{${node.name}} is no column of this sheet`);
      const { cell } = slot;
      const blank = same(null);
      return ({ cells }) => cells[cell] ?? blank;
    }
    case 'unary':
      return caseBinary(node.operator, () => same(0), caseCompiled(node.value, scope));
    case 'percent':
      return caseBinary('/', caseCompiled(node.value, scope), () => same(100));
    case 'binary':
      if (isEmptyQuestion(node)) return caseEmpty(caseCompiled(node.left.args[0], scope));
      return caseBinary(node.operator, caseCompiled(node.left, scope), caseCompiled(node.right, scope));
    case 'call':
      return caseCall(node, scope);
    case 'guard':
      return caseGuard(node, (part) => caseCompiled(part, scope));
    default:
      return caseByCase(node, scope);
  }
}
