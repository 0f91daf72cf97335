import { beltChecks } from '../../sheets/belts/checks/index.ts';
import { type Check, explainedCheck } from './check.ts';

/** The checks of a belt, in the order of its verdict. */
export const checks: readonly Check[] = beltChecks.map(explainedCheck);
