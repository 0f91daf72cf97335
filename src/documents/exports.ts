import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { exportFiles } from './export-files.ts';

/** `npm run exports`: writes the sample outputs anew, into exports/ of the folder it is called in. */
mkdirSync('exports', { recursive: true });
for (const [name, bytes] of await exportFiles()) {
  writeFileSync(join('exports', name), bytes);
  process.stdout.write(`exports/${name}\n`);
}
