import {
  ArraySize,
  CellError,
  ErrorType,
  type FunctionMetadata,
  FunctionArgumentType,
  FunctionPlugin,
  HyperFormula,
  SimpleRangeValue,
} from 'hyperformula';
import type { EngineeringFunction } from './define.ts';
import { boundInterpreter } from './engine-bounds.ts';
import { takesRange } from './parameter.ts';
import { Fault, type FaultCode, isFault, type Matrix, type Value } from './values.ts';

/** Engineering functions as the engine's own: registration, values in, values and messages out. */

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
type State = Parameters<FunctionPlugin['runFunction']>[1];
interface Call {
  readonly args: Syntax;
}

/** An argument as the engine hands it over: its errors, its empty cells and its ranges become ours. */
function argument(given: unknown): Value | Matrix | undefined {
  if (given === undefined) return undefined;
  if (given instanceof SimpleRangeValue) return given.data.map((row) => row.map((cell) => single(cell)));
  return single(given);
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
function reserved(
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
function cut(
  value: Value | Matrix,
  room: { readonly height: number; readonly width: number } | undefined,
): Value | Matrix {
  return room === undefined || !Array.isArray(value)
    ? value
    : (value as Matrix).slice(0, room.height).map((row) => row.slice(0, room.width));
}

function answer(value: Value | Matrix): Answer {
  if (!Array.isArray(value)) return answerCell(value as Value);
  return SimpleRangeValue.onlyValues((value as Matrix).map((row) => row.map(answerCell)));
}

let registered = false;

/** Registers the functions with the engine, once for the process. */
export function registerFunctions(functions: readonly EngineeringFunction[]): void {
  if (registered) return;
  registered = true;
  class EngineeringPlugin extends FunctionPlugin {
    static override implementedFunctions: Record<string, FunctionMetadata> = {};

    constructor(interpreter: ConstructorParameters<typeof FunctionPlugin>[0]) {
      super(interpreter);
      boundInterpreter(interpreter, new Set(functions.map(({ name }) => name)));
    }
  }
  const methods: Record<string, (this: EngineeringPlugin, call: Call, state: State) => unknown> = {};
  for (const definition of functions) {
    const method = `value of ${definition.name}`;
    const sizeMethod = `size of ${definition.name}`;
    const metadata: FunctionMetadata = {
      method,
      vectorizationForbidden: definition.spills,
      // So that a call with too many arguments reaches the function, whose message says what it takes.
      repeatLastArgs: 1,
      parameters: Object.values(definition.parameters).map((parameter) => ({
        argumentType: takesRange(parameter) ? FunctionArgumentType.ANY : FunctionArgumentType.SCALAR,
        optionalArg: true,
      })),
      ...(definition.spills ? { sizeOfResultArrayMethod: sizeMethod } : {}),
    };
    EngineeringPlugin.implementedFunctions[definition.name] = metadata;
    const takesAny = Object.values(definition.parameters).some(({ rest }) => rest === true);
    methods[method] = function value(call, state) {
      // The engine answers with the first error that stands where a range may: a verdict is known without it.
      if (takesAny)
        return answer(definition.evaluate(call.args.map((syntax) => argument(this['evaluateAst'](syntax, state)))));
      return this['runFunction'](call.args, state, metadata, (...given: unknown[]) =>
        answer(cut(definition.evaluate(given.map(argument)), definition.spills ? reserved(call, state) : undefined)),
      );
    };
    if (definition.spills) {
      methods[sizeMethod] = function size(call, state) {
        const value = definition.evaluate(call.args.map((syntax) => argument(this['evaluateAst'](syntax, state))));
        return Array.isArray(value)
          ? new ArraySize((value as Matrix)[0]?.length ?? 1, value.length)
          : ArraySize.scalar();
      };
    }
  }
  Object.assign(EngineeringPlugin.prototype, methods);
  HyperFormula.registerFunctionPlugin(EngineeringPlugin, {
    enGB: Object.fromEntries(functions.map(({ name }) => [name, name])),
  });
}
