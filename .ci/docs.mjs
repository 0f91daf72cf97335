import { pathToFileURL } from 'node:url';
import { built, repository } from './built.mjs';

/** `npm run docs`. */
process.chdir(repository);
await import(pathToFileURL(await built('src/documents/docs.ts', 'dist/docs')).href);
