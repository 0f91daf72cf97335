import { beltItselfChecks } from './belt-itself.ts';
import { driveChecks } from './drive-and-take-up.ts';
import { beltRecordChecks } from './belt-record.ts';
import { jointLifeChecks } from './joint-life.ts';
import { plateChecks } from './plates.ts';
import { pulleyChecks } from './pulleys.ts';
import { runningChecks } from './running.ts';
import { serviceChecks } from './service.ts';
import { takeUpChecks } from './take-up.ts';

/** The checks of a belt, in the order of its Verdict and Findings. DEVELOPERS.md tells how to add one. */
export const beltChecks = [
  ...pulleyChecks,
  ...plateChecks,
  ...beltItselfChecks,
  ...beltRecordChecks,
  ...takeUpChecks,
  ...driveChecks,
  ...serviceChecks,
  ...runningChecks,
  ...jointLifeChecks,
] as const;
