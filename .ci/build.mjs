import { spawnSync } from 'node:child_process';
import { built, repository } from './built.mjs';

/** `npm run build`: the page into dist/page, the command line into dist/cli. */
const page = spawnSync(process.execPath, ['node_modules/vite/bin/vite.js', 'build', '--logLevel', 'warn'], { cwd: repository, stdio: 'inherit' });
if (page.status !== 0) process.exit(page.status ?? 1);
await built('src/cli/main.ts', 'dist/cli');
