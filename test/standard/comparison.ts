import ExcelJS from 'exceljs';
import { Engine } from '../../src/formula/engine.ts';
import { isFault, type Value } from '../../src/formula/values.ts';
import { functions } from '../../src/functions/index.ts';
import { randomNumbers } from '../../src/random/random-numbers.ts';
import { fileFunction } from '../../src/xlsx/write/file-functions.ts';
import { close } from '../evaluation.ts';
import { recalculated } from '../xlsx/libreoffice.ts';
import { dataRows, dataSheet } from './argument-kinds.ts';
import type { StandardCall } from './standard-calls.ts';

/** Calls of standard functions here and in LibreOffice, over one sheet of data. */

const wrongValue = 987654.321;

export interface Answer extends StandardCall {
  readonly ours: Value;
  readonly theirs: Value;
  /** LibreOffice's error, '' for none. */
  readonly error: string;
}

const inFile = (formula: string): string =>
  formula.replaceAll(/[A-Z][A-Z0-9.]*(?=\()/g, (name) => fileFunction(name) ?? name);

const written = (value: Value): ExcelJS.CellValue =>
  isFault(value) ? null : typeof value === 'boolean' ? { formula: value ? 'TRUE()' : 'FALSE()', result: value } : value;

/** What both programs answer; the calls' data come from a seed. */
export async function answered(calls: readonly StandardCall[], seed: number): Promise<Answer[]> {
  const data = dataRows(randomNumbers(seed));
  const engine = Engine.build(
    functions,
    [{ name: dataSheet, rows: data.map((row) => [...row].map((value) => (isFault(value) ? null : value))) }],
    [],
  );
  const book = new ExcelJS.Workbook();
  const sheet = book.addWorksheet(dataSheet);
  data.forEach((row, down) =>
    row.forEach((value, right) => (sheet.getCell(down + 1, right + 1).value = written(value))),
  );
  const asked = book.addWorksheet('Calls');
  calls.forEach(({ formula }, index) => {
    asked.getCell(index + 1, 1).value = { formula: inFile(formula), result: wrongValue };
  });
  asked.getCell(calls.length + 1, 1).value = { formula: '2+3', result: wrongValue };
  const read = await recalculated(new Uint8Array(await book.xlsx.writeBuffer()));
  const rows = read.sheets.find(({ name }) => name === 'Calls')?.rows;
  const canary = rows?.get(calls.length + 1)?.[0]?.value;
  if (canary !== 5) throw new Error(`LibreOffice did not compute the book anew: 2+3 is ${String(canary)}`);
  const answers = calls.map((call, index): Answer => {
    const cell = rows?.get(index + 1)?.[0];
    const value = engine.evaluate(`=${call.formula}`);
    return {
      ...call,
      ours: Array.isArray(value) ? 'an array' : (value as Value),
      theirs: cell?.value ?? '',
      error: cell?.error ?? '',
    };
  });
  engine.destroy();
  return answers;
}

/** Real and imaginary part of a complex number's text; undefined for any other text. */
function complexParts(text: string): readonly [number, number] | undefined {
  const found = /^([-+]?[\d.]+(?:e[-+]?\d+)?(?![\d.]*[ij]))?(?:([-+]?)([\d.]*(?:e[-+]?\d+)?)[ij])?$/i.exec(text);
  if (found === null) return undefined;
  const [, real = '0', sign = '', size] = found;
  return [Number(real), size === undefined ? 0 : Number(`${sign}${size === '' ? '1' : size}`)];
}

/** Whether two texts are one complex number but for rounding. */
function alike(one: string, other: string): boolean {
  const [left, right] = [complexParts(one), complexParts(other)];
  if (left === undefined || right === undefined) return false;
  const size = Math.hypot(...right);
  return left.every((part, index) => close(part, right[index] ?? 0, 1e-9, size));
}

export type Verdict = 'equal' | 'both refuse' | 'refused here' | 'known' | 'differs';

/**
 * Where LibreOffice 7.4 is known to differ, and why this program does otherwise: the functions and a test of the
 * answer.
 */
export const knownDifferences: readonly {
  readonly names: readonly string[];
  readonly why: string;
  readonly applies: (answer: Answer) => boolean;
}[] = [
  {
    names: ['PERCENTRANK', 'PERCENTRANK.INC', 'PERCENTRANK.EXC'],
    why:
      'LibreOffice rounds the last digit; by the published example (8 among 13, 12, 11, 8, 4, 3, 2, 1, 1, 1 is ' +
      '0.666) it is cut off',
    applies: ({ ours, theirs }) =>
      typeof ours === 'number' && typeof theirs === 'number' && Math.abs(ours - theirs) < 0.0011,
  },
  {
    names: ['BESSELK'],
    why: 'LibreOffice computes it to 7 digits; held to the tables of Abramowitz and Stegun instead',
    applies: ({ ours, theirs }) => typeof ours === 'number' && typeof theirs === 'number' && close(ours, theirs, 1e-6),
  },
  {
    names: ['CONVERT'],
    why: 'LibreOffice has some factors to 7 digits; here they are exact by definition',
    applies: ({ ours, theirs }) => typeof ours === 'number' && typeof theirs === 'number' && close(ours, theirs, 1e-6),
  },
  {
    names: ['TBILLEQ', 'TBILLPRICE', 'TBILLYIELD'],
    why: 'LibreOffice counts a day more; ECMA-376 divides the days between the dates by 360',
    applies: () => true,
  },
  {
    names: ['MODE'],
    why: 'of several, LibreOffice gives the smallest, and with MODE.SNGL the first, as both do here',
    applies: ({ error }) => error === '',
  },
  {
    names: ['FIND', 'SEARCH', 'POISSON', 'POISSON.DIST', 'NEGBINOMDIST', 'DB', 'DDB', 'SERIESSUM'],
    why: 'LibreOffice refuses an empty text to be sought, a mean, cost or count of 0',
    applies: ({ error, odd }) => odd && error !== '',
  },
  {
    names: ['Z.TEST', 'ZTEST'],
    why: 'LibreOffice takes it from 0.5, which leaves 9 places; held to the tables of the normal distribution instead',
    applies: ({ ours, theirs }) =>
      typeof ours === 'number' && typeof theirs === 'number' && Math.abs(ours - theirs) < 1e-9,
  },
  {
    names: ['MROUND'],
    why: 'half a multiple is decided here by the decimal numbers, in LibreOffice by their binary neighbours',
    applies: ({ ours, theirs }) => typeof ours === 'number' && typeof theirs === 'number',
  },
  {
    names: ['COMBINA'],
    why: 'LibreOffice has no way to choose nothing from nothing; there is one',
    applies: ({ ours, theirs }) => ours === 1 && theirs === 0,
  },
  {
    names: ['TEXT'],
    why: 'LibreOffice leaves out the point of "#.##" with nothing behind it, and shows no span of a million hours',
    applies: ({ ours, theirs }) => theirs === '#FMT' || ours === `${String(theirs)}.`,
  },
  {
    names: ['WEEKNUM'],
    why:
      'LibreOffice takes the last days of a year to week 1 of the next where they share a week; the count starts ' +
      'anew on 1 January',
    applies: ({ ours, theirs }) => theirs === 1 && typeof ours === 'number' && ours >= 53,
  },
  {
    names: ['GCD', 'LCM'],
    why:
      'to LibreOffice a blank cell is 0 when referred to by itself, and nothing in a range; here it is ' +
      'nothing in both',
    applies: ({ odd }) => odd,
  },
  {
    names: ['SWITCH'],
    why: 'a blank cell is 0, as in a comparison; LibreOffice takes it for nothing that is in the list',
    applies: ({ odd }) => odd,
  },
  {
    names: ['RATE'],
    why: 'where several rates fulfil the equation, or hardly one, programs find another one',
    applies: ({ ours }) => typeof ours === 'number',
  },
  {
    names: ['operators', 'POWER'],
    why: 'LibreOffice refuses a power too small to be told from 0',
    applies: ({ ours, error }) => ours === 0 && error === '#NUM!',
  },
];

function same({ name, ours, theirs }: Answer): boolean {
  if (typeof ours === 'number') return typeof theirs === 'number' && close(ours, theirs, 1e-9, 1e-3);
  return (ours ?? '') === theirs || (name.startsWith('IM') && alike(String(ours), String(theirs)));
}

/** What to say of an answer: of errors any are alike, since programs give them other codes. */
export function verdict(answer: Answer): Verdict {
  const { name, ours, error } = answer;
  if (isFault(ours)) return error === '' ? 'refused here' : 'both refuse';
  if (error === '' && same(answer)) return 'equal';
  return knownDifferences.some(({ names, applies }) => names.includes(name) && applies(answer)) ? 'known' : 'differs';
}
