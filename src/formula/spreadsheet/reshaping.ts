import { compared } from '../standard.ts';
import { isFault, type Matrix, type Value } from '../values.ts';
import { transposed, valuesIn, widthOf } from './ranges.ts';
import { noValue, outside, repeated, standard, type StandardFunction } from './standard-function.ts';

/**
 * Ranges sorted, cut and put together anew. Source: their public descriptions (from memory); they are newer than
 * ECMA-376.
 */

/** A count as given; undefined for one that is left out. */
function count(name: string, what: string, value: Value | undefined): number | undefined {
  if (value === undefined || value === null) return undefined;
  const number = typeof value === 'boolean' ? Number(value) : value;
  if (typeof number !== 'number') throw noValue(`${name}: ${what} must be a number`);
  return Math.trunc(number);
}

function filledRange(name: string, range: Matrix): Matrix {
  if (range.length === 0 || widthOf(range) === 0) throw outside(`${name}: nothing is left`);
  return range;
}

/** So many of a list from its start, or its end for a negative count. */
const taken = <Item>(list: readonly Item[], many: number | undefined): readonly Item[] =>
  many === undefined ? list : many >= 0 ? list.slice(0, many) : list.slice(many);
const dropped = <Item>(list: readonly Item[], many: number | undefined): readonly Item[] =>
  many === undefined ? list : many >= 0 ? list.slice(many) : list.slice(0, many);

function cut(name: string, keep: typeof taken): StandardFunction {
  return standard(
    name,
    ['range', 'value?', 'value?'],
    (range, rows, columns) => {
      const wide = count(name, 'the columns', columns);
      return filledRange(
        name,
        keep(range, count(name, 'the rows', rows)).map((row) => keep(row, wide)),
      );
    },
    { spills: true },
  );
}

/** The places that a list of counts names, from the end for negative ones. */
function places(name: string, ranges: readonly Matrix[], size: number): number[] {
  return valuesIn(...ranges).map((value) => {
    const place = typeof value === 'number' ? Math.trunc(value) : 0;
    if (place === 0 || Math.abs(place) > size)
      throw noValue(`${name}: it counts from 1 to ${size}, or back from -1; ${String(value)} was given`);
    return place > 0 ? place - 1 : size + place;
  });
}

const faultless = (value: Value): Value => (isFault(value) ? null : value);

function sorted(range: Matrix, keys: readonly Matrix[]): Matrix {
  const across = keys[0]?.length === 1 && widthOf(keys[0] ?? []) > 1;
  const records = across ? transposed(range) : range;
  const by: { readonly values: readonly Value[]; readonly sign: number }[] = [];
  for (let at = 0; at < keys.length; at += 2) {
    const values = (keys[at] ?? []).flat();
    if (values.length !== records.length)
      throw noValue(`SORTBY: a range to sort by must have ${records.length} cells, as many as there are to sort`);
    const [order] = (keys[at + 1] ?? [[1]]).flat();
    if (order !== 1 && order !== -1 && order !== null) throw noValue('SORTBY: the order must be 1 or -1');
    by.push({ values, sign: order === -1 ? -1 : 1 });
  }
  const order = (one: number, other: number): number => {
    for (const { values, sign } of by) {
      const [a, b] = [faultless(values[one] ?? null), faultless(values[other] ?? null)];
      // Empty cells come last, whichever way.
      if (a === null || b === null) {
        if (a !== b) return a === null ? 1 : -1;
        continue;
      }
      const found = compared(a, b);
      if (found !== 0) return sign * found;
    }
    return one - other;
  };
  const result = [...records.keys()].toSorted(order).map((index) => records[index] ?? []);
  return across ? transposed(result) : result;
}

/** Values one after the other, row by row or column by column; blanks or errors left out where asked. */
function inLine(range: Matrix, ignore: number, byColumns: boolean): Value[] {
  if (![0, 1, 2, 3].includes(ignore)) throw noValue(`what to leave out must be 0, 1, 2 or 3; ${ignore} was given`);
  return (byColumns ? transposed(range) : range)
    .flat()
    .filter((value) => !((ignore & 1) === 1 && value === null) && !((ignore & 2) === 2 && isFault(value)));
}

function wrapped(name: string, range: Matrix, size: number, pad: Value): Matrix {
  const values = range.flat();
  const many = Math.trunc(size);
  if (many < 1) throw noValue(`${name}: it needs 1 or more in each; ${size} was given`);
  return Array.from({ length: Math.ceil(values.length / many) }, (_, index) =>
    Array.from({ length: many }, (_unused, at) => {
      const value = values[index * many + at];
      return value === undefined ? pad : value;
    }),
  );
}

const spills = { spills: true } as const;

export const reshapingFunctions: readonly StandardFunction[] = [
  repeated('SORTBY', ['range'], 'range', ([range], keys) => sorted(range, keys), true),
  cut('TAKE', taken),
  cut('DROP', dropped),
  repeated(
    'CHOOSEROWS',
    ['range'],
    'range',
    ([range], counts) => places('CHOOSEROWS', counts, range.length).map((row) => range[row] ?? []),
    true,
  ),
  repeated(
    'CHOOSECOLS',
    ['range'],
    'range',
    ([range], counts) => {
      const columns = places('CHOOSECOLS', counts, widthOf(range));
      return range.map((row) => columns.map((column) => row[column] ?? null));
    },
    true,
  ),
  standard(
    'TOCOL',
    ['range', 'number?', 'truth?'],
    (range, ignore = 0, byColumns = false) =>
      filledRange(
        'TOCOL',
        inLine(range, ignore, byColumns).map((value) => [value]),
      ),
    spills,
  ),
  standard(
    'TOROW',
    ['range', 'number?', 'truth?'],
    (range, ignore = 0, byColumns = false) => filledRange('TOROW', [inLine(range, ignore, byColumns)]),
    spills,
  ),
  standard(
    'WRAPROWS',
    ['range', 'number', 'value?'],
    (range, size, pad = '') => wrapped('WRAPROWS', range, size, pad),
    spills,
  ),
  standard(
    'WRAPCOLS',
    ['range', 'number', 'value?'],
    (range, size, pad = '') => transposed(wrapped('WRAPCOLS', range, size, pad)),
    spills,
  ),
];
