import { declareChecks } from '../check-declaration.ts';
import { atSkew, ofBelt } from './compared.ts';

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
]);
