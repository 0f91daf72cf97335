import { declareChecks } from '../check-declaration.ts';
import { atSkew, beltCell, ofBelt } from './compared.ts';

/** Pulleys that the joint and the belt's own carcass can go round. */
export const pulleyChecks = declareChecks([
  {
    word: 'pulley',
    defers: true,
    doc: 'smallest pulley against the minimum pulley of the joint',
    source:
      "the supplier's pulleys; without any at a skew 25 % less at 45 degrees: common practice, no source (JOINTPULLEY)",
    look: 'Smallest pulley',
    value: ofBelt('Critical pulley', (belt) => `the ${belt.pulley('joint')?.name ?? 'smallest'} pulley`),
    minimum: ofBelt('Joint minimum pulley', (belt) => `the minimum pulley of a ${belt.series} joint ${atSkew(belt)}`),
    cures: ['minimum skew', 'other series', 'larger pulley for the joint'],
  },
  {
    word: 'carcass',
    defers: true,
    doc: "smallest pulley against the belt's own carcass",
    source: 'DIN 22101, ISO 3684, from memory',
    look: 'Smallest pulley',
    value: ofBelt('Carcass critical pulley', (belt) => `the ${belt.pulley('carcass')?.name ?? 'smallest'} pulley`),
    minimum: ofBelt('Carcass minimum pulley', "the minimum pulley for the belt's own carcass"),
    remark(belt) {
      const listed = belt.pulley('carcass');
      return (
        `${listed === undefined ? '' : `It is of group ${listed.group} under ${listed.tension}. `}A skew does not ` +
        `help the carcass.`
      );
    },
    cures: ['larger pulley for the carcass', 'other pulley group'],
  },
  {
    word: 'other pulley',
    defers: true,
    doc:
      'the pulley that the carcass check leaves out against the carcass: the head pulley, or one smaller ' +
      'than the list',
    source: 'DIN 22101, ISO 3684, from memory',
    look: 'Head pulley',
    value: ofBelt('Other pulley', (belt) =>
      belt.number('Pulleys listed') === 0
        ? 'the head pulley'
        : 'the smallest pulley of the record, which is not listed,',
    ),
    minimum: ofBelt('Other minimum pulley', "the minimum pulley for the belt's own carcass"),
    silentWithout: [beltCell('Other pulley')],
    remark: (belt) => `It is taken as one of group ${belt.text('Other pulley group')}.`,
    cures: [
      (belt) =>
        belt.number('Pulleys listed') === 0
          ? 'Look whether Pulley group is right, or list the pulleys in the sheet Pulleys, each with its group.'
          : 'Add that pulley to the list in the sheet Pulleys, or correct it.',
    ],
  },
]);
