import { isOptional, outOfBounds, type Parameter, parameterAt, takesRange } from './parameter.ts';
import { type EngineeringFunction, filled, spread } from './define.ts';
import { type Answer, answerOf, type AnswerScope } from './answers.ts';
import { takesAll } from './file-spelling.ts';
import { refused } from './guards.ts';
import { mapped, type Node, operand } from './syntax.ts';

/**
 * Calls of our functions in terms of standard spreadsheet functions, so that any program recalculates an exported book.
 *
 * The same bounds that the engine checks are written around each body: #VALUE! for what is not a number, #NUM! for one
 * out of bounds. Tested: the plain formula and `calculate` agree over random arguments, refusals included.
 */

const numberNode = (value: number): Node => ({ type: 'number', value: Math.abs(value), text: String(Math.abs(value)) });
const literal = (value: number | string): Node =>
  typeof value === 'string'
    ? { type: 'text', value }
    : value < 0
      ? { type: 'group', value: { type: 'unary', operator: '-', value: numberNode(value) } }
      : numberNode(value);
const call = (name: string, ...args: Node[]): Node => ({ type: 'call', name, args });
const binary = (left: Node, operator: string, right: Node): Node => ({
  type: 'binary',
  operator,
  left: operand(left),
  right: operand(right),
});

const isLiteral = (node: Node): boolean =>
  node.type === 'number' ||
  node.type === 'text' ||
  ((node.type === 'unary' || node.type === 'group') && isLiteral(node.value));

/** A spill as one formula a cell: which cell of it, counted from 1. */
export interface SpillPlace {
  readonly row: number;
  readonly column: number;
}

const signed = (value: Node): Node => ({ type: 'unary', operator: '-', value: operand(value) });
const column = (words: readonly string[]): Node => ({ type: 'array', rows: words.map((word) => [literal(word)]) });

const any = (conditions: readonly Node[]): Node => {
  const [first, ...rest] = conditions;
  return first !== undefined && rest.length === 0 ? first : call('OR', ...conditions);
};
const all = (conditions: readonly Node[]): Node => {
  const [first, ...rest] = conditions;
  return first !== undefined && rest.length === 0 ? first : call('AND', ...conditions);
};

/** When a number is out of bounds; of a range, its least and greatest number. What it can't be is not asked. */
function boundConditions(argument: Node, parameter: Parameter, answer?: Answer): Node[] {
  const open = (bound: Parameter): boolean => answer === undefined || !takesAll(bound, answer);
  const kept = (bound: 'min' | 'above' | 'max' | 'below'): number | undefined =>
    parameter[bound] !== undefined && open({ kind: 'number', doc: '', [bound]: parameter[bound] })
      ? parameter[bound]
      : undefined;
  const [min, above, max, below] = [kept('min'), kept('above'), kept('max'), kept('below')];
  const { whole } = parameter;
  const conditions: Node[] = [];
  const least = takesRange(parameter) ? call('MIN', argument) : argument;
  const greatest = takesRange(parameter) ? call('MAX', argument) : argument;
  if (min !== undefined) conditions.push(binary(least, '<', literal(min)));
  if (above !== undefined) conditions.push(binary(least, '<=', literal(above)));
  if (max !== undefined) conditions.push(binary(greatest, '>', literal(max)));
  if (below !== undefined) conditions.push(binary(greatest, '>=', literal(below)));
  if (whole === true) {
    const broken = binary(argument, '<>', call('INT', argument));
    conditions.push(
      takesRange(parameter) ? binary(call('SUMPRODUCT', signed(signed(broken))), '>', literal(0)) : broken,
    );
  }
  return conditions;
}

/** Whether an argument is written out and needs no guard. */
function literalIsRight(argument: Node, { choices, ...parameter }: Parameter): boolean {
  if (argument.type === 'text') {
    const word = argument.value.trim().toLowerCase();
    return (
      parameter.kind === 'text' &&
      argument.value !== '' &&
      (choices === undefined || choices.some((choice) => choice.toLowerCase() === word))
    );
  }
  return argument.type === 'number' && parameter.kind !== 'text' && !outOfBounds(argument.value, parameter);
}

