import { existsSync, mkdirSync, readdirSync, rmdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';

/** Programs of this repository that are written in TypeScript, built when they are older than their sources. */

export const repository = fileURLToPath(new URL('../..', import.meta.url));

/** What a built program depends on. */
const sources = [
  'src',
  'sheets',
  'test/bench',
  'test/oracles',
  'test/pictures',
  'package-lock.json',
  'package.json',
  'vite.config.ts',
];

/** Longer than any build takes: an older mark was left behind by one that was stopped. */
const longestBuild = 120_000;

function newest(path) {
  const found = statSync(path, { throwIfNoEntry: false });
  if (found === undefined) return 0;
  if (!found.isDirectory()) return found.mtimeMs;
  return Math.max(found.mtimeMs, ...readdirSync(path).map((name) => newest(join(path, name))));
}

/** Whether a built file is newer than all that it is made from. */
export const isFresh = (program) =>
  existsSync(program) &&
  statSync(program).mtimeMs > Math.max(...sources.map((source) => newest(join(repository, source))));

/** Runs one build at a time, since two at once would write over each other. */
export async function alone(folder, build) {
  const mark = join(repository, `${folder}.building`);
  mkdirSync(join(repository, 'dist'), { recursive: true });
  for (;;) {
    try {
      mkdirSync(mark);
      break;
    } catch (error) {
      if (error.code !== 'EEXIST') throw error;
      const made = statSync(mark, { throwIfNoEntry: false })?.mtimeMs;
      if (made !== undefined && Date.now() - made > longestBuild) rmdirSync(mark);
      else await setTimeout(100);
    }
  }
  try {
    return await build();
  } finally {
    rmdirSync(mark);
  }
}

/** The path of an entry's built program, made first when it is missing or older than any source. */
export async function built(entry, folder) {
  const program = join(repository, folder, `${entry.replace(/^.*\//, '').replace(/\.ts$/, '')}.js`);
  if (isFresh(program)) return program;
  await alone(folder, async () => {
    if (isFresh(program)) return;
    const { build } = await import('vite');
    await build({
      root: repository,
      configFile: join(repository, 'vite.config.ts'),
      logLevel: 'error',
      build: { ssr: join(repository, entry), outDir: join(repository, folder) },
      // In one piece a program starts a third sooner than with the packages' several hundred modules.
      // The driver of the browser, which only a bench calls, looks for files of its own beside its modules.
      ssr: { noExternal: true, external: ['playwright-core'] },
    });
  });
  return program;
}
