import { CellError, ErrorType, type FunctionPlugin, SimpleRangeValue } from 'hyperformula';
import { Fault, type FaultCode, isFault, type Matrix, type Value } from './values.ts';

/** What the engine hands to functions and takes from them, as our values. */

const errorTypes: Readonly<Record<FaultCode, ErrorType>> = {
  '#VALUE!': ErrorType.VALUE,
  '#NUM!': ErrorType.NUM,
  '#N/A': ErrorType.NA,
  '#DIV/0!': ErrorType.DIV_BY_ZERO,
  '#REF!': ErrorType.REF,
  '#NAME?': ErrorType.NAME,
  '#CYCLE!': ErrorType.CYCLE,
  '#SPILL!': ErrorType.SPILL,
  '#ERROR!': ErrorType.ERROR,
};
const codes = new Map(Object.entries(errorTypes).map(([code, type]) => [type, code as FaultCode]));

export const faultCode = (type: ErrorType): FaultCode => codes.get(type) ?? '#ERROR!';

type Answer = ReturnType<FunctionPlugin['runFunction']>;
type Syntax = Parameters<FunctionPlugin['runFunction']>[0];
export type State = Parameters<FunctionPlugin['runFunction']>[1];
export interface Call {
  readonly args: Syntax;
}

/** Ranges that were handed over before: a function that runs cell by cell gets its other arguments each time. */
const handed = new WeakMap<SimpleRangeValue, Matrix>();

function rangeArgument(given: SimpleRangeValue): Matrix {
  const known = handed.get(given);
  if (known !== undefined) return known;
  const matrix = given.data.map((row) => row.map((cell) => single(cell)));
  handed.set(given, matrix);
  return matrix;
}

/** An argument as the engine hands it over: its errors, its empty cells and its ranges become ours. */
export function argument(given: unknown): Value | Matrix | undefined {
  if (given === undefined) return undefined;
  return given instanceof SimpleRangeValue ? rangeArgument(given) : single(given);
}

/** The engine's own error objects, so that one passed on keeps its message and its root. */
const originals = new WeakMap<Fault, CellError>();

function single(given: unknown): Value {
  if (given instanceof CellError) {
    const fault = new Fault(faultCode(given.type), given.message ?? '');
    originals.set(fault, given);
    return fault;
  }
  if (typeof given === 'number' || typeof given === 'string' || typeof given === 'boolean') return given;
  if (typeof given === 'object' && given !== null && 'val' in given && typeof given.val === 'number') return given.val;
  return null;
}

const answerCell = (value: Value): number | string | boolean | CellError =>
  isFault(value) ? (originals.get(value) ?? new CellError(errorTypes[value.code], value.message)) : (value ?? '');

/** Rows and columns that the engine has reserved for a formula's spill, when this call is the whole formula. */
export function reserved(
  call: Call,
  { formulaVertex }: State,
): { readonly height: number; readonly width: number } | undefined {
  const vertex = formulaVertex as
    | {
        readonly formula?: unknown;
        readonly array?: { readonly size?: { readonly height: number; readonly width: number } };
      }
    | undefined;
  return vertex?.formula === call ? vertex.array?.size : undefined;
}

/** A spill cut to the room there is: the engine can't take a larger one, and asks again once the room is made. */
export function cut(
  value: Value | Matrix,
  room: { readonly height: number; readonly width: number } | undefined,
): Value | Matrix {
  return room === undefined || !Array.isArray(value)
    ? value
    : (value as Matrix).slice(0, room.height).map((row) => row.slice(0, room.width));
}

export function answer(value: Value | Matrix): Answer {
  if (!Array.isArray(value)) return answerCell(value as Value);
  return SimpleRangeValue.onlyValues((value as Matrix).map((row) => row.map(answerCell)));
}

/** A value as a range of one, a range as itself. */
export const matrixOf = (value: Value | Matrix | undefined): Matrix =>
  Array.isArray(value) ? (value as Matrix) : [[(value ?? null) as Value]];
