import { describe, expect, test } from 'vitest';
import { type AnswerScope, answerWithin, unknownAnswer } from '../../src/formula/answers.ts';
import { plainArithmetic, withoutMarks } from '../../src/formula/file-spelling.ts';
import { guarded, plainFormula } from '../../src/formula/guard-places.ts';
import type { GuardScope } from '../../src/formula/guard-uses.ts';
import { type Allowed, spelledForEngine } from '../../src/formula/guards.ts';
import { type BookValues, compiled } from '../../src/formula/kernel.ts';
import { PlainForms } from '../../src/formula/plain.ts';
import { parsed, printed } from '../../src/formula/syntax.ts';
import { Fault, type Value } from '../../src/formula/values.ts';
import { functions } from '../../src/functions/index.ts';

/** Where guards stand in declared formulas, how they are spelled, and what rows answer behind them. */

const number = (bounds: Partial<Allowed> = {}): Allowed => ({ words: false, ...bounds });
const columns: Readonly<Record<string, Allowed>> = {
  Width: number({ above: 0 }),
  'Skive depth': number({ min: 0 }),
  Skew: number({ min: 0, max: 60 }),
  Sum: number(),
  Name: { words: true },
  Face: { words: true, choices: ['bare', 'lagged'] },
  'Other.Price': number({ min: 0 }),
  'Other.Name': { words: true },
};
const named: Readonly<Record<string, Allowed>> = { Share: number({ above: 0, max: 2 }), Word: { words: true } };
const scope: GuardScope = {
  functions: new Map(functions.map((item) => [item.name, item])),
  column: (placeholder) => columns[placeholder],
  named: (name) => named[name],
};

interface Beside {
  readonly optional?: Readonly<Record<string, string | null>>;
  readonly must?: readonly string[];
  readonly emptyWithout?: readonly string[];
}

const declared = (formula: string, { optional = {}, must = [], emptyWithout = [] }: Beside) => ({
  formula: parsed(formula),
  optional: new Map(
    Object.entries(optional).map(([name, stands]) => [name, stands === null ? null : parsed(stands)] as const),
  ),
  must: must.map(parsed),
  emptyWithout: emptyWithout.map(parsed),
});

const spelled = (formula: string, beside: Beside = {}): string =>
  printed(spelledForEngine(guarded(declared(formula, beside), scope)));

describe('a guard stands around', () => {
  test.each<[string, string, string]>([
    ['a cell that is handed on', '{Sum}', 'IF(ISNUMBER({Sum}),{Sum},0+({Sum}&"?"))'],
    [
      'arithmetic, cells in the order of the text, bounds after numbers',
      '{Width}*Share+{Sum}+{Width}',
      'IF(ISNUMBER({Width}),IF(ISNUMBER(Share),IF(ISNUMBER({Sum}),IF(AND({Width}>0,Share>0,Share<=2),' +
        '{Width}*Share+{Sum}+{Width},10^400),0+({Sum}&"?")),0+(Share&"?")),0+({Width}&"?"))',
    ],
    [
      'each branch',
      'IF({Name}="a",{Sum},{Sum}/2)',
      'IF({Name}="a",IF(ISNUMBER({Sum}),{Sum},0+({Sum}&"?")),IF(ISNUMBER({Sum}),{Sum}/2,0+({Sum}&"?")))',
    ],
    [
      'a choice by numbers, and what it settles is not asked for again',
      'IF({Skive depth}>0,{Skive depth}*{Sum},0)',
      'IF(ISNUMBER({Skive depth}),IF({Skive depth}>=0,IF({Skive depth}>0,IF(ISNUMBER({Sum}),{Skive ' +
        'depth}*{Sum},0+({Sum}&"?")),0),10^400),' +
        '0+({Skive depth}&"?"))',
    ],
    [
      'a look-up of one cell',
      'INDEX({Other.Price},{Sum})*2',
      'IF(ISNUMBER(INDEX({Other.Price},{Sum})),IF(INDEX({Other.Price},{Sum})>=0,INDEX({Other.Price},{Sum})*2,10^400),' +
        '0+(INDEX({Other.Price},{Sum})&"?"))',
    ],
    ['what IFERROR tries', 'IFERROR({Sum}/2,"")', 'IFERROR(IF(ISNUMBER({Sum}),{Sum}/2,0+({Sum}&"?")),"")'],
    [
      'what is handed to a check, by its declared bounds',
      'LEASTCHECK({Sum},{Width},0)',
      'LEASTCHECK({Sum},IF(ISNUMBER({Width}),IF({Width}>0,{Width},10^400),0+({Width}&"?")),0)',
    ],
    [
      'a call whose argument computes, for all its cells',
      'SKEWLENGTH({Width}*2,{Skew})',
      'IF(ISNUMBER({Width}),IF(ISNUMBER({Skew}),IF({Width}>0,SKEWLENGTH({Width}*2,{Skew}),10^400),0+({Skew}&"?")),' +
        '0+({Width}&"?"))',
    ],
    [
      'a cell that the function would do without',
      'ROLLBELT({Width},{Sum},{Skive depth})+STRIPLENGTH({Width},{Skew},{Skive depth},{Sum})',
      'IF(ISNUMBER({Width}),IF(ISNUMBER({Sum}),IF(ISNUMBER({Skive depth}),IF(ISNUMBER({Skew}),ROLLBELT({Width},{Sum},' +
        '{Skive depth})+STRIPLENGTH({Width},{Skew},{Skive depth},{Sum}),0+({Skew}&"?")),0+({Skive ' +
        'depth}&"?")),0+({Sum}&"?")),' +
        '0+({Width}&"?"))',
    ],
    [
      "a cell whose bounds are narrower than the function's",
      'WRAPFACTOR({Skew},{Sum})',
      'IF(ISNUMBER({Skew}),IF(ISNUMBER({Sum}),IF(AND({Skew}>=0,{Skew}<=60),WRAPFACTOR({Skew},{Sum}),10^400),' +
        '0+({Sum}&"?")),0+({Skew}&"?"))',
    ],
    [
      'an argument that chooses, and those behind it, each by itself',
      'STRIPLENGTH({Width},IF({Name}="",{Skew},0),{Skive depth}*2)',
      'STRIPLENGTH({Width},IF({Name}="",{Skew},0),IF(ISNUMBER({Skive depth}),IF({Skive depth}>=0,{Skive ' +
        'depth}*2,10^400),0+' +
        '({Skive depth}&"?")))',
    ],
  ])('%s', (_, formula, text) => {
    expect(spelled(formula)).toBe(text);
  });
});

