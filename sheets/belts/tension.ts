import { type Column, columns } from '../../src/sheet/declaration.ts';
import { cases, slackNeeds, steadyCases } from './load-cases.ts';
import { startFactorFormula } from '../values/starting.ts';
import {
  frictionFormula,
  lengthFactorFormula,
  screwFactorFormula,
  settledFormula,
  shortestByFactor,
} from '../values/tables.ts';

/**
 * Working tension by every method that the data allow, and around the loop in the usual load cases.
 *
 * The loop runs over its return side from the head, where the drive and the take-up stand, to the tail and back on the
 * carrying side. Its tension is known up to one number, the slack tension behind the head, which is set once for all
 * cases by the one that needs most: grip on the drive, or little sag between rollers at both ends of either run.
 */

/** The wrap as a number of degrees, without its unit. */
const wrapDegrees = settledFormula('RADIANS({Wrap angle})/RADIANS(1)');

/** What the resistances along the conveyor rest on. */
export const resisting = ['{Length factor}', '{Load mass}', '{Belt mass used}', '{Lift}', '{Wrap factor}', '{Width}'];
const beltPull = (load: string, friction: string): Pick<Column, 'formula' | 'optional' | 'emptyWithout'> => ({
  formula:
    `BELTPULL({Pulley centres},{Lift},CarryIdlers,ReturnIdlers,{Belt mass used},${load},${friction},{Length ` +
    `factor},Gravity)+` +
    '{Special resistance}',
  optional: { 'Special resistance': 0 },
  emptyWithout: resisting,
});

/** One of the two words of a take-up, #N/A for any other. */
const takeUpWord = (cell: string): string => `IF(${cell}="screw","screw",IF(${cell}="automatic","automatic",NA()))`;
/** The word for a friction that is read from the table of surfaces. */
const bySurface = 'drive pulley surface';
const screw = (face: 'Bare' | 'Lagged'): string =>
  screwFactorFormula(wrapDegrees, face, `SCREWFACTOR({Wrap angle},"${face.toLowerCase()}")`);
const returnPull = (friction: string): string =>
  `RUNPULL({Pulley centres},-{Lift},ReturnIdlers,{Belt mass used},${friction},{Length factor},Gravity)`;

const sag = (spacing: string, load: string): string =>
  `SAGTENSION(${spacing},{Belt mass used},${load},SagRatio,Gravity)`;

