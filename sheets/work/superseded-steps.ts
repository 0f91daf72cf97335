import { standardSteps, type StepRow } from './standard-steps.ts';

/**
 * Texts of standard steps as books of earlier versions hold them, by the step that stands for each now. They released
 * the tension in another order than the cautions say, named no hot work, or laid strips that a series may not have.
 */
const superseded: readonly { readonly text: string; readonly now: string }[] = [
  {
    text:
      "Read the plate supplier's instructions for {Plate series}: where they differ from this card, they go first. " +
      'Check the parts: {Plates} plates, each an upper and a lower one, {Bolts} bolts of {Bolt length}, {Strip ' +
      'pieces} strips of {Strip per piece} each. Check the belt against the card: width {Width}, ' +
      'thickness {Thickness}.',
    now: 'Read and check',
  },
  {
    text:
      'Run belt {Belt} empty. Stop it, isolate and lock out every source of energy, hang your own lock, and try to ' +
      'start it. Write the number of the permit on the card. No one goes on before the attempt has failed.',
    now: 'Isolate and try',
  },
  {
    text:
      'Clamp both runs, block the take-up weight and let the tension off, slowly. Belt that the skew takes on the ' +
      'centre line, from two square ends: {Belt consumed}; what is cut off with the old joint comes on top. Travel ' +
      'left in the take-up: {Take-up travel}. Where that is not enough, stop and plan an insert of belt.',
    now: 'Take the tension off',
  },
  {
    text:
      'Lay {Strips below} strip of {Strip per piece} on the lower plates along the cut, half of its breadth under ' +
      'the first end, as long over at one edge as at the other.',
    now: 'Lay the strips below',
  },
  { text: 'Lay {Strips above} strips of {Strip per piece} over the joint along the cut.', now: 'Lay the strips above' },
  {
    text: 'Break off the bolt ends above the nuts, peen or grind what stands out, and gather all pieces: {Bolts} ends.',
    now: 'Break and dress the bolt ends',
  },
  {
    text:
      'Take clamps, blocks and tools off and count them, set the tension, put every guard back, clear everyone, take ' +
      'the locks off in the order of the permit.',
    now: 'Clear and put the guards back',
  },
  {
    text:
      'After {First hours} of running, or sooner where the supplier says so: isolate and secure the belt as at ' +
      'first, look at every plate, and tighten once more in the same order: {Tightening order}. Note the date for ' +
      'the next look.',
    now: 'Tighten again after the first hours',
  },
];

const present = new Map<string, StepRow>(
  superseded.flatMap(({ text, now }) => {
    const row = standardSteps.find((step) => step.Step === now);
    return row === undefined ? [] : [[text, row] as const];
  }),
);

/** The present step for one that holds an earlier standard text unchanged; undefined for any other. */
export const presentStep = (row: StepRow): StepRow | undefined => present.get(String(row.Text ?? '').trim());
