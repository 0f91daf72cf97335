import type { BeltHeader } from '../index.ts';

/** Columns that belong to one subject, wherever they stand: a reader folds away what is not asked about. */
interface ColumnGroup {
  readonly name: string;
  readonly doc: string;
  readonly headers: readonly BeltHeader[];
}

// prettier-ignore
/** Every column of the sheet Belts but its names, each in one group; test/workbook/groups.test.ts holds them to it. */
export const beltGroups: readonly ColumnGroup[] = [
  { name: 'Belt', doc: 'the belt itself: width, construction, thickness, rating, mass', headers: [
    'Width', 'Construction', 'Thickness', 'Carcass thickness', 'Top cover', 'Belt rating', 'Belt mass', 'Insert',
    'Carcass material', 'Belt strength', 'Plies', 'Covers', 'Designated cover', 'Cover used', 'Cover left',
    'Covers used', 'Carcass by covers', 'Carcass by plies', 'Carcass from', 'Carcass used', 'Carcass difference',
    'Belt rating from', 'Belt rating used', 'Carcass rating', 'Load at belt rating', 'Maximum belt rating',
    'Belt mass from', 'Belt mass used',
    'Carcass factor',
    'Maximum temperature', 'Temperature limit', 'Top cover entered', 'Layers entered',
  ] },
  { name: 'Conveyor', doc: 'the conveyor: place, material, length, speed, drive, take-up', headers: [
    'Area', 'Material', 'Pulley centres', 'Lift', 'Speed', 'Power', 'Capacity', 'Wrap angle', 'Drive friction',
    'Take-up travel', 'Take-up type', 'Take-up position', 'Drive pulley surface', 'Drive pulley condition',
    'Special resistance', 'Service', 'Hours per year', 'Drive friction from', 'Drive friction used', 'Take-up used',
    'Wrap factor', 'Load mass', 'Length factor', 'Loop from', 'Loop length',
    'Bulk density', 'Material temperature', 'Slope', 'Maximum slope', 'Trough angle', 'Surcharge angle', 'Starting',
    'Scraper clearance', 'Load limit', 'Travel needed', 'Stretch reserve',
    'Drive faults', 'Drive place', 'Drive distance', 'Second drive place', 'Second drive distance',
    'Second drive share', 'Second wrap angle', 'Second drive friction', 'Take-up distance', 'Take-up weight',
    'Take-up rope falls', 'Carry idler mass', 'Return idler mass', 'Drive position', 'Second drive position',
    'Second share', 'Second wrap factor', 'Grip factor', 'Second grip factor', 'Take-up place', 'Share to take-up',
    'Share to drive', 'Share to second drive', 'Share at head', 'Share at tail', 'Table width', 'Carry idlers used',
    'Return idlers used', 'Moving mass empty', 'Moving mass loaded', 'Take-up weight needed',
  ] },
  { name: 'Tension', doc: 'tensions by every method, and the one used', headers: [
    'Known tension', 'Tension method', 'Effective tension empty', 'Effective tension loaded',
    'Effective tension starting', 'Effective tension low friction', 'Effective tension braking',
    'Effective tension at rest', 'Return run resistance', 'Return run resistance low friction', 'Return share',
    'Sag tension loaded', 'Sag tension empty', 'Sag tension return', 'Slack-side tension', 'Tail tension',
    'Maximum tension', 'Tension by resistances', 'Effective tension by power', 'Slack-side tension by power',
    'Tension by power', 'Resistances given', 'Power given', 'Tension inputs invalid', 'Tension from',
    'Effective tension', 'Working tension', 'Belt load', 'Method difference', 'Larger tension', 'Methods',
    'Effective tension starting empty', 'Return share empty', 'Start factor used', 'Steady maximum tension',
    'Steady tension',
    'Effective tension braking empty', 'Return run resistance starting empty', 'Return run resistance starting',
    'Return run resistance braking', 'Return run resistance braking empty', 'Return run resistance at rest',
    'Sag tension at drive', 'Sag tension at second drive', 'Take-up tension by weight', 'Slack-side tension empty',
    'Slack-side tension loaded', 'Slack-side tension starting empty', 'Slack-side tension starting',
    'Slack-side tension low friction', 'Slack-side tension braking', 'Slack-side tension braking empty',
    'Slack-side tension at rest', 'Slack-side tension needed', 'Maximum tension empty', 'Maximum tension loaded',
    'Maximum tension starting empty', 'Maximum tension starting', 'Maximum tension low friction',
    'Maximum tension braking', 'Maximum tension braking empty', 'Maximum tension at rest', 'Steady tail tension',
    'Steady head tension', 'Steady return tension',
  ] },
  { name: 'Joint', doc: 'the joint: skew, plates, bolts, strips, cut', headers: [
    'Skew', 'Skew hand', 'Plate series', 'Skive depth', 'Joints', 'Series row', 'Cut length', 'Edge offset',
    'Belt lost to skew', 'Plates', 'Edge clearance', 'Rim left', 'Rim needed', 'Corner left', 'Bolts', 'Bolt length',
    'Strip length each', 'Strips', 'Strip per joint', 'Load per plate', 'Rating used', 'Clamped thickness', 'Holes',
    'Cut-out', 'Cut-out used', 'Joint takes', 'Plate length used', 'Plates stand out', 'Replaced joint',
    'Replaced skew', 'Replaces',
  ] },
  { name: 'Pulley', doc: 'pulleys and the smallest that joint and carcass allow', headers: [
    'Smallest pulley', 'Head pulley', 'Tail pulley', 'Pulleys listed', 'Joint minimum pulley', 'Critical pulley',
    'Carcass row', 'Carcass critical pulley', 'Carcass steps', 'Carcass minimum pulley',
    'Pulley group', 'Smallest or listed', 'Smallest or head', 'Smallest pulley used',
    'Rated skew below', 'Rated skew above', 'Pulley rated below',
    'Pulley rated above', 'Smallest listed pulley', 'Other pulley', 'Other pulley group', 'Other pulley steps',
    'Other minimum pulley',
  ] },
  { name: 'Life', doc: 'age of the joint, what is left of it, when it is due', headers: [
    'Installed', 'Joint life', 'Life in passes', 'Passes per hour', 'Passes per year', 'Joint age', 'Age in passes',
    'Life used from', 'Life in hours', 'Due', 'Due reason', 'Retighten on',
  ] },
  { name: 'Work', doc: 'belt and rolls to order, labour and downtime', headers: [
    'Roll length', 'Spare roll diameter', 'Spare roll core diameter', 'Stretch allowance', 'Joints with whole rolls',
    'Belt to order', 'Rolls', 'Insert to order', 'Spare belt', 'Metres cut', 'Metres skived', 'Labour hours low',
    'Labour hours likely', 'Labour hours high', 'Labour hours', 'Downtime low', 'Downtime likely', 'Downtime high',
    'Downtime',
  ] },
  { name: 'Cost', doc: 'parts and joint', headers: ['Parts cost', 'Joint cost'] },
  { name: 'Checks', doc: 'every check, the verdict and the findings', headers: [
    'Pulley check', 'Carcass check', 'Thickness check', 'Tension check', 'Edge check', 'Hole rim check',
    'Plate corner check', 'Belt tension check', 'Larger tension check', 'Load per plate check', 'Skive check',
    'Cover left check', 'Top cover check', 'Carcass thickness check', 'Steel cord check', 'Take-up check',
    'Service check', 'Age check', 'Verdict', 'Findings',
    'Capacity check', 'Plate count check', 'Scraper check', 'Series check', 'Slope check', 'Speed check',
    'Temperature check', 'Trough check', 'Drive check', 'Take-up weight check', 'Layers check',
    'Entered rating check', 'Other pulley check',
  ] },
];
