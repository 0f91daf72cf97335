import { HyperFormula } from 'hyperformula';
import { changes } from '../units/nearest.ts';
import { engineOnly, refusedFunctions } from './spreadsheet/refused-functions.ts';
import type { FaultCode } from './values.ts';

/** The engine's messages in words for a planner. */

export const notFinite = 'the result is too large to be a number, or there is none for these inputs';

const standing: Partial<Record<FaultCode, string>> = {
  '#NAME?': 'the formula contains an unknown name: a function, a named value or a text without quotes',
  '#REF!': 'the formula refers to a cell that no longer exists',
  '#NUM!': 'there is no result for these inputs, or none was found',
  '#DIV/0!': 'division by zero: the divisor is 0 or an empty cell',
  '#CYCLE!': 'the formula depends on its own result',
  '#SPILL!': 'cells that the result would fill are not empty',
};

/** The names that a slip of the fingers makes of one: no more than a third of its letters differ. */
const near = (name: string, names: readonly string[]): string => {
  const given = name.toUpperCase();
  const [first, second] = names
    .map((known) => ({ known, far: changes(given, known.toUpperCase()) }))
    .filter(({ far }) => far <= Math.max(1, given.length / 3))
    .toSorted((one, other) => one.far - other.far);
  if (first === undefined) return '';
  return `. Is ${second?.far === first.far ? `${first.known} or ${second.known}` : first.known} meant?`;
};

const callable = (): string[] =>
  HyperFormula.getRegisteredFunctionNames('enGB').filter(
    (name) => !Object.hasOwn(refusedFunctions, name) && !Object.hasOwn(engineOnly, name),
  );

/** What an error is about; undefined when nobody says. `names` are the book's named values. */
function engineMessage(code: FaultCode, message: string, names: readonly string[]): string | undefined {
  if (message === '') return standing[code];
  if (message.startsWith('NaN or infinite')) return notFinite;
  if (message.startsWith('Cell range not allowed'))
    return 'a range is given where one value is needed: name one cell, or put the range into a function such as SUM';
  const [, called] = /^Function name (.+) not recognized/.exec(message) ?? [];
  if (called !== undefined) return `there is no function ${called}${near(called, callable())}`;
  const [, named] = /^Named expression (.+) not recognized/.exec(message) ?? [];
  if (named !== undefined)
    return (
      `${named} is no function, named value or cell; put a text in ` + `quotes${near(named, [...names, ...callable()])}`
    );
  return message;
}

/** Beyond these the messages so far are forgotten: who types keeps making new ones. */
const mostKept = 100;

/** The messages of one engine, each made once: an array of an unknown name has it in every cell. */
export class EngineMessages {
  readonly #names: readonly string[];
  readonly #made = new Map<string, string | undefined>();

  /** With the book's named values. */
  constructor(names: readonly string[]) {
    this.#names = names;
  }

  of(code: FaultCode, message: string): string | undefined {
    const key = `${code} ${message}`;
    if (this.#made.has(key)) return this.#made.get(key);
    if (this.#made.size >= mostKept) this.#made.clear();
    const made = engineMessage(code, message, this.#names);
    this.#made.set(key, made);
    return made;
  }
}
