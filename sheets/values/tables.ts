import { driveConditions, driveFrictions, screwFactors } from '../../src/functions/drive-tables.ts';
import {
  beltMaterials,
  type CarcassCode,
  carcassFigure,
  carcassFigureOf,
  frictionFigure,
  type FrictionName,
  type Group,
  lengthFigure,
  pulleyGroups,
  type ScrewFace,
  screwFigure,
  stepFigure,
  type StepShare,
  type TableLength,
  type TableWrap,
} from '../../src/functions/figure-names.ts';
import { carcassFactors, lengthFactors, pulleySteps } from '../../src/functions/tables.ts';
import { idlerTable, idlerValues } from './idlers.ts';
import { between, type LineTable } from './table-lines.ts';
import { type NamedValue, namedValues } from '../../src/sheet/declaration.ts';

/**
 * Printed tables as named values, one a cell of the table, so that each figure can be changed and has its mark beside
 * it; and the formulas by which columns read them.
 */

export const tableValues = namedValues([
  ...idlerValues,
  ...driveFrictions.flatMap((row) =>
    driveConditions.map((condition): NamedValue<FrictionName> => ({
      name: frictionFigure(row.face, condition),
      kind: 'number',
      value: row[condition],
      above: 0,
      max: 1.5,
      doc: `friction of a drive pulley: ${row.face}, ${condition === 'dirty' ? 'wet and dirty' : condition}`,
      source: 'after DIN 22101, from memory',
    })),
  ),
  ...screwFactors.flatMap(({ wrap, bare, lagged }) =>
    (
      [
        ['Bare', bare],
        ['Lagged', lagged],
      ] as const
    ).map(([face, value]): NamedValue<`ScrewFactor${TableWrap}${ScrewFace}`> => ({
      name: screwFigure(face, wrap),
      kind: 'number',
      value,
      above: 0,
      max: 10,
      doc:
        `slack-side tension over effective tension with a screw take-up, ${face.toLowerCase()} pulley, wrap of ` +
        `${wrap} degrees`,
      source: 'from memory',
    })),
  ),
  ...lengthFactors.map(({ length, factor }): NamedValue<`LengthFactor${TableLength}m`> => ({
    name: lengthFigure(length),
    kind: 'number',
    value: factor,
    min: 1,
    max: 5,
    doc: `factor for secondary resistances of a conveyor ${length} m long; straight lines between`,
    source: 'DIN 22101, ISO 5048, from memory',
  })),
  ...beltMaterials.map(({ code, material, factor }): NamedValue<`CarcassFactor${CarcassCode}`> => ({
    name: carcassFigure(code),
    kind: 'number',
    value: factor,
    above: 0,
    max: 1000,
    doc: `minimum pulley as a multiple of the carcass thickness: ${material}`,
    source: 'GB 50431-2020 clause 8.2.1; DIN 22101, ISO 3684, from memory',
  })),
  ...pulleySteps.flatMap((row) =>
    pulleyGroups.map((group): NamedValue<`PulleyStepOver${StepShare}${Group}`> => ({
      name: stepFigure(row.over, group),
      kind: 'count',
      value: row[group],
      min: -16,
      max: 16,
      doc: `steps along the series of pulleys, group ${group}, over ${row.over} % of the belt rating`,
      source: 'DIN 22101, from memory',
    })),
  ),
]);

/**
 * Factor for secondary resistances by a length in metres (an expression without a unit); `below` answers for one too
 * short.
 */
export const lengthFactorFormula = (metres: string, below: string): string =>
  between(metres, lengthFactorTable.points, below);

export const lengthFactorTable: LineTable = {
  name: 'LengthFactor',
  heading: 'Length factor',
  points: lengthFactors.map(({ length }) => ({ place: length, name: lengthFigure(length) })),
  goesOn: false,
};

export const shortestByFactor = lengthFactors[0].length;

/** Slack side over pull with a screw take-up; `below` answers for a wrap too small. */
export const screwFactorFormula = (wrap: string, face: ScrewFace, below: string): string =>
  between(wrap, screwFactorTable(face).points, below);

export const screwFactorTable = (face: ScrewFace): LineTable => ({
  name: `ScrewFactor${face}`,
  heading: `Screw factor, ${face.toLowerCase()}`,
  points: screwFactors.map((row) => ({ place: row.wrap, name: screwFigure(face, row.wrap) })),
  goesOn: false,
});

/** Tables of lines, which a file lays out beside the sheet Tables. */
export const lineTables: readonly LineTable[] = [
  lengthFactorTable,
  screwFactorTable('Bare'),
  screwFactorTable('Lagged'),
  idlerTable('Carry'),
  idlerTable('Return'),
];

export const driveFaces = driveFrictions.map(({ face }) => face);
export { driveConditions };

/** One of several named figures by a word in a cell; #N/A for another word. */
const byWord = (cell: string, words: readonly (readonly [word: string, formula: string])[]): string =>
  words.reduceRight((rest, [word, formula]) => `IF(${cell}="${word}",${formula},${rest})`, 'NA()');

/** Friction of a drive pulley by the words of its face and condition. */
export const frictionFormula = (face: string, condition: string): string =>
  byWord(
    face,
    driveFaces.map((word) => [
      word,
      byWord(
        condition,
        driveConditions.map((state) => [state, frictionFigure(word, state)]),
      ),
    ]),
  );

/** Least pulley over the carcass's thickness by the code of its material. */
export const carcassFactorFormula = (code: string): string =>
  byWord(
    code,
    carcassFactors.map((row) => [row.code, carcassFigureOf(row)]),
  );

/** A ratio to 9 decimals, which a number beyond any use is too large for: programs differ in what they make of it. */
export const settledFormula = (ratio: string): string => `ROUND(MIN(${ratio},10^6),9)`;

/**
 * Steps along the series of pulleys by the share used of the permitted tension (1 is all of it) and the pulley's group.
 */
export const pulleyStepFormula = (use: string, group: string): string =>
  byWord(
    group,
    pulleyGroups.map((letter) => [
      letter,
      pulleySteps.reduceRight(
        (rest, { over }) =>
          rest === ''
            ? stepFigure(over, letter)
            : `IF(${settledFormula(use)}>${over / 100},${stepFigure(over, letter)},${rest})`,
        '',
      ),
    ]),
  );
