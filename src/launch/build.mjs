import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { loadEnv } from 'vite';
import { alone, built, isFresh, repository } from './built.mjs';

/**
 * `npm run build`: the page into dist/page, the command line into dist/cli. With --if-older only what its sources have
 * outrun.
 */

/**
 * A key goes into the page when it is built. Which ones the page before was built with is kept, but not as they are.
 */
const kept = join(repository, 'dist/page.keys');
const keys = createHash('sha256')
  .update(
    JSON.stringify(
      Object.entries(loadEnv('production', repository, 'SKEWBOOK_'))
        .filter(([, key]) => key.trim() !== '')
        .toSorted(),
    ),
  )
  .digest('hex');
const isCurrent = () =>
  existsSync(kept) && readFileSync(kept, 'utf8') === keys && isFresh(join(repository, 'dist/page/index.html'));

if (!process.argv.includes('--if-older') || !isCurrent())
  await alone('dist/page', () => {
    // Another build may have made it while this one waited.
    if (process.argv.includes('--if-older') && isCurrent()) return;
    const page = spawnSync(process.execPath, ['node_modules/vite/bin/vite.js', 'build', '--logLevel', 'warn'], {
      cwd: repository,
      stdio: 'inherit',
      // Whatever calls it may be a test or a development of its own: what is built is what users get.
      env: { ...process.env, NODE_ENV: 'production' },
    });
    if (page.status === 0) writeFileSync(kept, keys);
    else process.exitCode = page.status ?? 1;
  });
if (process.exitCode !== undefined) process.exit();
await built('src/cli/main.ts', 'dist/cli');
