import { afterAll, describe, expect, test } from 'vitest';
import { Engine } from '../../src/formula/engine.ts';
import { isFault, type Value } from '../../src/formula/values.ts';
import { functions } from '../../src/functions/index.ts';

const engine = Engine.build(
  functions,
  [
    {
      name: 'Free',
      rows: [
        ['a', 'b', 'c'],
        [650, 45, null],
      ],
    },
    {
      name: 'Checks',
      rows: [
        ['one', 'two', 'three', 'four'],
        ['fits', 'tight', 'fits', '=1/0'],
        ['FITS', 'not asked', null, 'fails'],
      ],
    },
  ],
  [],
);
afterAll(() => engine.destroy());

const column = (position: number): Value[] =>
  engine
    .values('Free')
    .slice(1)
    .map((row) => row[position] ?? null)
    .filter((value) => value !== null);
const fault = (formula: string): { code: string; message: string } => {
  const value = engine.evaluate(formula);
  if (!isFault(value)) throw new Error(`${formula} gives no error`);
  return { code: value.code, message: value.message };
};

describe('formulas as people write them', () => {
  test.each([
    ['=SKEWLENGTH(650,45)', 919.2388155425117],
    ['skewlength( 650 , 45 )', 919.2388155425117],
    ['=1E3+1.5E-1+1e1', 1010.15],
    ['="1E3"', '1E3'],
    ['=TRUE', true],
    ['=IF(FALSE,1,2)', 2],
    ['=0.1+0.2', 0.30000000000000004],
    ['=SUM(PLATESPOTS(400,0,120,90,10))', 600],
    ['=SUMPRODUCT(({1,2,3}>1)*{1,2,3})', 5],
    ['=SKEWLENGTH(Free!A2,Free!B2)', 919.2388155425117],
    ['=WORSTVERDICT(Checks!A2:C2)', 'tight'],
    ['=WORSTVERDICT(Checks!A2,Checks!A3:B3,"fits")', 'fits'],
    ['=WORSTVERDICT(Checks!A2:C3)', 'not known'],
    ['=WORSTVERDICT(Checks!D2,"fits")', 'not known'],
    ['=WORSTVERDICT(Checks!C2:D3)', 'fails'],
    ['=WORSTVERDICT("fits","fits","tight","fits","fits","fits","fits","fits")', 'tight'],
  ])('%s', (formula, value) => {
    expect(engine.evaluate(formula)).toBe(value);
  });

  test('a result of several cells comes as rows', () => {
    expect(engine.evaluate('=PLATESPOTS(400,0,120,90,10)')).toEqual([[80], [200], [320]]);
  });
});

describe('errors say what is wrong', () => {
  test.each([
    ['=SKEWLENGTH(650,90)', '#NUM!', 'skew must be from 0 to 60; 90 was given'],
    ['=SKEWLENGTH(,45)', '#VALUE!', 'width must be a length'],
    ['=SKEWLENGTH(Free!C2,45)', '#VALUE!', 'an empty cell'],
    ['=SKEWLENGTH(650)', '#VALUE!', 'skew is missing'],
    ['=SKEWLENGTH(650,45,1)', '#VALUE!', 'takes 2 arguments'],
    ['=SKEWLENGTH(1/0,45)', '#DIV/0!', 'division by zero'],
    ['=NOSUCHTHING(1)', '#NAME?', 'NOSUCHTHING'],
    ['=SKEWLENGTH(650,', '#ERROR!', 'ends too early'],
    ['=650;45', '#ERROR!', '";" is not expected at character 4'],
  ])('%s', (formula, code, words) => {
    expect(fault(formula).code).toBe(code);
    expect(fault(formula).message).toContain(words);
  });
});

