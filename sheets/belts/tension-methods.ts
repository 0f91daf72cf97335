import { columns } from '../../src/sheet/declaration.ts';
import { tensionInputs } from '../values/file-tables.ts';
import { type BeltInput, formerMethods, tensionRoutes } from './inputs.ts';
import { resisting } from './resistances.ts';

/** The methods for the working tension beside each other: what each gives, which one counts, how far they differ. */

/** Inputs of the routes, in which a slip keeps a lesser route from being taken. */
export const routeInputs: readonly BeltInput[] = [
  'Width',
  'Thickness',
  'Belt mass',
  'Capacity',
  'Power',
  'Speed',
  'Pulley centres',
  'Lift',
  'Wrap angle',
  'Drive friction',
  'Drive pulley surface',
  'Drive pulley condition',
  'Take-up type',
  'Starting',
  'Special resistance',
  'Drive place',
  'Drive distance',
  'Second drive place',
  'Second drive distance',
  'Second drive share',
  'Second wrap angle',
  'Second drive friction',
  'Take-up distance',
  'Take-up weight',
  'Take-up rope falls',
  'Carry idler mass',
  'Return idler mass',
];
const ways = ['{Known tension}', '{Tension by resistances}', '{Tension by power}'] as const;
const firstWay = `IF(ISNUMBER(${ways[0]}),${ways[0]},IF(ISNUMBER(${ways[1]}),${ways[1]},${ways[2]}))`;
const eachWay = ways.map((way) => `IF(ISNUMBER(${way}),${way},${firstWay})`).join(',');

