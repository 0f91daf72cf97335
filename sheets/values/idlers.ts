import { idlerFigure, type IdlerRun, type IdlerWidth } from '../../src/functions/figure-names.ts';
import { idlerMasses } from '../../src/functions/tables.ts';
import { type NamedValue, namedValues } from '../../src/sheet/declaration.ts';
import { type LineTable, linesThrough, type TablePoint } from './table-lines.ts';
import { foot, pound } from '../../src/units/quantities.ts';

/** Rotating mass of idlers by the belt's width, a named value a figure, and the formulas by which columns read them. */

const runs = [
  { run: 'Carry', words: 'carrying idlers, 1.2 m (4 ft) apart,', mass: 'carrying' },
  { run: 'Return', words: 'return idlers, 3 m (10 ft) apart,', mass: 'returning' },
] as const;

export const idlerValues = namedValues(
  runs.flatMap(({ run, words, mass }) =>
    idlerMasses.map((row): NamedValue<`${IdlerRun}Idlers${IdlerWidth}mm`> => ({
      name: idlerFigure(run, row.width),
      kind: 'lineMass',
      value: { metric: row[mass], us: Number(((row[mass] * foot) / pound).toFixed(2)) },
      min: 0,
      doc: `rotating mass of the ${words} of a belt ${row.width} mm wide, per length of conveyor`,
      source: 'from memory',
    })),
  ),
);

const [narrowest] = idlerMasses;
const widest = idlerMasses.at(-1) ?? narrowest;

export const idlerDoc =
  `straight lines between the widths of the table, the last one on beyond ${widest.width} mm; below ` +
  `${narrowest.width} mm as at ${narrowest.width} mm`;

/** A width by which the table is read, a number of mm: none is below its first. */
export const tableWidthFormula = (width: string): string => `MAX(${narrowest.width},${width})`;

const idlerPoints = (run: IdlerRun): readonly TablePoint[] =>
  idlerMasses.map((row) => ({ place: row.width, name: idlerFigure(run, row.width) }));

/** Mass by such a width. */
export const idlerMassFormula = (run: IdlerRun, width: string): string => linesThrough(width, idlerPoints(run));

export const idlerTable = (run: IdlerRun): LineTable => ({
  name: `${run}Idlers`,
  heading: `${run} idlers`,
  points: idlerPoints(run),
  goesOn: true,
});
