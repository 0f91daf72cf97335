import { defineConfig } from 'vitest/config';
import { offlineFile, offlineFiles } from './src/launch/offline-files.ts';
import { thirdParty } from './src/launch/third-party.ts';

/** What a build leaves out resolves to it. */
const nothing = `${import.meta.dirname}/src/launch/no-module.mjs`;

/**
 * The spreadsheet library from its sources. What it reads streams with, which the program has no use for, brings along
 * a package without a licence; its ready-made build hides what it is made of. Its part for text files goes unused too.
 */
const spreadsheetSources = { exceljs: 'exceljs/lib/exceljs.bare.js', '../csv/csv': nothing };

/**
 * In a browser those sources miss what Node has: files and ciphers, which go unused, and the rest, which is brought.
 */
const inBrowser = { crypto: nothing, fs: nothing, stream: nothing, jszip: 'jszip/lib/index.js' };
const transform = {
  inject: { Buffer: ['buffer/', 'Buffer'] as [string, string], process: 'process/browser' },
  define: { global: 'globalThis', 'process.browser': 'true' },
};

const isPage = (isSsrBuild: boolean | undefined): boolean => isSsrBuild !== true && process.env['VITEST'] === undefined;

/** The page, and what keeps its files in the browser, which has a name that stays. */
const pageParts = {
  transform,
  input: {
    index: `${import.meta.dirname}/src/page/index.html`,
    offline: `${import.meta.dirname}/src/page/workers/offline-worker.ts`,
  },
  output: {
    entryFileNames: ({ name }: { readonly name: string }) =>
      name === 'offline' ? offlineFile : 'assets/[name]-[hash].js',
  },
};

const { whole, worker } = thirdParty(import.meta.dirname);

/**
 * Three builds from one place: the page (`vite build`), the command line (`vite build --ssr src/cli/main.ts`) and
 * tests. Only the page has its root below the repository's.
 */
export default defineConfig(({ isSsrBuild }) => ({
  root: isPage(isSsrBuild) ? 'src/page' : '.',
  base: './',
  envDir: import.meta.dirname,
  envPrefix: 'SKEWBOOK_',
  cacheDir: `${import.meta.dirname}/node_modules/.vite`,
  plugins: [whole, ...(isPage(isSsrBuild) ? [offlineFiles()] : [])],
  resolve: { alias: { ...spreadsheetSources, ...(isPage(isSsrBuild) ? inBrowser : {}) } },
  optimizeDeps: { rolldownOptions: { transform, resolve: { alias: { ...spreadsheetSources, ...inBrowser } } } },
  build: {
    outDir: isSsrBuild === true ? 'dist/cli' : '../../dist/page',
    emptyOutDir: true,
    target: 'es2022',
    // The formula engine and the grid load with the page; together they are larger than the warning's threshold.
    chunkSizeWarningLimit: 2500,
    ...(isPage(isSsrBuild) ? { rolldownOptions: pageParts } : {}),
  },
  worker: { format: 'es', plugins: () => [worker], rolldownOptions: { transform } },
  test: {
    // Left to itself it would leave one core idle, on two of them half of the machine.
    maxWorkers: '100%',
    testTimeout: 60_000,
    hookTimeout: 180_000,
    setupFiles: ['test/seed.ts'],
    // Which kind a test file is of: by its folder and by the end of its name. DEVELOPERS.md tells what each is for.
    projects: [
      {
        extends: true,
        test: {
          name: 'node-quick',
          // Modules are loaded once a worker, a third less work. What a test puts in place it puts back.
          isolate: false,
          include: ['test/**/*.test.ts'],
          exclude: ['test/{bench,browser,cli}/**', 'test/**/*.{slow,alone}.test.ts'],
        },
      },
      // What puts other modules in the place of the program's, or tells the engine of functions, shares none.
      {
        extends: true,
        test: { name: 'node-alone', include: ['test/**/*.alone.test.ts'], exclude: ['test/**/*.slow.alone.test.ts'] },
      },
      // Other programs share the machine with these tests: one that fails is tried again, and the report says so.
      {
        extends: true,
        test: {
          name: 'node-programs',
          isolate: false,
          retry: 1,
          include: ['test/cli/**/*.test.ts', 'test/**/*.slow.test.ts'],
        },
      },
      { extends: true, test: { name: 'programs-alone', retry: 1, include: ['test/**/*.slow.alone.test.ts'] } },
      {
        extends: true,
        test: {
          name: 'browser',
          isolate: false,
          retry: 1,
          include: ['test/browser/**/*.test.ts'],
          globalSetup: 'test/browser/built-page.ts',
        },
      },
    ],
  },
}));
