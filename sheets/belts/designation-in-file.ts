import { codeFound, earliestCodeOfCapitals, withSpaces } from '../../src/functions/code-search.ts';
import {
  carcassCodes,
  codeFollowers,
  leastStrength,
  mostCover,
  mostStrength,
  perPlyMarks,
  plyWords,
  spacesBehindCode,
  spacesFromStrength,
  strengthMarks,
} from '../../src/functions/designation.ts';
import type { FormulaInFile } from '../../src/sheet/declared-formula.ts';

/**
 * A belt's designation as a file reads it: step by step what `readDesignation` does, each in a column of its own.
 *
 * Structure is seen in a text with a 0 for every digit, figures are cut from the text itself at the same places.
 */

type Replaced = readonly (readonly [text: string, by: string])[];

const replaced = (text: string, pairs: Replaced): string =>
  pairs.reduce((inner, [old, by]) => `SUBSTITUTE(${inner},"${old}","${by}")`, text);
const asSpaces = (characters: readonly string[]): Replaced => characters.map((character) => [character, ' ']);

/** Headings of the working columns. */
const of = {
  capitals: '{Construction in capitals}',
  digits: '{Capitals with zeros}',
  marks: '{Capitals with slashes}',
  code: '{Code of the carcass}',
  behind: '{Behind the carcass}',
  digit: '{First digit there}',
  tail: '{From the strength on}',
  zeros: '{Digits as zeros}',
  strength: '{Strength written}',
  plies: '{Strength and plies written}',
  signs: '{Covers as signs}',
  covers: '{Covers written}',
  top: '{Top cover read}',
  bottom: '{Bottom cover read}',
  others: '{Carcasses too many}',
  read: '{Strength read}',
};

const named = (parts: readonly (readonly [slot: string, formula: string])[]): Record<string, string> =>
  Object.fromEntries(parts.map(([slot, formula]) => [slot.slice(1, -1), formula]));

const digits: Replaced = Array.from({ length: 9 }, (_, index) => [String(index + 1), '0']);
/** What stands for every follower of a code but a space. */
const anyFollower = '/';
const otherFollowers: Replaced = codeFollowers
  .filter((follower) => follower !== ' ' && follower !== anyFollower && !(follower > '0' && follower <= '9'))
  .map((follower) => [follower, anyFollower]);
const anyDigit = '{0,1,2,3,4,5,6,7,8,9}';
/** Between digits, which no text before the first digit holds: some programs find no empty text. */
const strengthSigns = ['', ...strengthMarks, ''].join('1');

/** Covers as signs: " 4.5 mm+2/Y" becomes " 01+", whatever their figures. */
const coverSigns: Replaced = [
  ['00', '0'],
  ['00', '0'],
  ['0.0', '0'],
  [' MM', 'MM'],
  ['0MM', '0'],
  ['/', '+'],
  ['+0', '1'],
];
const covers = `FIND(${of.signs}," 01 , 01+")`;

const behindStrength = (characters: number, from = 1): string =>
  `MID(${of.zeros},LEN(${of.strength})+${from},${characters})`;
const pliesWritten = `MID(${of.plies},LEN(${of.strength})+2,2)`;

const beforeCode = (text: string): string => `LEFT(${text},INT(${of.code}/100)-1)`;

/**
 * A strength for each ply, with the plies before the code or behind the strength; a second code with a strength behind
 * it.
 */
const perPly =
  `FIND({${perPlyMarks.map((mark) => `"0${mark}|"`).join(',')}},` + `SUBSTITUTE(${beforeCode(of.digits)}," ","")&"|")`;
/**
 * Around the code and the strength stands an "a", which no text of capitals holds: plies right before the code or right
 * behind the strength, in words anywhere, or as a number behind it that is no thickness in millimetres.
 */
const pliesWithout =
  `FIND({" 0a"," 00a",${[...perPlyMarks.map((mark) => `a${mark}0`), ...plyWords, 'a 0 ', 'a 00 ']
    .map((word) => `"${word}"`)
    .join(',')}},` +
  `" "&TRIM(${beforeCode(of.digits)})&"a"&LEFT(SUBSTITUTE(${behindStrength(4)}," ",""),2)&"a"&` +
  `SUBSTITUTE(${behindStrength(99)}," MM","MM"))`;
/** Steel cord has no plies. */
const noPlies = `AND(${of.plies}=${of.strength},MOD(INT(${of.code}/10),10)<>${carcassCodes.indexOf('St') + 1})`;
const secondCarcass =
  `FIND({${carcassCodes.map((code) => `" ${code.toUpperCase()}"`).join(',')}}&{"00";" 00"},` +
  `${replaced(of.zeros, [
    ['/', ' '],
    ['+', ' '],
  ])})`;

