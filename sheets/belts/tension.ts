import { type Column, columns } from '../../src/sheet/declaration.ts';
import {
  frictionFormula,
  lengthFactorFormula,
  screwFactorFormula,
  settledFormula,
  shortestByFactor,
} from '../values/tables.ts';

/**
 * Working tension by every way that a record allows, and around the loop in the usual cases of load.
 *
 * The loop runs over its return side from the head, where the drive and the take-up stand, to the tail and back on the
 * carrying side. Its tension is known up to one number, the slack tension behind the head, which is set once for all
 * cases by the one that needs most: grip on the drive, or little sag between rollers at both ends of either run.
 */

/** The wrap as a number of degrees, without its unit. */
const wrapDegrees = settledFormula('RADIANS({Wrap})/RADIANS(1)');

/** What the resistances along the conveyor rest on. */
export const resisting = ['{Length factor}', '{Load mass}', '{Mass used}', '{Lift}', '{Slack factor}', '{Width}'];
const beltPull = (load: string, friction: string): Pick<Column, 'formula' | 'optional' | 'emptyWithout'> => ({
  formula:
    `BELTPULL({Centres},{Lift},CarryRollers,ReturnRollers,{Mass used},${load},${friction},{Length factor},Gravity)+` +
    '{Special resistance}',
  optional: { 'Special resistance': 0 },
  emptyWithout: resisting,
});

/** One of the two words of a take-up, #N/A for any other. */
const takeUpWord = (cell: string): string => `IF(${cell}="screw","screw",IF(${cell}="automatic","automatic",NA()))`;
const screw = (face: 'Bare' | 'Lagged'): string =>
  screwFactorFormula(wrapDegrees, face, `SCREWFACTOR({Wrap},"${face.toLowerCase()}")`);
const returnPull = (friction: string): string =>
  `RUNPULL({Centres},-{Lift},ReturnRollers,{Mass used},${friction},{Length factor},Gravity)`;

/** Cases of load: the pull of each, and what the belt's tension grows by from the head to the tail in it. */
const cases = [
  { pull: 'Pull empty', rise: '{Return pull}', load: '0' },
  { pull: 'Pull full', rise: '{Return pull}', load: '{Load mass}' },
  { pull: 'Pull starting', rise: '{Return pull}+(StartFactor-1)*{Pull full}*{Return share}', load: '{Load mass}' },
  { pull: 'Pull easy', rise: '{Return easy}', load: '{Load mass}' },
  { pull: 'Pull braking', rise: '{Return easy}+(StartFactor-1)*{Pull easy}*{Return share}', load: '{Load mass}' },
  { pull: 'Pull stopped', rise: '-{Mass used}*Gravity*{Lift}', load: '{Load mass}' },
] as const;

const sag = (spacing: string, load: string): string => `SAGTENSION(${spacing},{Mass used},${load},SagShare,Gravity)`;

/**
 * What each case asks of the slack tension: grip at the head, sag at the head and the tail of the carrying run and the
 * tail of the return run.
 */
const slackNeeds = cases.flatMap(({ pull, rise, load }) => {
  const carrySag = load === '0' ? '{Sag empty}' : '{Sag full}';
  return [
    `{${pull}}*{Slack factor}`,
    `-{${pull}}*(1+{Slack factor})`,
    `${carrySag}-{${pull}}`,
    `${carrySag}-(${rise})`,
    `{Sag return}-(${rise})`,
  ];
});

