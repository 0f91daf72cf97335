import { define } from '../formula/define.ts';
import { driveConditions, driveFrictions, screwFactors } from './drive-tables.ts';
import { frictionFigure, screwFigure } from './figure-names.ts';
import { chosenText, columnText, lineAt, lineText } from './tables.ts';

/** How much slack-side tension a belt needs: against slip at the drive, and against sag between rollers. */

const faces = driveFrictions.map(({ face }) => face);
/** Row by row, as the table is printed. */
const frictionNames = driveFrictions.flatMap(({ face }) =>
  driveConditions.map((condition) => frictionFigure(face, condition)),
);

/**
 * Friction between belt and drive pulley, proposed by the pulley's face and its condition.
 *
 * "dirty" is wet and dirty. Take the worst condition that the belt meets: a drive that slips in the rain has no
 * friction of a dry one.
 */
export const driveFriction = define({
  name: 'DRIVEFRICTION',
  summary: 'friction of a drive pulley, proposed by its surface and condition',
  parameters: {
    face: { kind: 'text', choices: faces, doc: "the pulley's face" },
    condition: { kind: 'text', choices: driveConditions, doc: 'dry, wet, or wet and dirty' },
  },
  result: { kind: 'number', doc: 'friction between belt and drive pulley' },
  source: 'after DIN 22101, from memory',
  example: ['=DRIVEFRICTION("grooved rubber","wet")', 0.35],
  figures: Object.fromEntries(
    driveFrictions.flatMap((row) =>
      driveConditions.map((condition) => [frictionFigure(row.face, condition), row[condition]]),
    ),
  ),
  calculate({ face, condition }, figure) {
    const row = driveFrictions.find((one) => one.face === face);
    const column = driveConditions.find((word) => word === condition);
    return row === undefined || column === undefined ? Number.NaN : figure(frictionFigure(row.face, column));
  },
  formula: (_given, figure) =>
    chosenText(
      `(MATCH(TRIM({face}),${columnText(faces)},0)-1)*${driveConditions.length}` +
        `+MATCH(TRIM({condition}),${columnText(driveConditions)},0)`,
      frictionNames.map(figure),
    ),
});

const leastWrap = screwFactors[0].wrap;
const wraps = screwFactors.map(({ wrap }) => wrap);
const screwNames = {
  bare: screwFactors.map(({ wrap }) => screwFigure('Bare', wrap)),
  lagged: screwFactors.map(({ wrap }) => screwFigure('Lagged', wrap)),
} as const;

/**
 * Slack-side tension per unit of pull with a screw take-up: WRAPFACTOR's larger brother.
 *
 * Linear between the table's entries, whose print has one decimal. Below 180 degrees the table says nothing and the
 * function refuses; beyond its last entry the last factor holds, which is cautious.
 */
export const screwFactor = define({
  name: 'SCREWFACTOR',
  summary: 'slack-side tension per unit of effective tension, with a screw take-up',
  parameters: {
    wrap: {
      kind: 'angle',
      min: leastWrap,
      doc: 'degrees of wrap on the drive pulley, of several pulleys together',
      advice:
        'No figure is known for a smaller wrap with a screw take-up: take a measured tension, or lead the belt ' +
        'further round the drive pulley',
    },
    pulley: { kind: 'text', choices: ['bare', 'lagged'], doc: 'face of the drive pulley' },
  },
  result: { kind: 'number', doc: 'slack-side tension over effective tension' },
  source: 'from memory',
  example: ['=SCREWFACTOR(230,"bare")', 0.85],
  figures: Object.fromEntries(
    screwFactors.flatMap(({ wrap, bare, lagged }) => [
      [screwFigure('Bare', wrap), bare],
      [screwFigure('Lagged', wrap), lagged],
    ]),
  ),
  calculate({ wrap, pulley }, figure) {
    const names = screwNames[pulley === 'bare' ? 'bare' : 'lagged'];
    return lineAt(wrap, wraps, (index) => figure(names[index] ?? ''));
  },
  formula: (_given, figure) =>
    `IF(TRIM({pulley})="bare",${lineText('{wrap}', wraps, screwNames.bare.map(figure))},` +
    `${lineText('{wrap}', wraps, screwNames.lagged.map(figure))})`,
});

