import type { FormulaInFile } from '../../src/sheet/declared-formula.ts';

/** Straight lines between the named points of a table, as formulas of columns. */

export interface TablePoint {
  readonly place: number;
  readonly name: string;
}

/** The line from one point to the next. */
const line = (at: string, { place, name }: TablePoint, next: TablePoint): string =>
  `${name}+(${at}-${place})/${next.place - place}*(${next.name}-${name})`;

/** The line of each interval in turn, and `beyond` from the last point on. */
const eachLine = (at: string, points: readonly TablePoint[], beyond: string): string =>
  points.slice(0, -1).reduceRight((rest, point, index) => {
    const next = points[index + 1] ?? point;
    return `IF(${at}<${next.place},${line(at, point, next)},${rest})`;
  }, beyond);

/** Level from the last point on; `below` answers before the first. */
export const between = (at: string, points: readonly TablePoint[], below: string): string =>
  `IF(${at}<${points[0]?.place ?? 0},${below},${eachLine(at, points, points.at(-1)?.name ?? '')})`;

/** The first and the last line go on. Throws for fewer than two points, a programmer's error. */
export function linesThrough(at: string, points: readonly TablePoint[]): string {
  const [before, last] = points.slice(-2);
  if (before === undefined || last === undefined) throw new Error('a table of lines needs two points');
  return eachLine(at, points.slice(0, -1), line(at, before, last));
}

/** A table of lines as a file lays it out, to be looked up: places, figures and slopes, a list each with a name. */
export interface LineTable {
  /** Its lists are called `LengthFactor_at`, `LengthFactor_is` and `LengthFactor_slope`. */
  readonly name: string;
  readonly heading: string;
  readonly points: readonly TablePoint[];
  /** Beyond the last point the last line goes on; else it is level. */
  readonly goesOn: boolean;
}

export const lineLists = ({ name }: LineTable) => ({ at: `${name}_at`, is: `${name}_is`, slope: `${name}_slope` });

/** The line of a table that holds at a place, by the place in the lists where it begins; a file's part `line`. */
export function lineInFile(table: LineTable, at: string, line: string): FormulaInFile {
  const { at: places, is, slope } = lineLists(table);
  return {
    formula: `INDEX(${is},{${line}})+(${at}-INDEX(${places},{${line}}))*INDEX(${slope},{${line}})`,
    parts: { [line]: `MATCH(${at},${places},1)` },
  };
}
