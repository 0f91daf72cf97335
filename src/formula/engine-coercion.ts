import { CellError, EmptyValue, ErrorType, FunctionArgumentType, SimpleRangeValue } from 'hyperformula';
import { type Part, rawNumber, type Step, wrap } from './engine-parts.ts';
import { forgetBetweenRuns, indexRanges, tieRangesOnce } from './engine-range-uses.ts';
import { nearDifference, nearOrder, nearSum } from './near-numbers.ts';
import { numberText } from './number-text.ts';
import { dateFault } from './spreadsheet/calendar.ts';

/**
 * How the engine's operators and functions take values, where other programs take them otherwise.
 *
 * Sums and comparisons near zero, texts as numbers, numbers as texts, blank cells that are referred to, conditions over
 * texts. As in engine-bounds.ts its parts are wrapped before the first formula is computed.
 */

const noNumber = (text: string): CellError =>
  new CellError(
    ErrorType.VALUE,
    dateFault(text) ??
      (text === ''
        ? 'a number is needed; an empty text was given'
        : `a number is needed; the text "${text}" was given`),
  );

const money = /[$€£¥]/;

/** Values as operands: texts that read the same everywhere, blanks as 0. */
function takeNumbers(helper: Part): void {
  wrap(helper, 'coerceNonDateScalarToMaybeNumber', (inner) => (...given) => {
    const [value] = given as readonly unknown[];
    return typeof value === 'string' && (value.trim() === '' || money.test(value)) ? undefined : inner(...given);
  });
  wrap(helper, 'coerceScalarToNumberOrError', (inner) => (...given) => {
    const [value] = given as readonly unknown[];
    const number = inner(...given);
    return typeof value === 'string' && number instanceof CellError ? noNumber(value) : number;
  });
}

function computeNearZero(helper: Part): void {
  const factory = helper['ExtendedNumberFactory'] as (value: number, type: unknown) => unknown;
  /** The engine's own result, which carries a date or a percentage along, unless it is near zero. */
  const nearly =
    (compute: (one: number, other: number) => number) =>
    (inner: Step) =>
    (...given: never[]) => {
      const [one, other] = (given as readonly unknown[]).map(rawNumber);
      return one !== undefined && other !== undefined && compute(one, other) === 0
        ? factory(0, { type: 'NUMBER_RAW' })
        : inner(...given);
    };
  wrap(helper, 'addWithEpsilon', nearly(nearSum));
  wrap(helper, 'subtract', nearly(nearDifference));
  wrap(helper, 'floatCmp', () => (...given: never[]) => {
    const [one = 0, other = 0] = (given as readonly unknown[]).map(rawNumber);
    return Math.sign(nearOrder(one, other));
  });
  const kind = (value: unknown): number =>
    rawNumber(value) !== undefined ? 0 : typeof value === 'string' ? 1 : typeof value === 'boolean' ? 2 : -1;
  const filled = (value: unknown, beside: unknown): unknown =>
    value !== EmptyValue ? value : typeof beside === 'string' ? '' : typeof beside === 'boolean' ? false : 0;
  wrap(helper, 'compare', (inner) => (...given: never[]) => {
    const [left, right] = given as readonly unknown[];
    const [one, other] = [filled(left, right), filled(right, left)];
    const [first, second] = [kind(one), kind(other)];
    if (first === 1 && second === 1)
      return (helper['stringCmp'] as (one: unknown, other: unknown) => number).call(helper, one, other);
    // The engine would read a text beside a number as a date.
    return first >= 0 && second >= 0 && first !== second
      ? Math.sign(first - second)
      : inner(...([one, other] as never[]));
  });
}

const textOf = (value: unknown): unknown => {
  const number = rawNumber(value);
  return number === undefined ? value : numberText(number);
};

/** Conditions of SUMIFS and its like: over texts by order as well, a blank one as 0. */
function takeConditions(engine: Part): void {
  const builder = engine['criterionBuilder'];
  const collator = new Intl.Collator('en', { sensitivity: 'base' });
  const ordered = /^(<=|>=|<|>)(?!=|>)(.*)$/s;
  wrap(builder, 'fromCellValue', (inner) => (...given: never[]) => {
    const [raw, helper] = given as unknown as [unknown, never];
    if (raw === EmptyValue) return inner(...([0, helper] as never[]));
    if (typeof raw !== 'string') return inner(...given);
    const [, operator, text = ''] = ordered.exec(raw) ?? [];
    const number = (helper as Part)['coerceToMaybeNumber'] as (text: string) => unknown;
    if (
      operator !== undefined &&
      text !== '' &&
      number.call(helper, text) === undefined &&
      !/^(?:true|false)$/i.test(text)
    )
      return {
        raw,
        lambda: (cell: unknown) => {
          if (typeof cell !== 'string') return false;
          const order = collator.compare(cell, text);
          return operator.startsWith('<')
            ? order < 0 || (order === 0 && operator === '<=')
            : order > 0 || (order === 0 && operator === '>=');
        },
      };
    // A sign of comparison within a text is a letter as any other.
    return /^[<>=]/.test(raw) || !/[<>=]/.test(raw) ? inner(...given) : inner(...([`=${raw}`, helper] as never[]));
  });
}

