import { columns } from '../../src/sheet/declaration.ts';

/** What people know of a pulley. */

const short = { metric: 0, us: 2 } as const;

export const pulleyInputs = columns([
  {
    header: 'Belt',
    kind: 'text',
    choices: { sheet: 'Belts', header: 'Belt' },
    doc: 'belt that runs over the pulley; list the pulleys of a belt in neighbouring rows, in the order of travel',
  },
  { header: 'Pulley', kind: 'text', doc: 'name of the pulley; different from the others of the belt' },
  {
    header: 'Pulley type',
    formerly: 'Kind',
    kind: 'text',
    choices: ['head', 'tail', 'drive', 'snub', 'bend', 'take-up'],
    doc:
      'type, which sets its tension: head and drive the maximum, tail that at the tail, the others that of the ' +
      'return run, or of the carrying run if they are listed between tail and head',
  },
  { header: 'x', kind: 'distance', digits: 3, doc: 'horizontal position of its centre' },
  { header: 'y', kind: 'distance', digits: 3, doc: 'vertical position of its centre, upwards' },
  { header: 'Diameter', kind: 'length', above: 0, digits: short, doc: 'without lagging' },
  {
    header: 'Belt side',
    kind: 'text',
    choices: ['pulley side', 'carrying side'],
    formerWords: { running: 'pulley side', carrying: 'carrying side' },
    doc:
      'side of the belt on the pulley: pulley side inside the loop, carrying side on a reverse bend; blank: ' +
      'pulley side',
  },
  {
    header: 'Wrap angle',
    formerly: 'Wrap',
    kind: 'angle',
    min: 0,
    max: 360,
    digits: 0,
    doc: 'arc of contact of the belt, degrees; blank: from the positions of the pulleys',
  },
  {
    header: 'Group',
    kind: 'text',
    choices: ['A', 'B', 'C'],
    doc: 'A drive and high tension, B low-tension bends, C snubs up to 30 degrees of wrap; blank: by its ' + 'type',
  },
  {
    header: 'Local tension',
    formerly: 'Tension here',
    kind: 'lineTension',
    above: 0,
    digits: 1,
    doc: 'tension of the belt on the pulley, if known',
  },
]);
