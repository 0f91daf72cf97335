import { pathToFileURL } from 'node:url';
import { built } from './built.mjs';

/** `npm run bench`: apart from the tests, since it takes minutes and its figures depend on the machine. */
await import(pathToFileURL(await built('test/bench/bench.ts', 'dist/bench')).href);