/**
 * Tension that keeps the belt from sagging more than allowed between two rollers.
 *
 * A flat parabola: the weight per length between the rollers, times their distance, over eight times the relative sag.
 * Use the load's mass for the carrying run and none for the return run; the larger of this and the drive's need
 * governs. Relative sag 0.005 to 0.02 (ISO 5048, from memory).
 */
export const sagTension = define({
  name: 'SAGTENSION',
  summary: 'minimum tension that limits the sag between idlers',
  parameters: {
    spacing: { kind: 'length', above: 0, doc: 'spacing of the idlers' },
    beltMass: { kind: 'lineMass', min: 0, doc: 'belt, per unit length' },
    loadMass: { kind: 'lineMass', min: 0, doc: 'load, per unit length; 0 on the return run' },
    sag: {
      kind: 'number',
      above: 0,
      max: 0.1,
      doc: 'sag over the spacing of the idlers, 0.005 to 0.02',
      advice: 'A sag of 1 per cent is 0.01',
    },
    gravity: { kind: 'gravity', above: 0, default: 9.81, doc: 'weight per unit mass: 9.81 N/kg, 1 lbf/lb' },
  },
  result: { kind: 'force', doc: 'minimum tension of the belt' },
  source: 'ISO 5048, DIN 22101, from memory',
  example: ['=SAGTENSION(1.2,15,105,0.01,9.81)', 17658],
  calculate({ spacing, beltMass, loadMass, sag, gravity }) {
    return ((beltMass + loadMass) * gravity * spacing) / (8 * sag);
  },
  formula: '({beltMass}+{loadMass})*{gravity}*{spacing}/(8*{sag})',
});

const pull = {
  kind: 'force',
  doc: 'effective tension at the drive, times the start-up factor if it applies; negative if the drive brakes',
} as const;
const factor = {
  kind: 'number',
  above: 0,
  doc: 'slack-side tension over effective tension: WRAPFACTOR, or SCREWFACTOR with a screw take-up',
} as const;
const least = { kind: 'force', min: 0, default: 0, doc: 'minimum tension for another reason, see SAGTENSION' } as const;

/**
 * Slack-side tension: what the drive needs against slip, or the least for another reason, whichever is larger.
 *
 * The drive of a braked belt holds it back, so its slack side is the one where the belt arrives: the size of the pull
 * counts, not its sign.
 */
export const slackTension = define({
  name: 'SLACKTENSION',
  summary: 'slack-side tension of the drive, set by the larger need',
  parameters: { pull, factor, least },
  result: { kind: 'force', doc: 'slack-side tension' },
  source: 'Euler-Eytelwein; ISO 5048, DIN 22101',
  example: ['=SLACKTENSION(30000,0.5,17658)', 17658],
  calculate({ pull, factor, least }) {
    return Math.max(Math.abs(pull) * factor, least);
  },
  formula: 'MAX(ABS({pull})*{factor},{least})',
});

/**
 * Tight-side tension: the slack side and the pull, the greatest tension of a belt driven at its greatest load.
 *
 * Of a braked belt it stands where the belt leaves the drive. A belt whose load runs down and up again may be tighter
 * elsewhere: follow it around the loop.
 */
export const tightTension = define({
  name: 'TIGHTTENSION',
  summary: 'tight-side tension of the drive',
  parameters: { pull, factor, least },
  result: { kind: 'force', doc: 'tight-side tension' },
  source: 'Euler-Eytelwein; ISO 5048, DIN 22101',
  example: ['=TIGHTTENSION(-30000,0.5,12000)', 45000],
  calculate({ pull, factor, least }) {
    return Math.abs(pull) + Math.max(Math.abs(pull) * factor, least);
  },
  formula: 'ABS({pull})+MAX(ABS({pull})*{factor},{least})',
});
