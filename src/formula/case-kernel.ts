import { caseBinary } from './case-arithmetic.ts';
import { chosen, faultOf } from './case-choices.ts';
import { caseStandard } from './case-functions.ts';
import { caseGuard } from './case-guards.ts';
import { caseByCase, caseFolded, caseIndex, caseLookedUp, caseMatch, eachOnce } from './case-lookups.ts';
import { type CaseFormula, caseValue, collected, joined, parted, same } from './case-values.ts';
import type { EngineeringFunction } from './define.ts';
import { folds, type Scope } from './kernel.ts';
import type { Node } from './syntax.ts';
import { isFault, type Matrix, type Value } from './values.ts';

/**
 * A sheet's own formulas as functions of a row in many cases at once.
 *
 * The same trees as kernel.ts compiles, with the same values to the last bit; a test holds the two against each other
 * over random books. What depends on nothing that varies is worked out once. A choice is made once where all cases
 * choose alike, else each branch is worked out for the cases that take it.
 */

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
