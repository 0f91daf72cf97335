import { declareChecks } from '../check-declaration.ts';
import { beltCell, ofBelt } from './compared.ts';

/** Drives and take-up: whether they go together, and whether what hangs is enough. */
export const driveChecks = declareChecks([
  {
    word: 'drive',
    doc: 'whether what is entered of drives and take-up goes together',
    source: 'definition',
    look: 'Drive place',
    verdict: {
      formula: 'IFERROR(IF({Drive faults}="","fits","fails"),"not known")',
      given: { label: 'what does not go together', value: (belt) => belt.text('Drive faults') || null },
      limit: { label: 'drives and take-up that go together', value: () => 'nothing wrong' },
      message: (belt) => `Drives and take-up do not go together as entered: ${belt.text('Drive faults')}.`,
    },
    silentWithout: [beltCell('Drive faults')],
    cures: [
      () =>
        'Correct the places, distances and figures of the drives, the type of the take-up, or its weight. Pulleys of ' +
        'one drive side by side count together in Wrap angle.',
    ],
  },
  {
    word: 'take-up weight',
    doc: 'weight of an automatic take-up against what grip on the drives and little sag need',
    source: 'Euler-Eytelwein; ISO 5048, DIN 22101; equilibrium of the take-up pulley',
    look: 'Take-up weight',
    value: ofBelt('Take-up weight', 'the take-up weight'),
    minimum: ofBelt('Take-up weight needed', 'the weight that grip and sag need'),
    silentWithout: [beltCell('Take-up weight'), beltCell('Take-up weight needed')],
    remark: (belt) =>
      `It gives ${belt.shown('Take-up tension by weight')} of tension, and ` +
      `${belt.shown('Slack-side tension needed')} is needed.`,
    cures: [
      (belt) =>
        `Hang at least ${belt.shown('Take-up weight needed')}, or enter the Take-up rope falls if more than one rope ` +
        'pulls at the take-up pulley.',
    ],
  },
]);
