import type { SimpleRangeValue } from 'hyperformula';
import { type Part, wrap } from './engine-parts.ts';
import { type Criterion, plain, type RangeCondition, rangeIndex } from './engine-range-index.ts';

/** Where the engine asks its ranges, put so that what is noted of them answers. */

/** Lets an engine's notes end where its next calculation begins: with the asking for what is to be computed anew. */
export function forgetBetweenRuns(interpreter: unknown): void {
  const index = rangeIndex(interpreter as object);
  wrap((interpreter as Part)['dependencyGraph'], 'verticesToRecompute', (inner) => (...given) => {
    index.forget();
    return inner(...given);
  });
}

/**
 * Lets formulas that use the same range share what ties it to its cells.
 *
 * The engine ties every cell of a range to it again for each formula that uses it, which is a hundred million ties for
 * 10,000 formulas over 10,000 cells. Ties stay as long as the range is in use, whatever its cells come to hold.
 */
export function tieRangesOnce(interpreter: unknown): void {
  const graph = (interpreter as Part)['dependencyGraph'] as {
    getRange(start: unknown, end: unknown): RangeNode | undefined;
    readonly graph: { addEdge(from: unknown, to: unknown): void };
  };
  const tied = new WeakSet<RangeNode>();
  wrap(graph, 'processCellDependencies', (inner) => (...given: never[]) => {
    const [needed, user] = given as unknown as [readonly object[], { readonly idInGraph?: number }];
    const node = (one: object): RangeNode | undefined =>
      'start' in one && 'end' in one ? graph.getRange(one.start, one.end) : undefined;
    const others = needed.filter((one) => {
      const range = node(one);
      if (range?.idInGraph === undefined || user.idInGraph === undefined || !tied.has(range)) return true;
      graph.graph.addEdge(range.idInGraph, user.idInGraph);
      return false;
    });
    inner(...([others, user] as never[]));
    for (const one of others) {
      const range = node(one);
      if (range !== undefined) tied.add(range);
    }
  });
}

interface RangeNode {
  readonly idInGraph?: number;
}

/** A family of functions, whose conditions over ranges and searches in them are noted from now on. */
export function indexRanges(holder: object): void {
  const { interpreter } = holder as { readonly interpreter: Part };
  if ('computeConditionalAggregationFunction' in holder) indexConditions(holder, interpreter);
  if ('rowSearch' in holder) {
    indexSearches((holder as Part)['rowSearch'], interpreter);
    indexSearches((holder as Part)['columnSearch'], interpreter);
  }
}

type Aggregation = [
  summed: SimpleRangeValue,
  conditions: readonly unknown[],
  name: string,
  start: unknown,
  compose: (before: unknown, value: unknown) => unknown,
  mapped: (value: unknown) => unknown,
];

function indexConditions(holder: object, interpreter: Part): void {
  wrap(holder, 'computeConditionalAggregationFunction', (inner) => (...given: never[]) => {
    const [summed, asked, name, start, compose, mapped] = given as unknown as Aggregation;
    const conditions = readConditions(interpreter, asked);
    // What can't be read or does not fit together is the engine's to refuse.
    if (conditions?.every(({ range }) => range.sameDimensionsAs(summed)) !== true) return inner(...given);
    const index = rangeIndex(interpreter);
    return index.result(name, summed, conditions, () => {
      let result = start;
      index.fold(conditions, summed, (value) => {
        result = compose(result, mapped(value));
      });
      return result;
    });
  });
}

/** Ranges and conditions in turn; undefined when a condition can't be read. */
export function readConditions(interpreter: Part, asked: readonly unknown[]): readonly RangeCondition[] | undefined {
  const builder = interpreter['criterionBuilder'] as {
    fromCellValue(raw: unknown, helper: unknown): Criterion | undefined;
  };
  const conditions: RangeCondition[] = [];
  for (let at = 0; at < asked.length; at += 2) {
    const criterion = builder.fromCellValue(asked[at + 1], interpreter['arithmeticHelper']);
    if (criterion === undefined) return undefined;
    conditions.push({ range: asked[at] as SimpleRangeValue, criterion });
  }
  return conditions;
}

const indexedSearches = new WeakSet<object>();

interface SearchOptions {
  readonly ordering?: string;
  readonly ifNoMatch?: string;
  readonly returnOccurrence?: string;
}

function indexSearches(search: unknown, interpreter: Part): void {
  if (typeof search !== 'object' || search === null || indexedSearches.has(search)) return;
  indexedSearches.add(search);
  wrap(search, 'basicFind', (inner) => (...given: never[]) => {
    const [key, range, , { ordering, ifNoMatch, returnOccurrence }] = given as unknown as [
      unknown,
      SimpleRangeValue,
      string,
      SearchOptions,
    ];
    const isExact = ordering === 'none' && (ifNoMatch ?? 'returnNotFound') === 'returnNotFound';
    if (!isExact || range.range === undefined) return inner(...given);
    const place = rangeIndex(interpreter).placeOf(searched(key), range, returnOccurrence === 'last', searched);
    return place ?? inner(...given);
  });
}

/** A value as searches compare it: texts without regard to case and accents. */
const searched = (value: unknown): unknown =>
  typeof value === 'string'
    ? value
        .toLowerCase()
        .normalize('NFD')
        .replaceAll(/[\u0300-\u036F]/g, '')
    : plain(value);
