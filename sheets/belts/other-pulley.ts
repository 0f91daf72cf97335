import { pulleyStepInFile } from '../values/file-tables.ts';
import { columns } from '../../src/sheet/declaration.ts';
import { pulleyStepFormula, settledFormula } from '../values/tables.ts';
import { fine, short } from './column-digits.ts';
import { listed } from './inputs.ts';

/**
 * The pulley that a record names and the carcass check leaves out: the head pulley where the smallest one is of a group
 * with less tension, and one that is smaller than all that are listed.
 */

const least = `MINIFS({Pulleys.Diameter},{Pulleys.Belt},{Belt})`;

export const otherPulleyColumns = columns([
  {
    header: 'Smallest listed pulley',
    kind: 'length',
    digits: short,
    background: true,
    doc: 'smallest diameter in the list of pulleys; empty without a list',
    formula: `IF({Pulleys listed}=0,"",IF(${listed('Measured')}>0,NA(),${least}))`,
    source: 'definition',
  },
  {
    header: 'Smallest or listed',
    kind: 'length',
    digits: short,
    background: true,
    doc: 'smallest pulley as entered; of a belt with a list, that of the list without one',
    formula:
      'IF({Pulleys listed}=0,{Smallest pulley},' +
      'IF(ISBLANK({Smallest pulley}),{Smallest listed pulley},{Smallest pulley}))',
    source: 'definition',
  },
  {
    header: 'Smallest or head',
    kind: 'length',
    digits: short,
    background: true,
    doc: 'that, or the head pulley where it is smaller',
    formula: 'MIN({Smallest or listed},{Head pulley})',
    optional: { 'Head pulley': '{Smallest or listed}' },
    source: 'definition',
  },
  {
    header: 'Smallest pulley used',
    kind: 'length',
    digits: short,
    background: true,
    doc: 'that, or the tail pulley where it is smaller',
    formula: 'MIN({Smallest or head},{Tail pulley})',
    optional: { 'Tail pulley': '{Smallest or head}' },
    source: 'definition',
  },
  {
    header: 'Other pulley',
    kind: 'length',
    digits: short,
    background: true,
    doc:
      'pulley that the carcass check leaves out: the head pulley if Pulley group is B or C, and of a belt with a ' +
      'list one that is smaller than all listed ones; empty without one',
    formula:
      'IF({Pulleys listed}=0,IF(OR({Pulley group}="A",ISBLANK({Head pulley})),"",{Head pulley}),' +
      'IF({Smallest pulley used}<{Smallest listed pulley},{Smallest pulley used},""))',
    optional: { 'Pulley group': 'PulleyGroup' },
    source: 'definition',
  },
  {
    header: 'Other pulley group',
    kind: 'text',
    background: true,
    doc: 'group of that pulley: A for the head, otherwise Pulley group',
    formula: 'IF({Pulleys listed}=0,"A",{Pulley group})',
    optional: { 'Pulley group': 'PulleyGroup' },
    source: 'DIN 22101, from memory',
  },
  {
    header: 'Other pulley steps',
    kind: 'count',
    background: true,
    doc: 'steps along the series of pulleys by use and that group',
    formula: pulleyStepFormula('{Steady tension}/{Carcass rating}', '{Other pulley group}'),
    source: 'DIN 22101, ISO 3684, from memory',
    inFile: { formula: pulleyStepInFile(settledFormula('{Steady tension}/{Carcass rating}'), '{Other pulley group}') },
  },
  {
    header: 'Other minimum pulley',
    kind: 'length',
    digits: fine,
    background: true,
    doc: "minimum pulley for the belt's own carcass in that group",
    formula:
      'STEPPEDPULLEY({Carcass factor}*{Carcass used}*MillimetresPerShort,{Other pulley steps})/MillimetresPerShort',
    source: 'DIN 22101, ISO 3684, from memory; factors and steps from the Tables sheet',
    inFile: { above: 0 },
  },
]);