describe('no guard stands around', () => {
  test.each([
    ['a call that refuses its cells by itself', 'SKEWLENGTH({Width},{Skew})'],
    ['texts', 'IF({Name}="a",{Name},Word)&"/"&{Sum}'],
    ['questions', 'IF(ISNUMBER({Sum}),"yes",IF(COUNT({Sum},{Width})=2,"two",IF(LEN({Name})=0,"none",NA())))'],
    ['what a question has settled', 'IF(ISNUMBER({Sum}),{Sum}*2,"")'],
    ['what AND has settled, in its next condition too', 'IF(AND(ISNUMBER({Sum}),{Sum}>2),{Sum},"")'],
    ['what a count has settled', 'IF(COUNT({Sum})<1,"",{Sum}*2)'],
    ['what is an error', 'IF(ISERROR({Sum}),{Sum},"")'],
    ['look-ups', 'MATCH({Name},{Other.Name},0)'],
    ['sums over conditions', 'SUMIFS({Other.Price},{Other.Name},{Name})*2'],
  ])('%s', (_, formula) => {
    expect(spelled(formula)).toBe(formula);
  });

  test('but a question for a number does not settle its bounds', () => {
    expect(spelled('IF(ISNUMBER({Width}),{Width}*2,"")')).toBe(
      'IF(ISNUMBER({Width}),IF({Width}>0,{Width}*2,10^400),"")',
    );
  });
});

