import { driveConditions, driveFrictions, screwFactors } from '../../src/functions/drive-tables.ts';
import { carcassFactors, lengthFactors, pulleySteps } from '../../src/functions/tables.ts';
import { type NamedValue, namedValues } from '../../src/sheet/declaration.ts';

/**
 * Printed tables as named values, one a cell of the table, so that each figure can be changed and has its mark beside
 * it; and the formulas by which columns read them.
 */

type DriveFace = (typeof driveFrictions)[number]['face'];
type DriveCondition = (typeof driveConditions)[number];
type TableLength = (typeof lengthFactors)[number]['length'];
type TableWrap = (typeof screwFactors)[number]['wrap'];
type CarcassCode = (typeof carcassFactors)[number]['code'];
type StepShare = (typeof pulleySteps)[number]['over'];

const groups = ['A', 'B', 'C'] as const;
type Group = (typeof groups)[number];
type ScrewFace = 'Bare' | 'Lagged';

/** The words of a drive pulley as they stand in names. */
const faceWords = {
  'bare steel': 'BareSteel',
  'grooved rubber': 'GroovedRubber',
  ceramic: 'Ceramic',
} as const satisfies Record<DriveFace, string>;
const conditionWords = { dry: 'Dry', wet: 'Wet', dirty: 'Dirty' } as const satisfies Record<DriveCondition, string>;
type FrictionName = `Friction${(typeof faceWords)[DriveFace]}${(typeof conditionWords)[DriveCondition]}`;

const lengthName = (length: TableLength): `LengthFactor${TableLength}m` => `LengthFactor${length}m`;
const screwName = (face: ScrewFace, wrap: TableWrap): `ScrewFactor${TableWrap}${ScrewFace}` =>
  `ScrewFactor${wrap}${face}`;
const frictionName = (face: DriveFace, condition: DriveCondition): FrictionName =>
  `Friction${faceWords[face]}${conditionWords[condition]}`;
const carcassName = (code: CarcassCode): `CarcassFactor${CarcassCode}` => `CarcassFactor${code}`;
const stepName = (over: StepShare, group: Group): `PulleyStepOver${StepShare}${Group}` =>
  `PulleyStepOver${over}${group}`;

/** Materials once each: two codes may stand for one factor. */
const materials = [
  ...new Map(carcassFactors.map(({ code, material, factor }) => [factor, { code, material, factor }])).values(),
];

export const tableValues = namedValues([
  ...driveFrictions.flatMap((row) =>
    driveConditions.map((condition): NamedValue<FrictionName> => ({
      name: frictionName(row.face, condition),
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
      name: screwName(face, wrap),
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
    name: lengthName(length),
    kind: 'number',
    value: factor,
    min: 1,
    max: 5,
    doc: `factor for secondary resistances of a conveyor ${length} m long; straight lines between`,
    source: 'DIN 22101, ISO 5048, from memory',
  })),
  ...materials.map(({ code, material, factor }): NamedValue<`CarcassFactor${CarcassCode}`> => ({
    name: carcassName(code),
    kind: 'number',
    value: factor,
    above: 0,
    max: 1000,
    doc: `minimum pulley as a multiple of the carcass thickness: ${material}`,
    source: 'GB 50431-2020 clause 8.2.1; DIN 22101, ISO 3684, from memory',
  })),
  ...pulleySteps.flatMap((row) =>
    groups.map((group): NamedValue<`PulleyStepOver${StepShare}${Group}`> => ({
      name: stepName(row.over, group),
      kind: 'count',
      value: row[group],
      min: -16,
      max: 16,
      doc: `steps along the series of pulleys, group ${group}, over ${row.over} % of the belt rating`,
      source: 'DIN 22101, from memory',
    })),
  ),
]);

interface TablePoint {
  readonly place: number;
  readonly name: string;
}

/** Straight lines between named points of a table, level from the last one on; `below` answers before the first. */
function between(at: string, points: readonly TablePoint[], below: string): string {
  const lines = points.slice(0, -1).reduceRight(
    (rest, { place, name }, index) => {
      const next = points[index + 1] ?? { place, name };
      return `IF(${at}<${next.place},${name}+(${at}-${place})/${next.place - place}*(${next.name}-${name}),${rest})`;
    },
    points.at(-1)?.name ?? '',
  );
  return `IF(${at}<${points[0]?.place ?? 0},${below},${lines})`;
}

/**
 * Factor for secondary resistances by a length in metres (an expression without a unit); `below` answers for one too
 * short.
 */
export const lengthFactorFormula = (metres: string, below: string): string =>
  between(
    metres,
    lengthFactors.map(({ length }) => ({ place: length, name: lengthName(length) })),
    below,
  );

export const shortestByFactor = lengthFactors[0].length;

/** Slack side over pull with a screw take-up; `below` answers for a wrap too small. */
export const screwFactorFormula = (wrap: string, face: 'Bare' | 'Lagged', below: string): string =>
  between(
    wrap,
    screwFactors.map((row) => ({ place: row.wrap, name: screwName(face, row.wrap) })),
    below,
  );

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
        driveConditions.map((state) => [state, frictionName(word, state)]),
      ),
    ]),
  );

/** Least pulley over the carcass's thickness by the code of its material. */
export const carcassFactorFormula = (code: string): string =>
  byWord(
    code,
    carcassFactors.map((row) => [
      row.code,
      carcassName(materials.find(({ factor }) => factor === row.factor)?.code ?? row.code),
    ]),
  );

/** A ratio to 9 decimals, which a number beyond any use is too large for: programs differ in what they make of it. */
export const settledFormula = (ratio: string): string => `ROUND(MIN(${ratio},10^6),9)`;

/**
 * Steps along the series of pulleys by the share used of the permitted tension (1 is all of it) and the pulley's group.
 */
export const pulleyStepFormula = (use: string, group: string): string =>
  byWord(
    group,
    groups.map((letter) => [
      letter,
      pulleySteps.reduceRight(
        (rest, { over }) =>
          rest === ''
            ? stepName(over, letter)
            : `IF(${settledFormula(use)}>${over / 100},${stepName(over, letter)},${rest})`,
        '',
      ),
    ]),
  );
