import { carcassFactors, pulleySteps, standardPulleys } from '../../src/functions/tables.ts';
import { carcassFigureOf, frictionFigure, pulleyGroups, stepFigure } from '../../src/functions/figure-names.ts';
import { steelCords } from '../../src/functions/belt-tables.ts';
import { driveConditions, driveFrictions } from '../../src/functions/drive-tables.ts';
import { drivesByStart } from './starting.ts';
import { usualMargin } from './assumptions.ts';

/**
 * Tables that an exported file has beside its named values, so that one look-up says what a chain of IF says in the
 * book. Each has a name; its figures are the book's own values.
 */

/** What stands in a cell: a word, a number, the number of a named value, or a formula, over such a number or not. */
export type TableCell =
  | string
  | number
  | { readonly figure: string; readonly formula?: (figure: string) => string }
  | { readonly formula: string };

export interface FileTable {
  /** As formulas call all of it. */
  readonly name: string;
  /** Of a table without named values: the sheet that it stands beside. */
  readonly beside?: string;
  readonly columns: readonly {
    readonly heading: string;
    /** As formulas call this list of it. */
    readonly name?: string;
    readonly cells: readonly TableCell[];
  }[];
}

/** As a file calls the list of inputs that a method for the working tension may use. */
export const tensionInputs = 'TensionInputs';

const figuresOf = (names: readonly string[]): TableCell[] => names.map((figure) => ({ figure }));

export const carcassTable: FileTable = {
  name: 'CarcassFactors',
  columns: [
    { heading: 'Carcass material', cells: carcassFactors.map(({ code }) => code) },
    { heading: 'Carcass factor', cells: figuresOf(carcassFactors.map(carcassFigureOf)) },
  ],
};

const surfaces = driveFrictions.flatMap(({ face }) => driveConditions.map((condition) => ({ face, condition })));
/** Between the words for a drive pulley's surface and its condition. */
const apart = ', ';

const frictionTable: FileTable = {
  name: 'DriveFrictions',
  columns: [
    { heading: 'Drive pulley', cells: surfaces.map(({ face, condition }) => `${face}${apart}${condition}`) },
    {
      heading: 'Drive friction',
      cells: figuresOf(surfaces.map(({ face, condition }) => frictionFigure(face, condition))),
    },
  ],
};

export const startTable: FileTable = {
  name: 'StartFactors',
  columns: [
    { heading: 'Starting', cells: drivesByStart.map(({ word }) => word) },
    { heading: 'Start factor', cells: figuresOf(drivesByStart.map(({ name }) => name)) },
  ],
};

/** Shares used are rounded to 9 decimals: what is over a limit by less than this is at it. */
const over = '10^-10';

const stepTable: FileTable = {
  name: 'PulleySteps',
  columns: [
    {
      heading: 'Share used over',
      cells: pulleySteps
        .toReversed()
        .map((row, index) => (index === 0 ? -(10 ** 6) : { formula: `${row.over / 100}+${over}` })),
    },
    ...pulleyGroups.map((group) => ({
      heading: `Steps, group ${group}`,
      cells: figuresOf(pulleySteps.toReversed().map((row) => stepFigure(row.over, group))),
    })),
  ],
};

/** A list that formulas of the book hold written out, downward as they do. */
const listed = (name: string, heading: string, cells: readonly number[]): FileTable => ({
  name,
  beside: 'Tables',
  columns: [{ heading, cells }],
});

const strongestFirst = steelCords.toReversed();

/** Lists by whose names a file calls what formulas hold written out. */
export const writtenOut: readonly FileTable[] = [
  listed('StandardPulleys', 'Standard pulley, mm', standardPulleys.toReversed()),
  listed(
    'SteelCordStrengths',
    'Steel cord belt, N/mm',
    strongestFirst.map(({ strength }) => strength),
  ),
  listed(
    'SteelCords',
    'Steel cord, mm',
    strongestFirst.map(({ diameter }) => diameter),
  ),
];

/** The figure beside a word of a table. */
export const besideWord = ({ name }: FileTable, word: string): string => `VLOOKUP(${word},${name},2,0)`;

export const frictionInFile = (face: string, condition: string): string =>
  besideWord(frictionTable, `${face}&"${apart}"&${condition}`);

/** Steps along the series of pulleys by the share used and the pulley's group; #N/A for a group that there is not. */
export const pulleyStepInFile = (share: string, group: string): string =>
  `VLOOKUP(${share},${stepTable.name},` +
  `${pulleyGroups.reduceRight((rest, letter, index) => `IF(${group}="${letter}",${index + 2},${rest})`, 'NA()')})`;

/** Named values that a table's cells are of. */
export const tableFigures = ({ columns }: FileTable): string[] =>
  columns.flatMap(({ cells }) =>
    cells.flatMap((cell) => (typeof cell === 'object' && 'figure' in cell ? [cell.figure] : [])),
  );

/** The number by which a margin or a limit may be missed for rounding; checks.ts says why. */
const rounding = '10^-12';

/** A verdict of the table or its grade, not known while its margin is no number. */
const whereKnown = (shown: string): TableCell => ({
  figure: usualMargin,
  formula: (margin) => `IF(ISNUMBER(${margin}),${shown},NA())`,
});

/** A number below every ratio of two figures. */
const belowAll: TableCell = { formula: '-10^307' };

const fromMargin = (sign: '+' | '-'): TableCell => ({
  figure: usualMargin,
  formula: (margin) => `1${sign}IFERROR(${margin},0)${sign === '+' ? '-' : '+'}${rounding}`,
});

/** Verdicts by a number over its limit, from the number on that stands beside each. */
const verdictTable = (name: string, heading: string, lines: readonly (readonly [TableCell, string, number])[]) => ({
  name,
  columns: [
    { heading: `${heading}: from`, cells: lines.map(([from]) => from) },
    { heading: `${heading}: verdict`, cells: lines.map(([, verdict]) => whereKnown(`"${verdict}"`)) },
    { heading: `${heading}: grade`, cells: lines.map(([, , grade]) => whereKnown(String(grade))) },
  ],
});

const most: readonly TableCell[] = [belowAll, fromMargin('-'), { formula: `1+${rounding}` }];
const least: readonly TableCell[] = [belowAll, { formula: `1-${rounding}` }, fromMargin('+')];
const lined = (from: readonly TableCell[], verdicts: readonly (readonly [string, number])[]) =>
  from.map((cell, index) => {
    const [verdict, grade] = verdicts[index] ?? ['', 0];
    return [cell, verdict, grade] as const;
  });

/** Verdicts on a number over its limit: it must not be more, not less, or would better not be. */
export const verdictTables = {
  most: verdictTable(
    'AtMost',
    'At most',
    lined(most, [
      ['fits', 1],
      ['tight', 2],
      ['fails', 3],
    ]),
  ),
  least: verdictTable(
    'AtLeast',
    'At least',
    lined(least, [
      ['fails', 3],
      ['tight', 2],
      ['fits', 1],
    ]),
  ),
  mostAdvised: verdictTable(
    'AtMostAdvised',
    'Better at most',
    lined(most, [
      ['fits', 1],
      ['tight', 2],
      ['tight', 2],
    ]),
  ),
  leastAdvised: verdictTable(
    'AtLeastAdvised',
    'Better at least',
    lined(least, [
      ['tight', 2],
      ['tight', 2],
      ['fits', 1],
    ]),
  ),
} as const;

export const fileTables: readonly FileTable[] = [
  carcassTable,
  frictionTable,
  startTable,
  stepTable,
  ...writtenOut,
  ...Object.values(verdictTables),
];