export const tensionColumns = columns([
  {
    header: 'Friction from',
    kind: 'text',
    background: true,
    doc: 'where the friction of the drive is from: entered; its face and condition',
    formula:
      'IF(NOT(ISBLANK({Friction})),"entered",IF(AND(ISTEXT({Drive face}),ISTEXT({Drive condition})),"drive ' +
      'face","not known"))',
  },
  {
    header: 'Friction used',
    kind: 'number',
    digits: 2,
    background: true,
    doc: 'between belt and driven pulley, as entered, else by its face and condition',
    formula: `IF({Friction from}="drive face",${frictionFormula('{Drive face}', '{Drive condition}')},{Friction})`,
  },
  {
    header: 'Take-up used',
    kind: 'text',
    background: true,
    doc: 'as given for the belt, else TakeUpKind',
    formula: `IF(ISBLANK({Take-up kind}),${takeUpWord('TakeUpKind')},${takeUpWord('{Take-up kind}')})`,
  },
  {
    header: 'Slack factor',
    kind: 'number',
    digits: 3,
    background: true,
    doc: 'slack side over pull: against slip, and with a screw take-up no less than the printed figure',
    formula:
      'IF(ISERROR({Take-up used}),NA(),IF({Take-up used}="screw",MAX(WRAPFACTOR({Wrap},{Friction used}),' +
      `IF(OR(ISBLANK({Drive face}),{Drive face}="bare steel"),${screw('Bare')},${screw('Lagged')})),` +
      'WRAPFACTOR({Wrap},{Friction used})))',
    emptyWithout: ['{Wrap}', '{Friction used}'],
    source: 'Euler-Eytelwein; screw take-up: from memory',
  },
  {
    header: 'Load mass',
    kind: 'lineMass',
    digits: 1,
    background: true,
    doc: 'of the load, per length of a full belt',
    formula: '{Capacity}/{Speed}*LoadPerRate',
    emptyWithout: ['{Capacity}', '{Speed}'],
  },
  {
    header: 'Length factor',
    kind: 'number',
    digits: 2,
    background: true,
    doc:
      `factor for secondary resistances by the conveyor's length, from the Tables sheet; none below ` +
      `${shortestByFactor} m`,
    formula: lengthFactorFormula(settledFormula('{Centres}/OneMetre'), '""'),
    emptyWithout: ['{Centres}'],
    source: 'DIN 22101, ISO 5048, from memory',
  },
  {
    header: 'Pull empty',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'at the drive, belt running empty',
    ...beltPull('0', 'RollingFriction'),
  },
  {
    header: 'Pull full',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'at the drive, belt running full; negative when it is braked',
    ...beltPull('{Load mass}', 'RollingFriction'),
  },
  {
    header: 'Pull starting',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'at the drive, full belt gathering speed, or slowed down when it is braked',
    formula: '{Pull full}*StartFactor',
    emptyWithout: resisting,
  },
  {
    header: 'Pull easy',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'at the drive, full belt that runs easily',
    ...beltPull('{Load mass}', 'EasyFriction'),
  },
  {
    header: 'Pull braking',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'at the drive, full belt that runs easily, slowed down or gathering speed',
    formula: '{Pull easy}*StartFactor',
    emptyWithout: resisting,
  },
  {
    header: 'Pull stopped',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'that holds the full belt on its slope, no friction helping',
    formula: '{Load mass}*Gravity*{Lift}',
    emptyWithout: resisting,
  },
  {
    header: 'Return pull',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'that the return run takes',
    formula: returnPull('RollingFriction'),
    emptyWithout: resisting,
  },
  {
    header: 'Return easy',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'that the return run takes when it runs easily',
    formula: returnPull('EasyFriction'),
    emptyWithout: resisting,
  },
  {
    header: 'Return share',
    kind: 'ratio',
    digits: 2,
    background: true,
    doc: 'of the return run in the mass that start-up speeds up',
    formula: '(ReturnRollers+{Mass used})/(CarryRollers+ReturnRollers+2*{Mass used}+{Load mass})',
    emptyWithout: resisting,
  },
  {
    header: 'Sag full',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'least tension of the full carrying run against sag',
    formula: sag('CarrySpacing', '{Load mass}'),
    emptyWithout: ['{Load mass}', '{Mass used}'],
  },
  {
    header: 'Sag empty',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'least tension of the empty carrying run against sag',
    formula: sag('CarrySpacing', '0'),
    emptyWithout: ['{Mass used}'],
  },
  {
    header: 'Sag return',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'least tension of the return run against sag',
    formula: sag('ReturnSpacing', '0'),
    emptyWithout: ['{Mass used}'],
  },
  {
    header: 'Slack tension',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'behind the head, set by the case that needs most: grip on the drive or little sag',
    formula: `MAX({Sag return},${slackNeeds.join(',')})`,
    emptyWithout: resisting,
    source: 'Euler-Eytelwein; ISO 5048, DIN 22101',
  },
  {
    header: 'Tail tension',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'greatest at the tail in any case of load',
    formula: `{Slack tension}+MAX(${cases.map(({ rise }) => rise).join(',')})`,
    emptyWithout: resisting,
  },
  {
    header: 'Greatest tension',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'anywhere on the loop in any case of load',
    formula:
      `MAX({Slack tension},{Tail tension},{Slack ` + `tension}+MAX(${cases.map(({ pull }) => `{${pull}}`).join(',')}))`,
    emptyWithout: resisting,
  },
]);
