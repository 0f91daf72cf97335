import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { check, resolveConfig } from 'prettier';
import { describe, expect, test } from 'vitest';
import { deadExports, filesIn, readProgram, readSource, root, textOf } from './program-files.ts';

/**
 * What the linter has no rule for: how wide lines are, and that every export is taken by somebody. Formatting and the
 * lengths of files and functions are `npm run lint`'s; that it sees them is tried here.
 */

const widest = 120;
const reason = /One line: \S+ \S+/;

/** Lines wider than the house keeps, but for one below a comment that says why: "One line: …". */
const wideLines = (file: string, text: string): string[] =>
  text
    .split('\n')
    .flatMap((line, index, lines) =>
      line.length > widest && !reason.test(lines[index - 1] ?? '')
        ? [`${file}:${index + 1} has ${line.length} columns, more than ${widest}`]
        : [],
    );

const ends = ['.ts', '.mjs', '.css', '.html'];
const sources = ['src', 'sheets', 'test', '.ci'].flatMap((folder) => filesIn(folder, ends));

describe('lines', () => {
  test(`are no wider than ${widest} columns`, () => {
    expect(sources.length).toBeGreaterThan(500);
    expect(sources.flatMap((file) => wideLines(file, textOf(file)))).toEqual([]);
  });

  test('that are wider are told by file and number, unless a reason stands above', () => {
    const wide = `const a = '${'x'.repeat(120)}';`;
    expect(wideLines('a.ts', `\n${wide}\n`)).toEqual(['a.ts:2 has 133 columns, more than 120']);
    expect(wideLines('a.ts', `// One line: an address is no use in parts.\n${wide}\n`)).toEqual([]);
  });
});

describe('exports', () => {
  const program = readProgram();
  const { dead, forTests } = deadExports(program);
  const tested = filesIn('test').map((file) => readSource(textOf(file), file).taken);

  test('are taken by another file of the program, or say for which tests they are: "For tests: …"', () => {
    expect(program.size).toBeGreaterThan(400);
    expect(dead).toEqual([]);
  });

  test('that are for tests are taken by one', () => {
    const names = new Set(tested.flat().flatMap(({ names: taken }) => taken ?? []));
    expect(forTests.filter((line) => !names.has(line.split(': ')[1] ?? ''))).toEqual([]);
  });

  test('that nobody takes are told by file and name', () => {
    const files = {
      'src/a.ts': "import { used } from './b.ts'; import type { Kind } from './b.ts'; import * as c from './c.ts';",
      'src/b.ts':
        'export const used = 1; export const left = used; export interface Kind { a: 1 } export type Other = Kind;\n' +
        '/** For tests: its figure is printed. */\nexport function tried() {}\n' +
        "export { one } from './d.ts'; const load = () => import('./e.ts').then(({ opened }) => opened);",
      'src/c.ts': 'export const all = 1;',
      'src/d.ts': 'export const one = 1;',
      'src/e.ts': 'export class opened {} export default 1;',
    };
    const planted = new Map(Object.entries(files).map(([file, text]) => [file, readSource(text, file)]));
    expect(deadExports(planted)).toEqual({
      dead: ['src/b.ts: left', 'src/b.ts: Other', 'src/b.ts: one', 'src/e.ts: default'],
      forTests: ['src/b.ts: tried'],
    });
  });
});

describe('npm run lint', () => {
  const { scripts } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
    readonly scripts: Readonly<Record<string, string>>;
  };

  test('asks for the format of all that is written by hand', () => {
    expect(scripts['lint']).toMatch(/prettier --check .*\bsrc sheets test \.ci vite\.config\.ts/);
  });

  test('finds a file that is not formatted', async () => {
    const options = { ...(await resolveConfig(join(root, 'src/page/main.ts'))), filepath: 'planted.ts' };
    expect(await check("export const a = { b: 'c' };\n", options)).toBe(true);
    expect(await check("export const a = {b: 'c'}\n", options)).toBe(false);
  });
});