/** When a cell or a range holds what the parameter takes. */
function typeConditions(argument: Node, { kind, choices, rest }: Parameter): Node[] {
  const onlyNumbers = binary(
    call('COUNT', argument),
    '=',
    binary(call('ROWS', argument), '*', call('COLUMNS', argument)),
  );
  if (rest === true) return [onlyNumbers];
  switch (kind) {
    case 'text':
      return choices === undefined
        ? [call('ISTEXT', argument), binary(call('LEN', argument), '>', literal(0))]
        : [
            binary(
              call('SUMPRODUCT', signed(signed(binary(call('TRIM', argument), '=', column(choices))))),
              '=',
              literal(1),
            ),
          ];
    case 'numbers':
      return [
        onlyNumbers,
        any([binary(call('ROWS', argument), '=', literal(1)), binary(call('COLUMNS', argument), '=', literal(1))]),
      ];
    default:
      return [call('ISNUMBER', argument)];
  }
}

/** When ranges have the same size and are the same way round. */
const equalRanges = ([first, ...others]: readonly Node[]): Node[] =>
  others.flatMap((other) =>
    first === undefined ? [] : ['ROWS', 'COLUMNS'].map((size) => binary(call(size, other), '=', call(size, first))),
  );

/** Where a call stands. */
interface CallPlace {
  readonly place: SpillPlace;
  /** Printed figures stand there by the names of the book's values. */
  readonly named: boolean;
  /** What its arguments can answer, when that is known: nothing is asked then that they answer anyway. */
  readonly answers: AnswerScope | undefined;
}

/** The plain form of a call whose arguments are numbers within their bounds, or errors, and nothing else. */
function formOfNumbers(
  { ofNumbers, parameters }: EngineeringFunction,
  args: readonly (Node | undefined)[],
  { answers }: CallPlace,
): Node | undefined {
  if (ofNumbers === undefined || answers === undefined) return undefined;
  const found = new Map<string, Answer>();
  for (const [index, [name, parameter]] of Object.entries(parameters).entries()) {
    const argument = args[index];
    if (argument === undefined) return undefined;
    const answer = answerOf(argument, answers);
    if (!takesAll(parameter, answer)) return undefined;
    found.set(name, answer);
  }
  const given = new Map(Object.keys(parameters).map((name, index) => [name, args[index]] as const));
  return filled(
    ofNumbers((name) => (found.get(name)?.low ?? -1) >= 0),
    (name) => given.get(name),
  );
}

interface Guards {
  /** When each argument is of the right type, and what the call is when it is not. */
  readonly typed: { readonly right: Node; readonly otherwise: Node }[];
  readonly ranges: Node[];
  /** When an argument is out of bounds. */
  readonly bounds: Node[];
}

/** What an argument has to be asked, but for what it answers anyway. */
function guardArgument(
  guards: Guards,
  parameter: Parameter,
  value: Node,
  given: { readonly isLiteral: boolean; readonly answer: Answer | undefined },
): void {
  const { answer } = given;
  const isNumber = answer?.number === true && !takesRange(parameter) && parameter.kind !== 'text';
  const mayBeBlank = parameter.optional === true && !given.isLiteral && !isNumber;
  const outside = boundConditions(value, parameter, isNumber ? answer : undefined);
  if (!isNumber) {
    const right = typeConditions(value, parameter);
    guards.typed.push({
      right: mayBeBlank ? any([call('ISBLANK', value), all(right)]) : all(right),
      otherwise: wrongType(value, parameter),
    });
  }
  guards.bounds.push(
    ...outside.map((condition) => (mayBeBlank ? all([call('NOT', call('ISBLANK', value)), condition]) : condition)),
  );
}

