import { finish, step, tests } from './steps.mjs';

/** `npm run quick`: what needs neither a browser nor another program nor minutes. It ends in the line of `npm test`. */

step('Types', 'typecheck');
step('Lint', 'lint');
tests('Quick tests', ['--project', 'node-quick', '--project', 'node-alone', ...process.argv.slice(2)]);
finish();