describe('what is declared beside the formula', () => {
  test('a blank stands for a number or a formula, and nothing else does', () => {
    expect(spelled('{Sum}+{Skive depth}', { optional: { 'Skive depth': '0' } })).toBe(
      'IF(ISNUMBER({Sum}),{Sum}+IF(ISBLANK({Skive depth}),0,IF(ISNUMBER({Skive depth}),IF({Skive depth}>=0,{Skive ' +
        'depth},10^400),' +
        '0+({Skive depth}&"?"))),0+({Sum}&"?"))',
    );
    expect(spelled('ROLLS({Sum},{Width})', { optional: { Width: 'Share' } })).toBe(
      'ROLLS({Sum},IF(ISBLANK({Width}),IF(ISNUMBER(Share),IF(AND(Share>0,Share<=2),Share,10^400),0+(Share&"?")),' +
        '{Width}))',
    );
  });

  test('a blank is handed on where the function may do without', () => {
    const formula = 'JOINTPULLEY({Width},{Skew},INDEX({Other.Price},{Sum}))';
    expect(spelled(formula, { optional: { 'Other.Price': null } })).toBe(formula);
    expect(spelled(formula)).not.toBe(formula);
    // To arithmetic it would be 0.
    expect(spelled('{Sum}*2', { optional: { Sum: null } })).toBe('IF(ISNUMBER({Sum}),{Sum}*2,0+({Sum}&"?"))');
  });

  test('what must hold stands where all of its cells are computed with', () => {
    expect(
      spelled('IF({Name}="a",{Width}-{Skive depth},IF({Name}="b",{Skive depth},{Width}))', {
        must: ['{Skive depth}<{Width}'],
      }),
    ).toBe(
      'IF({Name}="a",IF(ISNUMBER({Width}),IF(ISNUMBER({Skive depth}),IF(AND({Width}>0,{Skive depth}>=0,{Skive ' +
        'depth}<{Width}),' +
        '{Width}-{Skive depth},10^400),0+({Skive ' +
        'depth}&"?")),0+({Width}&"?")),IF({Name}="b",IF(ISNUMBER({Skive depth}),' +
        'IF({Skive depth}>=0,{Skive depth},10^400),0+({Skive ' +
        'depth}&"?")),IF(ISNUMBER({Width}),IF({Width}>0,{Width},10^400),' +
        '0+({Width}&"?"))))',
    );
  });

  test('nothing instead of an error, and no second question', () => {
    expect(spelled('{Sum}/{Width}', { emptyWithout: ['{Sum}', '{Width}'] })).toBe(
      'IF(AND(ISNUMBER({Sum}),ISNUMBER({Width})),IF({Width}>0,{Sum}/{Width},10^400),"")',
    );
  });

  test('people read what a blank stands for, and no guard', () => {
    const formula = declared('{Sum}+{Skive depth}', { optional: { 'Skive depth': '0' }, emptyWithout: ['{Sum}'] });
    expect(printed(plainFormula(formula))).toBe('{Sum}+IF(ISBLANK({Skive depth}),0,{Skive depth})');
  });
});

test('ISWRONG asks for what is not allowed, and a blank is not wrong', () => {
  expect(spelled('IF(ISWRONG({Skew},{Face},{Sum}),"yes","no")')).toBe(
    'IF(OR(IF(ISBLANK({Skew}),FALSE(),IF(ISNUMBER({Skew}),OR({Skew}<0,{Skew}>60),TRUE())),IF(ISBLANK({Face}),FALSE(),' +
      'IF(ISTEXT({Face}),NOT(OR({Face}="bare",{Face}="lagged")),TRUE())),IF(ISBLANK({Sum}),FALSE(),' +
      'IF(ISNUMBER({Sum}),FALSE(),TRUE()))),"yes","no")',
  );
});

test('a guard is spelled before it is printed', () => {
  const tree = guarded(declared('{Sum}*2', {}), scope);
  expect(() => printed(tree)).toThrow('a guard is spelled out before its formula is printed');
});

describe('in files, where a cell beside an input holds its number or an error', () => {
  const inputs = ['Width', 'Skive depth', 'Skew'];
  const answers: AnswerScope = {
    column: (name) => (name.endsWith(', checked') ? answerWithin(columns[name.slice(0, -9)] ?? {}) : unknownAnswer),
    named: (name) => answerWithin(named[name] ?? {}),
  };
  const inFile = (formula: string, beside: Beside = {}): string => {
    const plain = plainArithmetic(guarded(declared(formula, beside), scope), {
      functions: scope.functions,
      answers,
      numberWith: () => undefined,
      checked: (cell) =>
        cell.type === 'placeholder' && inputs.includes(cell.name)
          ? { type: 'placeholder', name: `${cell.name}, checked` }
          : undefined,
    });
    return printed(withoutMarks(new PlainForms(functions, true).tree(plain, undefined, answers) ?? plain));
  };

  test.each([
    ['arithmetic refers to it, and to computed cells as they are', '{Width}*{Sum}', '{Width, checked}*{Sum}'],
    ['a text is refused where a program would compare it', 'IF({Sum}>{Width},1,2)', 'IF(0+{Sum}>{Width, checked},1,2)'],
    ['or pass over it', 'MAX({Sum},{Width})+1', 'MAX(0+{Sum},{Width, checked})+1'],
    [
      'what only asks reads the cell itself',
      'IF(ISNUMBER({Width}),{Width},0)',
      'IF(ISNUMBER({Width}),{Width, checked},0)',
    ],
    [
      'a function asks nothing that its cells have settled',
      'SKEWLOSS({Width},{Skew})',
      '{Width, checked}*TAN(RADIANS({Skew, checked}))',
    ],
    [
      'but for what they have not',
      'SKEWLOSS({Sum},{Skew})',
      'IF(0+{Sum}<=0,10^400,{Sum}*TAN(RADIANS({Skew, checked})))',
    ],
    [
      'a check makes "not known" of any error',
      'LEASTCHECK({Sum},{Width},0.1)',
      'IFERROR(IF(0+{Sum}<{Width, checked}*(1-10^-12),"fails",IF(0+{Sum}<{Width, checked}*(1+0.1-10^-12),"tight",' +
        '"fits")),"not known")',
    ],
  ])('%s', (_, formula, spelled) => {
    expect(inFile(formula)).toBe(spelled);
  });

  test('what must hold between cells is still asked, and what is missing leaves the cell empty', () => {
    expect(inFile('{Width}-{Skive depth}', { must: ['{Skive depth}<{Width}'] })).toBe(
      'IF({Skive depth, checked}<{Width, checked},{Width, checked}-{Skive depth, checked},10^400)',
    );
    expect(inFile('{Sum}>{Width}', { emptyWithout: ['{Sum}', '{Width}'] })).toBe(
      'IF(COUNT({Sum},{Width})=2,{Sum}>{Width, checked},"")',
    );
  });
});

