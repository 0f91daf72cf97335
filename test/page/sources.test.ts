import { describe, expect, test } from 'vitest';
import { isWeak, sourceMarks } from '../../src/sheet/source-marks.ts';
import { functions } from '../../src/functions/index.ts';
import { nodesOf, parsed } from '../../src/formula/syntax.ts';
import { type Column, isComputed, type SheetDeclaration } from '../../src/sheet/declaration.ts';
import { compiledSheets } from '../../src/workbook/declared.ts';
import { namedSheets } from '../../sheets/index.ts';
import { beltChecks } from '../../sheets/belts/checks/index.ts';
import { standardSteps } from '../../sheets/work/standard-steps.ts';

/** Everything that gives a figure says where it has it from, in words that the marks know. */

const unnamed = (source: string | undefined): boolean => sourceMarks(source ?? '').includes('no source named');

/** A figure of its own in a formula: not 0, 1 or 2, which count. */
const ownFigures = (column: Column & { readonly formula: string }): number[] =>
  [...nodesOf(parsed(column.formula))].flatMap((node) =>
    node.type === 'number' && ![0, 1, 2].includes(node.value) ? [node.value] : [],
  );

const engineering = new Set<string>(functions.map(({ name }) => name));
const callsEngineering = (column: Column & { readonly formula: string }): boolean =>
  [...nodesOf(parsed(column.formula))].some((node) => node.type === 'call' && engineering.has(node.name));

/** Columns that hold a rule or figure of their own and do not say where they have it from. */
const silent = ({ name, columns }: Pick<SheetDeclaration, 'name' | 'columns'>): string[] =>
  columns.flatMap((column) => {
    if (column.source !== undefined)
      return unnamed(column.source) ? [`${name}.${column.header}: ${column.source}`] : [];
    if (!isComputed(column) || callsEngineering(column)) return [];
    const figures = [...new Set(ownFigures(column))];
    return figures.length === 0 ? [] : [`${name}.${column.header}: ${figures.join(', ')}`];
  });

describe('a source or mark', () => {
  test('stands beside every function, named value, check and step', () => {
    for (const { name, source } of functions) expect(unnamed(source), `${name}: ${source}`).toBe(false);
    for (const { values } of namedSheets)
      for (const { name, source } of values) expect(unnamed(source), `${name}: ${source}`).toBe(false);
    for (const { word, source } of beltChecks) expect(unnamed(source), `${word}: ${source}`).toBe(false);
    for (const { Step: title, Source: source } of standardSteps)
      expect(unnamed(String(source)), `${String(title)}: ${String(source)}`).toBe(false);
  });

  test('stands beside every column that holds a figure of its own, in known words', () => {
    expect([...compiledSheets.values()].flatMap(({ declaration }) => silent(declaration))).toEqual([]);
  });

  test('is missed where there is none', () => {
    const column = { header: 'Own', kind: 'number', doc: '', formula: '{Width}*1.7' } as const;
    expect(silent({ name: 'Belts', columns: [column] })).toEqual(['Belts.Own: 1.7']);
    expect(silent({ name: 'Belts', columns: [{ ...column, source: 'someone said so' }] })).toHaveLength(1);
    expect(silent({ name: 'Belts', columns: [{ ...column, source: 'arithmetic' }] })).toEqual([]);
  });

  test('that is chosen says whether it is on the cautious side', () => {
    for (const { values } of namedSheets) {
      for (const { name, source } of values) {
        if (/\bchosen\b|\bour choice\b/.test(source))
          expect(source, name).toMatch(/our choice, (?:on the safe side|not on the safe side: \S|no effect on safety)/);
        expect(source, name).not.toMatch(/\bhandbook|\btextbook|\babstract of/);
      }
    }
  });
});

test.each([
  ['a plant trial of 2024', ['no source named'], true],
  ['one handbook text', ['no source named'], true],
  ['', ['no source named'], true],
  ['chosen', ['our choice'], false],
  ['chosen, cautious', ['our choice, on the safe side'], false],
  ['chosen, not cautious: 1 is the lowest', ['our choice, not on the safe side'], true],
  ['chosen, not a matter of caution: enter your own', ['our choice'], false],
  ['our choice, not on the safe side: 1 is the lowest', ['our choice, not on the safe side'], true],
  ['our choice, no effect on safety: enter your own', ['our choice'], false],
  ['geometry of the take-up; our choice, on the safe side', ['our choice, on the safe side', 'derived'], false],
  ['entered by the user', ['entered'], false],
])('"%s" is marked %j', (source, marks, unsure) => {
  expect(sourceMarks(source)).toEqual(marks);
  expect(marks.some((mark) => isWeak(mark as ReturnType<typeof sourceMarks>[number]))).toBe(unsure);
});