describe('a spill', () => {
  test('grows and shrinks with its inputs, and gives way to an error', () => {
    engine.set({ sheet: 'Free', row: 1, column: 4 }, [['=PLATESPOTS(A2,B2,42,38,12)']]);
    expect(column(4)).toHaveLength(21);
    engine.set({ sheet: 'Free', row: 1, column: 0 }, [[1200]]);
    expect(column(4)).toHaveLength(39);
    engine.set({ sheet: 'Free', row: 1, column: 0 }, [[200]]);
    expect(column(4)).toHaveLength(6);
    engine.set({ sheet: 'Free', row: 1, column: 1 }, [[90]]);
    expect(column(4)).toHaveLength(1);
    expect(isFault(column(4)[0])).toBe(true);
    engine.set({ sheet: 'Free', row: 1, column: 1 }, [[0]]);
    expect(column(4)).toHaveLength(4);
  });

  test('comes back when the cells in its way are emptied', () => {
    engine.set({ sheet: 'Free', row: 1, column: 0 }, [[400]]);
    engine.set({ sheet: 'Free', row: 1, column: 4 }, [['=PLATESPOTS(400,0,120,90,10)']]);
    const whole = column(4);
    expect(whole.length).toBeGreaterThan(1);
    engine.set({ sheet: 'Free', row: 2, column: 4 }, [[5]]);
    expect(String(column(4)[0])).toContain('#SPILL!');
    engine.set({ sheet: 'Free', row: 2, column: 4 }, [[null]]);
    expect(column(4)).toEqual(whole);
  });

  test("so does a standard function's, in the way of another's spill as well", () => {
    engine.set({ sheet: 'Free', row: 1, column: 5 }, [['=SEQUENCE(3)']]);
    engine.set({ sheet: 'Free', row: 2, column: 5 }, [[7]]);
    expect(String(column(5)[0])).toContain('#SPILL!');
    engine.set({ sheet: 'Free', row: 2, column: 5 }, [[null]]);
    expect(column(5)).toEqual([1, 2, 3]);
  });

  test('a text that looks like a formula, a number or a date stays a text', () => {
    engine.set({ sheet: 'Free', row: 1, column: 2 }, [['12/05/2026']]);
    expect(engine.value({ sheet: 'Free', row: 1, column: 2 })).toBe('12/05/2026');
    engine.set({ sheet: 'Free', row: 1, column: 2 }, [['=']]);
    expect(engine.value({ sheet: 'Free', row: 1, column: 2 })).toBe('=');
  });
});

describe('a formula that does not read says what and where, in a cell as on the command line', () => {
  test.each([
    [
      '=SUM(A2;A3)',
      '";" is not expected at character 7 of the formula: arguments are parted by commas. Is =SUM(A2,A3) meant?',
    ],
    ['=SUM(1,2', 'a closing bracket or a value is missing. Is =SUM(1,2) meant?'],
    ['=SUM(1,2))', 'there is a closing bracket too many. Is =SUM(1,2) meant?'],
    ['=Plate series!A2', "the name of a sheet with a space in it needs quotes. Is ='Plate series'!A2 meant?"],
    ['="wide', 'the text that begins at character 1 has no quote at its end'],
    ['=2*', 'the formula ends too early'],
  ])('%s', (formula, words) => {
    expect(fault(formula)).toEqual({ code: '#ERROR!', message: expect.stringContaining(words) });
    engine.set({ sheet: 'Free', row: 4, column: 8 }, [[formula]]);
    expect(engine.value({ sheet: 'Free', row: 4, column: 8 })).toEqual(
      expect.objectContaining({ code: '#ERROR!', message: expect.stringContaining(words) }),
    );
    expect(String(engine.values('Free')[4]?.[8])).toContain(words);
  });

  test.each([
    ['=SUMM(1)', 'there is no function SUMM. Is SUM'],
    ['=SKEWLENGHT(1,2)', 'there is no function SKEWLENGHT. Is SKEWLENGTH'],
    ['=wide', 'wide is no function, named value or cell; put a text in quotes'],
  ])('%s names the nearest', (formula, words) => {
    expect(fault(formula)).toEqual({ code: '#NAME?', message: expect.stringContaining(words) });
  });
});
