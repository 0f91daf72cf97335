import { CellError, ErrorType, HyperFormula, SimpleRangeValue } from 'hyperformula';
import { type Part, rawNumber, type Step, wrap } from './engine-parts.ts';
import { boundTime } from './engine-time.ts';
import { refusedNumbers } from './spreadsheet/argument-limits.ts';
import { wildcards } from './wildcards.ts';

/**
 * Bounds of what the engine's own functions and operators do, where it has none.
 *
 * Some of its functions count up to whatever number they are given, its patterns take exponential time, its arrays any
 * memory, and an array may hold what is no number. The engine hands every plugin its interpreter; there its parts are
 * wrapped, before the first formula is computed. What is wrapped is not part of its documented interface, so
 * `boundInterpreter` fails when a part is not as expected, and a test computes what must be refused.
 */

/** Characters of a text, as other programs hold in a cell (Microsoft, "Excel specifications and limits"). */
const mostCharacters = 32_767;
/** Cells of an array that is computed on the way. Ours: a million of them take some 100 MB. */
const mostArrayCells = 250_000;
/**
 * Cells for each of which a function of single values is computed. Some take a fifth of a millisecond. Ours: twice the
 * records of a sheet.
 */
const mostApplied = 40_000;
/** Multiplications of a product of matrices: a second's work. */
const mostProducts = 50_000_000;
/** Characters of a pattern, as other programs take them (from memory). */
const mostPatternCharacters = 255;

/**
 * Numbers, by position, up to which a function that counts may count; undefined for one that needs no bound.
 * A day is counted in the 1900 system, whose last one is 31 December 9999.
 */
const lastDay = 2_958_465;
const counts: Readonly<Record<string, readonly (number | undefined)[]>> = {
  'POISSON.DIST': [1e6, 1e6],
  'NEGBINOM.DIST': [1e6, 1e6],
  'HYPGEOM.DIST': [1e6, 1e6, 1e6, 1e6],
  'BINOM.DIST': [1e9, 1e9],
  'BINOM.INV': [1e9],
  CUMIPMT: [undefined, 1e5, undefined, 1e5, 1e5],
  CUMPRINC: [undefined, 1e5, undefined, 1e5, 1e5],
  DB: [undefined, undefined, 1e5, 1e5],
  DDB: [undefined, undefined, 1e5, 1e5],
  BESSELI: [undefined, 1e4],
  BESSELJ: [undefined, 1e4],
  BESSELK: [undefined, 1e4],
  BESSELY: [undefined, 1e4],
  MULTINOMIAL: Array<number>(255).fill(1e6),
  WORKDAY: [lastDay, lastDay],
  'WORKDAY.INTL': [lastDay, lastDay],
  NETWORKDAYS: [lastDay, lastDay],
  'NETWORKDAYS.INTL': [lastDay, lastDay],
};

const refused = (type: ErrorType, message: string): CellError => new CellError(type, message);
const counted = (count: number): string => count.toLocaleString('en-US');

const tooLong = (): CellError =>
  refused(ErrorType.VALUE, `the text has more than ${counted(mostCharacters)} characters, the maximum for a cell`);
const tooMany = (): CellError =>
  refused(
    ErrorType.NUM,
    `the formula makes an array of more than ${counted(mostArrayCells)} cells: use smaller ranges or fewer rows`,
  );

/** What a part of the engine throws here becomes an error of the cell. */
class PatternTooLong extends Error {}
class AppliedTooOften extends Error {}

const tooOften = (): CellError =>
  refused(
    ErrorType.NUM,
    `the formula applies a function to more than ${counted(mostApplied)} cells: use smaller ranges, such as the ` +
      `filled cells only`,
  );

/** Bounds how often a family of functions, ours or the engine's, is applied cell by cell to the ranges it is given. */
function boundApplied(holder: object): void {
  wrap(holder, 'calculateSizeOfVectorizedResultArray', (inner) => (...given) => {
    const size = inner(...given) as readonly [height: number, width: number];
    if (size[0] * size[1] > mostApplied) throw new AppliedTooOften();
    return size;
  });
}

/** A result as a cell may hold it. */
function bounded(result: unknown): unknown {
  if (typeof result === 'string') return result.length > mostCharacters ? tooLong() : result;
  if (!(result instanceof SimpleRangeValue) || result.range !== undefined) return result;
  const isSound = (cell: unknown): boolean =>
    typeof cell === 'string' ? cell.length <= mostCharacters : Number.isFinite(rawNumber(cell) ?? 0);
  if (result.data.every((row) => row.every(isSound))) return result;
  return SimpleRangeValue.onlyValues(
    result.data.map((row) =>
      row.map((cell) => (isSound(cell) ? cell : typeof cell === 'string' ? tooLong() : notFinite())),
    ),
  );
}

const notFinite = (): CellError => refused(ErrorType.NUM, 'the result is too large, or there is none for these inputs');

