import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

/** Imports go one way; third-party packages stand behind one folder each. DEVELOPERS.md tells why. */

const root = fileURLToPath(new URL('..', import.meta.url));

/**
 * The parts from the ground up. A part may import from those that it names and from all that these stand on.
 */
const standsOn: Readonly<Record<string, readonly string[]>> = {
  'src/units': [],
  'src/formula': ['src/units'],
  'src/functions': ['src/formula'],
  'src/random': ['src/functions'],
  'src/solver': [],
  'src/sheet': ['src/formula'],
  sheets: ['src/functions', 'src/sheet'],
  'src/workbook': ['sheets'],
  'src/merge': ['src/workbook'],
  'src/records': ['src/workbook'],
  'src/checks': ['src/records'],
  'src/job': ['src/checks'],
  'src/advice': ['src/checks'],
  'src/what-if': ['src/random', 'src/checks'],
  'src/pictures': ['src/what-if'],
  'src/drawing': ['src/checks'],
  'src/card': ['src/job', 'src/drawing'],
  'src/order': ['src/advice', 'src/random', 'src/solver'],
  'src/outage': ['src/job', 'src/solver'],
  'src/purchase': ['src/card', 'src/order', 'src/outage'],
  'src/xlsx': ['src/checks'],
  'src/reference': ['src/xlsx'],
  'src/page': ['src/card', 'src/merge', 'src/purchase', 'src/reference', 'src/pictures'],
  'src/cli': ['src/card', 'src/merge', 'src/purchase', 'src/reference', 'src/pictures'],
  'src/documents': ['src/cli', 'src/page'],
  // Builds the others and is part of none.
  'src/launch': [],
};

/** What each part may import beside itself. */
const allowed: ReadonlyMap<string, ReadonlySet<string>> = new Map(
  Object.keys(standsOn).map((part) => {
    const below = new Set<string>();
    const add = (other: string): void => {
      for (const next of standsOn[other] ?? []) {
        below.add(next);
        add(next);
      }
    };
    add(part);
    return [part, below];
  }),
);

/** Parts that run on Node alone, never in a browser. */
const onNode = new Set(['src/cli', 'src/documents', 'src/launch']);

/** Where each package may be imported: by nobody else, so that it can be replaced in one place. */
const packages: Readonly<Record<string, RegExp>> = {
  hyperformula: /^src\/formula\/engine[^/]*\.ts$/,
  numfmt: /^src\/formula\/spreadsheet\/number-format\.ts$/,
  handsontable: /^src\/page\/grid\//,
  exceljs: /^src\/xlsx\//,
  jszip: /^src\/xlsx\//,
  fflate: /^src\/xlsx\//,
  saxes: /^src\/xlsx\//,
  papaparse: /^src\/xlsx\/read\//,
  '@cantoo/pdf-lib': /^src\/drawing\//,
  '@observablehq/plot': /^src\/pictures\/drawing\//,
  '@tarikjabiri/dxf': /^src\/drawing\//,
  ics: /^src\/outage\/calendar\.ts$/,
  'lean-qr': /^src\/card\/qr\.ts$/,
  highs: /^src\/(solver\/solver|page\/workers\/(order|outage)-worker)\.ts$/,
  idb: /^src\/page\//,
  'lit-html': /^src\/page\//,
  vite: /^src\/launch\//,
};

const files = (folder: string): string[] =>
  readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith('.ts'))
    .map((entry) => relative(root, join(entry.parentPath, entry.name)).split(sep).join('/'));

const program = [...files('src'), ...files('sheets')];