export const tensionColumns = columns([
  {
    header: 'Start factor used',
    kind: 'number',
    digits: 2,
    background: true,
    doc: 'pull at start-up over running pull: by how the drive starts; default: StartFactor',
    formula: startFactorFormula('{Starting}'),
    source: 'from memory',
  },
  {
    header: 'Drive friction from',
    formerly: 'Friction from',
    kind: 'text',
    formerWords: { 'drive face': bySurface },
    background: true,
    doc: 'source of the drive friction: entered, or the surface and condition of the drive pulley',
    formula:
      'IF(NOT(ISBLANK({Drive friction})),"entered",IF(AND(ISTEXT({Drive pulley surface}),ISTEXT({Drive pulley ' +
      `condition})),"${bySurface}","not known"))`,
  },
  {
    header: 'Drive friction used',
    formerly: 'Friction used',
    kind: 'number',
    digits: 2,
    background: true,
    doc: 'friction between belt and drive pulley, as entered, otherwise by its surface and condition',
    formula:
      `IF({Drive friction from}="${bySurface}",` +
      `${frictionFormula('{Drive pulley surface}', '{Drive pulley ' + 'condition}')},{Drive friction})`,
  },
  {
    header: 'Take-up used',
    kind: 'text',
    background: true,
    doc: 'as given for the belt, otherwise TakeUpType',
    formula: `IF(ISBLANK({Take-up type}),${takeUpWord('TakeUpType')},${takeUpWord('{Take-up type}')})`,
  },
  {
    header: 'Wrap factor',
    formerly: 'Slack factor',
    kind: 'number',
    digits: 3,
    background: true,
    doc:
      'slack-side tension over effective tension: against slip, and with a screw take-up at least the ' +
      'figure in Tables',
    formula:
      'IF(ISERROR({Take-up used}),NA(),IF({Take-up used}="screw",MAX(WRAPFACTOR({Wrap angle},{Drive friction used}),' +
      `IF(OR(ISBLANK({Drive pulley surface}),{Drive pulley surface}="bare ` +
      `steel"),${screw('Bare')},${screw('Lagged')})),` +
      'WRAPFACTOR({Wrap angle},{Drive friction used})))',
    emptyWithout: ['{Wrap angle}', '{Drive friction used}'],
    source: 'Euler-Eytelwein; screw take-up: from memory',
  },
  {
    header: 'Load mass',
    kind: 'lineMass',
    digits: 1,
    background: true,
    doc: 'mass of the load per length of a loaded belt',
    formula: '{Capacity}/{Speed}*LoadPerRate',
    emptyWithout: ['{Capacity}', '{Speed}'],
  },
  {
    header: 'Length factor',
    kind: 'number',
    digits: 2,
    background: true,
    doc:
      `factor for secondary resistances by the conveyor's length, from the sheet Tables; none below ` +
      `${shortestByFactor} m`,
    formula: lengthFactorFormula(settledFormula('{Pulley centres}/OneMetre'), '""'),
    emptyWithout: ['{Pulley centres}'],
    source: 'DIN 22101, ISO 5048, from memory',
  },
  {
    header: 'Effective tension empty',
    formerly: 'Pull empty',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'at the drive, empty belt',
    ...beltPull('0', 'RollingFriction'),
  },
  {
    header: 'Effective tension loaded',
    formerly: 'Pull full',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'at the drive, loaded belt; negative if the drive brakes',
    ...beltPull('{Load mass}', 'RollingFriction'),
  },
  {
    header: 'Effective tension starting empty',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'at the drive, empty belt starting',
    formula: '{Effective tension empty}*{Start factor used}',
    emptyWithout: resisting,
  },
  {
    header: 'Effective tension starting',
    formerly: 'Pull starting',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'at the drive, loaded belt starting, or slowing down if the drive brakes',
    formula: '{Effective tension loaded}*{Start factor used}',
    emptyWithout: resisting,
  },
  {
    header: 'Effective tension low friction',
    formerly: 'Pull easy',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'at the drive, loaded belt with low friction',
    ...beltPull('{Load mass}', 'LowFriction'),
  },
  {
    header: 'Effective tension braking',
    formerly: 'Pull braking',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'at the drive, loaded belt with low friction, braking or starting',
    formula: '{Effective tension low friction}*{Start factor used}',
    emptyWithout: resisting,
  },
  {
    header: 'Effective tension at rest',
    formerly: 'Pull stopped',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'to hold the loaded belt on its incline, without friction',
    formula: '{Load mass}*Gravity*{Lift}',
    emptyWithout: resisting,
  },
  {
    header: 'Return run resistance',
    formerly: 'Return pull',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'effective tension of the return run',
    formula: returnPull('RollingFriction'),
    emptyWithout: resisting,
  },
  {
    header: 'Return run resistance low friction',
    formerly: 'Return easy',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'effective tension of the return run with low friction',
    formula: returnPull('LowFriction'),
    emptyWithout: resisting,
  },
  {
    header: 'Return share empty',
    kind: 'ratio',
    digits: 2,
    background: true,
    doc: 'of the return run in the mass that starting the empty belt speeds up',
    formula: '(ReturnIdlers+{Belt mass used})/(CarryIdlers+ReturnIdlers+2*{Belt mass used})',
    emptyWithout: resisting,
  },
  {
    header: 'Return share',
    kind: 'ratio',
    digits: 2,
    background: true,
    doc: 'share of the return run in the mass that starts up',
    formula: '(ReturnIdlers+{Belt mass used})/(CarryIdlers+ReturnIdlers+2*{Belt mass used}+{Load mass})',
    emptyWithout: resisting,
  },
  {
    header: 'Sag tension loaded',
    formerly: 'Sag full',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'minimum tension of the loaded carrying run against sag',
    formula: sag('CarryIdlerSpacing', '{Load mass}'),
    emptyWithout: ['{Load mass}', '{Belt mass used}'],
  },
  {
    header: 'Sag tension empty',
    formerly: 'Sag empty',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'minimum tension of the empty carrying run against sag',
    formula: sag('CarryIdlerSpacing', '0'),
    emptyWithout: ['{Belt mass used}'],
  },
  {
    header: 'Sag tension return',
    formerly: 'Sag return',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'minimum tension of the return run against sag',
    formula: sag('ReturnIdlerSpacing', '0'),
    emptyWithout: ['{Belt mass used}'],
  },
  {
    header: 'Slack-side tension',
    formerly: 'Slack tension',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'behind the head, set by the worst load case: grip on the drive, or sag',
    formula: `MAX({Sag tension return},${slackNeeds.join(',')})`,
    emptyWithout: resisting,
    source: 'Euler-Eytelwein; ISO 5048, DIN 22101',
  },
  {
    header: 'Tail tension',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'maximum at the tail in any load case',
    formula: `{Slack-side tension}+MAX(${cases.map(({ rise }) => rise).join(',')})`,
    emptyWithout: resisting,
  },
  {
    header: 'Steady maximum tension',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'anywhere on the loop in any case of load but starting and braking',
    formula: `{Slack-side tension}+MAX(0,${steadyCases.map(({ pull, rise }) => `{${pull}},${rise}`).join(',')})`,
    emptyWithout: resisting,
  },
  {
    header: 'Maximum tension',
    formerly: 'Greatest tension',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'maximum anywhere on the loop in any load case',
    formula:
      `MAX({Slack-side tension},{Tail tension},{Slack-side ` +
      `tension}+MAX(${cases.map(({ pull }) => `{${pull}}`).join(',')}))`,
    emptyWithout: resisting,
  },
]);
