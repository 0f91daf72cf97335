import { HyperFormula, SimpleRangeValue } from 'hyperformula';
import { describe, expect, test, vi } from 'vitest';
import { Engine } from '../../src/formula/engine.ts';
import { argument } from '../../src/formula/engine-values.ts';
import { formulaLimits } from '../../src/formula/formula-limits.ts';
import { isFault, type Matrix, type Value } from '../../src/formula/values.ts';
import { wildcards } from '../../src/formula/wildcards.ts';
import { functions } from '../../src/functions/index.ts';
import { randomNumbers } from '../../src/random/random-numbers.ts';

/** Formulas that would hold the program, or give what is no number, end at once in a value or an error with words. */

const engine = Engine.build(functions, [{ name: 'Formula', rows: [] }], []);
const many = (text: string, times: number, between = ''): string => Array<string>(times).fill(text).join(between);
const inBrackets = (levels: number, open = '('): string => many(open, levels) + '1' + many(')', levels);
const asterisks = many('*a', 30);

// Without bounds these formulas take minutes or never end: more than a test may.
const answer = (formula: string): Value | Matrix => engine.evaluate(formula);

function refusal(formula: string): string {
  const value = answer(formula);
  return isFault(value) ? value.toString() : `not refused: ${JSON.stringify(value).slice(0, 200)}`;
}