describe('rows', () => {
  const headers = Object.keys(columns).filter((header) => !header.includes('.'));
  const fault = new Fault('#N/A', 'not there');
  const nothing: BookValues = { named: () => null, cell: () => null, find: () => fault, all: () => [] };
  const answer = (formula: string, row: Readonly<Record<string, Value>>, beside: Beside = {}): Value =>
    compiled(guarded(declared(formula, beside), scope), {
      functions: scope.functions,
      slot: (placeholder) => ({ cell: headers.indexOf(placeholder) }),
    })(
      headers.map((header) => row[header] ?? null),
      nothing,
      2,
    );

  test.each<[string, Value, unknown]>([
    ['a number within bounds', 12, 24],
    ['a blank', null, { code: '#VALUE!', message: 'a required input is empty or not a number' }],
    ['a text that reads as a number', '12', { code: '#VALUE!' }],
    ['a text with a question mark', '12?', { code: '#VALUE!' }],
    ['a truth', true, { code: '#VALUE!' }],
    ['an error', fault, fault],
    ['a number out of bounds', -1, { code: '#NUM!' }],
  ])('answer behind a guard for %s', (_, value, wanted) => {
    const given = answer('{Width}*2', { Width: value });
    if (typeof wanted === 'object') expect(given).toMatchObject(wanted as object);
    else expect(given).toBe(wanted);
  });

  test('say of a text in unguarded arithmetic what it is, whichever way it ends', () => {
    const unguarded = compiled(parsed('{Name}+1'), { functions: scope.functions, slot: () => ({ cell: 0 }) });
    expect(unguarded(['how long?'], nothing, 2)).toMatchObject({
      code: '#VALUE!',
      message: 'a number is needed; the text "how long?" was given',
    });
  });

  test('let the first wrong cell speak', () => {
    expect(answer('{Sum}/{Width}', { Sum: fault, Width: null })).toBe(fault);
    expect(answer('{Sum}/{Width}', { Width: fault })).toMatchObject({ code: '#VALUE!' });
    expect(answer('{Skive depth}/{Sum}', { 'Skive depth': -1, Sum: fault })).toBe(fault);
  });

  test('answer nothing where that is declared, for an error too, and an error for what is absurd', () => {
    const beside = { emptyWithout: ['{Width}'] };
    expect(answer('{Width}*{Sum}', { Width: null, Sum: 2 }, beside)).toBe('');
    expect(answer('{Width}*{Sum}', { Width: fault, Sum: 2 }, beside)).toBe('');
    expect(answer('{Width}*{Sum}', { Width: -1, Sum: 2 }, beside)).toMatchObject({ code: '#NUM!' });
    expect(answer('{Width}*{Sum}', { Width: 3 }, beside)).toMatchObject({ code: '#VALUE!' });
  });

  test('refuse what must not be', () => {
    const beside = { must: ['{Skive depth}<{Width}'] };
    expect(answer('{Width}-{Skive depth}', { Width: 3, 'Skive depth': 2 }, beside)).toBe(1);
    expect(answer('{Width}-{Skive depth}', { Width: 3, 'Skive depth': 3 }, beside)).toMatchObject({ code: '#NUM!' });
  });
});
