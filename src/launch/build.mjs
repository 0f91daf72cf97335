import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { built, isFresh, repository } from './built.mjs';

/**
 * `npm run build`: the page into dist/page, the command line into dist/cli. With --if-older only what its sources have
 * outrun.
 */

// A key goes into the page when it is built: the page before it may hold another.
const keys = Object.keys(process.env).some((name) => name.startsWith('SKEWBOOK_'));
if (!process.argv.includes('--if-older') || keys || !isFresh(join(repository, 'dist/page/index.html'))) {
  const page = spawnSync(process.execPath, ['node_modules/vite/bin/vite.js', 'build', '--logLevel', 'warn'], {
    cwd: repository,
    stdio: 'inherit',
    // Whatever calls it may be a test or a development of its own: what is built is what users get.
    env: { ...process.env, NODE_ENV: 'production' },
  });
  if (page.status !== 0) process.exit(page.status ?? 1);
}
await built('src/cli/main.ts', 'dist/cli');
