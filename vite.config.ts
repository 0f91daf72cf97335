import { defineConfig } from 'vitest/config';

/**
 * Three builds from one place: the page (`vite build`), the command line (`vite build --ssr src/cli/main.ts`), tests.
 * Only the page has its root below the repository's.
 */
export default defineConfig(({ isSsrBuild }) => ({
  root: isSsrBuild === true || process.env['VITEST'] !== undefined ? '.' : 'src/page',
  base: './',
  envDir: import.meta.dirname,
  envPrefix: 'SKEWBOOK_',
  cacheDir: `${import.meta.dirname}/node_modules/.vite`,
  build: {
    outDir: isSsrBuild === true ? 'dist/cli' : '../../dist/page',
    emptyOutDir: true,
    target: 'es2022',
    // The formula engine and the grid load with the page; together they are larger than the warning's threshold.
    chunkSizeWarningLimit: 2500,
  },
  worker: { format: 'es' },
  test: {
    // Left to itself it would leave one core idle, on two of them half of the machine.
    maxWorkers: '100%',
    testTimeout: 60_000,
    hookTimeout: 180_000,
    // Which kind a test file is of: by its folder and by the end of its name. DEVELOPERS.md tells what each is for.
    projects: [
      {
        extends: true,
        test: {
          name: 'node-quick',
          // Modules are loaded once a worker, a third less work. What a test puts in place it puts back.
          isolate: false,
          include: ['test/**/*.test.ts'],
          exclude: ['test/{bench,browser,cli}/**', 'test/**/*.slow.test.ts'],
        },
      },
      { extends: true, test: { name: 'node-programs', include: ['test/cli/**/*.test.ts', 'test/**/*.slow.test.ts'] } },
      {
        extends: true,
        test: { name: 'browser', include: ['test/browser/**/*.test.ts'], globalSetup: 'test/browser/built-page.ts' },
      },
    ],
  },
}));
