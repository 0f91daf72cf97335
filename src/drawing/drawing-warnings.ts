import type { Verdict } from '../functions/checks.ts';

/**
 * What a drawing, a template or a file for a machine says of itself, since people cut and drill by it without the card
 * beside them.
 */

/** The verdict on the joint that is drawn. */
export interface DrawnStanding {
  /** The worse of the belt's verdict and what its checks come to without what was set by hand. */
  readonly worst: Verdict;
  /** Its plate series' figures are those of the demo. */
  readonly invented: boolean;
}

const ofVerdict: Readonly<Record<Verdict, readonly string[]>> = {
  fits: [],
  tight: ['Checks: TIGHT. Read the job card before you use this drawing.'],
  'not known': ['Checks: NOT KNOWN. Do not use until the planner has released it.'],
  fails: ['Checks: FAILS. Do not use until the planner has released it.'],
};

/** The warnings to read first; none for a joint that fits and whose figures are real. */
export const drawingWarnings = ({ worst, invented }: DrawnStanding): readonly string[] => [
  ...ofVerdict[worst],
  ...(invented ? ['Invented figures: not for real work.'] : []),
];

/** On everything that someone may drill by. */
export const supplierFirst = "Check against the plate supplier's template before you drill.";

/** On everything that has its dimensions written beside it. */
export const figuredDimensions = 'Do not scale: work to figured dimensions.';
