import {
  ArraySize,
  CellError,
  ErrorType,
  type FunctionArgument,
  FunctionArgumentType,
  type FunctionMetadata,
  FunctionPlugin,
  HyperFormula,
} from 'hyperformula';
import { answer, argument, type Call, cut, matrixOf, reserved, type State } from './engine-values.ts';
import { engineFunctions, type Family } from './engine-references.ts';
import { standardFunctions } from './spreadsheet/index.ts';
import { engineOnly, refusedFunctions } from './spreadsheet/refused-functions.ts';
import { type Kind, NoResult, type StandardFunction, type Takes } from './spreadsheet/standard-function.ts';
import { Fault, type Matrix, type Value } from './values.ts';

/**
 * Standard functions that are computed here, told to the engine in the place of its own; and those that there are not,
 * which say what to write instead.
 */

const engineKinds: Readonly<Record<Kind, FunctionArgumentType>> = {
  number: FunctionArgumentType.NUMBER,
  text: FunctionArgumentType.STRING,
  truth: FunctionArgumentType.BOOLEAN,
  value: FunctionArgumentType.NOERROR,
  fault: FunctionArgumentType.SCALAR,
  range: FunctionArgumentType.RANGE,
  any: FunctionArgumentType.ANY,
};

const isKind = (text: string): text is Kind => text in engineKinds;

function described(takes: Takes): FunctionArgument {
  const kind = takes.replace('?', '');
  if (!isKind(kind)) throw new Error(`no argument is of the kind ${kind}`);
  return { argumentType: engineKinds[kind], optionalArg: takes.endsWith('?') };
}

function computed(definition: StandardFunction, given: readonly unknown[]): Value | Matrix {
  const values = given.map((item, index) => {
    const takes = definition.takes[Math.min(index, definition.takes.length - 1)];
    return takes?.startsWith('range') === true && item !== undefined ? matrixOf(argument(item)) : argument(item);
  });
  try {
    return definition.compute(values);
  } catch (error) {
    if (error instanceof NoResult) return new Fault(error.code, error.message);
    throw error;
  }
}

type Method = (this: FunctionPlugin, call: Call, state: State) => unknown;

class StandardPlugin extends FunctionPlugin {
  static override implementedFunctions: Record<string, FunctionMetadata> = {};
}

const methods: Record<string, Method> = {};

function implement(name: string, metadata: Omit<FunctionMetadata, 'method'>, method: Method, size?: Method): void {
  const own = `value of ${name}`;
  const sizeMethod = `size of ${name}`;
  StandardPlugin.implementedFunctions[name] = {
    ...metadata,
    method: own,
    ...(size === undefined ? {} : { sizeOfResultArrayMethod: sizeMethod }),
  };
  methods[own] = method;
  if (size !== undefined) methods[sizeMethod] = size;
}

function implementStandard(definition: StandardFunction): void {
  const { name, takes, repeats, spills } = definition;
  const metadata = { vectorizationForbidden: spills, repeatLastArgs: repeats, parameters: takes.map(described) };
  const run: Method = function run(call, state) {
    return this['runFunction'](call.args, state, this['metadata'](name), (...given: unknown[]) =>
      answer(cut(computed(definition, given), spills ? reserved(call, state) : undefined)),
    );
  };
  const size: Method = function size(call, state) {
    const result = this['runFunction'](call.args, state, this['metadata'](name), (...given: unknown[]) =>
      answer(computed(definition, given)),
    );
    const value = argument(result);
    return Array.isArray(value) ? new ArraySize((value as Matrix)[0]?.length ?? 1, value.length) : ArraySize.scalar();
  };
  implement(name, metadata, run, spills ? size : undefined);
}

const refusal = (name: string, instead: string): Method =>
  function refuse() {
    return new CellError(ErrorType.NAME, `there is no function ${name} here: ${instead}`);
  };

function implementAll(): void {
  for (const definition of standardFunctions) implementStandard(definition);
  for (const [name, instead] of Object.entries({ ...refusedFunctions, ...engineOnly }))
    if (name !== 'VERSION')
      implement(
        name,
        { parameters: [{ argumentType: FunctionArgumentType.ANY, optionalArg: true }], repeatLastArgs: 1 },
        refusal(name, instead),
      );
  for (const [name, { metadata, run, size }] of Object.entries(engineFunctions))
    implement(
      name,
      metadata,
      function runs(call, state) {
        return run(this as unknown as Family, call, state, this['metadata'](name));
      },
      size === undefined
        ? undefined
        : function sizes(call, state) {
            return size(this as unknown as Family, call, state);
          },
    );
}

/** Functions whose results are as large as their arguments make them. */
export const spillingStandard: readonly string[] = [
  ...standardFunctions.filter(({ spills }) => spills).map(({ name }) => name),
  'LET',
];

let registered = false;

/** Registers the functions with the engine, once for the process. */
export function registerStandardFunctions(): void {
  if (registered) return;
  registered = true;
  implementAll();
  Object.assign(StandardPlugin.prototype, methods);
  HyperFormula.registerFunctionPlugin(StandardPlugin, {
    enGB: Object.fromEntries(Object.keys(StandardPlugin.implementedFunctions).map((name) => [name, name])),
  });
}
