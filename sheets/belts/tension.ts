import { type BeltInput, tensionRoutes } from './inputs.ts';
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

const resisting = ['{Length factor}', '{Load mass}', '{Mass used}', '{Lift}', '{Slack factor}', '{Width}'];
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

/** Inputs of the routes, in which a slip keeps a lesser route from being taken. */
export const routeInputs: readonly BeltInput[] = [
  'Width',
  'Thickness',
  'Belt mass',
  'Capacity',
  'Power',
  'Speed',
  'Centres',
  'Lift',
  'Wrap',
  'Friction',
  'Drive face',
  'Drive condition',
  'Take-up kind',
  'Special resistance',
];
const ways = ['{Tension entered}', '{Tension by resistances}', '{Tension by power}'] as const;
const firstWay = `IF(ISNUMBER(${ways[0]}),${ways[0]},IF(ISNUMBER(${ways[1]}),${ways[1]},${ways[2]}))`;
const eachWay = ways.map((way) => `IF(ISNUMBER(${way}),${way},${firstWay})`).join(',');

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
  {
    header: 'Tension by resistances',
    kind: 'lineTension',
    digits: 1,
    doc: 'greatest tension per width by the resistances along the conveyor',
    formula: '{Greatest tension}/{Width}',
    emptyWithout: resisting,
    source: 'DIN 22101 / ISO 5048 with the length factor',
  },
  {
    header: 'Pull by power',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'that the motors can give to the belt',
    formula: '{Power}/{Speed}*PullPerPower*DriveEfficiency',
    emptyWithout: ['{Power}', '{Speed}'],
  },
  {
    header: 'Slack by power',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'slack tension for that pull: grip, or sag of the full belt where its load is known',
    formula: 'MAX({Pull by power}*{Slack factor},IF({Sag full}="",0,{Sag full}))',
    emptyWithout: ['{Pull by power}', '{Slack factor}'],
  },
  {
    header: 'Tension by power',
    kind: 'lineTension',
    digits: 1,
    doc: 'greatest tension per width by motor power and speed',
    formula: '({Pull by power}+{Slack by power})/{Width}',
    emptyWithout: ['{Pull by power}', '{Slack by power}', '{Width}'],
    source: 'power over speed; Euler-Eytelwein',
  },
  {
    header: 'Resistances given',
    kind: 'text',
    background: true,
    doc: 'whether the record has all that the tension by resistances needs',
    formula:
      'IF(COUNT({Capacity},{Speed},{Centres},{Lift},{Wrap},{Width})=6,IF({Friction from}="not known","no",' +
      'IF({Mass from}="not known","no",IF(ISERROR({Length factor}),"yes",IF(ISNUMBER({Length factor}),"yes",' +
      '"no")))),"no")',
    source: 'definition: its inputs are all there',
  },
  {
    header: 'Power given',
    kind: 'text',
    background: true,
    doc: 'whether the record has all that the tension by power needs',
    formula: 'IF(COUNT({Power},{Speed},{Wrap},{Width})=4,IF({Friction from}="not known","no","yes"),"no")',
    source: 'definition: its inputs are all there',
  },
  {
    header: 'Routes spoilt',
    kind: 'text',
    background: true,
    doc: 'whether something that will not do stands in an input of the routes',
    formula: `IF(ISWRONG(${routeInputs.map((header) => `{${header}}`).join(',')}),"yes","no")`,
    source: 'definition: the bounds of its inputs',
  },
  {
    header: 'Tension from',
    kind: 'text',
    doc:
      'which route gives the working tension: the one that is forced; else entered, resistances, power and speed, ' +
      'and as a last resort the permitted tension, the first that the record allows',
    formula:
      `IF(NOT(ISBLANK({Tension ` +
      `route})),IF(OR(${tensionRoutes.map((route) => `{Tension route}="${route}"`).join(',')}),{Tension route},"not ` +
      `known"),IF(NOT(ISBLANK({Tension entered})),"entered",IF({Routes spoilt}="yes","not known",IF({Resistances ` +
      `given}="yes","resistances",IF({Power given}="yes","power",IF({Permitted from}="not known","not ` +
      `known","permitted"))))))`,
  },
  {
    header: 'Belt pull',
    kind: 'force',
    digits: 0,
    doc:
      'pull that the drive gives to the belt or holds back, in the case that asks most; empty where the route ' +
      'does not need it',
    formula:
      'IF({Tension from}="power",IF({Pull by power}="","",{Pull by power}),IF({Tension from}="resistances",' +
      'IF(COUNT({Pull starting},{Pull braking})<2,"",IF(ABS({Pull braking})>ABS({Pull starting}),{Pull braking},' +
      '{Pull starting})),IF({Tension from}="not known",NA(),"")))',
  },
  {
    header: 'Working tension',
    kind: 'lineTension',
    digits: 1,
    doc: 'greatest tension per width that the joint sees',
    formula:
      'IF({Tension from}="entered",{Tension entered},IF({Tension from}="resistances",{Tension by resistances},' +
      'IF({Tension from}="power",{Tension by power},IF({Tension from}="permitted",{Permitted load},NA()))))',
    source: 'definition: the method that Tension from names',
  },
  {
    header: 'Belt load',
    kind: 'lineTension',
    digits: 1,
    background: true,
    doc: "working tension that the belt must carry; empty where it is the belt's own permitted tension",
    formula: 'IF({Tension from}="permitted","",{Working tension})',
  },
  {
    header: 'Route difference',
    kind: 'ratio',
    percent: true,
    digits: 0,
    doc: 'between the entered tension and those by resistances and by power, over the largest',
    formula: `IF(COUNT(${ways.join(',')})<2,"",IF(MAX(${eachWay})>0,1-MIN(${eachWay})/MAX(${eachWay}),""))`,
  },
  {
    header: 'Larger tension',
    kind: 'lineTension',
    digits: 1,
    background: true,
    doc:
      'by the way to the working tension that answers most, where that is more than the working tension by over ' +
      'RouteMargin; else empty',
    formula:
      `IF(COUNT(${ways.join(',')})=0,"",IF(MAX(${eachWay})*(1-RouteMargin)>{Working ` + `tension},MAX(${eachWay}),""))`,
  },
  {
    header: 'Routes',
    kind: 'text',
    doc: 'whether the ways to the working tension agree within RouteMargin; nothing when there is but one',
    formula: 'IFERROR(IF({Route difference}>RouteMargin,"differ","agree"),"not known")',
    emptyWithout: ['{Route difference}'],
  },
]);
