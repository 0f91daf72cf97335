import { declareSheet } from '../../src/sheet/declaration.ts';
import { type StepHeader, stepHeaders, standardSteps } from './standard-steps.ts';

/** The work at a joint, a row a step: what job cards are made of. */

const yesNo = ['yes', 'no'] as const;

const columns = {
  Order: { kind: 'number', doc: 'steps stand on the card in this order; one without a number follows the row above' },
  Step: { kind: 'text', doc: "the step's title, its own among those for the same kind of joint" },
  Joint: { kind: 'text', choices: ['square', 'skew', 'both'], doc: 'the kind of joint it is for' },
  Text: { kind: 'text', doc: "what is done; names in braces, as {Cut length}, are filled with the belt's own values" },
  Tools: { kind: 'text', doc: 'tools and consumables, with semicolons between' },
  'Hold point': { kind: 'flag', choices: yesNo, doc: 'work stops until the step is signed' },
  'Sign-off': { kind: 'flag', choices: yesNo, doc: 'someone signs for it' },
  Cautions: { kind: 'text', doc: 'what can hurt here, by the names of the cautions, with commas between' },
  'Only when': { kind: 'text', doc: 'a value of the belt; the step is left out where it is 0' },
  Source: { kind: 'text', doc: 'where it comes from: write your own when you change it' },
} as const satisfies Record<StepHeader, unknown>;

export const steps = declareSheet({
  name: 'Steps',
  purpose: "The work at a joint, step by step, for job cards; yours to change: the supplier's instructions go first",
  record: 'step',
  key: 'Step',
  columns: stepHeaders.map((header) => ({ header, ...columns[header] })),
});

/** The rows that a new book begins with: one content a column. */
export const standardStepRows: readonly (readonly (string | number | boolean | null)[])[] = standardSteps.map((step) =>
  stepHeaders.map((header) => (step[header] === '' ? null : (step[header] ?? null))),
);
