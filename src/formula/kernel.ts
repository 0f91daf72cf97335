import type { EngineeringFunction } from './define.ts';
import {
  arithmetic,
  asNumber,
  asText,
  asTruth,
  compared,
  comparisons,
  missingInput,
  outOfItsBounds,
  standardFunctions,
} from './standard.ts';
import type { Guard, Node } from './syntax.ts';
import { Fault, isFault, type Matrix, type Value } from './values.ts';

/**
 * A sheet's own formulas as functions of a row.
 *
 * A column's formula is the same in every row, so it is compiled once and run over the records. The engine holds a cell
 * graph, which it needs for what users type; building that graph for every computed cell of 10,000 belts takes it over
 * ten seconds (DEVELOPERS.md has the figures), running compiled rows takes a fraction of one. The same compiled rows
 * answer what-ifs: a row with other inputs needs no cell at all.
 */

/** What a row's formulas can see beyond their own row. */
export interface BookValues {
  readonly named: (name: string) => Value;
  /** The value of a column in a sheet row, counted from 1: row 1 holds the header. */
  readonly cell: (sheet: string, header: string, row: number) => Value;
  /** The sheet row number at which a column holds a value (text without case), or #N/A. */
  readonly find: (sheet: string, header: string, value: Value) => Value;
  /** All sheet row numbers at which a column holds a value (text without case), ascending. */
  readonly all: (sheet: string, header: string, value: Value) => readonly number[];
}

/** A formula over one row's cells; `at` is the row's number in its sheet, counted from 1. */
export type RowFormula = (row: readonly Value[], book: BookValues, at: number) => Value;

/** How a placeholder is meant: a cell of the same row, or a whole column of a sheet. */
export type Slot = { readonly cell: number } | { readonly sheet: string; readonly header: string };

export interface Scope {
  readonly functions: ReadonlyMap<string, EngineeringFunction>;
  readonly slot: (placeholder: string) => Slot | undefined;
}

const constant =
  (value: Value): RowFormula =>
  () =>
    value;

function wholeColumn(node: Node | undefined, scope: Scope): { readonly sheet: string; readonly header: string } {
  const slot = node?.type === 'placeholder' ? scope.slot(node.name) : undefined;
  if (slot === undefined || 'cell' in slot)
    throw new Error('INDEX, MATCH and conditional sums in a sheet formula take whole columns, as {Sheet.Column}');
  return slot;
}

function compiledBinary(operator: string, left: RowFormula, right: RowFormula): RowFormula {
  const compute = arithmetic[operator];
  if (compute !== undefined) {
    return (row, book, at) => {
      const a = asNumber(left(row, book, at));
      if (isFault(a)) return a;
      const b = asNumber(right(row, book, at));
      return isFault(b) ? b : compute(a, b);
    };
  }
  if (operator === '&') {
    return (row, book, at) => {
      const a = asText(left(row, book, at));
      if (isFault(a)) return a;
      const b = asText(right(row, book, at));
      return isFault(b) ? b : a + b;
    };
  }
  const holds = comparisons[operator];
  if (holds === undefined) throw new Error(`the operator ${operator} is not known to sheet formulas`);
  return (row, book, at) => {
    const a = left(row, book, at);
    if (isFault(a)) return a;
    const b = right(row, book, at);
    return isFault(b) ? b : holds(compared(a, b));
  };
}

export type Fold = (numbers: readonly number[]) => number;

/** What conditional sums and the like make of the numbers they find; a count needs none. */
export const folds: Readonly<Record<string, Fold>> = {
  SUMIFS: (numbers) => numbers.reduce((total, value) => total + value, 0),
  MINIFS: (numbers) => (numbers.length === 0 ? 0 : numbers.reduce((least, value) => Math.min(least, value))),
  MAXIFS: (numbers) => (numbers.length === 0 ? 0 : numbers.reduce((most, value) => Math.max(most, value))),
};

/** What a conditional sum or the like comes to over the values in the rows that it found. */
export function foldedRows(fold: Fold, values: Iterable<Value>): Value {
  const numbers: number[] = [];
  for (const value of values) {
    if (isFault(value)) return value;
    if (typeof value === 'number') numbers.push(value);
  }
  return fold(numbers);
}

/**
 * The rows that meet conditions: whole columns, each with the value that it must hold; a condition's error.
 *
 * Conditions are equalities of texts without case or of numbers; the first one is looked up, the others are compared in
 * the rows found. Programs read a condition that begins with a comparison or holds an asterisk otherwise: names do not.
 */
export function conditionalRows(
  pairs: readonly (Node | undefined)[],
  scope: Scope,
): (row: readonly Value[], book: BookValues, at: number) => readonly number[] | Fault {
  const conditions = Array.from({ length: pairs.length / 2 }, (_, index) => {
    const value = pairs[2 * index + 1];
    return {
      ...wholeColumn(pairs[2 * index], scope),
      value: value === undefined ? constant(null) : compiled(value, scope),
    };
  });
  const [first, ...others] = conditions;
  if (first === undefined) throw new Error('a conditional sum needs a column and the value it must hold');
  return (row, book, at) => {
    const wanted: Value[] = [];
    for (const { value } of conditions) {
      const given = value(row, book, at);
      if (isFault(given)) return given;
      wanted.push(given);
    }
    const [key = null, ...rest] = wanted;
    return book.all(first.sheet, first.header, key).filter((place) =>
      others.every(({ sheet, header }, index) => {
        const held = book.cell(sheet, header, place);
        return held !== null && !isFault(held) && compared(held, rest[index] ?? null) === 0;
      }),
    );
  };
}

