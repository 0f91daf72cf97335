import { amount } from '../sheet/words.ts';
import { isFault } from '../formula/values.ts';
import { belts } from '../../sheets/belts/index.ts';
import { type Explanation, explained } from '../workbook/explanation.ts';
import { figuresPutIn, governingMark } from '../workbook/put-in-figures.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { type Given, optionValue } from './arguments.ts';
import { beltRecord } from './belt-record.ts';
import { listBook } from './list-book.ts';
import { listOptions } from './list-options.ts';
import { UsageError } from './usage-error.ts';
import { visibleLines } from './visible-text.ts';

/** Digits after the point that are shown without --digits. */
const usualDigits = 6;
/** A number holds some 17 digits in all. */
const mostDigits = 15;

function digitsGiven(typed: Given): number {
  const text = optionValue(typed, 'digits') ?? String(usualDigits);
  const digits = Number(text);
  if (!/^\d+$/.test(text) || digits > mostDigits)
    throw new UsageError(`--digits must be a whole number from 0 to ${mostDigits}; "${text}" was given`);
  return digits;
}

function shown({ value, kind }: Explanation, book: Workbook, digits: number): string {
  if (value === null || value === '') return 'empty';
  if (isFault(value)) return String(value);
  return typeof value === 'number' ? amount(value, { kind, digits }, book.units) : String(value);
}

/** The tree of a value as indented lines: each cell with its value, how it came about, and its sources. */
function explanationLines(item: Explanation, book: Workbook, digits: number, depth = 0): string[] {
  const indent = '  '.repeat(depth);
  const how = item.repeated && item.origin === 'computed' ? 'explained above' : item.origin;
  const lines = [`${indent}${item.header} = ${shown(item, book, digits)}  [${item.cell}, ${how}]`];
  if (!item.repeated) {
    const text = item.words ?? item.formula;
    if (text !== undefined) lines.push(`${indent}    ${text}`);
    const figures = figuresPutIn(book, item.place);
    if (figures !== undefined) lines.push(`${indent}    = ${figures.text}`);
    if (figures?.table !== undefined) lines.push(`${indent}    ${figures.table}`);
    for (const source of item.sources) lines.push(`${indent}    source: ${source}`);
  }
  return [...lines, ...item.parts.flatMap((part) => explanationLines(part, book, digits, depth + 1))];
}

/** Prints what one belt's value is made of, down to what was entered. */
export async function run(typed: Given): Promise<number> {
  const [file = '', name = '', header = ''] = typed.words;
  const { book, supposed } = listBook(file, listOptions(typed));
  const digits = digitsGiven(typed);
  const column = book.findColumn(belts.name, header);
  if (column === undefined)
    throw new UsageError(
      `There is no column "${header}"; the columns are ${book
        .columns(belts.name)
        .map((item) => item.header)
        .join(', ')}.`,
    );
  const record = beltRecord(book, file, name);
  const tree = explained(book, { sheet: belts.name, record, column });
  const lines = explanationLines(tree, book, digits);
  const legend = lines.some((line) => line.includes(governingMark))
    ? [`${governingMark} marks the term that governs a MAX or MIN.`]
    : [];
  process.stdout.write(visibleLines([...supposed, ...lines, ...legend]));
  return 0;
}
