import { finish, step, tests } from './steps.mjs';

/** `npm run quick`: what needs neither a browser nor another program nor minutes; ends in the same line as `npm test`. */

step('Types', 'typecheck');
step('Lint', 'lint');
tests('Quick tests', ['--project', 'node-quick', ...process.argv.slice(2)]);
finish();
