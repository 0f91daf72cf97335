import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build, type InlineConfig } from 'vite';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { dependencies } from '../../package.json';
import { inPlant } from '../../src/page/grid/grid-terms.json';
import { bundledPackage, isLicensed, noticeText, packageFolder } from '../../src/launch/third-party.ts';
import { ready } from '../cli/program.ts';

/** Nothing is built in without a licence, and what is built holds the notices of all that is in it. */

const repository = fileURLToPath(new URL('../..', import.meta.url));
const read = (...path: string[]): string => readFileSync(join(repository, ...path), 'utf8');

/** "name version: licence" of a build's list. */
const listed = (build: string): { name: string; version: string; licence: string }[] =>
  [
    ...(read('dist', build, 'THIRD-PARTY.txt')
      .split('\n==')[0]
      ?.matchAll(/^(\S+) (\d\S*): (.+)$/gm) ?? []),
  ].map(([, name = '', version = '', licence = '']) => ({ name, version, licence }));

/** Packages that one build has no use for. */
const without: Readonly<Record<string, readonly string[]>> = {
  page: [],
  cli: ['buffer', 'events', 'handsontable', 'idb', 'lit-html', 'process'],
};

beforeAll(async () => {
  const { status, stderr } = spawnSync(process.execPath, ['src/launch/build.mjs', '--if-older'], {
    cwd: repository,
    encoding: 'utf8',
    env: { ...process.env, VITEST: undefined, NODE_ENV: undefined },
  });
  expect(status, stderr).toBe(0);
  await ready();
}, 240_000);

describe.each(['page', 'cli'])('dist/%s', (name) => {
  test('has the GPL beside it, and lists its packages', () => {
    expect(read('dist', name, 'LICENSE')).toBe(read('LICENSE'));
    const names = listed(name).map((one) => one.name);
    const expected = Object.keys(dependencies).filter((one) => without[name]?.includes(one) !== true);
    expect(expected.filter((one) => !names.includes(one))).toEqual([]);
    expect(without[name]?.filter((one) => names.includes(one))).toEqual([]);
  });

  test('holds no package without a licence', () => {
    const list = listed(name);
    expect(list.length).toBeGreaterThan(30);
    expect(list.filter(({ licence }) => licence === 'no licence').map((one) => `${one.name} ${one.version}`)).toEqual(
      [],
    );
  });

  test('has the whole notices of its packages', () => {
    const text = read('dist', name, 'THIRD-PARTY.txt');
    const notices: Readonly<Record<string, string>> = {
      hyperformula: 'LICENSE.txt',
      chevrotain: 'LICENSE.txt',
      highs: 'LICENSE',
      'lean-qr': 'LICENSE',
      '@cantoo/pdf-lib': 'src/packages/upng/LICENSE',
      culori: 'src/okhsl/LICENSE',
      tslib: 'CopyrightNotice.txt',
      ...(name === 'page' ? { 'lit-html': 'LICENSE', handsontable: 'LICENSE.txt', buffer: 'LICENSE' } : {}),
    };
    for (const [one, file] of Object.entries(notices))
      expect(text, one).toContain(read('node_modules', one, file).replaceAll('\r\n', '\n').trim());
  });
});

test("dist/page has the grid's licence, which is no text", () => {
  const name = 'handsontable-non-commercial-license.pdf';
  expect(readFileSync(join(repository, 'dist/page', name))).toEqual(
    readFileSync(join(repository, 'node_modules/handsontable', name)),
  );
  expect(read('dist/page/THIRD-PARTY.txt')).toContain(name);
});

