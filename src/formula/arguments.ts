import { argumentKinds, boundsInWords, outOfBounds, type Parameter } from './parameter.ts';
import { Fault, isFault, type Matrix, quoted, type Value } from './values.ts';

/** Arguments as functions take them, or the fault that they give, in words. */

const isMatrix = (value: unknown): value is Matrix => Array.isArray(value);

const missing = (call: string, name: string, { kind }: Parameter): string =>
  `${call}: ${name} is missing; it must be ${argumentKinds[kind].says}`;

/**
 * One argument as `calculate` takes it, or the fault it gives. `wrong` types come before `#NUM!` in the caller's order.
 */
export function accepted(call: string, name: string, parameter: Parameter, given: Value | Matrix | undefined): unknown {
  const { kind } = parameter;
  const left = given === undefined || given === null;
  if (left && parameter.optional === true) return undefined;
  const value = left ? (parameter.default ?? given) : given;
  if (value === undefined) return new Fault('#VALUE!', missing(call, name, parameter));
  if (kind === 'check')
    return typeof value === 'number' && Number.isFinite(value) && !outOfBounds(value, parameter) ? value : undefined;
  if (kind === 'verdict') return typeof value === 'string' ? value : 'not known';
  if (kind === 'numbers') return acceptedNumbers(call, name, value);
  if (isMatrix(value))
    return new Fault('#VALUE!', `${call}: ${name} must be ${argumentKinds[kind].says}; a range of cells was given`);
  if (isFault(value)) return value;
  if (kind === 'text') {
    if (typeof value !== 'string' || value === '')
      return new Fault('#VALUE!', `${call}: ${name} must be a text; ${quoted(value === '' ? null : value)} was given`);
    const word =
      parameter.choices === undefined
        ? value
        : parameter.choices.find((choice) => choice.toLowerCase() === value.trim().toLowerCase());
    return (
      word ?? new Fault('#VALUE!', `${call}: ${name} must be ${boundsInWords(parameter)}; ${quoted(value)} was given`)
    );
  }
  if (typeof value !== 'number' || !Number.isFinite(value)) {
    return new Fault('#VALUE!', `${call}: ${name} must be ${argumentKinds[kind].says}; ${quoted(value)} was given`);
  }
  return value;
}

function acceptedNumbers(call: string, name: string, value: Value | Matrix): unknown {
  const rows = isMatrix(value) ? value : [[value]];
  if (rows.length > 1 && (rows[0]?.length ?? 0) > 1) {
    return new Fault('#VALUE!', `${call}: ${name} must be one row or one column; ${shapeOf(value)} was given`);
  }
  const numbers: number[] = [];
  for (const item of rows.flat()) {
    if (isFault(item)) return item;
    if (typeof item !== 'number')
      return new Fault('#VALUE!', `${call}: ${name} must hold only numbers; ${quoted(item)} is among them`);
    numbers.push(item);
  }
  return numbers;
}

/** The arguments that a `rest` parameter takes, a range's cells one by one; an error among them speaks first. */
export function acceptedRest(
  call: string,
  name: string,
  parameter: Parameter,
  given: readonly (Value | Matrix | undefined)[],
): readonly unknown[] | Fault {
  if (given.length === 0) return new Fault('#VALUE!', missing(call, name, parameter));
  const list: unknown[] = [];
  for (const [index, argument] of given.entries()) {
    const cells = isMatrix(argument) ? argument.flat() : [argument];
    const called = `${name} ${index + 1}`;
    const values = cells.map((cell) => accepted(call, called, parameter, cell));
    const fault = values.find((value, place) => isFault(value) && value === cells[place]) ?? values.find(isFault);
    if (isFault(fault)) return fault;
    list.push(...values);
  }
  return list;
}

const counted = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;

/** A range's size in words; a single cell is a range of one. */
function shapeOf(value: Value | Matrix | undefined): string {
  const rows = isMatrix(value) ? value : [[value]];
  return `a range of ${counted(rows.length, 'row')} and ${counted(rows[0]?.length ?? 0, 'column')}`;
}

/** The fault of ranges that are not the same size and the same way round, as pairs of quantity and price must be. */
export function unequalRanges(
  call: string,
  entries: readonly (readonly [string, Parameter])[],
  args: readonly (Value | Matrix | undefined)[],
): Fault | undefined {
  const shapes = entries.flatMap(([name, { kind }], index) =>
    kind === 'numbers' ? [{ name, shape: shapeOf(args[index]) }] : [],
  );
  const [first] = shapes;
  const other = shapes.find(({ shape }) => shape !== first?.shape);
  if (first === undefined || other === undefined) return undefined;
  return new Fault(
    '#VALUE!',
    `${call}: ${other.name} must have the size of ${first.name}, ${first.shape}; ${other.shape} was given`,
  );
}

export function boundFault(call: string, name: string, parameter: Parameter, value: unknown): Fault | undefined {
  if (parameter.kind === 'check') return undefined;
  const numbers: readonly unknown[] = Array.isArray(value) ? value : [value];
  const wrong = numbers.find((number) => typeof number === 'number' && outOfBounds(number, parameter));
  if (wrong === undefined) return undefined;
  const advice = parameter.advice === undefined ? '' : `. ${parameter.advice}`;
  const which =
    parameter.kind === 'numbers' ? `each number of ${name}` : parameter.rest === true ? `each ${name}` : name;
  return new Fault(
    '#NUM!',
    `${call}: ${which} must be ${boundsInWords(parameter)}; ${quoted(wrong)} was given${advice}`,
  );
}