function compiledConditional(fold: Fold | undefined, args: readonly (Node | undefined)[], scope: Scope): RowFormula {
  const source = fold === undefined ? undefined : wholeColumn(args[0], scope);
  const found = conditionalRows(fold === undefined ? args : args.slice(1), scope);
  return (row, book, at) => {
    const rows = found(row, book, at);
    if (isFault(rows)) return rows;
    if (fold === undefined || source === undefined) return rows.length;
    return foldedRows(
      fold,
      rows.map((place) => book.cell(source.sheet, source.header, place)),
    );
  };
}

// oxlint-disable-next-line max-lines-per-function -- one branch for each function that chooses or looks up.
function compiledCall(name: string, args: readonly (Node | undefined)[], scope: Scope): RowFormula {
  const argument = (index: number): RowFormula => {
    const node = args[index];
    return node === undefined ? constant(null) : compiled(node, scope);
  };
  if (name === 'IF') {
    const [condition, then, otherwise] = [argument(0), argument(1), args.length > 2 ? argument(2) : constant(false)];
    return (row, book, at) => {
      const truth = asTruth(condition(row, book, at));
      return isFault(truth) ? truth : truth ? then(row, book, at) : otherwise(row, book, at);
    };
  }
  if (name === 'IFERROR') {
    const [first, second] = [argument(0), argument(1)];
    return (row, book, at) => {
      const value = first(row, book, at);
      return isFault(value) ? second(row, book, at) : value;
    };
  }
  if (name === 'AND') {
    const parts = args.flatMap((node) => (node === undefined ? [] : [compiled(node, scope)]));
    return (row, book, at) => {
      let every = true;
      for (const part of parts) {
        const truth = asTruth(part(row, book, at));
        if (isFault(truth)) return truth;
        every &&= truth;
      }
      return every;
    };
  }
  if (name === 'ISNUMBER') {
    const value = argument(0);
    return (row, book, at) => typeof value(row, book, at) === 'number';
  }
  if (name === 'INDEX') {
    const { sheet, header } = wholeColumn(args[0], scope);
    const wanted = argument(1);
    return (row, book, at) => {
      const place = asNumber(wanted(row, book, at));
      if (isFault(place)) return place;
      return place < 1 ? new Fault('#VALUE!', 'INDEX counts rows from 1') : book.cell(sheet, header, Math.trunc(place));
    };
  }
  if (name === 'ROW') return (_row, _book, at) => at;
  if (name === 'COUNTIFS' || folds[name] !== undefined) return compiledConditional(folds[name], args, scope);
  if (name === 'MATCH') {
    const { sheet, header } = wholeColumn(args[1], scope);
    const wanted = argument(0);
    return (row, book, at) => {
      const value = wanted(row, book, at);
      return isFault(value) ? value : book.find(sheet, header, value);
    };
  }
  const inner = args.map((node) => (node === undefined ? undefined : compiled(node, scope)));
  const engineering = scope.functions.get(name);
  if (engineering !== undefined) {
    return (row, book, at) => single(engineering.evaluate(inner.map((formula) => formula?.(row, book, at))));
  }
  const standard = standardFunctions[name];
  if (standard === undefined) throw new Error(`${name} is not known to sheet formulas`);
  return (row, book, at) => standard(inner.map((formula) => formula?.(row, book, at) ?? null));
}

/** A guard: its cells are read once each, and the part is worked out only behind them. */
function compiledGuard({ cells, must, without, value }: Guard, scope: Scope): RowFormula {
  const read = cells.map(({ cell, min = -Infinity, above = -Infinity, max = Infinity }) => ({
    cell: compiled(cell, scope),
    min,
    above,
    max,
  }));
  const conditions = must.map((condition) => compiled(condition, scope));
  const answer = compiled(value, scope);
  return (row, book, at) => {
    let outside = false;
    for (const { cell, min, above, max } of read) {
      const number = cell(row, book, at);
      if (typeof number !== 'number') return without === 'nothing' ? '' : isFault(number) ? number : missingInput;
      outside ||= number < min || number <= above || number > max;
    }
    if (outside) return outOfItsBounds;
    for (const condition of conditions) {
      const truth = asTruth(condition(row, book, at));
      if (truth !== true) return isFault(truth) ? truth : outOfItsBounds;
    }
    return answer(row, book, at);
  };
}

const single = (value: Value | Matrix): Value =>
  Array.isArray(value) ? ((value as Matrix)[0]?.[0] ?? null) : (value as Value);

/** A formula's tree as a function of a row. Throws on what sheet formulas may not use: a programmer's error. */
export function compiled(node: Node, scope: Scope): RowFormula {
  switch (node.type) {
    case 'number':
    case 'text':
    case 'boolean':
      return constant(node.value);
    case 'group':
      return compiled(node.value, scope);
    case 'name':
      return (_, book) => book.named(node.name);
    case 'placeholder': {
      const slot = scope.slot(node.name);
      if (slot === undefined || !('cell' in slot)) throw new Error(`{${node.name}} is no column of this sheet`);
      const { cell } = slot;
      return (row) => row[cell] ?? null;
    }
    case 'unary':
      return compiledBinary(node.operator, constant(0), compiled(node.value, scope));
    case 'percent':
      return compiledBinary('/', compiled(node.value, scope), constant(100));
    case 'binary':
      return compiledBinary(node.operator, compiled(node.left, scope), compiled(node.right, scope));
    case 'call':
      return compiledCall(node.name, node.args, scope);
    case 'guard':
      return compiledGuard(node, scope);
    default:
      throw new Error(
        `a sheet formula may not hold ` +
          `${node.type === 'reference' ? `the cell reference ${node.text}` : `this ${node.type}`}`,
      );
  }
}
