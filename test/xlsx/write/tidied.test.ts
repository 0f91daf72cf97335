import { describe, expect, test } from 'vitest';
import { answerOf, answerWithin } from '../../../src/formula/answers.ts';
import { parsed, printed } from '../../../src/formula/syntax.ts';
import { withLookedUpParts } from '../../../src/xlsx/write/looked-up-parts.ts';
import { tidied } from '../../../src/xlsx/write/tidied.ts';

/** Formulas of a file without steps that change nothing, and with what is another sheet's worked out there. */

describe('a formula without steps that change nothing', () => {
  test.each([
    ['IF({a}<0,NA(),IF({b}<0,NA(),{c}))', 'IF(OR({a}<0,{b}<0),NA(),{c})'],
    ['IF(OR({a}<0,{d}),NA(),IF({b}<0,NA(),{c}))', 'IF(OR({a}<0,{d},{b}<0),NA(),{c})'],
    ['IF(NOT(ISBLANK({a})),1,2)', 'IF(ISBLANK({a}),2,1)'],
    ['2*{a}+0', '2*{a}'],
    ['2*{a}+0*{a}*3', '2*{a}'],
    ['ABS(-{a})>1', 'ABS({a})>1'],
    ['IFERROR(IF({a}="",1,IFERROR({b},"no")),"no")', 'IFERROR(IF({a}="",1,{b}),"no")'],
    ['IF(OR(ISNUMBER({a})),1,2)', 'IF(ISNUMBER({a}),1,2)'],
    ['MAX(({a}+1),2)', 'MAX({a}+1,2)'],
    [
      'SUBSTITUTE(IFERROR(IF({a}<1,"fails","fits"),"not known"),"fails","tight")',
      'IFERROR(IF({a}<1,"tight","fits"),"not known")',
    ],
  ])('%s', (formula, short) => {
    expect(printed(tidied(parsed(formula)))).toBe(short);
  });

  // A text would pass for a sum without the 0; an error in b would be lost; what refuses and what does not differ.
  test.each([
    '{a}+0',
    '2*{a}+0*{b}',
    'IF({a}<0,NA(),IF({b}<0,0,{c}))',
    'IF({a}<0,0,IF({b}<0,NA(),{c}))',
    'SUBSTITUTE(IF({a}<1,{b},"fits"),"fails","tight")',
    'SUBSTITUTE(IF({a}<1,"fits"),"fits","tight")',
    'SUBSTITUTE(IF({a}<1,"fails","fits"),"","tight")',
  ])('%s stays as it is', (formula) => {
    expect(printed(tidied(parsed(formula)))).toBe(formula);
  });
});

describe("what is made of another sheet's figures alone", () => {
  const shortened = (formula: string): readonly [string, string[]] => {
    const given: string[] = [];
    const tree = withLookedUpParts(parsed(formula), (sheet, part) => {
      given.push(`${sheet}: ${printed(part)}`);
      return `part ${given.length}`;
    });
    return [printed(tree), given];
  };
  const at = (header: string, row = 'Row'): string => `INDEX({Series.${header}},{${row}})`;

  test('is worked out there, the largest part of it', () => {
    expect(shortened(`{own}+(2*${at('a')}+3*${at('b')})*{own}`)).toEqual([
      '{own}+(INDEX({Series.part 1},{Row}))*{own}',
      ['Series: 2*{a}+3*{b}'],
    ]);
    expect(shortened(`IF(ISBLANK(${at('a')}),0,${at('a checked')})`)[1]).toEqual([
      'Series: IF(ISBLANK({a}),0,{a checked})',
    ]);
  });

  test.each([
    ['one figure', `2*${at('a')}`],
    ['figures of two records', `${at('a')}*${at('b', 'Other row')}`],
    ['a comparison', `${at('a')}>${at('b')}`],
    ['what answers something where no record is found', `IF(ISBLANK(${at('a')}),0,1)`],
    ['an own figure among them', `${at('a')}*{own}*${at('b')}`],
  ])('but not %s', (_, formula) => {
    expect(shortened(formula)).toEqual([formula, []]);
  });
});

describe('what a formula can answer', () => {
  const scope = { column: () => answerWithin({}), named: () => answerWithin({}) };
  test.each([
    ['IF(OR({a}<=0,{b}<0),NA(),{a})', { low: 0, open: true }],
    ['IF(OR({a}<=0,{b}<0),NA(),{b})', { low: 0, open: false }],
    ['IF({a}<0,{a},2)', { low: -Infinity, open: false }],
    ['IF({a}<1,"",{a})', { number: false, low: 1, open: false }],
  ])('%s', (formula, answer) => {
    expect(answerOf(parsed(formula), scope)).toMatchObject(answer);
  });
});
