import { declareSheet } from '../../src/sheet/declaration.ts';
import { type StepHeader, stepHeaders, standardSteps } from './standard-steps.ts';

/** The work at a joint, a row a step: what job cards are made of. */

const yesNo = ['yes', 'no'] as const;

const columns = {
  Order: { kind: 'number', doc: 'order of the steps on the card; a step without a number follows the row above' },
  Step: { kind: 'text', doc: 'title of the step; each step of the same kind of joint needs its own' },
  Joint: { kind: 'text', choices: ['square', 'skew', 'both'], doc: 'kind of joint (splice) that the step is for' },
  Text: { kind: 'text', doc: "work to do; names in braces, such as {Cut length}, are replaced by the belt's values" },
  Tools: { kind: 'text', doc: 'tools and consumables, separated by semicolons' },
  'Hold point': { kind: 'flag', choices: yesNo, doc: 'yes: work stops until the step is signed' },
  'Sign-off': { kind: 'flag', choices: yesNo, doc: 'yes: the step must be signed' },
  Cautions: { kind: 'text', doc: 'cautions that apply to the step, by their names, separated by commas' },
  'Only when': { kind: 'text', doc: 'a value of the belt; the step is left out if that value is 0' },
  Source: { kind: 'text', doc: 'source of the step; if you change the step, enter your own source' },
} as const satisfies Record<StepHeader, unknown>;

export const steps = declareSheet({
  name: 'Steps',
  purpose:
    "Steps of a joint (splice) for the job cards; change them as you need: the supplier's instructions take precedence",
  record: 'step',
  key: 'Step',
  columns: stepHeaders.map((header) => ({ header, ...columns[header] })),
});

/** The rows that a new book begins with: one content a column. */
export const standardStepRows: readonly (readonly (string | number | boolean | null)[])[] = standardSteps.map((step) =>
  stepHeaders.map((header) => (step[header] === '' ? null : (step[header] ?? null))),
);
