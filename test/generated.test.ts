import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { exportFiles } from '../src/documents/export-files.ts';
import { withParts } from '../src/documents/marked-text.ts';
import { readmeParts } from '../src/documents/readme-parts.ts';
import { referenceText } from '../src/documents/reference-text.ts';
import type { RawBook } from '../src/xlsx/read/raw-book.ts';
import { readBook } from '../src/xlsx/read/read.ts';
import { bookChanges, expectUnchanged, textChanges, treeChanges } from './committed.ts';
import { formula, type GridValue, rawBook } from './xlsx/grid.ts';

/** What is generated and committed is what the program makes now. */

const file = (name: string): URL => new URL(`../${name}`, import.meta.url);

test("README.md's tables are up to date", () => {
  const text = readFileSync(file('README.md'), 'utf8');
  expectUnchanged(
    textChanges(text, withParts(text, readmeParts())).map((change) => `README.md, ${change}`),
    'npm run docs',
  );
});

test('the reference is up to date', () => {
  const changes = textChanges(readFileSync(file('exports/reference.md'), 'utf8'), referenceText());
  expectUnchanged(
    changes.map((change) => `exports/reference.md, ${change}`),
    'npm run docs',
  );
});

/** Of exports/ what other commands make, and what is written by hand. */
const madeElsewhere = new Set(['README.md', 'reference.md', 'tern-quay-page.png']);

describe('sample outputs are up to date', async () => {
  const made = await exportFiles();

  test('all of them are there, and no others', () => {
    const kept = readdirSync(file('exports')).filter((name) => !madeElsewhere.has(name));
    expectUnchanged(
      [
        ...[...made.keys()].filter((name) => !kept.includes(name)).map((name) => `exports/${name} is not committed`),
        ...kept.filter((name) => !made.has(name)).map((name) => `exports/${name} is committed and no longer made`),
      ],
      'npm run exports, and delete what is no longer made',
    );
  });

  test.each([...made.keys()])('%s', (name) => {
    const [kept, now] = [readFileSync(file(`exports/${name}`)), made.get(name) ?? new Uint8Array()];
    const [keptText, text] = [kept.toString('utf8'), new TextDecoder().decode(now)];
    const changes = name.endsWith('.xlsx')
      ? bookChanges(readBook(kept), readBook(now))
      : name.endsWith('.json')
        ? treeChanges(JSON.parse(keptText), JSON.parse(text))
        : textChanges(keptText, text);
    expectUnchanged(
      changes.map((change) => `${name}: ${change}`),
      'npm run exports',
    );
  });
});

describe('a change is told by its place, both values and the command', () => {
  const book = (cells: readonly (readonly GridValue[])[]): RawBook => rawBook({ name: 'Belts', rows: cells });
  const head = ['Belt', 'Width', 'Bolt length'];

  test('of a book: values by record and column, also when columns move; formulas a column', () => {
    const kept = book([head, ['Q1', 800, formula('B2*2', 39)], ['Q3', 650, formula('B3*2', 39)]]);
    const now = book([
      ['Belt', 'Area', 'Width', 'Bolt length'],
      ['Q1', 'Quay', 800, formula('C2*2', 39)],
      ['Q3', 'Quay', 650, formula('C3*2', 42)],
    ]);
    expect(bookChanges(kept, kept)).toEqual([]);
    expect(bookChanges(kept, now)).toEqual([
      'Belts: the column Area is new',
      'Belts, Q3, Bolt length: committed 39, now 42',
      'Belts, Q1 and 1 more, Bolt length (formula): committed B2*2, now C2*2',
    ]);
    expect(bookChanges(book([head, ['Q1', 1 / 3]]), book([head, ['Q1', 1 / 3 + 1e-15], ['Q2', 5]]))).toEqual([
      'Belts: the record Q2 is new',
    ]);
    const pulleys = (size: number): RawBook => book([head, ['Q1', 'head', 500], ['Q1', 'tail', size]]);
    expect(bookChanges(pulleys(400), pulleys(450))).toEqual(['Belts, Q1 tail, Bolt length: committed 400, now 450']);
    expect(bookChanges(rawBook({ name: 'Belts', rows: [] }), rawBook({ name: 'Crews', rows: [] }))).toEqual([
      'the sheet Crews is new',
      'the sheet Belts is gone',
    ]);
  });

  test('of findings and of texts', () => {
    const finding = (message: string) => ({ findings: [{ sheet: 'Belts', name: 'Q3', column: 'Plates', message }] });
    expect(treeChanges(finding('few'), finding('many'))).toEqual([
      'findings, Belts, Q3, Plates, message: committed few, now many',
    ]);
    const table = (value: string): string => `# Belts\n\n| column | what |\n| --- | --- |\n| Width | ${value} |\n`;
    expect(textChanges(table('of the belt'), table('across'))).toEqual([
      'Belts, Width, what: committed of the belt, now across',
    ]);
    expect(textChanges('one\ntwo\n', 'one\nthree\n')).toEqual(['first line that differs: committed two, now three']);
    expect(textChanges('one\ntwo', 'one')).toEqual(['first line that differs: committed two, now empty']);
    const long = 'x'.repeat(300);
    expect(textChanges(`${long}a`, `${long}b`)).toEqual([
      `first line that differs: committed …${'x'.repeat(20)}a, now …${'x'.repeat(20)}b`,
    ]);
  });

  test('with what to run, and of many the first', () => {
    expect(() => expectUnchanged(['Belts, Q3, Bolt length: committed 39, now 42'], 'npm run exports')).toThrow(
      'Belts, Q3, Bolt length: committed 39, now 42; if that is meant: npm run exports',
    );
    expect(() => expectUnchanged(new Array<string>(40).fill('x'), 'npm run docs')).toThrow('and 15 changes more');
    expect(() => expectUnchanged([], 'npm run docs')).not.toThrow();
  });
});

test('marked parts: renewed in place; a mark without a part, and a part without marks, are faults', () => {
  const text = 'a\n<!-- one: generated by npm run docs, do not edit -->\nold\n<!-- end of one -->\nb\n';
  expect(withParts(text, { one: 'new' })).toBe(
    'a\n<!-- one: generated by npm run docs, do not edit -->\n\nnew\n\n<!-- end of one -->\nb\n',
  );
  expect(() => withParts(text, { one: 'new', two: 'x' })).toThrow('no marks for two');
  expect(() => withParts(text, {})).toThrow('nothing makes the part one');
});
