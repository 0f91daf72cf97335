import { plyThickness, safetyFactors } from '../src/functions/belt-tables.ts';
import type { NamedValue } from '../src/sheet/declaration.ts';
import { buyingValues } from './buying-values.ts';
import { jobRateValues } from './job-rates.ts';

/** Named values the whole book uses. Uncertain figures stand here, with their mark, and not in code. */
const practice = 'common practice, no source';
const memory = 'from memory';
const invented = 'invented for the demo: enter your own';

export const assumptionValues: readonly NamedValue[] = [
  { name: 'TightMargin', kind: 'ratio', value: 0.05, min: 0, max: 1, doc: 'a check that passes by less than this share of its limit is called tight', source: 'chosen' },
  { name: 'ReviewDate', kind: 'date', value: 46351, min: 1, doc: 'the day that joint ages are counted to', source: 'chosen' },
  { name: 'StripPieces', kind: 'count', value: 3, min: 0, max: 10, doc: 'strips in a joint: one below, two above', source: practice },
  { name: 'StripOverhang', kind: 'length', value: { metric: 60, us: 2.5 }, min: 0, doc: 'extra length of one strip over the cut, both ends together', source: practice },
  { name: 'TakeUpShare', kind: 'ratio', value: 1, above: 0, max: 2, doc: 'belt that one unit of take-up travel gives: 1 is cautious, 2 where the belt runs to and from the moving pulley', source: 'geometry of the take-up; the cautious end is chosen' },
  { name: 'CarryRollers', kind: 'lineMass', value: { metric: 15, us: 10 }, min: 0, doc: 'turning parts of the carrying rollers, per length of conveyor', source: memory },
  { name: 'ReturnRollers', kind: 'lineMass', value: { metric: 6.5, us: 4.4 }, min: 0, doc: 'turning parts of the return rollers, per length of conveyor', source: memory },
  { name: 'BeltDensity', kind: 'beltDensity', value: { metric: 0.0012, us: 0.52 }, above: 0, doc: 'belt mass per length, width and thickness', source: memory },
  { name: 'RollingFriction', kind: 'number', value: 0.02, above: 0, max: 0.1, doc: 'f of the main resistances: 0.020 as a start, 0.012 to 0.035 in use', source: `ISO 5048 / DIN 22101, ${memory}` },
  { name: 'StartFactor', kind: 'number', value: 1.3, min: 1, max: 3, doc: 'start-up pull over running pull, for tension from resistances', source: memory },
  { name: 'EasyFriction', kind: 'number', value: 0.012, above: 0, max: 0.1, doc: 'f of a belt that runs easily: the cautious one where it is braked, since friction helps the brake', source: `ISO 5048 / DIN 22101, ${memory}` },
  { name: 'CarrySpacing', kind: 'distance', value: { metric: 1.2, us: 4 }, above: 0, doc: 'distance between carrying rollers, for sag', source: memory },
  { name: 'ReturnSpacing', kind: 'distance', value: { metric: 3, us: 10 }, above: 0, doc: 'distance between return rollers, for sag', source: memory },
  { name: 'SagShare', kind: 'ratio', value: 0.01, above: 0, max: 0.1, doc: 'greatest sag between rollers over their distance: 0.005 to 0.02; a smaller one asks for more tension', source: `ISO 5048, ${memory}` },
  { name: 'TakeUpKind', kind: 'text', value: 'automatic', choices: ['automatic', 'screw'], doc: 'take-up of belts whose own is not given', source: 'chosen' },
  { name: 'DriveEfficiency', kind: 'ratio', value: 1, above: 0, max: 1, doc: 'share of the motor power that reaches the belt; 1 is cautious for the joint', source: 'chosen' },
  { name: 'RouteMargin', kind: 'ratio', value: 0.3, min: 0, max: 1, doc: 'two ways to the working tension that differ by more than this share of the larger are warned of', source: 'chosen' },
  { name: 'SafetyFabric', kind: 'number', value: safetyFactors.fabric.usual, min: 1, max: 30, doc: `type strength over permitted tension of a fabric belt, about ${safetyFactors.fabric.least} to ${safetyFactors.fabric.most}`, source: `abstract of a 1986 standard for underground belts; DIN 22101, ${memory}` },
  { name: 'SafetySteelCord', kind: 'number', value: safetyFactors.steelCord.usual, min: 1, max: 30, doc: `type strength over permitted tension of a steel cord belt, ${safetyFactors.steelCord.least} to ${safetyFactors.steelCord.most}`, source: `abstract of a 1986 standard for underground belts; DIN 22101, ${memory}` },
  { name: 'PlyBase', kind: 'length', value: { metric: plyThickness.base, us: plyThickness.base / 25.4 }, min: 0, doc: 'thickness that every ply has, for estimating the carcass', source: memory },
  { name: 'PlyPerStrength', kind: 'number', value: plyThickness.perStrength, min: 0, doc: 'thickness of a ply per its strength, mm per N/mm in either unit system', source: memory },
  { name: 'ReverseFactor', kind: 'number', value: 1, min: 1, max: 3, doc: "least pulley for the joint on a reverse bend over that on any other: 1 until the plates' supplier says more", source: 'chosen; no source gives another figure' },
  { name: 'TrimPerEnd', kind: 'length', value: { metric: 100, us: 4 }, min: 0, doc: 'belt cut off each end to square it', source: practice },
  { name: 'OrderStretch', kind: 'ratio', value: 0, min: 0, max: 0.1, doc: 'share by which tension lengthens a new belt when it is closed; 0 is safe, since too long can be cut', source: 'chosen' },
  { name: 'StretchTextile', kind: 'ratio', value: 0.015, min: 0, max: 0.1, doc: 'elastic and lasting stretch of a textile carcass in use', source: 'one handbook text' },
  { name: 'StretchSteelCord', kind: 'ratio', value: 0.002, min: 0, max: 0.1, doc: 'elastic and lasting stretch of a steel cord belt in use', source: 'one handbook text' },
  { name: 'RollLength', kind: 'distance', value: { metric: 150, us: 500 }, above: 0, doc: 'belt on one roll, where a belt does not say its own', source: 'chosen: ask the supplier' },
  { name: 'FirstHours', kind: 'hours', value: 24, min: 0, doc: 'running hours after which a new joint is looked at and tightened again', source: practice },
  { name: 'PulleyGroup', kind: 'text', value: 'A', choices: ['A', 'B', 'C'], doc: "the smallest pulley's group for the carcass check: A drive and high tension, B low-tension bends, C snubs up to 30 degrees of wrap", source: 'DIN 22101; A is the cautious choice' },
  { name: 'CrewSize', kind: 'count', value: 3, min: 1, max: 50, doc: 'people who work on one joint', source: invented },
  { name: 'CrewRate', kind: 'moneyPerHour', value: 60, min: 0, doc: 'cost of one crew hour', source: invented },
  { name: 'DaysPerYear', kind: 'daysPerYear', value: 365.25, min: 365, max: 366, doc: 'calendar days that a year of running hours is spread over', source: 'Julian year' },
  ...jobRateValues,
  ...buyingValues,
];
