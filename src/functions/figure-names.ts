import { driveConditions, driveFrictions, screwFactors } from './drive-tables.ts';
import { carcassFactors, idlerMasses, lengthFactors, pulleySteps } from './tables.ts';

/** Printed figures that a book may change: the named value that holds each. */

type DriveFace = (typeof driveFrictions)[number]['face'];
type DriveCondition = (typeof driveConditions)[number];
export type TableLength = (typeof lengthFactors)[number]['length'];
export type IdlerWidth = (typeof idlerMasses)[number]['width'];
export type TableWrap = (typeof screwFactors)[number]['wrap'];
export type CarcassCode = (typeof carcassFactors)[number]['code'];
export type StepShare = (typeof pulleySteps)[number]['over'];

export const pulleyGroups = ['A', 'B', 'C'] as const;
export type Group = (typeof pulleyGroups)[number];
export type ScrewFace = 'Bare' | 'Lagged';

/** The words of a drive pulley as they stand in names. */
const faceWords = {
  'bare steel': 'BareSteel',
  'grooved rubber': 'GroovedRubber',
  ceramic: 'Ceramic',
} as const satisfies Record<DriveFace, string>;
const conditionWords = { dry: 'Dry', wet: 'Wet', dirty: 'Dirty' } as const satisfies Record<DriveCondition, string>;
export type FrictionName = `Friction${(typeof faceWords)[DriveFace]}${(typeof conditionWords)[DriveCondition]}`;

export const lengthFigure = (length: TableLength): `LengthFactor${TableLength}m` => `LengthFactor${length}m`;
export const screwFigure = (face: ScrewFace, wrap: TableWrap): `ScrewFactor${TableWrap}${ScrewFace}` =>
  `ScrewFactor${wrap}${face}`;
export type IdlerRun = 'Carry' | 'Return';
export const idlerFigure = (run: IdlerRun, width: IdlerWidth): `${IdlerRun}Idlers${IdlerWidth}mm` =>
  `${run}Idlers${width}mm`;
export const frictionFigure = (face: DriveFace, condition: DriveCondition): FrictionName =>
  `Friction${faceWords[face]}${conditionWords[condition]}`;
export const carcassFigure = (code: CarcassCode): `CarcassFactor${CarcassCode}` => `CarcassFactor${code}`;
export const stepFigure = (over: StepShare, group: Group): `PulleyStepOver${StepShare}${Group}` =>
  `PulleyStepOver${over}${group}`;

/** Materials once each: two codes may stand for one factor. */
export const beltMaterials = [
  ...new Map(carcassFactors.map(({ code, material, factor }) => [factor, { code, material, factor }])).values(),
];

/** The figure of any code: two codes may share one. */
export const carcassFigureOf = ({ code, factor }: (typeof carcassFactors)[number]): `CarcassFactor${CarcassCode}` =>
  carcassFigure(beltMaterials.find((material) => material.factor === factor)?.code ?? code);
