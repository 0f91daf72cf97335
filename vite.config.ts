import { defineConfig } from 'vitest/config';

/**
 * Three builds from one place: the page (`vite build`), the command line (`vite build --ssr src/cli/main.ts`) and tests.
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
    projects: [
      {
        extends: true,
        test: {
          name: 'node',
          environment: 'node',
          include: ['test/**/*.test.ts'],
          exclude: ['test/browser/**', 'test/bench/**'],
        },
      },
      // After the others and one file at a time: these measure how quickly the page answers.
      {
        extends: true,
        test: {
          name: 'browser',
          environment: 'node',
          include: ['test/browser/**/*.test.ts'],
          fileParallelism: false,
          sequence: { groupOrder: 1 },
          testTimeout: 60_000,
          hookTimeout: 180_000,
        },
      },
    ],
  },
}));
