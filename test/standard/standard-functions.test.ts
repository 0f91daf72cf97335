import { afterAll, describe, expect, test } from 'vitest';
import { Engine } from '../../src/formula/engine.ts';
import { isFault, type Matrix, type Value } from '../../src/formula/values.ts';
import { functions } from '../../src/functions/index.ts';
import { publishedExamples } from './published-examples.ts';

/** Standard functions by published examples, and by their definition where no other program here has them. */

const engine = Engine.build(
  functions,
  [
    {
      name: 'Sheet',
      rows: [
        ['Name', 'Size', 'Kind', 'Blank'],
        ['Q1', 30, 'wide', null],
        ['Q2', 10, 'narrow', null],
        ['Q3', 20, 'wide', null],
        ['Q4', '=1/0', '3', null],
      ],
    },
  ],
  [],
);
afterAll(() => engine.destroy());

const value = (formula: string): Value | Matrix => engine.evaluate(formula);
function fault(formula: string): { readonly code: string; readonly message: string } {
  const found = value(formula);
  if (!isFault(found)) throw new Error(`${formula} gives no error but ${String(found)}`);
  return { code: found.code, message: found.message };
}

describe('published examples', () => {
  test.each(publishedExamples.map((example) => ({ example })))(
    '$example',
    ({ example: [formula, expected, places] }) => {
      const found = value(formula);
      if (places === undefined || typeof expected !== 'number' || typeof found !== 'number')
        expect(found).toBe(expected);
      else expect(Math.abs(found - expected)).toBeLessThanOrEqual(0.5000001 * 10 ** -places);
    },
  );

  // Microsoft's example of LINEST over four columns, the worth of offices (from memory).
  test('a line through points of four numbers each, with its statistics', () => {
    const x =
      '{2310,2,2,20;2333,2,2,12;2356,3,1.5,33;2379,3,2,43;2402,2,3,53;2425,4,2,23;2448,2,1.5,99;2471,2,2,34;' +
      '2494,3,3,23;2517,4,4,55;2540,2,3,22}';
    const y = '{142000;144000;151000;150000;139000;169000;126000;142900;163000;169000;149000}';
    const found = value(`=LINEST(${y},${x},TRUE,TRUE)`) as number[][];
    const printed = [
      [-234.2371645, 2553.21066, 12_529.76817, 27.64138737, 52_317.83051],
      [13.26801148, 530.6691519, 400.0668382, 5.429374042, 12_237.3616],
      [0.996747993, 970.5784629],
      [459.7536742, 6],
      [1_732_393_319, 5_652_135.316],
    ];
    printed.forEach((row, down) =>
      row.forEach((number, right) => expect(found[down]?.[right]).toBeCloseTo(number, number > 1e6 ? -1 : 4)),
    );
  });
});