const digits = /\d+\.\d+(?:e[-+]?\d+)?/g;

/** A complex number's text with the digits that a cell holds. */
const complexText = (text: unknown): unknown =>
  typeof text === 'string' ? text.replaceAll(digits, (number) => String(Number(Number(number).toPrecision(15)))) : text;

/** What a function of complex numbers gives; anything else as it is. */
export const shortened = (name: string, value: unknown): unknown =>
  /^IM|^COMPLEX$/.test(name) ? complexText(value) : value;

/** A formula that gives a blank cell gives 0, as a cell that holds a formula is not blank. */
function fillBlanks(engine: Part): void {
  wrap(engine, 'evaluateAst', (inner) => (...given: never[]) => {
    const value = inner(...given);
    if (value !== EmptyValue && !(value instanceof SimpleRangeValue)) return value;
    const [syntax, state] = given as unknown as [
      unknown,
      { formulaVertex?: { formula?: unknown }; formulaAddress?: { sheet: number } },
    ];
    const isWhole = state.formulaVertex?.formula === syntax && (state.formulaAddress?.sheet ?? -1) >= 0;
    if (!isWhole) return value;
    if (value === EmptyValue) return 0;
    return value.data.some((row) => row.includes(EmptyValue as never))
      ? SimpleRangeValue.onlyValues(
          value.data.map((row) => row.map((cell) => (cell === (EmptyValue as never) ? 0 : cell))),
        )
      : value;
  });
}

interface Typed {
  readonly argumentType: FunctionArgumentType;
}

const withConditions = new WeakSet<object>();

const isReference = (syntax: { readonly type: string } | undefined): boolean =>
  /_(?:REFERENCE|RANGE)$/.test(syntax?.type ?? '');

type Taken = [unknown, boolean, boolean];

/** What AND, OR and XOR are given: of references the truths and numbers only. */
const truthsAlone = (
  syntax: readonly { readonly type: string }[],
  taken: (argument: { readonly type: string }) => Taken[],
): Taken[] =>
  syntax.flatMap((argument) => {
    const values = taken(argument);
    return isReference(argument)
      ? values.filter(([value]) => value !== EmptyValue && typeof value !== 'string')
      : values;
  });

/** Corrects how one of the engine's families of functions takes its arguments. */
export function takeArguments(holder: object): void {
  // What reads conditions is made after the functions are told their interpreter.
  const { interpreter } = holder as { readonly interpreter: Part };
  if (!withConditions.has(interpreter)) {
    withConditions.add(interpreter);
    takeConditions(interpreter);
  }
  indexRanges(holder);
  wrap(holder, 'coerceToType', (inner) => (...given: never[]) => {
    const [value, type, state] = given as unknown as [unknown, Typed, never];
    if (type.argumentType === FunctionArgumentType.BOOLEAN && value === '') return undefined;
    return type.argumentType === FunctionArgumentType.STRING
      ? inner(...([textOf(value), type, state] as never[]))
      : inner(...given);
  });
  // What a reference to one cell holds counts as what a range holds: texts and blanks are passed over.
  wrap(holder, 'evaluateArguments', (inner) => (...given: never[]) => {
    const [syntax, state, metadata] = given as unknown as [
      readonly { readonly type: string }[],
      never,
      { readonly parameters?: readonly Typed[]; readonly expandRanges?: boolean },
    ];
    const { parameters = [], expandRanges } = metadata;
    if (expandRanges === true && parameters[0]?.argumentType === FunctionArgumentType.BOOLEAN)
      return truthsAlone(syntax, (argument) => inner(...([[argument], state, metadata] as never[])) as Taken[]);
    const found = inner(...given) as Taken[];
    if (expandRanges === true) return found;
    return found.map((one, index) => {
      const [value, ...flags] = one;
      const type = (parameters[index] ?? parameters.at(-1))?.argumentType;
      const isCell = syntax[index]?.type === 'CELL_REFERENCE' && type === FunctionArgumentType.ANY;
      return isCell && !(value instanceof SimpleRangeValue)
        ? [SimpleRangeValue.fromScalar(value as never), ...flags]
        : one;
    });
  });
}

/** Corrects how one engine takes values. */
export function takeValues(interpreter: unknown): void {
  const engine = interpreter as Part;
  const helper = engine['arithmeticHelper'] as Part;
  takeNumbers(helper);
  computeNearZero(helper);
  fillBlanks(engine);
  tieRangesOnce(interpreter);
  forgetBetweenRuns(interpreter);
  wrap(
    engine,
    'concatOp',
    (inner) =>
      (...given) =>
        inner(...(given.map(textOf) as never[])),
  );
}
