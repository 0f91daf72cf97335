import { columns } from '../../src/sheet/declaration.ts';

/** What few lists give of drives, take-up and idlers: where they stand, what hangs, what turns. */

/** Where a drive stands; a distance along the return run says where on it. */
const drivePlaces = ['head', 'tail', 'return run'] as const;

export const driveInputs = columns([
  {
    header: 'Drive place',
    kind: 'text',
    choices: drivePlaces,
    doc: 'place of the drive pulley: at the head, at the tail or on the return run; head when it is not given',
  },
  {
    header: 'Drive distance',
    kind: 'distance',
    above: 0,
    digits: 1,
    doc: 'from the head, along the return run, to a drive on it',
  },
  {
    header: 'Second drive place',
    kind: 'text',
    choices: drivePlaces,
    doc:
      'place of a second drive, apart from the first; blank: one drive, whose pulleys side by side count ' +
      'together in Wrap angle',
  },
  {
    header: 'Second drive distance',
    kind: 'distance',
    above: 0,
    digits: 1,
    doc: 'from the head, along the return run, to a second drive on it',
  },
  {
    header: 'Second drive share',
    kind: 'ratio',
    above: 0,
    max: 0.95,
    digits: 2,
    doc: "second drive's share of the pull: 0.33 where one of three equal motors drives it",
    source: 'the limit of 0.95 is our choice, no effect on safety',
  },
  {
    header: 'Second wrap angle',
    kind: 'angle',
    above: 0,
    max: 720,
    digits: 0,
    doc: 'arc of contact of the belt on the second drive, degrees',
  },
  {
    header: 'Second drive friction',
    kind: 'number',
    above: 0,
    max: 1.5,
    digits: 2,
    doc: 'friction between belt and second drive; blank: as at the first',
  },
  {
    header: 'Take-up distance',
    kind: 'distance',
    min: 0,
    digits: 1,
    doc:
      'from the head, along the return run, to the take-up; blank: just behind the drive, with a tail drive just ' +
      'behind the head',
  },
  {
    header: 'Take-up weight',
    kind: 'mass',
    above: 0,
    digits: 0,
    doc: 'mass that hangs on an automatic take-up, its moving frame and pulley included',
  },
  {
    header: 'Take-up rope falls',
    kind: 'number',
    above: 0,
    max: 20,
    digits: 1,
    doc:
      'ropes that pull at the moving take-up pulley for each one that the weight hangs on; blank: 1, as where the ' +
      'weight hangs on the pulley itself',
    source: 'the limit of 20 is our choice, no effect on safety',
  },
  {
    header: 'Carry idler mass',
    kind: 'lineMass',
    min: 0,
    digits: { metric: 1, us: 2 },
    doc: 'rotating mass of the carrying idlers per length of conveyor; blank: CarryIdlers, or by width',
  },
  {
    header: 'Return idler mass',
    kind: 'lineMass',
    min: 0,
    digits: { metric: 1, us: 2 },
    doc: 'rotating mass of the return idlers per length of conveyor; blank: ReturnIdlers, or by width',
  },
]);
