import {
  ArraySize,
  CellError,
  ErrorType,
  type FunctionMetadata,
  FunctionArgumentType,
  SimpleRangeValue,
} from 'hyperformula';
import type { Call, State } from './engine-values.ts';
import { type Part, rawNumber } from './engine-parts.ts';
import { rangeIndex } from './engine-range-index.ts';
import { readConditions } from './engine-range-uses.ts';

/**
 * Standard functions that need more of the engine than their arguments' values: what was referred to, a size, a
 * condition, a name for a part. Source: ECMA-376 Part 1, 18.17.7; of LET its public description (from memory).
 */

/** The engine's family of functions, as far as these use it. */
export interface Family {
  evaluateAst(syntax: Call['args'][number], state: State): unknown;
  arraySizeForAst(syntax: Call['args'][number], state: State): ArraySize;
  runFunction(
    args: Call['args'],
    state: State,
    metadata: FunctionMetadata,
    compute: (...given: never[]) => unknown,
  ): unknown;
  readonly interpreter: unknown;
}

type Syntax = Call['args'][number];

interface EngineFunction {
  readonly metadata: Omit<FunctionMetadata, 'method'>;
  readonly run: (family: Family, call: Call, state: State, metadata: FunctionMetadata) => unknown;
  readonly size?: (family: Family, call: Call, state: State) => ArraySize;
}

const any = { argumentType: FunctionArgumentType.ANY };
const number = { argumentType: FunctionArgumentType.NUMBER };
const range = { argumentType: FunctionArgumentType.RANGE };
const refused = (type: ErrorType, message: string): CellError => new CellError(type, message);

/**
 * One row, column or cell of a range; whole rows or columns for places 0 that are written out.
 *
 * How many cells a formula fills is settled when it is entered, so a 0 that is worked out is refused.
 */
function indexed(
  given: SimpleRangeValue,
  first: number,
  second: number | undefined,
  areWritten: readonly boolean[],
): unknown {
  const [height, width] = [given.height(), given.width()];
  // One place in a row or column counts along it.
  const [row, column] =
    second === undefined
      ? height === 1 && width > 1
        ? [1, Math.trunc(first)]
        : [Math.trunc(first), width === 1 ? 1 : 0]
      : [Math.trunc(first), Math.trunc(second)];
  if (row < 0 || column < 0) return refused(ErrorType.VALUE, 'INDEX counts rows and columns from 1');
  if (
    (Math.trunc(first) === 0 && areWritten[0] !== true) ||
    (second !== undefined && column === 0 && areWritten[1] !== true)
  )
    return refused(ErrorType.VALUE, 'INDEX counts rows and columns from 1; a 0 for all of them must be written out');
  if (row > height || column > width)
    return refused(
      ErrorType.REF,
      `INDEX: the range has ${height} rows and ${width} columns; row ${row}, column ${column} is outside it`,
    );
  const rows = row === 0 ? given.data : given.data.slice(row - 1, row);
  const cells = column === 0 ? rows : rows.map((line) => line.slice(column - 1, column));
  const [[only] = []] = cells;
  return cells.length === 1 && cells[0]?.length === 1 ? only : SimpleRangeValue.onlyValues(cells);
}

/** A number that is written out. */
const literal = (syntax: Syntax | undefined): number | undefined =>
  syntax === undefined || !('value' in syntax) || typeof syntax.value !== 'number' ? undefined : syntax.value;

/** Whether a place is written as 0, or left blank between its commas. */
const isWhole = (syntax: Syntax | undefined): boolean => literal(syntax) === 0 || String(syntax?.type) === 'EMPTY';

const index: EngineFunction = {
  metadata: { parameters: [range, number, { ...number, optionalArg: true }] },
  run: (family, { args }, state, metadata) =>
    family.runFunction(args, state, metadata, (given: SimpleRangeValue, first: number, second?: number) =>
      indexed(given, first, second, [isWhole(args[1]), isWhole(args[2])]),
    ),
  size(family, { args }, state) {
    const [area, first, second] = args;
    if (area === undefined) return ArraySize.scalar();
    const { height, width } = family.arraySizeForAst(area, state);
    const columns = second === undefined ? height > 1 && width > 1 : isWhole(second);
    return new ArraySize(columns ? width : 1, isWhole(first) && !(second === undefined && height === 1) ? height : 1);
  },
};

const references = new Set(['CELL_REFERENCE', 'CELL_RANGE', 'COLUMN_RANGE', 'ROW_RANGE']);

const isRef: EngineFunction = {
  metadata: { parameters: [any] },
  run(_family, { args: [syntax, ...others] }) {
    let inner = syntax;
    while (inner !== undefined && String(inner.type) === 'PARENTHESIS')
      inner = (inner as { readonly expression: Syntax }).expression;
    return inner === undefined || others.length > 0
      ? refused(ErrorType.NA, 'ISREF takes 1 argument')
      : references.has(inner.type);
  },
};