const statements = [
  /^\s*(?:import|export)\b[^'"`;]*?\bfrom\s*(['"])([^'"]+)\1/gm,
  /^\s*import\s*(['"])([^'"]+)\1/gm,
  /\bimport\(\s*(['"])([^'"]+)\1\s*\)/g,
  /\bnew URL\(\s*(['"])(\.[^'"]+)\1\s*,\s*import\.meta\.url/g,
];

/** What a file's text names in its import lines, types included. */
const imports = (text: string): string[] =>
  statements.flatMap((pattern) => [...text.matchAll(pattern)].map(([, , named = '']) => named));

const partOf = (path: string): string =>
  path.startsWith('src/') ? path.split('/').slice(0, 2).join('/') : (path.split('/')[0] ?? '');

/** Why an import may not be; undefined when it may. */
function refusal(file: string, named: string): string | undefined {
  const part = partOf(file);
  if (named.startsWith('node:'))
    return onNode.has(part)
      ? undefined
      : `${file} imports ${named}: only ${[...onNode].join(' and ')} run on Node alone`;
  if (!named.startsWith('.')) {
    const name = named.startsWith('@') ? named.split('/').slice(0, 2).join('/') : (named.split('/')[0] ?? '');
    const place = packages[name];
    return place?.test(file) === true ? undefined : `${file} imports the package ${name}`;
  }
  const target = relative(root, resolve(root, dirname(file), named.replace(/\?.*$/, '')))
    .split(sep)
    .join('/');
  if (target === 'package.json') return undefined;
  const other = partOf(target);
  return other === part || allowed.get(part)?.has(other) === true
    ? undefined
    : `${file} imports ${target}: ${part} may not look into ${other}`;
}

/** What a file imports of the program's own, as its path. */
const ownImports = (file: string, text: string): string[] =>
  imports(text)
    .filter((named) => named.startsWith('.'))
    .map((named) =>
      relative(root, resolve(root, dirname(file), named.replace(/\?.*$/, '')))
        .split(sep)
        .join('/'),
    );

/** A way from a file back to itself; undefined when no file has one. Types and what is loaded later count. */
function circle(graph: ReadonlyMap<string, readonly string[]>): readonly string[] | undefined {
  const done = new Set<string>();
  const walk = (file: string, way: readonly string[]): readonly string[] | undefined => {
    if (way.includes(file)) return [...way.slice(way.indexOf(file)), file];
    if (done.has(file)) return undefined;
    for (const next of graph.get(file) ?? []) {
      const found = walk(next, [...way, file]);
      if (found !== undefined) return found;
    }
    done.add(file);
    return undefined;
  };
  for (const file of graph.keys()) {
    const found = walk(file, []);
    if (found !== undefined) return found;
  }
  return undefined;
}

describe('imports', () => {
  test('every part of the program has its rule', () => {
    expect(program.length).toBeGreaterThan(50);
    expect([...new Set(program.map(partOf))].filter((part) => !allowed.has(part))).toEqual([]);
  });

  test('go one way, and third-party packages stand behind one folder each', () => {
    const wrong = program.flatMap((file) =>
      imports(readFileSync(join(root, file), 'utf8')).flatMap((named) => refusal(file, named) ?? []),
    );
    expect(wrong).toEqual([]);
  });

  test('never go in a circle', () => {
    const graph = new Map(program.map((file) => [file, ownImports(file, readFileSync(join(root, file), 'utf8'))]));
    expect(circle(graph)).toBeUndefined();
    expect(
      circle(
        new Map([
          ['a.ts', ownImports('a.ts', "import { b } from './b.ts';")],
          ['b.ts', ownImports('b.ts', "import type { C } from './c.ts';")],
          ['c.ts', ownImports('c.ts', "const b = await import('./b.ts');")],
        ]),
      ),
    ).toEqual(['b.ts', 'c.ts', 'b.ts']);
  });

  test('are seen in every form they take', () => {
    expect(
      imports(
        `import { a,\n  b } from './one.ts';\nimport type { C } from '../two.ts';\nimport './three.css';\nexport { d ` +
          `} from "./four.ts";\nconst e = await import('./five.ts');\nnew Worker(new URL('./six.ts', ` +
          `import.meta.url));`,
      ).toSorted(),
    ).toEqual(['../two.ts', './five.ts', './four.ts', './one.ts', './six.ts', './three.css']);
    expect(refusal('src/formula/plain.ts', '../workbook/state.ts')).toMatch('may not look into src/workbook');
    expect(refusal('src/workbook/calculation.ts', 'hyperformula')).toMatch('imports the package hyperformula');
    expect(refusal('src/page/views/page.ts', 'handsontable/base')).toMatch('imports the package handsontable');
    expect(refusal('src/page/main.ts', '../cli/main.ts')).toMatch('may not look into src/cli');
    expect(refusal('src/units/dates.ts', 'node:fs')).toMatch('run on Node alone');
    expect(refusal('src/page/grid/plugins.ts', 'handsontable/plugins')).toBeUndefined();
    expect(refusal('src/xlsx/write.ts', '../checks/finding.ts')).toBeUndefined();
  });
});
