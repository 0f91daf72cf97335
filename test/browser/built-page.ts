import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** Before the first test of the page: the page is built once for all of them, as users build it. */
export function setup(): void {
  const { status, stderr } = spawnSync(process.execPath, ['src/launch/build.mjs', '--if-older'], {
    cwd: fileURLToPath(new URL('../..', import.meta.url)),
    encoding: 'utf8',
    env: { ...process.env, VITEST: undefined },
  });
  if (status !== 0) throw new Error(`the page could not be built: ${stderr}`);
}