describe('as every spreadsheet program computes, where this one did not', () => {
  test.each<[string, Value]>([
    ['=INT(-2.5)', -3],
    ['=ROUND(1.005,2)', 1.01],
    ['=ROUND(0.285,2)', 0.29],
    ['=0.1+0.2=0.3', true],
    ['=0.1*3=0.3', true],
    ['=1.1-1=0.1', true],
    ['=1.1-1-0.1', 0],
    ['=0.1+0.2-0.3', 0],
    ['=SQRT(2)^2=2', true],
    ['=9007199254740991=9007199254740990', false],
    ['=0.1+0.2&""', '0.3'],
    ['=1E21&""', '1E+21'],
    ['=PI()', Math.PI],
    ['=DEGREES(PI())', 180],
    ['=TEXT(1.5,"[h]:mm")', '36:00'],
    ['=TEXT(0.5,"0%")', '50%'],
    ['=TEXT(0.256,"0.0%")', '25.6%'],
    ['=TEXT(12345.678,"#,##0")', '12,346'],
    ['=TEXT(46000,"mmm yyyy")', 'Dec 2025'],
    ['=TEXT(46000,"ddd d mmm")', 'Tue 9 Dec'],
    ['=TEXT(0.5,"# ?/?")', ' 1/2'],
    ['=TEXT(-5,"0;(0)")', '(5)'],
    ['=TEXT(1.005,"0.00")', '1.01'],
    ['="2026-03-01"+0', 46_082],
    ['=DATEVALUE("2026-03-01")', 46_082],
    ['=TIMEVALUE("7:15 PM")', 0.8020833333333333],
    ['=DATEDIF(46000,46010,"d")', 10],
    ['=ISOWEEKNUM(50039)', 1],
    ['=Sheet!D2', 0],
    ['=IF(TRUE,Sheet!D2,1)', 0],
    ['=5>"4"', false],
    ['=ISREF(Sheet!A1)', true],
    ['=FIND("z","ab z",2)', 4],
    ['=IF(TRUE,1,INDEX(Sheet!A2:A4,1-1))', 1],
    ['=SUM(INDEX(Sheet!A2:B4,0,2))', 60],
    ['=COUNTIFS(Sheet!A2:A5,">Q2")', 2],
    ['=AVERAGEIFS(Sheet!B2:B5,Sheet!C2:C5,"wide")', 25],
    ['=AGGREGATE(9,6,Sheet!B2:B5)', 60],
    ['=AGGREGATE(14,6,Sheet!B2:B5,2)', 20],
    ['=SUM(Sheet!C5)', 0],
    ['=PRODUCT(Sheet!D2)', 0],
    ['=SUBSTITUTE("ab","","x")', 'ab'],
    ['=MOD(0.3,0.1)', 0],
    ['=FLOOR(0.3,0.1)', 0.30000000000000004],
  ])('%s is %s', (formula, expected) => expect(value(formula)).toBe(expected));

  test.each([
    ['="1/2/2026"+0', '#VALUE!', 'may be either of two days, by country: write year, month and day, as in 2026-02-01'],
    ['=DATEVALUE("03.04.2026")', '#VALUE!', 'may be either of two days'],
    ['="2023-02-29"+0', '#VALUE!', 'is no day of the calendar'],
    ['=""+1', '#VALUE!', 'an empty text was given'],
    ['="$5"+0', '#VALUE!', 'the text "$5" was given'],
    ['=INDEX(Sheet!A2:B4,4,1)', '#REF!', 'the range has 3 rows and 2 columns; row 4, column 1 is outside it'],
    ['=INDEX(Sheet!A2:B4,2-2,1)', '#VALUE!', 'a 0 for all of them must be written out'],
    ['=TEXT(-1,"hh:mm")', '#VALUE!', 'no day or time before 0'],
    ['=TEXT(1,"0.0.0[")', '#VALUE!', 'is not a number format'],
    ['=CONVERT(2.5,"ft","sec")', '#N/A', '"ft" is a unit of length, "sec" one of time'],
    ['=CONVERT(1,"feet","m")', '#N/A', 'knows no unit "feet"'],
    ['=IPMT(0.1,5,4,100)', '#NUM!', 'the period must be from 1 to the 4 that there are'],
    ['=RATE(19,0,1465.58)', '#NUM!', 'no rate was found'],
    ['=MINVERSE({1,2;2,4})', '#NUM!', 'has no inverse'],
    ['=MATCH("x",Sheet!A2:A4,0)', '#N/A', ''],
    ['=LOOKUP(0,{1;2},{3;4})', '#N/A', 'nothing in the range is as small as 0'],
    ['=INDIRECT("A1")', '#NAME?', 'Use INDEX(range,row,column)'],
    ['=LAMBDA(x,x+1)', '#NAME?', 'Use LET'],
    ['=HF.ADD(1,2)', '#NAME?', 'Write a+b'],
    ['=LET(A1,2,A1)', '#VALUE!', 'a name must be letters'],
    ['=LET(x,2)', '#N/A', 'LET takes names and values in turn'],
  ])('%s is refused', (formula, code, words) => {
    expect(fault(formula).code).toBe(code);
    expect(fault(formula).message).toContain(words);
  });
});

describe('functions that other programs here have not, by their definition', () => {
  test.each<[string, Matrix]>([
    [
      '=TAKE({1,2,3;4,5,6;7,8,9},2)',
      [
        [1, 2, 3],
        [4, 5, 6],
      ],
    ],
    ['=TAKE({1,2,3;4,5,6;7,8,9},-1,-2)', [[8, 9]]],
    ['=TAKE({1,2,3;4,5,6},,1)', [[1], [4]]],
    [
      '=DROP({1,2,3;4,5,6;7,8,9},1,1)',
      [
        [5, 6],
        [8, 9],
      ],
    ],
    ['=DROP({1,2,3;4,5,6;7,8,9},-2)', [[1, 2, 3]]],
    ['=SORTBY(Sheet!A2:A4,Sheet!B2:B4)', [['Q2'], ['Q3'], ['Q1']]],
    ['=SORTBY(Sheet!A2:A4,Sheet!C2:C4,-1,Sheet!B2:B4,1)', [['Q3'], ['Q1'], ['Q2']]],
    [
      '=CHOOSECOLS({1,2,3;4,5,6},-1,1)',
      [
        [3, 1],
        [6, 4],
      ],
    ],
    [
      '=CHOOSEROWS({1,2;3,4;5,6},{3,1})',
      [
        [5, 6],
        [1, 2],
      ],
    ],
    ['=TOCOL({1,2;3,4})', [[1], [2], [3], [4]]],
    ['=TOCOL({1,2;3,4},0,TRUE)', [[1], [3], [2], [4]]],
    ['=TOROW({1;2})', [[1, 2]]],
    [
      '=WRAPROWS({1,2,3,4,5},2,0)',
      [
        [1, 2],
        [3, 4],
        [5, 0],
      ],
    ],
    [
      '=WRAPCOLS({1,2,3,4,5},2,0)',
      [
        [1, 3, 5],
        [2, 4, 0],
      ],
    ],
    [
      '=VSTACK({1,2},{3,4})',
      [
        [1, 2],
        [3, 4],
      ],
    ],
    [
      '=HSTACK({1;2},{3;4})',
      [
        [1, 3],
        [2, 4],
      ],
    ],
    [
      '=SEQUENCE(2,2,5,-1)',
      [
        [5, 4],
        [3, 2],
      ],
    ],
    ['=SORT({3;1;2})', [[1], [2], [3]]],
    ['=UNIQUE({1;2;1})', [[1], [2]]],
    ['=FILTER(Sheet!A2:A4,Sheet!B2:B4>15)', [['Q1'], ['Q3']]],
    ['=FREQUENCY({1;2;3;4},{2;3})', [[2], [1], [1]]],
    ['=LET(x,{1;2;3},x*2)', [[2], [4], [6]]],
    ['=INDEX({1,2;3,4},2,0)', [[3, 4]]],
    ['=INDEX({1,2;3,4},2)', [[3, 4]]],
  ])('%s', (formula, expected) => expect(value(formula)).toEqual(expected));

  test.each<[string, Value]>([
    ['=LET(width,Sheet!B2,edge,width/10,width-2*edge)', 24],
    ['=LET(x,1,LET(x,2,x)+x)', 3],
    ['=LET(size,Sheet!B2:B4,SUM(size)/ROWS(size))', 20],
    ['=XMATCH(12,Sheet!B2:B4,-1)', 2],
    ['=XMATCH(25,Sheet!B2:B4,1)', 1],
    ['=XMATCH("wide",Sheet!C2:C4,0,-1)', 3],
    ['=XLOOKUP("Q3",Sheet!A2:A4,Sheet!B2:B4)', 20],
    ['=XLOOKUP("Q9",Sheet!A2:A4,Sheet!B2:B4,"none")', 'none'],
  ])('%s is %s', (formula, expected) => expect(value(formula)).toBe(expected));
});

