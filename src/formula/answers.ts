import type { Bounds } from './guards.ts';
import type { Node } from './syntax.ts';

/**
 * What a part of a formula can answer, told from the formula alone: whether anything but a number or an error, and
 * between which numbers.
 *
 * What is told is true of exact arithmetic. A product of numbers above 0 so small that their product is 0 to a
 * computer is told to be above 0.
 */
export interface Answer {
  /** Nothing but a number or an error. */
  readonly number: boolean;
  readonly low: number;
  /** The number is above `low`, not equal to it. */
  readonly open: boolean;
  readonly high: number;
}

export interface AnswerScope {
  /** Of a column, `Width` or `Plate series.Pitch`. */
  readonly column: (placeholder: string) => Answer;
  readonly named: (name: string) => Answer;
}

/** Marks around cells, as calls of one argument: only a number counts; what stands around has settled that. */
export const numberOf = 'NUMBER OF';
export const knownNumber = 'KNOWN NUMBER';

const anything: Answer = { number: false, low: -Infinity, open: false, high: Infinity };
const anyNumber: Answer = { ...anything, number: true };
const from = (low: number, high = Infinity): Answer => ({ number: true, low, open: false, high });

/** Numbers within declared bounds. */
export const answerWithin = ({ min, above, max }: Bounds): Answer => ({
  number: true,
  low: Math.max(min ?? -Infinity, above ?? -Infinity),
  open: above !== undefined && above >= (min ?? -Infinity),
  high: max ?? Infinity,
});

export const unknownAnswer = anything;

const positive = ({ low, open }: Answer): boolean => low > 0 || (low === 0 && open);

/** No number at all: an error, or a text, of which `number` tells. */
const none: Answer = { number: true, low: Infinity, open: true, high: -Infinity };

const isNone = ({ low, high }: Answer): boolean => low > high;

/** Whichever of several it is. */
export const eitherOf = (answers: readonly Answer[]): Answer => {
  const low = Math.min(...answers.map((answer) => answer.low));
  return {
    number: answers.every(({ number }) => number),
    low,
    open: answers.every((answer) => answer.low > low || answer.open),
    high: Math.max(...answers.map(({ high }) => high)),
  };
};

const negated = ({ low, high }: Answer): Answer => from(-high, -low);

function product(one: Answer, other: Answer): Answer {
  if (one.low < 0 || other.low < 0) return anyNumber;
  const high = one.high === 0 || other.high === 0 ? 0 : one.high * other.high;
  return { number: true, low: one.low * other.low, open: positive(one) && positive(other), high };
}

function quotient(one: Answer, other: Answer): Answer {
  if (one.low < 0 || other.low < 0) return anyNumber;
  const high = other.low > 0 ? one.high / other.low : Infinity;
  return {
    number: true,
    low: one.low / other.high || 0,
    open: positive(one),
    high: Number.isNaN(high) ? Infinity : high,
  };
}

function arithmetic(operator: string, one: Answer, other: Answer): Answer {
  if (isNone(one) || isNone(other)) return anyNumber;
  switch (operator) {
    case '+':
      return { number: true, low: one.low + other.low, open: one.open || other.open, high: one.high + other.high };
    case '-':
      return { number: true, low: one.low - other.high, open: one.open, high: one.high - other.low };
    case '*':
      return product(one, other);
    case '/':
      return quotient(one, other);
    case '^':
      if (other.low === 2 && other.high === 2) return from(0);
      return one.low >= 0 ? { ...from(0), open: positive(one) } : anyNumber;
    default:
      return anything;
  }
}

const degree = Math.PI / 180;

/** What functions answer that are given numbers or errors. */
const scalar: Readonly<Record<string, (given: Answer) => Answer>> = {
  ABS: () => from(0),
  SQRT: () => from(0),
  EXP: () => ({ ...from(0), open: true }),
  ROUND: ({ low, high }) => from(Number.isInteger(low) ? low : -Infinity, Number.isInteger(high) ? high : Infinity),
  INT: ({ low, high }) => from(Math.floor(low), high),
  RADIANS: ({ low, open, high }) => ({ number: true, low: low * degree, open, high: high * degree }),
  DEGREES: ({ low, open, high }) => ({ number: true, low: low / degree, open, high: high / degree }),
  COS: ({ low, high }) => from(low >= 0 && high < Math.PI / 2 ? Math.cos(high) : -1, 1),
  SIN: ({ low, high }) => from(low >= 0 && high <= Math.PI ? 0 : -1, 1),
  TAN: ({ low, high }) => (low >= 0 && high < Math.PI / 2 ? from(0, Math.tan(high)) : anyNumber),
};

