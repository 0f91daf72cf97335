import { columns } from '../../src/sheet/declaration.ts';

/** What people know of a pulley. */

const short = { metric: 0, us: 2 } as const;

export const pulleyInputs = columns([
  {
    header: 'Belt',
    kind: 'text',
    choices: { sheet: 'Belts', header: 'Belt' },
    doc: 'the belt that runs over it; the pulleys of a belt stand together, in the order of its travel',
  },
  { header: 'Pulley', kind: 'text', doc: "the pulley's name, its own within the belt" },
  {
    header: 'Pulley type',
    formerly: 'Kind',
    kind: 'text',
    choices: ['head', 'tail', 'drive', 'snub', 'bend', 'take-up'],
    doc:
      'which tension it stands under: head and drive the greatest, tail that at the tail, the others that of the ' +
      'return run',
  },
  { header: 'x', kind: 'distance', digits: 3, doc: 'of its centre, level' },
  { header: 'y', kind: 'distance', digits: 3, doc: 'of its centre, upwards' },
  { header: 'Diameter', kind: 'length', above: 0, digits: short, doc: 'without lagging' },
  {
    header: 'Belt side',
    kind: 'text',
    choices: ['pulley side', 'carrying side'],
    formerWords: { running: 'pulley side', carrying: 'carrying side' },
    doc:
      'side of the belt that lies on it: running on the inside of the loop, carrying on a reverse bend; running ' +
      'when it is not given',
  },
  {
    header: 'Wrap angle',
    formerly: 'Wrap',
    kind: 'angle',
    min: 0,
    max: 360,
    digits: 0,
    doc: 'of the belt on it, degrees; from the places of the pulleys when they are given',
  },
  {
    header: 'Group',
    kind: 'text',
    choices: ['A', 'B', 'C'],
    doc:
      'A drive and high tension, B low-tension bends, C snubs up to 30 degrees of wrap; by its kind when it ' +
      'is not given',
  },
  {
    header: 'Local tension',
    formerly: 'Tension here',
    kind: 'lineTension',
    above: 0,
    digits: 1,
    doc: 'of the belt on it, when it is known',
  },
]);
