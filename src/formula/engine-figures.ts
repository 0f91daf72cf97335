import { CellError, FunctionArgumentType, FunctionPlugin, HyperFormula, SimpleRangeValue } from 'hyperformula';
import type { EngineeringFunction } from './define.ts';
import { argument, type Call, matrixOf, type State } from './engine-values.ts';
import type { Value } from './values.ts';

/**
 * Printed figures that a book may change, for functions in cells.
 *
 * The engine works a cell out again when what its formula names has changed, so the figures must stand in the formula:
 * a first argument that nobody typed names the values that hold them. It is put in where a formula goes into the
 * engine and taken out where one comes back. A book without such values has none to name; the printed figures hold.
 */

const marker = 'TABLE.FIGURES';

export class FigureNames {
  readonly #calls: ReadonlyMap<string, string>;
  readonly #pattern: RegExp | undefined;

  /** `names` are the values that the book has, in lower case. */
  constructor(functions: readonly EngineeringFunction[], names: ReadonlySet<string>) {
    const reading = functions.filter(({ figures }) => Object.keys(figures).length > 0);
    this.#calls = new Map(
      reading.map(({ name, figures }) => {
        const known = Object.keys(figures).filter((figure) => names.has(figure.toLowerCase()));
        return [name, `${marker}(${known.join(',')})`];
      }),
    );
    this.#pattern =
      reading.length === 0
        ? undefined
        : new RegExp(
            String.raw`"(?:[^"]|"")*"|'(?:[^']|'')*'|(?<![\w.])(${reading.map(({ name }) => name).join('|')})` +
              String.raw`(\s*\()(?!\s*${marker.replace('.', String.raw`\.`)})(\s*\))?`,
            'gi',
          );
  }

  /** A formula with the figures named in the calls that read them. */
  put(formula: string): string {
    return this.#pattern === undefined
      ? formula
      : formula.replaceAll(
          this.#pattern,
          (whole: string, name: string | undefined, bracket: string | undefined, end: string | undefined) =>
            name === undefined
              ? whole
              : `${name}${bracket ?? ''}${this.#calls.get(name.toUpperCase()) ?? ''}${end ?? ','}`,
        );
  }
}

const put = new RegExp(String.raw`${marker.replace('.', String.raw`\.`)}\([^()]*\),?`, 'g');

/** The formula that `put` was given, with references as they stand now. */
export const withoutFigures = (formula: string): string =>
  formula.includes(marker) ? formula.replaceAll(put, '') : formula;

/** The figures that a call was given by its first argument, by name. */
export function figuresIn(call: Call, given: unknown): ReadonlyMap<string, Value> {
  const [first] = call.args;
  const named = first !== undefined && 'args' in first ? (first.args as readonly unknown[]) : [];
  const values = given === undefined ? [] : matrixOf(argument(given)).flat();
  return new Map(
    named.flatMap((item, index) =>
      typeof item === 'object' && item !== null && 'expressionName' in item
        ? [[String(item.expressionName), values[index] ?? null] as const]
        : [],
    ),
  );
}

class Figures extends FunctionPlugin {
  static override implementedFunctions = {
    [marker]: {
      method: 'figures',
      vectorizationForbidden: true,
      parameters: [{ argumentType: FunctionArgumentType.SCALAR, optionalArg: true }],
      repeatLastArgs: 1,
    },
  };

  figures({ args }: Call, state: State): SimpleRangeValue {
    const values = args.map((syntax) => this.evaluateAst(syntax, state));
    return SimpleRangeValue.onlyValues([
      values.map((value) => (value instanceof SimpleRangeValue ? (value.data[0]?.[0] ?? 0) : value)) as (
        number | string | boolean | CellError
      )[],
    ]);
  }
}

/** Registers the call with the engine; again is no harm. */
export function registerFigures(): void {
  HyperFormula.registerFunctionPlugin(Figures, { enGB: { [marker]: marker } });
}
