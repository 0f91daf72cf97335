import type { EngineeringFunction } from './define.ts';
import { arithmetic, asNumber, asText, asTruth, compared, comparisons, standardFunctions } from './standard.ts';
import type { Node } from './syntax.ts';
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
  /** A column's values by sheet row number: index 1 is the header. */
  readonly column: (sheet: string, header: string) => readonly Value[];
  /** The sheet row number at which a column holds a value (text without case), or #N/A. */
  readonly find: (sheet: string, header: string, value: Value) => Value;
}

export type RowFormula = (row: readonly Value[], book: BookValues) => Value;

/** How a placeholder is meant: a cell of the same row, or a whole column of a sheet. */
export type Slot = { readonly cell: number } | { readonly sheet: string; readonly header: string };

export interface Scope {
  readonly functions: ReadonlyMap<string, EngineeringFunction>;
  readonly slot: (placeholder: string) => Slot | undefined;
}

const constant = (value: Value): RowFormula => () => value;

function wholeColumn(node: Node | undefined, scope: Scope): { readonly sheet: string; readonly header: string } {
  const slot = node?.type === 'placeholder' ? scope.slot(node.name) : undefined;
  if (slot === undefined || 'cell' in slot) throw new Error('INDEX and MATCH in a sheet formula take a whole column, as {Sheet.Column}');
  return slot;
}

function compiledBinary(operator: string, left: RowFormula, right: RowFormula): RowFormula {
  const compute = arithmetic[operator];
  if (compute !== undefined) {
    return (row, book) => {
      const a = asNumber(left(row, book));
      if (isFault(a)) return a;
      const b = asNumber(right(row, book));
      return isFault(b) ? b : compute(a, b);
    };
  }
  if (operator === '&') {
    return (row, book) => {
      const a = asText(left(row, book));
      if (isFault(a)) return a;
      const b = asText(right(row, book));
      return isFault(b) ? b : a + b;
    };
  }
  const holds = comparisons[operator];
  if (holds === undefined) throw new Error(`the operator ${operator} is not known to sheet formulas`);
  return (row, book) => {
    const a = left(row, book);
    if (isFault(a)) return a;
    const b = right(row, book);
    return isFault(b) ? b : holds(compared(a, b));
  };
}

function compiledCall(name: string, args: readonly (Node | undefined)[], scope: Scope): RowFormula {
  const argument = (index: number): RowFormula => {
    const node = args[index];
    return node === undefined ? constant(null) : compiled(node, scope);
  };
  if (name === 'IF') {
    const [condition, then, otherwise] = [argument(0), argument(1), args.length > 2 ? argument(2) : constant(false)];
    return (row, book) => {
      const truth = asTruth(condition(row, book));
      return isFault(truth) ? truth : truth ? then(row, book) : otherwise(row, book);
    };
  }
  if (name === 'IFERROR') {
    const [first, second] = [argument(0), argument(1)];
    return (row, book) => {
      const value = first(row, book);
      return isFault(value) ? second(row, book) : value;
    };
  }
  if (name === 'AND') {
    const parts = args.flatMap((node) => (node === undefined ? [] : [compiled(node, scope)]));
    return (row, book) => {
      let every = true;
      for (const part of parts) {
        const truth = asTruth(part(row, book));
        if (isFault(truth)) return truth;
        every &&= truth;
      }
      return every;
    };
  }
  if (name === 'ISNUMBER') {
    const value = argument(0);
    return (row, book) => typeof value(row, book) === 'number';
  }
  if (name === 'INDEX') {
    const { sheet, header } = wholeColumn(args[0], scope);
    const at = argument(1);
    return (row, book) => {
      const place = asNumber(at(row, book));
      if (isFault(place)) return place;
      return place < 1 ? new Fault('#VALUE!', 'INDEX counts rows from 1') : book.column(sheet, header)[Math.trunc(place)] ?? null;
    };
  }
  if (name === 'MATCH') {
    const { sheet, header } = wholeColumn(args[1], scope);
    const wanted = argument(0);
    return (row, book) => {
      const value = wanted(row, book);
      return isFault(value) ? value : book.find(sheet, header, value);
    };
  }
  const inner = args.map((node) => (node === undefined ? undefined : compiled(node, scope)));
  const engineering = scope.functions.get(name);
  if (engineering !== undefined) {
    return (row, book) => single(engineering.evaluate(inner.map((formula) => formula?.(row, book))));
  }
  const standard = standardFunctions[name];
  if (standard === undefined) throw new Error(`${name} is not known to sheet formulas`);
  return (row, book) => standard(inner.map((formula) => formula?.(row, book) ?? null));
}

const single = (value: Value | Matrix): Value => (Array.isArray(value) ? ((value as Matrix)[0]?.[0] ?? null) : (value as Value));

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
    default:
      throw new Error(`a sheet formula may not hold ${node.type === 'reference' ? `the cell reference ${node.text}` : `this ${node.type}`}`);
  }
}