describe('formulas that are too large are refused in words', () => {
  const { operations, levels } = formulaLimits;
  test.each([
    ['terms', many('1', 4_000, '+'), `more than ${operations} operations`],
    ['terms in every level', `${many(`1+${many('2', 20, '*')}+(`, 60)}1${many(')', 60)}`, `more than ${operations} op`],
    ['brackets', inBrackets(3_000), `more than ${levels} levels`],
    ['functions', inBrackets(1_000, 'IF(1,'), `more than ${levels} levels`],
    ['signs', `${many('-', 4_000)}1`, `more than ${levels} levels`],
    ['percents', `1${many('%', 4_000)}`, `more than ${operations} operations`],
    ['arguments', `SUM(${many('1', 300, ',')})`, 'more than 255 arguments'],
    ['characters', `"${many('x', 9_000)}"`, '9,002 characters; the maximum is 8,192'],
    ['a range', 'SUM(A1:XFD1048576)', '17,179,869,184 cells; the maximum is 500,000'],
    ['a range of another sheet', 'SUM(Formula!A1 : Formula!XFD250000)', '4,096,000,000 cells'],
    ['a function over each cell of two ranges', 'T.DIST.RT(A1:XFD9,(A2:A20))', 'to more than 40,000 cells'],
    ['one within another', 'PI(DECIMAL(),{1;2;3},T.DIST.RT(A1:XFD9,(A2:A20)),65536)', '#N/A'],
    ['one of ours over each cell', 'SUM(SKEWLENGTH(A1:ALL41,45))', 'to more than 40,000 cells'],
    ['whole rows', 'SUM(1:65536)', '16,384,000 cells; the maximum is 500,000'],
    ['whole rows from below', 'ISEVEN(STDEVA(2,100000:90," "))', 'the maximum is 500,000'],
    ['whole rows beside a sign', '(-12:100000)', 'the maximum is 500,000'],
    ['whole rows of a sheet', "COUNT('Formula'!$1:$65536)", 'the maximum is 500,000'],
    ['a range by OFFSET', 'SUM(OFFSET(A1,0,0,250000,16000))', '4,000,000,000 cells'],
  ])('%s', (_, formula, words) => {
    expect(refusal(formula)).toContain(words);
  });

  test.each([
    ['brackets', inBrackets(levels), 1],
    ['functions', inBrackets(levels, 'SUM('), 1],
    ['signs', `${many('-', levels)}1`, 1],
    ['terms', many('1', operations, '+'), operations],
    ['both', `${many('(', levels)}${many('1', operations, '+')}${many(')', levels)}`, operations],
    ['arguments', `SUM(${many('1', 255, ',')})`, 255],
    ['whole rows', 'SUM(1:2000)', 0],
    ['hours in quotes', 'LEN("1:65536")', 7],
    ['what stands in quotes', `LEN("${many('(', 200)}A1:XFD250000")`, 212],
  ])('%s up to the bound are computed', (_, formula, value) => {
    expect(answer(formula)).toBe(value);
  });
});

describe("the engine's own functions end", () => {
  test.each([
    ['WORKDAY(1E308,180)', 'takes numbers up to'],
    ['WORKDAY(1,1E9)', 'takes numbers up to'],
    ['NETWORKDAYS.INTL(1,1E15)', 'takes numbers up to'],
    ['POISSON.DIST(1E15,1E15,TRUE)', 'takes numbers up to'],
    ['POISSON(1E15,3,TRUE)', 'takes numbers up to'],
    ['NEGBINOM.DIST(1E9,1E9,0.5,TRUE)', 'takes numbers up to'],
    ['HYPGEOM.DIST(1E9,2E9,2E9,5E9,TRUE)', 'takes numbers up to'],
    ['CUMIPMT(0.1,1E9,1,1,1E9,0)', 'takes numbers up to'],
    ['BESSELJ(1E300,1000000000)', 'takes numbers up to'],
    ['REPT("x",1E9)', 'more than 32,767 characters'],
    ['SUBSTITUTE(REPT("a",30000),"a",REPT("b",30000))', 'more than 32,767 characters'],
    ['REPT("x",30000)&REPT("x",30000)', 'more than 32,767 characters'],
    ['SEQUENCE(250000,10000)', 'more than 250,000 cells'],
    ['SUM(SEQUENCE(100000)+TRANSPOSE(SEQUENCE(100000)))', 'more than 250,000 cells'],
    ['MMULT(SEQUENCE(500,500),SEQUENCE(500,500))', 'more than 250,000 cells'],
    ['PLATESPOTS(1E9,0,2,1,0)', 'at most 10000 plates'],
    ['HOLESPOTS(1E9,0,2,1,0,1,1,1)', 'at most 10000 plates'],
    ['HOLESPOTS(1000,0,2,1,0,1,1,1E9)', 'at most 40000 holes'],
  ])('%s', (formula, words) => {
    expect(refusal(formula)).toContain(words);
  });

  test('patterns with asterisks take no exponential time', () => {
    expect(answer(`COUNTIF(REPT("a",30000),"${asterisks}*b")`)).toBe(0);
    expect(answer(`COUNTIF(REPT("a",30000),"${asterisks}*")`)).toBe(1);
    expect(isFault(answer(`SEARCH("${asterisks}*b",REPT("a",30000))`))).toBe(true);
    expect(isFault(answer(`MATCH("${asterisks}*b",{"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa"},0)`))).toBe(true);
    expect(refusal(`COUNTIF("a","${many('*a', 200)}")`)).toContain('at most 255 characters');
  });

  test('a cell with such a formula has its error, and the book goes on', () => {
    const book = Engine.build(
      functions,
      [{ name: 'Sheet', rows: [['=REPT("x",1E9)', `=${many('1', 4_000, '+')}`, '=SEQUENCE(250000,10000)', '=1+1']] }],
      [],
    );
    const codes = [0, 1, 2, 3].map((column) => {
      const value = book.value({ sheet: 'Sheet', row: 0, column });
      return isFault(value) ? value.code : value;
    });
    expect(codes).toEqual(['#VALUE!', '#ERROR!', '#NUM!', 2]);
  });
});

test('neither NaN nor Infinity come out of a formula', () => {
  const formulas = [
    'GAMMA(-2)', '{1E15;1E9}^255', '1E308*{45}', '-255^SEQUENCE(3,1,200)', 'SERIESSUM(10,300,300,{1,2})', '1E999',
    'EXP({1000,2})', 'LN({0,1})', 'SQRT({-1,4})', '1E308-(-1E308)', '"1E999"+0', '0^-1', '-{1E999}',
  ]; // prettier-ignore
  for (const formula of formulas) {
    const cells = [answer(formula)].flat(2) as readonly Value[];
    for (const cell of cells) expect(typeof cell !== 'number' || Number.isFinite(cell), formula).toBe(true);
    expect(cells.some(isFault), formula).toBe(true);
  }
});

test('patterns match as the expressions they stand for', () => {
  const numbers = randomNumbers(20_261_126);
  const letter = (of: string): string => of.charAt(Math.floor(numbers() * of.length));
  const text = (of: string, most: number): string =>
    Array.from({ length: Math.floor(numbers() * most) }, () => letter(of)).join('');
  let matched = 0;
  for (let run = 0; run < 20_000; run += 1) {
    const pattern = text('ab*?', 7);
    const given = text('ab', 9);
    const expression = pattern.replaceAll('?', '.').replaceAll('*', '.*');
    const whole = new RegExp(`^(${expression})$`).test(given);
    matched += whole ? 1 : 0;
    expect(wildcards(pattern, true).test(given), `${pattern} over ${given}`).toBe(whole);
    expect(wildcards(pattern, false).exec(given)?.index, `${pattern} in ${given}`).toBe(
      new RegExp(expression).exec(given)?.index,
    );
  }
  expect(matched).toBeGreaterThan(1_000);
  expect(wildcards('a~*', true).test('a*')).toBe(true);
  expect(wildcards('a~*', true).test('ab')).toBe(false);
  expect(wildcards('~~?', true).test('~b')).toBe(true);
});

describe('what is the same for every cell of an array is found once', () => {
  test('the names that an unknown one may be meant for', () => {
    const asked = vi.spyOn(HyperFormula, 'getRegisteredFunctionNames');
    const cells = answer('=SKEWLENGTH({1,2;3,4},NoSuchFigure)');
    const times = asked.mock.calls.length;
    asked.mockRestore();
    expect(String((cells as Matrix)[1]?.[1])).toContain('NoSuchFigure is no function, named value or cell');
    expect(times).toBe(1);
  });

  test('a range that a function is given with each of them', () => {
    const range = SimpleRangeValue.onlyValues([[1, 2, 3]]);
    expect(argument(range)).toEqual([[1, 2, 3]]);
    expect(argument(range)).toBe(argument(range));
  });
});
