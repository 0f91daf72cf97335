import { ArraySize, type FunctionMetadata, FunctionArgumentType, FunctionPlugin, HyperFormula } from 'hyperformula';
import type { EngineeringFunction } from './define.ts';
import { boundInterpreter } from './engine-bounds.ts';
import { shortened, takeArguments, takeValues } from './engine-coercion.ts';
import { figuresIn } from './engine-figures.ts';
import { answer, argument, type Call, cut, reserved, type State } from './engine-values.ts';
import { takesRange } from './parameter.ts';
import type { Matrix, Value } from './values.ts';

/** Engineering functions as the engine's own: registration, values in, values and messages out. */

let registered = false;

/** Registers the functions with the engine, once for the process. */
export function registerFunctions(functions: readonly EngineeringFunction[]): void {
  if (registered) return;
  registered = true;
  class EngineeringPlugin extends FunctionPlugin {
    static override implementedFunctions: Record<string, FunctionMetadata> = {};

    constructor(interpreter: ConstructorParameters<typeof FunctionPlugin>[0]) {
      super(interpreter);
      boundInterpreter(interpreter, new Set(functions.map(({ name }) => name)), takeArguments, shortened);
      takeValues(interpreter);
    }
  }
  const methods: Record<string, (this: EngineeringPlugin, call: Call, state: State) => unknown> = {};
  for (const definition of functions) {
    const method = `value of ${definition.name}`;
    const sizeMethod = `size of ${definition.name}`;
    const reads = Object.keys(definition.figures).length > 0;
    /** What was typed, and the figures that go with it. */
    const valueOf = (call: Call, given: readonly unknown[]): Value | Matrix => {
      const [figures, ...typed] = reads ? given : [undefined, ...given];
      return definition.evaluate(typed.map(argument), reads ? figuresIn(call, figures) : undefined);
    };
    const metadata: FunctionMetadata = {
      method,
      vectorizationForbidden: definition.spills,
      // So that a call with too many arguments reaches the function, whose message says what it takes.
      repeatLastArgs: 1,
      parameters: [
        ...(reads ? [{ argumentType: FunctionArgumentType.ANY, optionalArg: true }] : []),
        ...Object.values(definition.parameters).map((parameter) => ({
          argumentType: takesRange(parameter) ? FunctionArgumentType.ANY : FunctionArgumentType.SCALAR,
          optionalArg: true,
        })),
      ],
      ...(definition.spills ? { sizeOfResultArrayMethod: sizeMethod } : {}),
    };
    EngineeringPlugin.implementedFunctions[definition.name] = metadata;
    const takesAny = Object.values(definition.parameters).some(({ rest }) => rest === true);
    methods[method] = function value(call, state) {
      // The engine answers with the first error that stands where a range may: a verdict is known without it.
      if (takesAny)
        return answer(definition.evaluate(call.args.map((syntax) => argument(this['evaluateAst'](syntax, state)))));
      return this['runFunction'](call.args, state, metadata, (...given: unknown[]) =>
        answer(cut(valueOf(call, given), definition.spills ? reserved(call, state) : undefined)),
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
