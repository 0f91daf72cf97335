import { pathToFileURL } from 'node:url';
import { built, repository } from './built.mjs';

/** `npm run bench`: apart from the tests, since it takes minutes and its figures depend on the machine. */
process.chdir(repository);
await built('src/cli/main.ts', 'dist/cli');
await import(pathToFileURL(await built('test/bench/bench.ts', 'dist/bench')).href);
