import { finish, provide, step, tests } from './steps.mjs';

/** `npm test`: everything that must hold, in one run; its last line is "N passed, N failed". */

provide();
step('Types', 'typecheck');
step('Lint', 'lint');
step('Build', 'build');
// Words after `npm test --` choose test files.
tests('Tests', process.argv.slice(2));
finish();
