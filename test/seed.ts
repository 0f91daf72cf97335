import fc from 'fast-check';

/**
 * What property tests draw from: one seed, so that a commit passes or fails the same way on any day and machine.
 * `SKEWBOOK_SEED=7 npm run quick` draws other cases; the benchmarks' long runs draw anew each time.
 */
const seed = Number(process.env['SKEWBOOK_SEED'] ?? 20_261_126);
if (!Number.isSafeInteger(seed))
  throw new Error(`SKEWBOOK_SEED is a whole number, not ${process.env['SKEWBOOK_SEED']}`);
fc.configureGlobal({ ...fc.readConfigureGlobal(), seed });
