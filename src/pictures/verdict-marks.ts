import type { Verdict } from '../functions/checks.ts';

/** A verdict's mark beside its word or colour, so that no one has to tell colours apart. Worst first. */
export const verdictMarks: Readonly<Record<Verdict, string>> = { fails: '✕', 'not known': '?', tight: '≈', fits: '✓' };

/** Worst first, as a planner reads them. */
export const verdictOrder = Object.keys(verdictMarks) as readonly Verdict[];