/** TYPE: 1 number, 2 text, 4 truth, 16 error, 64 range of several. */
const type: EngineFunction = {
  metadata: { parameters: [any], vectorizationForbidden: true },
  run(family, { args: [syntax, ...others] }, state) {
    if (syntax === undefined || others.length > 0) return refused(ErrorType.NA, 'TYPE takes 1 argument');
    const value = family.evaluateAst(syntax, state);
    if (value instanceof SimpleRangeValue) return 64;
    if (value instanceof CellError) return 16;
    return typeof value === 'string' ? 2 : typeof value === 'boolean' ? 4 : 1;
  },
};

const averageIfs: EngineFunction = {
  metadata: { parameters: [range, range, { argumentType: FunctionArgumentType.NOERROR }], repeatLastArgs: 2 },
  run: (family, { args }, state, metadata) =>
    family.runFunction(args, state, metadata, (averaged: SimpleRangeValue, ...pairs: unknown[]) => {
      const conditions = readConditions(family.interpreter as Part, pairs);
      if (conditions === undefined) return refused(ErrorType.VALUE, 'AVERAGEIFS: a condition can’t be read');
      if (conditions.some(({ range }) => range.numberOfElements() !== averaged.numberOfElements()))
        return refused(ErrorType.VALUE, 'AVERAGEIFS: all ranges must have the same size');
      const kept: unknown[] = [];
      rangeIndex(family.interpreter as object).fold(conditions, averaged, (value) => kept.push(value));
      const fault = kept.find((value) => value instanceof CellError);
      if (fault !== undefined) return fault;
      const numbers = kept.map(rawNumber).filter((value) => value !== undefined);
      return numbers.length === 0
        ? refused(ErrorType.DIV_BY_ZERO, 'AVERAGEIFS: no number meets the conditions')
        : numbers.reduce((sum, value) => sum + value, 0) / numbers.length;
    }),
};

/** The arguments of a LET within another, in which its own names go before those outside. */
function replacedWithin(args: readonly unknown[], name: string, value: unknown): unknown[] {
  const own = args.findIndex((item, at) => at % 2 === 0 && at < args.length - 1 && nameOf(item) === name);
  return args.map((item, at) => {
    const isName = at % 2 === 0 && at < args.length - 1;
    return isName || (own >= 0 && at > own + 1) ? item : replaced(item, name, value);
  });
}

const nameOf = (syntax: unknown): string | undefined =>
  typeof syntax === 'object' && syntax !== null && 'expressionName' in syntax
    ? String(syntax.expressionName).toLowerCase()
    : undefined;

/** A part of a formula with a name replaced by its value. */
function replaced(syntax: unknown, name: string, value: unknown): unknown {
  if (Array.isArray(syntax)) return syntax.map((item: unknown) => replaced(item, name, value));
  if (typeof syntax !== 'object' || syntax === null || !('type' in syntax)) return syntax;
  if (nameOf(syntax) === name) return { type: 'STRING', value };
  if ('procedureName' in syntax && syntax.procedureName === 'LET' && 'args' in syntax)
    return { ...syntax, args: replacedWithin(syntax.args as readonly unknown[], name, value) };
  const inner = ['args', 'left', 'right', 'value', 'expression'].filter((key) => key in syntax);
  return inner.length === 0
    ? syntax
    : { ...syntax, ...Object.fromEntries(inner.map((key) => [key, replaced((syntax as Part)[key], name, value)])) };
}

function letValue(family: Family, { args }: Call, state: State): unknown {
  if (args.length < 3 || args.length % 2 === 0)
    return refused(ErrorType.NA, 'LET takes names and values in turn, and what is computed with them: LET(x,A1*2,x+x)');
  let rest: unknown[] = [...args];
  while (rest.length > 1) {
    const [name, part] = rest as [unknown, Syntax];
    const called = nameOf(name);
    if (called === undefined)
      return refused(ErrorType.VALUE, 'LET: a name must be letters, and none that a cell has: "width", not "W1"');
    const value = family.evaluateAst(part, state);
    rest = replacedWithin(rest.slice(2), called, value);
  }
  return family.evaluateAst(rest[0] as Syntax, state);
}

const letFunction: EngineFunction = {
  metadata: { parameters: [any], repeatLastArgs: 1, vectorizationForbidden: true },
  run: letValue,
  size(family, call, state) {
    const value = letValue(family, call, state);
    return value instanceof SimpleRangeValue ? new ArraySize(value.width(), value.height()) : ArraySize.scalar();
  },
};

/** Functions of files of 2007 that are newer ones without their last argument, FALSE. */
const withoutSum = (other: string): EngineFunction => ({
  metadata: { parameters: [number], repeatLastArgs: 1 },
  run(family, call, state) {
    const { functionRegistry } = family.interpreter as {
      readonly functionRegistry: { getFunction(name: string): ((call: unknown, state: State) => unknown) | undefined };
    };
    const args = [...call.args, { type: 'STRING', value: false }];
    return functionRegistry.getFunction(other)?.({ ...call, procedureName: other, args }, state);
  },
});

export const engineFunctions: Readonly<Record<string, EngineFunction>> = {
  INDEX: index,
  ISREF: isRef,
  TYPE: type,
  AVERAGEIFS: averageIfs,
  LET: letFunction,
  NEGBINOMDIST: withoutSum('NEGBINOM.DIST'),
  HYPGEOMDIST: withoutSum('HYPGEOM.DIST'),
};
