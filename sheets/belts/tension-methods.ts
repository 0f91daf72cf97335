import { columns } from '../../src/sheet/declaration.ts';
import { type BeltInput, tensionRoutes } from './inputs.ts';
import { resisting } from './tension.ts';

/** The methods for the working tension beside each other: what each gives, which one counts, how far they differ. */

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

export const tensionMethodColumns = columns([
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
