import { pathToFileURL } from 'node:url';
import { built, repository } from './built.mjs';

/** `npm run exports`. */
process.chdir(repository);
await import(pathToFileURL(await built('src/documents/exports.ts', 'dist/exports')).href);
