import { basename, dirname } from 'node:path';
import { pathToFileURL } from 'node:url';
import { built, repository } from './built.mjs';

/**
 * `node src/launch/run.mjs ENTRY …`: a program of this repository, built first when it has to be.
 *
 * The command line is called from anywhere and works on the files there; what makes documents works on the repository.
 */
const [entry] = process.argv.splice(2, 1);
const folder = basename(entry) === 'main.ts' ? basename(dirname(entry)) : basename(entry, '.ts');
if (folder !== 'cli') process.chdir(repository);
await import(pathToFileURL(await built(entry, `dist/${folder}`)).href);