/** Names of packages in the source maps of a build, which come about apart from the plugin that lists them. */
async function mapped(outFolder: string, options: InlineConfig): Promise<string[]> {
  const { VITEST, ...environment } = process.env;
  process.env = environment;
  try {
    await build({
      ...options,
      configFile: join(repository, 'vite.config.ts'),
      logLevel: 'silent',
      build: { ...options.build, outDir: outFolder, emptyOutDir: true, sourcemap: true, minify: false },
    });
  } finally {
    process.env['VITEST'] = VITEST;
  }
  const sources = readdirSync(outFolder, { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.js.map'))
    .flatMap((path) => (JSON.parse(readFileSync(join(outFolder, path), 'utf8')) as { sources: string[] }).sources);
  return [...new Set(sources.flatMap((path) => /.*node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(path)?.[1] ?? []))];
}

test.each([
  ['page', {}],
  ['cli', { root: repository, build: { ssr: join(repository, 'src/cli/main.ts') }, ssr: { noExternal: true } }],
] as const)(
  "the list of dist/%s has every package of the build's source maps, workers' too",
  async (name, options) => {
    const folder = mkdtempSync(join(tmpdir(), 'skewbook-mapped-'));
    try {
      const held = await mapped(folder, options);
      expect(held.length).toBeGreaterThan(30);
      expect(held.filter((one) => !listed(name).some((item) => item.name === one))).toEqual([]);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  },
  120_000,
);

test('the README says what the page may be used for, and names every licence there is', () => {
  const readme = read('README.md');
  const [start, licences] = [readme.indexOf(inPlant), readme.lastIndexOf(inPlant)];
  expect(start).toBeGreaterThan(readme.indexOf('npm start'));
  expect(start).toBeLessThan(readme.indexOf('## Five minutes'));
  expect(licences).toBeGreaterThan(readme.indexOf('## Licences'));
  const ownTerms = ['hyperformula', 'handsontable'];
  const named = [...listed('page'), ...listed('cli')]
    .filter(({ name }) => !ownTerms.includes(name))
    .flatMap(({ licence }) => licence.replaceAll(/[()]/g, '').split(/ (?:AND|OR) /))
    .filter((licence) => !licence.startsWith('GPL-'));
  const section = readme.slice(readme.indexOf('## Licences'));
  expect([...new Set(named)].filter((licence) => !section.includes(licence))).toEqual([]);
});

describe('a package', () => {
  const root = mkdtempSync(join(tmpdir(), 'skewbook-packages-'));
  afterAll(() => rmSync(root, { recursive: true, force: true }));
  const made = (name: string, files: Readonly<Record<string, string>>): string => {
    const folder = join(root, 'node_modules', name);
    for (const [path, text] of Object.entries(files)) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), text);
    }
    return folder;
  };

  test('is the one that a module lies in, the build tools for what they add', () => {
    expect(packageFolder('/a/node_modules/one/node_modules/@b/two/lib/x.js?worker', '/a')).toBe(
      '/a/node_modules/one/node_modules/@b/two',
    );
    expect(packageFolder('\0rolldown/runtime.js', '/a')).toBe(join('/a', 'node_modules', 'rolldown'));
    expect(packageFolder('\0vite/preload-helper.js', '/a')).toBe(join('/a', 'node_modules', 'vite'));
    expect(packageFolder('__vite-browser-external', '/a')).toBe(join('/a', 'node_modules', 'vite'));
    expect(packageFolder('/a/src/page/main.ts', '/a')).toBeUndefined();
  });

  test('gives all its notices, each once, none of packages inside it', () => {
    const folder = made('many', {
      'package.json': '{"name":"many","version":"1.2.3","license":"MIT","author":{"name":"A. Author"}}',
      LICENSE: 'the licence\r\n',
      'dist/LICENSE': 'the licence',
      'src/part/Licence.md': 'of a part',
      'src/license.js': 'code',
      'node_modules/other/LICENSE': "another's",
    });
    expect(bundledPackage(folder)).toEqual({
      name: 'many',
      version: '1.2.3',
      licence: 'MIT',
      author: 'A. Author',
      notices: ['the licence', 'of a part'],
      documents: [],
    });
  });

  test('without a file gives what its readme says', () => {
    const folder = made('readme', {
      'package.json': '{"name":"readme","version":"1.0.0","licenses":[{"type":"MIT"},{"type":"ISC"}]}',
      'README.md': '# Readme\n\nWords.\n\n## License\n\n(MIT)\n\nAll may.\n\n## Thanks\n\nNo.\n',
    });
    expect(bundledPackage(folder)).toMatchObject({ licence: 'MIT OR ISC', notices: ['(MIT)\n\nAll may.'] });
  });

  test.each([['{"name":"none","version":"1.0.0"}'], ['{"name":"none","version":"1.0.0","license":"UNLICENSED"}']])(
    'without file and field has no licence: %s',
    (said) => {
      const none = bundledPackage(made('none', { 'package.json': said, 'README.md': '# None\n' }));
      expect(isLicensed(none)).toBe(false);
      expect(noticeText([none])).toContain('none 1.0.0: no licence');
    },
  );
});