const readWhole = [
  `NOT(ISERROR(FIND("1"&TRIM(LEFT(${of.behind},${of.digit}-1))&"1","1${strengthSigns}")))`,
  `VALUE(${of.strength})&""=${of.strength}`,
  `VALUE(${of.strength})>=${leastStrength}`,
  `VALUE(${of.strength})<=${mostStrength}`,
  `${of.others}=0`,
  `ISERROR(FIND(MID(${of.zeros},LEN(${of.plies})+1,2),IF(${of.plies}=${of.strength},".0",".0+0/0")))`,
  `IF(${of.plies}=${of.strength},TRUE,VALUE(${pliesWritten})>0)`,
  `MAX(${of.top},${of.bottom})<=${mostCover}`,
].join(',');

export const carcassMaterialInFile: FormulaInFile = {
  formula: codeFound(of.code),
  parts: named([
    [of.capitals, `UPPER(TRIM(${withSpaces('{Construction}')}))`],
    [of.digits, replaced(of.capitals, digits)],
    [of.marks, replaced(of.digits, otherFollowers)],
    [of.code, earliestCodeOfCapitals(of.marks, anyFollower)],
  ]),
};

const tail = replaced(`MID(${of.behind},${of.digit},LEN(${of.behind}))`, [
  ...asSpaces(spacesFromStrength),
  [':', '+'],
  [',', '.'],
]);

export const strengthInFile: FormulaInFile = {
  formula: `IFERROR(${of.read}*TensionPerMetric,"")`,
  parts: named([
    [
      of.behind,
      replaced(
        `MID(${of.capitals},INT(${of.code}/100)+MOD(${of.code},10),LEN(${of.capitals}))`,
        asSpaces(spacesBehindCode),
      ),
    ],
    [of.digit, `SUMPRODUCT(MIN(FIND(${anyDigit},${of.behind}&"0123456789")))`],
    [
      of.tail,
      `${replaced(`TRIM(${replaced(`${tail}&" "`, [['. ', ' ']])})`, [
        [' /', '/'],
        ['/ ', '/'],
        [' +', '+'],
        ['+ ', '+'],
      ])}&" "`,
    ],
    [of.zeros, replaced(of.tail, digits)],
    [of.strength, `LEFT(${of.tail},FIND(LEFT(SUBSTITUTE(${of.zeros},"0","")),${of.zeros})-1)`],
    [
      of.plies,
      `IF(AND(${behindStrength(2)}="/0",${behindStrength(3, 2)}<>"000"),` +
        `LEFT(${of.tail},LEN(${of.strength})+2+(${behindStrength(2, 2)}="00")),${of.strength})`,
    ],
    [of.signs, `LEFT(${replaced(`MID(${of.zeros},LEN(${of.plies})+1,99)`, coverSigns)},4)`],
    [
      of.covers,
      `IF(ISNUMBER(${covers}),TRIM(${replaced(`MID(${of.tail},LEN(${of.plies})+2,99)`, [
        ['MM', ' '],
        ['/', ' '],
        ['+', ' '],
      ])}),"")`,
    ],
    [of.top, `IFERROR(NUMBERVALUE(LEFT(${of.covers},FIND(" ",${of.covers})-1),".",","),"")`],
    [
      of.bottom,
      `IFERROR(NUMBERVALUE(LEFT(SUBSTITUTE(MID(${of.covers},FIND(" ",${of.covers})+1,99)," ",REPT(" ",9)),9),` +
        `".",","),"")`,
    ],
    [
      of.others,
      `SUMPRODUCT(COUNT(${perPly}))+SUMPRODUCT(COUNT(${secondCarcass}))+` +
        `${noPlies}*SUMPRODUCT(COUNT(${pliesWithout}))`,
    ],
    [of.read, `IF(AND(${readWhole}),VALUE(${of.strength}),NA())`],
  ]),
};

/** Nothing where the designation can't be read, or where it has not all of some figures. */
const whereRead = (figures: readonly string[], formula: string): FormulaInFile => {
  const is = figures.length === 0 ? of.read : `COUNT(${[of.read, ...figures].join(',')})=${figures.length + 1}`;
  return { formula: `IFERROR(IF(${is},${formula},""),"")`, parts: {} };
};

export const pliesInFile = whereRead([], `VALUE(${pliesWritten})`);
export const coversInFile = whereRead([of.top, of.bottom], `(${of.top}+${of.bottom})/MillimetresPerShort`);
export const topCoverInFile = whereRead([of.top], `${of.top}/MillimetresPerShort`);
