import type { Matrix } from '../values.ts';
import { numericMatrix, widthOf } from './ranges.ts';
import { noNumber, noValue, standard, type StandardFunction } from './standard-function.ts';

/** Determinants and inverses, by elimination with the largest pivot of a column. Source: ECMA-376 Part 1, 18.17.7. */

/** Rows and columns: a second's work. */
const most = 200;

function square(name: string, range: Matrix): number[][] {
  if (range.length !== widthOf(range))
    throw noValue(`${name} takes as many rows as columns; ${range.length} by ${widthOf(range)} were given`);
  if (range.length > most) throw noNumber(`${name} takes ${most} rows at most`);
  return numericMatrix(range);
}

/** Makes the left part the unit matrix; returns the determinant, 0 where it can't. */
function eliminated(rows: number[][], size: number): number {
  let determinant = 1;
  const scale = Math.max(0, ...rows.flatMap((row) => row.slice(0, size).map(Math.abs)));
  for (let column = 0; column < size; column += 1) {
    const pivotRow = rows.reduce(
      (best, row, index) =>
        index >= column && Math.abs(row[column] ?? 0) > Math.abs(rows[best]?.[column] ?? 0) ? index : best,
      column,
    );
    const pivot = rows[pivotRow]?.[column] ?? 0;
    if (Math.abs(pivot) <= scale * 1e-15) return 0;
    if (pivotRow !== column) {
      [rows[pivotRow], rows[column]] = [rows[column] ?? [], rows[pivotRow] ?? []];
      determinant = -determinant;
    }
    determinant *= pivot;
    const own = (rows[column] ?? []).map((value) => value / pivot);
    rows[column] = own;
    rows.forEach((row, index) => {
      const factor = row[column] ?? 0;
      if (index !== column && factor !== 0) rows[index] = row.map((value, place) => value - factor * (own[place] ?? 0));
    });
  }
  return determinant;
}

export const matrixFunctions: readonly StandardFunction[] = [
  standard('MDETERM', ['range'], (range) => {
    const rows = square('MDETERM', range);
    return eliminated(rows, rows.length);
  }),
  standard(
    'MINVERSE',
    ['range'],
    (range) => {
      const rows = square('MINVERSE', range);
      const size = rows.length;
      const beside = rows.map((row, index) => [...row, ...row.map((_, column) => Number(column === index))]);
      if (eliminated(beside, size) === 0) throw noNumber('MINVERSE: the matrix has no inverse');
      return beside.map((row) => row.slice(size));
    },
    { spills: true },
  ),
];
