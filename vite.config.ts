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
    testTimeout: 60_000,
    hookTimeout: 180_000,
    // Which kind a test file is of: by its folder and by the end of its name. DEVELOPERS.md tells what each is for.
    projects: [
      {
        extends: true,
        test: {
          name: 'node-quick',
          include: ['test/**/*.test.ts'],
          exclude: ['test/{bench,browser,cli}/**', 'test/**/*.slow.test.ts'],
        },
      },
      { extends: true, test: { name: 'node-programs', include: ['test/cli/**/*.test.ts', 'test/**/*.slow.test.ts'] } },
      { extends: true, test: { name: 'browser', include: ['test/browser/**/*.test.ts'] } },
    ],
  },
}));