/** Why a function is not called with these arguments; undefined when it may be. */
function refusedArguments(name: string, given: readonly unknown[]): CellError | undefined {
  const bounds = counts[name];
  for (const [index, bound] of (bounds ?? []).entries()) {
    const value = rawNumber(given[index]);
    if (bound === undefined || value === undefined || Math.abs(value) <= bound) continue;
    return refused(ErrorType.NUM, `${name} takes numbers up to ${counted(bound)} as its argument ${index + 1}`);
  }
  const limit = refusedNumbers(name, given.map(rawNumber));
  if (limit !== undefined) return refused(ErrorType.NUM, limit);
  const [first, second] = given;
  if (name === 'REPT' && typeof first === 'string')
    return first.length * (rawNumber(second) ?? 0) > mostCharacters ? tooLong() : undefined;
  if (name === 'SUBSTITUTE' && typeof first === 'string' && typeof second === 'string' && second !== '') {
    const by = typeof given[2] === 'string' ? given[2].length : 0;
    return first.length + (first.split(second).length - 1) * (by - second.length) > mostCharacters
      ? tooLong()
      : undefined;
  }
  if (name === 'SEQUENCE')
    return (rawNumber(first) ?? 1) * (rawNumber(second) ?? 1) > mostArrayCells ? tooMany() : undefined;
  if (name === 'MMULT' && first instanceof SimpleRangeValue && second instanceof SimpleRangeValue)
    return first.height() * first.width() * second.width() > mostProducts ||
      first.height() * second.width() > mostArrayCells
      ? tooMany()
      : undefined;
  return undefined;
}

/** Names of functions by the description that the engine passes along when it runs them. */
const namesByMetadata = (): ReadonlyMap<unknown, string> =>
  new Map(
    HyperFormula.getAllFunctionPlugins().flatMap(({ implementedFunctions }) =>
      Object.entries(implementedFunctions).map(([name, metadata]) => [metadata, name] as const),
    ),
  );

/** What a call throws as an error of its cell. The engine's own functions only: ours answer themselves. */
function caught(error: unknown): CellError {
  if (error instanceof AppliedTooOften) return tooOften();
  if (error instanceof PatternTooLong)
    return refused(ErrorType.VALUE, `a pattern with * or ? has at most ${mostPatternCharacters} characters`);
  if (error instanceof RangeError) return refused(ErrorType.NUM, 'the result is too large');
  return refused(ErrorType.VALUE, 'a function cannot be calculated with these arguments');
}

const cellsOf = (value: unknown): { readonly height: number; readonly width: number } =>
  value instanceof SimpleRangeValue ? { height: value.height(), width: value.width() } : { height: 1, width: 1 };

/** Bounds the functions of one engine; what they are is said at `boundInterpreter`. */
function boundFunctions(
  engine: Part,
  own: ReadonlySet<string>,
  prepare: (holder: object) => void,
  finish: (name: string, result: unknown) => unknown,
): void {
  const names = namesByMetadata();
  const [wrapped, limited] = [new WeakSet<object>(), new WeakSet<object>()];
  wrap(engine['functionRegistry'], 'getFunction', (inner) => (...given) => {
    const [name] = given as unknown as [string];
    const call = inner(...given) as Step | undefined;
    if (call === undefined) return call;
    const holder = ((engine['functionRegistry'] as Part)['functions'] as Map<string, [string, object]>).get(name)?.[1];
    if (holder !== undefined && !limited.has(holder)) {
      limited.add(holder);
      boundApplied(holder);
    }
    if (own.has(name))
      return (...args: never[]) => {
        try {
          return call(...args);
        } catch (error) {
          if (error instanceof AppliedTooOften) return tooOften();
          throw error;
        }
      };
    if (holder !== undefined && !wrapped.has(holder)) {
      wrapped.add(holder);
      prepare(holder);
      wrap(holder, 'runFunction', (run) => (...args) => {
        const [syntax, state, metadata, compute] = args as unknown as [never, never, never, Step];
        const described = names.get(metadata) ?? '';
        return run(
          syntax,
          state,
          metadata,
          ((...values: never[]) => refusedArguments(described, values) ?? bounded(compute(...values))) as never,
        );
      });
    }
    return (...args: never[]) => {
      try {
        return bounded(finish(name, call(...args)));
      } catch (error) {
        return caught(error);
      }
    };
  });
}

/**
 * Bounds one engine's functions and operators; `own` are the names that are not the engine's, `prepare` is told each of
 * its families of functions once, `finish` makes of a function's result what its cell gets.
 */
export function boundInterpreter(
  interpreter: unknown,
  own: ReadonlySet<string>,
  prepare: (holder: object) => void,
  finish: (name: string, result: unknown) => unknown,
): void {
  const engine = interpreter as Part;
  const helper = engine['arithmeticHelper'] as Part;
  wrap(helper, 'buildRegex', () => (pattern: string, whole = true) => {
    const normalized = (helper['normalizeString'] as (text: string) => string).call(helper, pattern);
    if (normalized.length > mostPatternCharacters && /[*?]/.test(normalized)) throw new PatternTooLong();
    return wildcards(normalized, whole);
  });
  wrap(engine, 'binaryRangeWrapper', (inner) => (...given: never[]) => {
    const [left, right] = [cellsOf(given[1]), cellsOf(given[2])];
    return Math.max(left.height, right.height) * Math.max(left.width, right.width) > mostArrayCells
      ? tooMany()
      : bounded(inner(...given));
  });
  wrap(
    engine,
    'unaryRangeWrapper',
    (inner) =>
      (...given) =>
        bounded(inner(...given)),
  );
  wrap(engine['arraySizePredictor'], 'checkArraySize', (inner) => (...given) => {
    const size = inner(...given) as { width: number; height: number };
    return size.width * size.height > mostArrayCells ? Object.assign(size, { width: 1, height: 1 }) : size;
  });
  boundFunctions(engine, own, prepare, finish);
  boundTime(engine);
}
