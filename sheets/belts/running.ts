import { columns } from '../../src/sheet/declaration.ts';
import { fine } from './column-digits.ts';
import { plate } from './inputs.ts';

/** How the belt runs, where its record says it: slope, heat, what stands out of its surface, what lies on it. */
export const runningColumns = columns([
  {
    header: 'Slope',
    kind: 'angle',
    digits: 1,
    doc: 'of the belt from tail to head, degrees, up or down',
    formula: 'SLOPEANGLE({Pulley centres},{Lift})',
    emptyWithout: ['{Lift}', '{Pulley centres}'],
    source: 'trigonometry',
  },
  {
    header: 'Temperature limit',
    kind: 'number',
    digits: 0,
    background: true,
    doc: "the lower of what the belt and its series' plates stand; empty where neither is given",
    formula:
      `IF(ISBLANK({Maximum temperature}),` +
      `IF(ISNUMBER(${plate('Maximum temperature')}),${plate('Maximum temperature')},""),` +
      `IF(ISNUMBER(${plate('Maximum temperature')}),` +
      `MIN({Maximum temperature},${plate('Maximum temperature')}),{Maximum temperature}))`,
    source: 'the suppliers of belt and plates',
  },
  {
    header: 'Plates stand out',
    kind: 'length',
    digits: fine,
    background: true,
    doc: "height of the plates over the belt's surface, less the skive",
    formula: `MAX(0,${plate('Plate height')}-{Skive depth})`,
    emptyWithout: [plate('Plate height')],
    source: 'arithmetic',
  },
  {
    header: 'Load limit',
    kind: 'lineMass',
    digits: 1,
    background: true,
    doc: 'of the load that lies on the belt at its width, trough and slope, by its bulk density',
    formula:
      'IF(OR(ISBLANK({Trough angle}),ISBLANK({Surcharge angle}),ISBLANK({Bulk density})),"",' +
      'LOADAREA({Width}*MillimetresPerShort,{Trough angle},{Surcharge angle},{Slope})*OneMetre^2*{Bulk density})',
    source: 'ISO 5048, from memory',
    inFile: { min: 0 },
  },
]);