export const tensionMethodColumns = columns([
  {
    header: 'Tension by resistances',
    kind: 'lineTension',
    digits: 1,
    doc: 'maximum tension per width by the resistances along the conveyor',
    formula: '{Maximum tension}/{Width}',
    emptyWithout: resisting,
    source: 'DIN 22101 / ISO 5048 with the length factor',
  },
  {
    header: 'Effective tension by power',
    formerly: 'Pull by power',
    kind: 'force',
    digits: 0,
    background: true,
    doc: 'effective tension that the motors can give to the belt at start-up',
    formula: '{Power}/{Speed}*PullPerPower*DriveEfficiency*{Start factor used}',
    emptyWithout: ['{Power}', '{Speed}'],
  },
  {
    header: 'Slack-side tension by power',
    formerly: 'Slack by power',
    kind: 'force',
    digits: 0,
    background: true,
    doc:
      'slack-side tension for that effective tension: for grip, against sag of the loaded belt if its load is known, ' +
      'or by Take-up weight',
    formula:
      'MAX({Effective tension by power}*MAX({Grip factor},{Second grip factor}),' +
      'IF({Sag tension loaded}="",0,{Sag tension loaded}),' +
      'IF(ISBLANK({Take-up weight}),0,{Take-up tension by weight}))',
    emptyWithout: ['{Effective tension by power}', '{Grip factor}'],
  },
  {
    header: 'Tension by power',
    kind: 'lineTension',
    digits: 1,
    doc: 'maximum tension per width by motor power and speed',
    formula: '({Effective tension by power}+{Slack-side tension by power})/{Width}',
    emptyWithout: ['{Effective tension by power}', '{Slack-side tension by power}', '{Width}'],
    source: 'power over speed, times the start factor; Euler-Eytelwein',
  },
  {
    header: 'Resistances given',
    kind: 'text',
    background: true,
    doc: 'whether all inputs of the tension by resistances are given',
    formula:
      'IF(COUNT({Capacity},{Speed},{Pulley centres},{Lift},{Wrap angle},{Width})=6,IF({Drive friction from}="not ' +
      'known","no",' +
      'IF({Belt mass from}="not known","no",IF(ISERROR({Length factor}),"yes",IF(ISNUMBER({Length factor}),"yes",' +
      '"no")))),"no")',
    source: 'definition: its inputs are all there',
  },
  {
    header: 'Power given',
    kind: 'text',
    background: true,
    doc: 'whether all inputs of the tension by power are given',
    formula: 'IF(COUNT({Power},{Speed},{Wrap angle},{Width})=4,IF({Drive friction from}="not known","no","yes"),"no")',
    source: 'definition: its inputs are all there',
  },
  {
    header: 'Tension inputs invalid',
    formerly: 'Routes spoilt',
    kind: 'text',
    background: true,
    doc: 'whether an input of the methods is invalid',
    formula: `IF(ISWRONG(${routeInputs.map((header) => `{${header}}`).join(',')}),"yes","no")`,
    inFile: { formula: `IF(SUMPRODUCT(COUNT(FIND(${tensionInputs},{Wrong numbers}&{Wrong words})))>0,"yes","no")` },
    source: 'definition: the bounds of its inputs',
  },
  {
    header: 'Tension from',
    kind: 'text',
    formerWords: formerMethods,
    doc:
      'method that gives the working tension: the one in Tension method; otherwise entered, resistances, power ' +
      'and speed, ' +
      'and as a last resort the belt rating, the first that the data allow',
    formula:
      `IF(NOT(ISBLANK({Tension ` +
      `method})),IF(OR(${tensionRoutes.map((route) => `{Tension method}="${route}"`).join(',')}),{Tension ` +
      `method},"not ` +
      `known"),IF(NOT(ISBLANK({Known tension})),"entered",IF({Tension inputs invalid}="yes","not ` +
      `known",IF({Resistances ` +
      `given}="yes","resistances",IF({Power given}="yes","power",IF({Belt rating from}="not known","not ` +
      `known","belt rating"))))))`,
  },
  {
    header: 'Effective tension',
    formerly: 'Belt pull',
    kind: 'force',
    digits: 0,
    doc:
      'effective tension at the drive, driving or braking, in the worst load case; empty if the method ' +
      'does not need it',
    formula:
      'IF({Tension from}="power",IF({Effective tension by power}="","",{Effective tension by power}),IF({Tension ' +
      'from}="resistances",' +
      'IF(COUNT({Effective tension starting},{Effective tension braking})<2,"",IF(ABS({Effective tension ' +
      'braking})>ABS({Effective tension starting}),{Effective tension braking},' +
      '{Effective tension starting})),IF({Tension from}="not known",NA(),"")))',
  },
  {
    header: 'Working tension',
    kind: 'lineTension',
    digits: 1,
    doc: 'maximum tension per width at the joint',
    formula:
      'IF({Tension from}="entered",{Known tension},IF({Tension from}="resistances",{Tension by resistances},' +
      'IF({Tension from}="power",{Tension by power},IF({Tension from}="belt rating",{Load at belt rating},NA()))))',
    source: 'definition: the method that Tension from names',
  },
  {
    header: 'Steady tension',
    kind: 'lineTension',
    digits: 1,
    doc: 'maximum tension per width but for starting and braking: what the carcass bends under all day',
    formula:
      'IF({Tension from}="resistances",{Steady maximum tension}/{Width},IF({Tension from}="power",' +
      '({Effective tension by power}/{Start factor used}+{Slack-side tension by power})/{Width},{Working tension}))',
    source: 'DIN 22101, from memory: minimum pulleys are for the steady state',
  },
  {
    header: 'Belt load',
    kind: 'lineTension',
    digits: 1,
    background: true,
    doc: 'working tension that the belt must carry; empty if it is the belt rating',
    formula: 'IF({Tension from}="belt rating","",{Working tension})',
  },
  {
    header: 'Method difference',
    formerly: 'Route difference',
    kind: 'ratio',
    percent: true,
    digits: 0,
    doc: 'difference between the tensions entered, by resistances and by power, over the largest',
    formula: `IF(COUNT(${ways.join(',')})<2,"",IF(MAX(${eachWay})>0,1-MIN(${eachWay})/MAX(${eachWay}),""))`,
  },
  {
    header: 'Larger tension',
    kind: 'lineTension',
    digits: 1,
    background: true,
    doc:
      'largest tension of all methods, if it is more than the working tension by over ' +
      'MethodMargin; otherwise empty',
    formula:
      `IF(COUNT(${ways.join(',')})=0,"",IF(MAX(${eachWay})*(1-MethodMargin)>{Working ` +
      `tension},MAX(${eachWay}),""))`,
  },
  {
    header: 'Methods',
    formerly: 'Routes',
    kind: 'text',
    doc: 'whether the methods for the working tension agree within MethodMargin; empty with only one',
    formula: 'IFERROR(IF({Method difference}>MethodMargin,"differ","agree"),"not known")',
    emptyWithout: ['{Method difference}'],
  },
]);
