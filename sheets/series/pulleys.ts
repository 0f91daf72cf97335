import { columns, declareSheet } from '../../src/sheet/declaration.ts';
import { withNames } from '../also-called.ts';
import { pulleyInputs } from './pulley-inputs.ts';
import { ofBelt, pulleyTensionColumns } from './pulley-tension.ts';
import { pulleyNames } from './pulley-names.ts';
import { pulleyStepFormula, settledFormula } from '../values/tables.ts';

const short = { metric: 0, us: 2 } as const;
const fine = { metric: 1, us: 3 } as const;

const next = (header: string): string => `INDEX({Pulleys.${header}},{Next row})`;
const place = [
  '{x}',
  '{y}',
  '{Neutral diameter}',
  next('x'),
  next('y'),
  next('Neutral diameter'),
  '{Turn}',
  next('Turn'),
];
const pair =
  `{x}*ShortPerLong,{y}*ShortPerLong,{Neutral ` +
  `diameter},{Turn},${next('x')}*ShortPerLong,${next('y')}*ShortPerLong,${next('Neutral diameter')},${next('Turn')}`;

const computed = columns([
  {
    header: 'Belt row',
    kind: 'count',
    background: true,
    doc: 'row of its belt in the sheet Belts',
    formula: 'IF(LEN({Belt})=0,NA(),MATCH({Belt},{Belts.Belt},0))',
  },
  {
    header: 'First row',
    kind: 'count',
    background: true,
    doc: "first row of its belt's pulleys",
    formula: 'IF(LEN({Belt})=0,NA(),MATCH({Belt},{Pulleys.Belt},0))',
  },
  {
    header: 'Last row',
    kind: 'count',
    background: true,
    doc: "last row of its belt's pulleys",
    formula: 'IF(LEN({Belt})=0,NA(),{First row}+COUNTIFS({Pulleys.Belt},{Belt})-1)',
  },
  {
    header: 'Next row',
    kind: 'count',
    background: true,
    doc: 'row of the next pulley in the direction of travel',
    formula: 'IF(ROW()<{Last row},IF(INDEX({Pulleys.Belt},ROW()+1)={Belt},ROW()+1,NA()),{First row})',
  },
  {
    header: 'Row before',
    kind: 'count',
    background: true,
    doc: 'row of the previous pulley in the direction of travel',
    formula: 'IF(ROW()>{First row},IF(INDEX({Pulleys.Belt},ROW()-1)={Belt},ROW()-1,NA()),{Last row})',
  },
  {
    header: 'Placed',
    kind: 'text',
    background: true,
    doc: 'whether its position and diameter are given',
    formula: 'IF(COUNT({x},{y},{Diameter})=3,"yes","no")',
    source: 'definition',
  },
  {
    header: 'Turned area',
    kind: 'area',
    background: true,
    doc: 'its share of the area that the pulleys enclose; the sign gives the direction of the loop',
    formula: `({x}*${next('y')}-${next('x')}*{y})/2`,
    emptyWithout: ['{x}', '{y}', next('x'), next('y')],
  },
  {
    header: 'Turn',
    kind: 'count',
    background: true,
    doc: '1 if the belt turns left on it (counter-clockwise), -1 if it turns right',
    formula:
      'IF(LEN({Belt})=0,NA(),IF(SUMIFS({Pulleys.Turned area},{Pulleys.Belt},{Belt})<0,-1,1)*IF({Belt ' +
      'side}="carrying side",-1,1))',
  },
  {
    header: 'Reverse bend',
    kind: 'text',
    doc: 'whether the belt bends the other way (reverse bend)',
    formula: 'IF({Belt side}="carrying side","yes","no")',
  },
  {
    header: 'Neutral diameter',
    kind: 'length',
    digits: short,
    background: true,
    doc: "diameter at the middle of the belt's thickness, if that is known",
    formula: `IF(ISNUMBER(${ofBelt('Thickness')}),{Diameter}+${ofBelt('Thickness')},{Diameter})`,
    emptyWithout: ['{Diameter}'],
  },
  {
    header: 'Run',
    kind: 'distance',
    digits: 3,
    doc: 'length of straight belt to the next pulley',
    formula: `TANGENTLENGTH(${pair})/ShortPerLong`,
    emptyWithout: place,
  },
  {
    header: 'Direction',
    kind: 'angle',
    digits: 1,
    background: true,
    doc: 'direction of that run, from level, counter-clockwise',
    formula: `TANGENTANGLE(${pair})`,
    emptyWithout: place,
  },
  {
    header: 'Wrap angle used',
    formerly: 'Contact',
    kind: 'angle',
    digits: 0,
    doc: 'arc of contact, degrees: from the positions, otherwise as entered',
    formula:
      `IF(AND(ISNUMBER({Direction}),ISNUMBER(INDEX({Pulleys.Direction},{Row ` +
      `before}))),WRAPANGLE(INDEX({Pulleys.Direction},{Row ` +
      `before}),{Direction},{Turn}),IF(ISNUMBER({Wrap angle}),{Wrap angle},""))`,
  },
  {
    header: 'Arc',
    kind: 'distance',
    digits: 3,
    doc: 'length of belt on the pulley',
    formula: 'RADIANS({Wrap angle used})*{Neutral diameter}/2/ShortPerLong',
    emptyWithout: ['{Wrap angle used}', '{Neutral diameter}'],
  },
  ...pulleyTensionColumns,
  {
    header: 'Carcass steps',
    kind: 'count',
    background: true,
    doc: 'steps along the series of pulleys by use and group',
    formula: pulleyStepFormula(`{Tension}/${ofBelt('Carcass rating')}`, '{Group used}'),
    source: 'DIN 22101, ISO 3684, from memory',
  },
  {
    header: 'Carcass minimum pulley',
    formerly: 'Carcass pulley',
    kind: 'length',
    digits: fine,
    doc: "minimum pulley for the belt's own carcass at its tension and group",
    formula:
      `STEPPEDPULLEY(${ofBelt('Carcass factor')}*${ofBelt('Carcass used')}*MillimetresPerShort,{Carcass ` +
      `steps})/MillimetresPerShort`,
    source: 'DIN 22101, ISO 3684, from memory; factors and steps from the Tables sheet',
  },
  {
    header: 'Carcass check',
    kind: 'text',
    doc: "its diameter against the belt's own carcass",
    formula: 'LEASTCHECK({Diameter},{Carcass minimum pulley},TightMargin)',
  },
  {
    header: 'Reverse factor',
    kind: 'number',
    background: true,
    doc: 'minimum pulley for the joint here over that on a plain bend',
    formula: 'IF({Belt side}="carrying side",ReverseFactor,1)',
  },
  {
    header: 'Joint minimum pulley',
    formerly: 'Joint pulley',
    kind: 'length',
    digits: fine,
    doc: 'minimum pulley for the joint at its skew, enlarged by ReverseFactor on a reverse bend',
    formula: `${ofBelt('Joint minimum pulley')}*{Reverse factor}`,
  },
  {
    header: 'Joint check',
    kind: 'text',
    doc: 'its diameter against the joint',
    formula: 'LEASTCHECK({Diameter},{Joint minimum pulley},TightMargin)',
  },
  {
    header: 'Joint on it',
    kind: 'text',
    doc: 'side of the joint on the pulley, and side on the outside of the bend',
    formula:
      'IF({Belt side}="carrying side","upper plates inside, lower plates outside","lower plates inside, upper ' +
      'plates outside")',
  },
  {
    header: 'Joined',
    kind: 'text',
    background: true,
    doc: 'whether the length of belt on it and to the next pulley is known',
    formula: 'IF(COUNT({Run},{Arc})=2,"yes","no")',
  },
  {
    header: 'Joint diameter',
    kind: 'length',
    digits: short,
    background: true,
    doc: 'its diameter, less on a reverse bend by ReverseFactor',
    formula: '{Diameter}/{Reverse factor}',
    emptyWithout: ['{Diameter}', '{Reverse factor}'],
  },
  {
    header: 'Carcass share',
    kind: 'ratio',
    digits: 3,
    background: true,
    doc: 'its diameter over the minimum for the carcass',
    formula: settledFormula('{Diameter}/{Carcass minimum pulley}'),
    emptyWithout: ['{Diameter}', '{Carcass minimum pulley}'],
    source: 'arithmetic',
  },
  {
    header: 'Measured',
    kind: 'text',
    background: true,
    doc: 'whether its diameter is known',
    formula: 'IF(ISNUMBER({Joint diameter}),"yes","no")',
  },
  {
    header: 'Weighed',
    kind: 'text',
    background: true,
    doc: 'whether the minimum for the carcass is known',
    formula: 'IF(ISNUMBER({Carcass share}),"yes","no")',
  },
  {
    header: 'Carcass mark',
    kind: 'text',
    background: true,
    doc: 'its belt and that share, by which the belt finds it',
    formula: '{Belt}&"/"&{Carcass share}',
  },
]);

/**
 * The pulleys of each belt, in the order of its travel: their places, what the belt does on them, and both pulley
 * checks.
 */
export const pulleys = declareSheet({
  name: 'Pulleys',
  purpose: 'The pulleys of each belt, one row per pulley in the order of travel: head, tail, snubs, bends, take-up',
  record: 'pulley',
  key: 'Pulley',
  partOf: { sheet: 'Belts', header: 'Belt' },
  columns: withNames([...pulleyInputs, ...computed], pulleyNames),
});
