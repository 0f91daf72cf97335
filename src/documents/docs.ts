import { readFileSync, writeFileSync } from 'node:fs';
import { withParts } from './marked-text.ts';
import { readmeParts } from './readme-parts.ts';

/** `npm run docs`: renews the generated tables of README.md in the folder it is called in. */
const before = readFileSync('README.md', 'utf8');
const after = withParts(before, readmeParts());
if (after !== before) writeFileSync('README.md', after);
process.stdout.write(after === before ? 'README.md is up to date.\n' : 'README.md is renewed.\n');