/** What answers a number, or an error, whatever it is given. */
const always: Readonly<Record<string, Answer>> = {
  COUNT: from(0),
  COUNTIF: from(0),
  COUNTIFS: from(0),
  SUM: anyNumber,
  SUMIFS: anyNumber,
  MINIFS: anyNumber,
  MAXIFS: anyNumber,
  SUMPRODUCT: anyNumber,
  MATCH: from(1),
  ROW: from(1),
  LEN: from(0),
  PI: from(Math.PI, Math.PI),
  NA: none,
  ATAN: anyNumber,
  ATAN2: anyNumber,
  ACOS: from(0, Math.PI),
  ASIN: anyNumber,
  LN: anyNumber,
  ROUNDUP: anyNumber,
  ROUNDDOWN: anyNumber,
  MOD: anyNumber,
  SIGN: from(-1, 1),
};

/** What computes with each of its arguments by itself: a text in a cell is an error there. */
export const computesByCell = (name: string): boolean =>
  Object.hasOwn(scalar, name) || ['ROUNDUP', 'ROUNDDOWN', 'MOD', 'ATAN', 'ATAN2', 'ACOS', 'LN', 'SIGN'].includes(name);

/** What is known where a condition does not hold: a cell is not below, or not above, what it was compared with. */
function narrowed(condition: Node, scope: AnswerScope): AnswerScope {
  const parts = condition.type === 'call' && condition.name === 'OR' ? condition.args : [condition];
  const least = new Map<string, { readonly low: number; readonly open: boolean }>();
  for (const part of parts) {
    if (part?.type !== 'binary' || part.left.type !== 'placeholder' || part.right.type !== 'number') continue;
    if (part.operator !== '<' && part.operator !== '<=') continue;
    least.set(part.left.name, { low: part.right.value, open: part.operator === '<=' });
  }
  if (least.size === 0) return scope;
  return {
    ...scope,
    column(name) {
      const [answer, known] = [scope.column(name), least.get(name)];
      return known === undefined || known.low < answer.low || (known.low === answer.low && !known.open)
        ? answer
        : { ...answer, ...known };
    },
  };
}

function answerOfCall({ name, args }: Node & { readonly type: 'call' }, scope: AnswerScope): Answer {
  const at = (index: number): Answer => {
    const argument = args[index];
    return argument === undefined ? anything : answerOf(argument, scope);
  };
  const all = (): Answer[] => args.map((_, index) => at(index));
  switch (name) {
    case 'IF': {
      const [condition, , otherwise] = args;
      if (condition === undefined || otherwise === undefined)
        return args.length < 3 ? anything : eitherOf([at(1), at(2)]);
      return eitherOf([at(1), answerOf(otherwise, narrowed(condition, scope))]);
    }
    case 'IFERROR':
      return eitherOf([at(0), at(1)]);
    case 'CHOOSE':
      return eitherOf(all().slice(1));
    case 'VLOOKUP':
      return at(1);
    case 'INDEX': {
      const [list] = args;
      return list?.type === 'array' ? eitherOf(list.rows.flat().map((item) => answerOf(item, scope))) : at(0);
    }
    case 'MAX': {
      if (all().some(isNone)) return anyNumber;
      const low = Math.max(...all().map((answer) => answer.low));
      const open = all().some((answer) => answer.low === low && answer.open);
      return { number: true, low, open, high: Math.max(...all().map(({ high }) => high)) };
    }
    case 'MIN': {
      if (all().some(isNone)) return anyNumber;
      const { low, open } = eitherOf(all());
      return { number: true, low, open, high: Math.min(...all().map(({ high }) => high)) };
    }
    case numberOf:
    case knownNumber:
      return { ...at(0), number: true };
    default: {
      const known = Object.hasOwn(scalar, name) ? scalar[name] : undefined;
      if (known !== undefined) return isNone(at(0)) ? anyNumber : known(at(0));
      return Object.hasOwn(always, name) ? (always[name] ?? anything) : anything;
    }
  }
}

export function answerOf(node: Node, scope: AnswerScope): Answer {
  switch (node.type) {
    case 'number':
      return from(node.value, node.value);
    case 'error':
      return none;
    case 'text':
      return { ...none, number: false };
    case 'group':
      return answerOf(node.value, scope);
    case 'unary': {
      const value = { ...answerOf(node.value, scope), number: true };
      return isNone(value) ? anyNumber : node.operator === '-' ? negated(value) : value;
    }
    case 'percent':
      return product(answerOf(node.value, scope), from(0.01, 0.01));
    case 'binary': {
      const [left, right] = [node.left, node.right].map((side) => answerOf(side, scope));
      return left === undefined || right === undefined ? anything : arithmetic(node.operator, left, right);
    }
    case 'placeholder':
      return scope.column(node.name);
    case 'name':
      return scope.named(node.name);
    case 'call':
      return answerOfCall(node, scope);
    default:
      return anything;
  }
}