describe('complex numbers, by real functions of their parts', () => {
  type Complex = readonly [number, number];
  const over = ([a, b]: Complex): Complex => [a / (a * a + b * b), -b / (a * a + b * b)];
  const times = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c - b * d, a * d + b * c];
  const cos = ([a, b]: Complex): Complex => [Math.cos(a) * Math.cosh(b), -Math.sin(a) * Math.sinh(b)];
  const sin = ([a, b]: Complex): Complex => [Math.sin(a) * Math.cosh(b), Math.cos(a) * Math.sinh(b)];
  const cosh = ([a, b]: Complex): Complex => [Math.cosh(a) * Math.cos(b), Math.sinh(a) * Math.sin(b)];
  const sinh = ([a, b]: Complex): Complex => [Math.sinh(a) * Math.cos(b), Math.cosh(a) * Math.sin(b)];

  test.each<[string, (z: Complex) => Complex]>([
    ['IMCOSH', cosh],
    ['IMSINH', sinh],
    ['IMSEC', (z) => over(cos(z))],
    ['IMSECH', (z) => over(cosh(z))],
    ['IMCSC', (z) => over(sin(z))],
    ['IMCSCH', (z) => over(sinh(z))],
    ['IMTAN', (z) => times(sin(z), over(cos(z)))],
    ['IMCOT', (z) => times(cos(z), over(sin(z)))],
  ])('%s', (name, of) => {
    for (const [text, z] of [
      ['4+3i', [4, 3]],
      ['-1+0.5i', [-1, 0.5]],
      ['2', [2, 0]],
    ] as const) {
      const [real, imaginary] = of(z);
      expect(value(`=IMREAL(${name}("${text}"))`)).toBeCloseTo(real, 12);
      expect(value(`=IMAGINARY(${name}("${text}"))`)).toBeCloseTo(imaginary, 12);
    }
  });
});

test('a result of several cells follows its inputs', () => {
  engine.set({ sheet: 'Sheet', row: 6, column: 0 }, [['=TAKE(SORTBY(A2:B4,B2:B4),G1)']]);
  const shown = (): Value[] =>
    engine
      .values('Sheet')
      .slice(6, 9)
      .map((row) => row[0] ?? null);
  engine.set({ sheet: 'Sheet', row: 0, column: 6 }, [[2]]);
  expect(shown()).toEqual(['Q2', 'Q3']);
  engine.set({ sheet: 'Sheet', row: 0, column: 6 }, [[3]]);
  expect(shown()).toEqual(['Q2', 'Q3', 'Q1']);
  engine.set({ sheet: 'Sheet', row: 2, column: 1 }, [[99]]);
  expect(shown()).toEqual(['Q3', 'Q1', 'Q2']);
});

test('a cell whose formula gives a blank cell counts as 0 in others', () => {
  engine.set({ sheet: 'Sheet', row: 0, column: 8 }, [['=D2', '=COUNT(I1)', '=ISBLANK(I1)', '=I1&"x"']]);
  expect(engine.values('Sheet')[0]?.slice(8, 12)).toEqual([0, 1, false, '0x']);
});
