import { replacedJoints } from '../../src/functions/parameters.ts';
import { serviceNeeds } from '../../src/functions/series.ts';
import { columns } from '../../src/sheet/declaration.ts';
import { driveInputs } from './drive-inputs.ts';
import { fine, short } from './column-digits.ts';
import { runningInputs } from './running-inputs.ts';
import { startings } from '../values/starting.ts';
import { driveConditions, driveFaces } from '../values/tables.ts';

/** Ways to the working tension, the surest first; a belt may force one. */
export const tensionRoutes = ['entered', 'resistances', 'power', 'belt rating'] as const;

/** What people are told each is; lists and formulas hold the words above. */
export const tensionRouteNames: Readonly<Record<(typeof tensionRoutes)[number], string>> = {
  entered: 'known tension',
  resistances: 'from resistances',
  power: 'from power',
  'belt rating': 'belt rating',
};

/** Words for the methods in earlier versions. */
export const formerMethods = { permitted: 'belt rating' } as const;

/** What people know of a belt. */
export const beltInputs = columns([
  { header: 'Belt', kind: 'text', doc: "the belt's name or number; each belt has its own" },
  { header: 'Area', kind: 'text', doc: 'where in the plant' },
  { header: 'Material', formerly: 'Duty', kind: 'text', doc: 'material conveyed' },
  { header: 'Width', kind: 'length', above: 0, digits: short, doc: "the belt's width" },
  { header: 'Construction', kind: 'text', doc: 'the designation, for example "EP 400/3 4+2" or "1000 EP 630/4 6/2 Y"' },
  { header: 'Thickness', kind: 'length', above: 0, digits: fine, doc: 'of the whole belt' },
  {
    header: 'Carcass thickness',
    kind: 'length',
    above: 0,
    digits: fine,
    doc: 'without covers; of a steel cord belt the cord diameter; blank: derived',
  },
  { header: 'Top cover', kind: 'length', min: 0, digits: fine, doc: 'cover on the carrying side' },
  {
    header: 'Belt rating',
    formerly: 'Permitted tension',
    kind: 'lineTension',
    above: 0,
    digits: 1,
    doc: 'rated (allowable) working tension of the belt per width; blank: derived',
  },
  { header: 'Smallest pulley', kind: 'length', above: 0, digits: short, doc: 'the smallest pulley the belt runs over' },
  { header: 'Head pulley', kind: 'length', above: 0, digits: short, doc: 'diameter of the head pulley' },
  { header: 'Tail pulley', kind: 'length', above: 0, digits: short, doc: 'diameter of the tail pulley' },
  {
    header: 'Pulley centres',
    formerly: 'Centres',
    kind: 'distance',
    above: 0,
    digits: 1,
    doc: 'from head to tail pulley',
  },
  { header: 'Lift', kind: 'distance', digits: 1, doc: 'rise from tail to head, negative downhill' },
  { header: 'Speed', kind: 'speed', above: 0, digits: { metric: 2, us: 0 }, doc: "the belt's speed" },
  { header: 'Power', kind: 'power', above: 0, digits: { metric: 1, us: 1 }, doc: 'motor power, all drives together' },
  { header: 'Capacity', kind: 'capacity', min: 0, digits: 0, doc: 'material carried per hour' },
  {
    header: 'Wrap angle',
    formerly: 'Wrap',
    kind: 'angle',
    above: 0,
    max: 720,
    digits: 0,
    doc: 'arc of contact of the belt on its drive pulleys, degrees',
  },
  {
    header: 'Drive friction',
    formerly: 'Friction',
    kind: 'number',
    above: 0,
    max: 1.5,
    digits: 2,
    doc: 'friction between belt and drive pulley; blank: from its surface and condition',
  },
  {
    header: 'Known tension',
    formerly: 'Tension entered',
    kind: 'lineTension',
    above: 0,
    digits: 1,
    doc: 'working tension per width, if known',
  },
  { header: 'Take-up travel', kind: 'length', min: 0, digits: short, doc: 'travel still available in the take-up' },
  {
    header: 'Skew',
    kind: 'angle',
    min: 0,
    max: 60,
    digits: 1,
    doc: 'of the cut from the square line, degrees: 0 is a square joint',
    source: 'the limit of 60 degrees is our choice, no effect on safety',
  },
  {
    header: 'Plate series',
    kind: 'text',
    choices: { sheet: 'Plate series', header: 'Series' },
    doc: 'plate series of the joint',
  },
  {
    header: 'Skive depth',
    formerly: 'Skive',
    kind: 'length',
    min: 0,
    digits: fine,
    doc: 'cover cut away under the plates; 0 if it is not skived',
  },
  { header: 'Joints', kind: 'count', min: 0, max: 200, doc: 'bolted joints (splices) in the loop' },
  { header: 'Installed', kind: 'date', min: 1, doc: 'date the joint was installed' },
  { header: 'Hours per year', kind: 'hoursPerYear', above: 0, max: 8784, digits: 0, doc: 'running hours per year' },
  { header: 'Joint life', kind: 'hours', above: 0, digits: 0, doc: 'expected life of a joint in running hours' },
  {
    header: 'Service',
    kind: 'text',
    choices: Object.keys(serviceNeeds),
    several: true,
    doc: 'service conditions of the joint, separated by commas; "none" if nothing applies',
  },
  // What most lists leave out, in the order of what it serves.
  {
    header: 'Belt mass',
    kind: 'lineMass',
    above: 0,
    digits: { metric: 1, us: 2 },
    doc: 'mass of the belt alone per length; blank: derived',
  },
  {
    header: 'Drive pulley surface',
    formerly: 'Drive face',
    kind: 'text',
    choices: driveFaces,
    doc: 'surface (lagging) of the drive pulley',
  },
  {
    header: 'Drive pulley condition',
    formerly: 'Drive condition',
    kind: 'text',
    choices: driveConditions,
    doc: 'worst condition at the drive pulley; "dirty" is wet and dirty',
  },
  {
    header: 'Take-up type',
    formerly: 'Take-up kind',
    kind: 'text',
    choices: ['automatic', 'screw'],
    doc: 'automatic (a weight or winch that keeps the tension) or screw (set by hand); blank: TakeUpType',
  },
  {
    header: 'Starting',
    kind: 'text',
    choices: startings,
    doc: 'how the drive starts; StartFactor when it is not given',
  },
  {
    header: 'Pulley group',
    kind: 'text',
    choices: ['A', 'B', 'C'],
    doc:
      'of the smallest pulley: A drive and high tension, B low-tension bends, C snubs up to 30 degrees of wrap; ' +
      'PulleyGroup when it is not given',
  },
  {
    header: 'Special resistance',
    kind: 'force',
    min: 0,
    digits: 0,
    doc: 'resistance of skirts, tilted idlers and extra scrapers; blank: none',
  },
  {
    header: 'Tension method',
    formerly: 'Tension route',
    kind: 'text',
    choices: tensionRoutes,
    formerWords: formerMethods,
    doc: 'method for the working tension; blank: the surest that the data allow',
  },
  {
    header: 'Skew hand',
    kind: 'text',
    choices: ['right', 'left'],
    doc:
      'the edge, seen from above in the direction of travel, at which the trailing corner of the cut (the marked ' +
      'corner) lies; right when it is not given',
  },
  {
    header: 'Life in passes',
    kind: 'number',
    above: 0,
    digits: 0,
    doc: 'expected life of a joint in passes around the loop, if known',
  },
  {
    header: 'Replaces',
    kind: 'text',
    choices: replacedJoints,
    doc:
      'what the joint replaces: "new belt" closes a belt that was ordered with its joints, "same skew" is cut ' +
      'parallel to the old joint; taken as a square joint when it is not given',
  },
  {
    header: 'Replaced skew',
    kind: 'angle',
    min: 0,
    max: 60,
    digits: 1,
    doc: 'of the joint of another skew that it replaces, degrees; up to 45 when it is not given',
  },
  {
    header: 'Cut-out',
    kind: 'length',
    min: 0,
    digits: short,
    doc:
      'breadth cut out with the old joint, both ends together, square to its cut; the length of a plate when it is ' +
      'not given, between parallel cuts with TrimPerEnd on either side',
  },
  {
    header: 'Take-up position',
    kind: 'length',
    min: 0,
    digits: short,
    doc: 'take-up travel already used when the loop is measured; a new belt is ordered for the innermost position',
  },
  {
    header: 'Roll length',
    kind: 'distance',
    above: 0,
    digits: 1,
    doc: 'belt on one roll as ordered; blank: RollLength',
  },
  ...driveInputs,
  ...runningInputs,
  {
    header: 'Insert',
    kind: 'distance',
    above: 0,
    digits: 2,
    doc: 'belt to be cut out and replaced, on the centre line',
  },
  {
    header: 'Spare roll diameter',
    formerly: 'Spare roll outside',
    kind: 'length',
    above: 0,
    digits: short,
    doc: 'outer diameter of a roll of this belt in store',
  },
  {
    header: 'Spare roll core diameter',
    formerly: 'Spare roll core',
    kind: 'length',
    min: 0,
    digits: short,
    doc: 'diameter of its empty core',
  },
]);

/** The header of a column that people fill in. */
export type BeltInput = (typeof beltInputs)[number]['header'];

/** How many of a belt's listed pulleys say "no" in a column. */
export const listed = (header: string): string => `COUNTIFS({Pulleys.Belt},{Belt},{Pulleys.${header}},"no")`;

/** A figure of the belt's plate series. */
export const plate = (header: string): string => `INDEX({Plate series.${header}},{Series row})`;
