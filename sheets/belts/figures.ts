import { pulleyStepInFile } from '../values/file-tables.ts';
import { columns } from '../../src/sheet/declaration.ts';
import { constructionColumns } from './construction.ts';
import { fine, short } from './column-digits.ts';
import { driveFaultColumn } from './drive-faults.ts';
import { driveColumns } from './drives.ts';
import { beltInputs, listed, plate } from './inputs.ts';
import { resistanceColumns } from './resistances.ts';
import { jointPulleyColumns } from './joint-pulley.ts';
import { lengthColumns } from './lengths.ts';
import { otherPulleyColumns } from './other-pulley.ts';
import { runningColumns } from './running.ts';
import { takeUpColumns } from './take-up.ts';
import { tensionMethodColumns } from './tension-methods.ts';
import { tensionColumns } from './tension.ts';
import { workColumns } from './work.ts';
import { pulleyStepFormula, settledFormula } from '../values/tables.ts';

/** The figures of a belt: what people know of it, and all that is worked out of that before it is checked. */

/** The least of a column of the belt's listed pulleys. */
const leastListed = (header: string): string => `MINIFS({Pulleys.${header}},{Pulleys.Belt},{Belt})`;

const computed = columns([
  {
    header: 'Pulleys listed',
    kind: 'count',
    doc: 'of this belt in the sheet Pulleys',
    formula: 'IF(ISERROR({Belt}),0,IF(LEN({Belt})=0,0,COUNTIFS({Pulleys.Belt},{Belt})))',
  },
  ...constructionColumns,
  {
    header: 'Series row',
    kind: 'count',
    background: true,
    doc: 'row of the plate series in its sheet',
    formula: 'IF(LEN({Plate series})=0,NA(),MATCH({Plate series},{Plate series.Series},0))',
  },
  {
    header: 'Cut length',
    kind: 'length',
    digits: fine,
    doc: 'along the cut, edge to edge',
    formula: 'SKEWLENGTH({Width},{Skew})',
  },
  {
    header: 'Edge offset',
    kind: 'length',
    digits: fine,
    doc: 'to measure along the edge from the square line',
    formula: 'SKEWOFFSET({Width},{Skew})',
  },
  {
    header: 'Belt lost to skew',
    formerly: 'Belt consumed',
    kind: 'length',
    digits: fine,
    doc: 'belt lost from the loop when two square ends are cut to the skew; trim and the old joint come on top',
    formula: 'SKEWLOSS({Width},{Skew})',
  },
  {
    header: 'Plates',
    kind: 'count',
    doc: 'in one joint',
    formula: `PLATECOUNT({Width},{Skew},${plate('Pitch')},${plate('Plate width')},${plate('Minimum edge')})`,
  },
  {
    header: 'Edge clearance',
    formerly: 'Edge left',
    kind: 'length',
    digits: fine,
    doc: 'clear distance at each end of the cut, with the plates centred',
    formula: `PLATEEDGE({Width},{Skew},${plate('Pitch')},${plate('Plate width')},${plate('Minimum edge')})`,
  },
  {
    header: 'Rim left',
    kind: 'length',
    digits: fine,
    doc: "minimum belt between a hole's rim and the belt's edge, square to the edge, over both belt ends",
    formula:
      `RIMDISTANCE({Edge clearance},{Skew},${plate('Plate width')},${plate('Hole setback')},${plate('Hole spacing')},` +
      `${plate('Holes per side')},${plate('Punch size')})`,
    optional: { 'Plate series.Hole spacing': 0 },
  },
  {
    header: 'Rim needed',
    kind: 'length',
    digits: fine,
    doc: "minimum that must be left there: the series' Minimum rim, otherwise RimDistance",
    formula: plate('Minimum rim'),
    optional: { 'Plate series.Minimum rim': 'RimDistance' },
  },
  {
    header: 'Plate length used',
    kind: 'length',
    digits: fine,
    background: true,
    doc: "the series' Plate length; without one twice its hole setback and three punch sizes",
    formula: plate('Plate length'),
    optional: { 'Plate series.Plate length': `2*${plate('Hole setback')}+3*${plate('Punch size')}` },
    source: 'common practice, no source, where the series does not say it',
  },
  {
    header: 'Corner left',
    kind: 'length',
    digits: fine,
    doc: "from the outer plate's acute corner to the belt's edge, square to the edge; negative if it projects over it",
    formula: 'CORNERDISTANCE({Edge clearance},{Skew},{Plate length used})',
  },
  { header: 'Bolts', kind: 'count', doc: 'in one joint', formula: `{Plates}*${plate('Bolts per plate')}` },
  {
    header: 'Bolt length',
    kind: 'length',
    digits: short,
    doc: "by the clamped thickness, from the series' figures",
    formula:
      `IF(ISNUMBER(${plate('Long bolt above')}),IF(ROUND({Clamped thickness}-${plate('Long bolt above')},9)>0,` +
      `${plate('Long bolt length')},${plate('Bolt length')}),${plate('Bolt length')})`,
    source: "the supplier's bolts and the thickness at which they change",
  },
  {
    header: 'Strip length each',
    formerly: 'Strip per piece',
    kind: 'length',
    digits: fine,
    doc: 'length of one strip',
    formula: 'STRIPLENGTH({Width},{Skew},StripOverhang)',
  },
  {
    header: 'Strips',
    kind: 'count',
    background: true,
    doc: 'in one joint, below and above the belt; 0 when the series takes none',
    formula: `${plate('Strips laid below')}+${plate('Strips laid above')}`,
  },
  {
    header: 'Strip per joint',
    kind: 'length',
    digits: fine,
    doc: 'length of all strips of one joint, 0 when the series takes none',
    formula: '{Strips}*{Strip length each}',
  },
  ...jointPulleyColumns,
  ...driveColumns,
  driveFaultColumn,
  ...resistanceColumns,
  ...tensionColumns,
  ...tensionMethodColumns,
  ...otherPulleyColumns,
  {
    header: 'Critical pulley',
    formerly: 'Governing pulley',
    kind: 'length',
    digits: short,
    doc:
      'the smallest for the joint: the smallest, head or tail pulley, or a smaller one of the list, a reverse bend ' +
      'counting by ReverseFactor',
    formula:
      `IF({Pulleys listed}=0,{Smallest pulley used},` +
      `IF(${listed('Measured')}>0,NA(),MIN(${leastListed('Joint diameter')},{Smallest pulley used})))`,
  },
  {
    header: 'Carcass row',
    kind: 'count',
    background: true,
    doc: 'row of the pulley that is smallest for the carcass at its own tension',
    formula:
      `IF({Pulleys ` +
      `listed}=0,"",IF(${listed('Weighed')}>0,NA(),MATCH({Belt}&"/"&${leastListed('Carcass share')},{Pulleys.Carcass ` +
      `mark},0)))`,
  },
  {
    header: 'Carcass critical pulley',
    formerly: 'Carcass diameter',
    kind: 'length',
    digits: short,
    doc:
      'the pulley that the carcass check compares: the smallest pulley; of a list the one that is smallest for ' +
      'its own tension and group',
    formula: 'IF({Pulleys listed}=0,{Smallest pulley used},INDEX({Pulleys.Diameter},{Carcass row}))',
  },
  {
    header: 'Carcass steps',
    kind: 'count',
    background: true,
    doc: 'steps along the series of pulleys by use and group',
    formula: `IF({Pulleys listed}=0,${pulleyStepFormula('{Steady tension}/{Carcass rating}', '{Pulley group}')},"")`,
    optional: { 'Pulley group': 'PulleyGroup' },
    source: 'DIN 22101, ISO 3684, from memory',
    inFile: {
      formula:
        `IF({Pulleys ` +
        `listed}=0,${pulleyStepInFile(settledFormula('{Steady tension}/{Carcass rating}'), '{Pulley group}')},"")`,
    },
  },
  {
    header: 'Carcass minimum pulley',
    formerly: 'Carcass pulley',
    kind: 'length',
    digits: fine,
    doc: "minimum pulley for the belt's own carcass there, rounded to the series and stepped by use and group",
    formula:
      'IF({Pulleys listed}=0,STEPPEDPULLEY({Carcass factor}*{Carcass used}*MillimetresPerShort,{Carcass ' +
      'steps})/MillimetresPerShort,INDEX({Pulleys.Carcass minimum pulley},{Carcass row}))',
    source: 'DIN 22101, ISO 3684, from memory; factors and steps from the Tables sheet',
    inFile: { above: 0 },
  },
  {
    header: 'Load per plate',
    formerly: 'Plate force',
    kind: 'force',
    digits: 0,
    doc: 'load on one plate from the working tension',
    formula: 'PLATEFORCE({Working tension},{Width},{Plates})',
  },
  {
    header: 'Rating used',
    formerly: 'Pull used',
    kind: 'ratio',
    percent: true,
    digits: 0,
    doc: "working tension over the series' rating",
    formula: `{Working tension}/${plate('Tension rating')}`,
  },
  {
    header: 'Clamped thickness',
    kind: 'length',
    digits: fine,
    doc: 'belt less skive, between the plates',
    formula: '{Thickness}-{Skive depth}',
    must: ['{Skive depth}<{Thickness}'],
  },
  ...lengthColumns,
  ...takeUpColumns,
  ...runningColumns,
  ...workColumns,
  {
    header: 'Parts cost',
    kind: 'money',
    digits: 2,
    doc: 'plates, bolts and strip of one joint, before packs',
    formula:
      `{Plates}*${plate('Plate price')}+{Bolts}*${plate('Bolt price')}+{Strip per ` + `joint}*${plate('Strip price')}`,
  },
  {
    header: 'Joint cost',
    kind: 'money',
    digits: 2,
    doc: 'parts and crew of one joint',
    formula: '{Parts cost}+{Labour hours}*CrewRate',
  },
]);

/** All columns of Belts but the verdicts of its checks. */
export const figureColumns = [...beltInputs, ...computed] as const;

/** The header of a figure of a belt. */
export type FigureHeader = (typeof figureColumns)[number]['header'];
