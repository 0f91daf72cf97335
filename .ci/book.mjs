import { pathToFileURL } from 'node:url';
import { built } from './built.mjs';

/** `npm run -s book -- COMMAND`: the command line, built first when it has to be. */
await import(pathToFileURL(await built('src/cli/main.ts', 'dist/cli')).href);
