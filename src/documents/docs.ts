import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { withParts } from './marked-text.ts';
import { readmeParts } from './readme-parts.ts';
import { referenceText } from './reference-text.ts';

/** `npm run docs`: renews the generated parts of README.md, and the reference, in the folder it is called in. */

function renew(file: string, renewed: (before: string) => string): void {
  const before = existsSync(file) ? readFileSync(file, 'utf8') : '';
  const after = renewed(before);
  if (after !== before) writeFileSync(file, after);
  process.stdout.write(`${file} is ${after === before ? 'up to date' : 'renewed'}.\n`);
}

renew('README.md', (before) => withParts(before, readmeParts()));
renew('exports/reference.md', referenceText);
