import { describe, expect, test } from 'vitest';
import { parsed, printed } from '../../../src/formula/syntax.ts';
import { withChecksUsedOnce } from '../../../src/xlsx/write/used-once.ts';

/** Sheets whose one formula, or one column, uses "a checked". */
function formulaWith(formula: string, elsewhere = '1'): readonly [formula: string, columns: number] {
  const check = { slot: 'a checked', header: 'a checked', doc: '', formula: parsed('{a}/(SUM({a})>0)'), of: 'a' };
  const sheets = new Map([
    ['Here', { formulas: new Map([[0, parsed(formula)]]), workings: [check] }],
    ['There', { formulas: new Map([[0, parsed(elsewhere)]]), workings: [] }],
  ]);
  const here = withChecksUsedOnce(sheets).get('Here');
  const tree = here?.formulas.get(0);
  return [tree === undefined || 'why' in tree ? '' : printed(tree), here?.workings.length ?? 0];
}

describe('a check that one formula uses', () => {
  test.each([
    ['IF({b}=1,{a checked},2)', 'IF({b}=1,{a}/(SUM({a})>0),2)'],
    ['{b}/{a checked}', '{b}/({a}/(SUM({a})>0))'],
    ['MAX({b},{a checked})', 'MAX({b},{a}/(SUM({a})>0))'],
  ])('stands in %s', (formula, whole) => {
    expect(formulaWith(formula)).toEqual([whole, 0]);
  });

  test.each([
    ['what uses it twice', '{a checked}*{a checked}'],
    ['what counts cells', 'COUNT({a checked},{b})'],
    ['what would be long', `{a checked}${'+{b}'.repeat(40)}`],
  ])('keeps its column for %s', (_, formula) => {
    expect(formulaWith(formula)).toEqual([formula, 1]);
  });

  test('keeps its column where another sheet looks at it', () => {
    expect(formulaWith('2*{a checked}', 'INDEX({Here.a checked},1)')).toEqual(['2*{a checked}', 1]);
  });
});