/** One call's plain equivalent, or undefined when the function has none or the call leaves a required argument out. */
function plainCall(
  definition: EngineeringFunction,
  args: readonly (Node | undefined)[],
  where: CallPlace,
): Node | undefined {
  const { place, named, answers } = where;
  const { parameters } = definition;
  const entries = Object.entries(parameters);
  // One place for each parameter, and one for each further argument of a last one that takes any number.
  const places = Array.from({ length: Math.max(entries.length, args.length) }, (_, index) =>
    parameterAt(parameters, index),
  );
  const given = new Set(places.flatMap((one, index) => (one === undefined || args[index] === undefined ? [] : one[0])));
  const numbers = formOfNumbers(definition, args, where);
  if (numbers !== undefined) return numbers;
  const body = definition.plain(given, named);
  const isLacking = (one: readonly [string, Parameter] | undefined, index: number): boolean =>
    one === undefined || (!isOptional(one[1]) && args[index] === undefined);
  if (body === null || places.some(isLacking)) return undefined;

  const values = new Map<string, Node>([
    ['refused', refused],
    ['row', numberNode(place.row)],
    ['column', numberNode(place.column)],
  ]);
  const guards: Guards = { typed: [], ranges: [], bounds: [] };
  const rest: { name: string; readonly values: Node[] } = { name: '', values: [] };
  for (const [index, [name, parameter] = ['', undefined]] of places.entries()) {
    if (parameter === undefined) continue;
    const argument = args[index];
    const fallback = parameter.default;
    const answer = argument === undefined || answers === undefined ? undefined : answerOf(argument, answers);
    if (argument === undefined) {
      if (fallback !== undefined) values.set(name, literal(fallback));
      continue;
    }
    const value =
      fallback !== undefined && !isLiteral(argument) && answer?.number !== true
        ? call('IF', call('ISBLANK', argument), literal(fallback), argument)
        : argument;
    values.set(name, value);
    if (parameter.rest === true) {
      rest.name = name;
      rest.values.push(value);
    }
    if (parameter.kind === 'check' || parameter.kind === 'verdict' || literalIsRight(argument, parameter)) continue;
    guardArgument(guards, parameter, value, { isLiteral: isLiteral(argument), answer });
    if (parameter.kind === 'numbers') guards.ranges.push(value);
  }
  return guarded(
    filled(spread(body, rest.name, rest.values), (name) => values.get(name)),
    guards,
  );
}

/**
 * An expression that is an argument's own error, else #VALUE!; of a text its length stands for it, so that only an
 * error counts.
 */
const wrongType = (argument: Node, parameter: Parameter): Node =>
  binary(
    takesRange(parameter) ? call('SUM', argument) : parameter.kind === 'text' ? call('LEN', argument) : argument,
    '+',
    literal('?'),
  );

/**
 * The body behind its guards: types argument by argument, bounds next.
 *
 * One argument after the other, since programs differ in which of two errors an operator gives: the first wrong
 * argument speaks, as it does when the function itself is called.
 */
function guarded(body: Node, { typed, ranges, bounds }: Guards): Node {
  const bounded = bounds.length === 0 ? body : call('IF', any(bounds), refused, body);
  const sized = equalRanges(ranges);
  const shaped =
    sized.length === 0 ? bounded : call('IF', all(sized), bounded, binary(numberNode(0), '+', literal('?')));
  return typed.reduceRight((inner, { right, otherwise }) => call('IF', right, inner, otherwise), shaped);
}

export class PlainForms {
  readonly functions: ReadonlyMap<string, EngineeringFunction>;
  readonly #named: boolean;
  /** `named`: printed figures stand there by the names of the book's values, and not as numbers. */
  constructor(functions: Iterable<EngineeringFunction>, named = false) {
    this.functions = new Map([...functions].map((item) => [item.name, item]));
    this.#named = named;
  }

  /** The tree with every call of ours replaced; undefined when one of them has no plain equivalent. */
  tree(formula: Node, place: SpillPlace = { row: 1, column: 1 }, answers?: AnswerScope): Node | undefined {
    let possible = true;
    const plain = mapped(formula, (node) => {
      if (node.type !== 'call') return undefined;
      const definition = this.functions.get(node.name);
      if (definition === undefined) return undefined;
      const value = plainCall(definition, node.args, { place, named: this.#named, answers });
      if (value === undefined) possible = false;
      // A call is one operand, whatever it is made of: LENGTHFACTOR(86)*2.
      return value === undefined ? undefined : operand(value);
    });
    if (!possible) return undefined;
    return formula.type === 'call' && plain.type === 'group' ? plain.value : plain;
  }
}
