import { amount } from '../sheet/words.ts';
import { isFault } from '../formula/values.ts';
import { belts } from '../../sheets/belts/index.ts';
import { type Explanation, explained } from '../workbook/explanation.ts';
import type { Workbook } from '../workbook/workbook.ts';
import type { Given } from './arguments.ts';
import { beltRecord } from './belt-record.ts';
import { listBook } from './list-book.ts';
import { listOptions } from './list-options.ts';
import { UsageError } from './usage-error.ts';
import { visibleLines } from './visible-text.ts';

function shown({ value, kind }: Explanation, book: Workbook): string {
  if (value === null || value === '') return 'empty';
  if (isFault(value)) return String(value);
  return typeof value === 'number' ? amount(value, { kind, digits: 6 }, book.units) : String(value);
}

/** The tree of a value as indented lines: each cell with its value, how it came about, and its sources. */
function explanationLines(item: Explanation, book: Workbook, depth = 0): string[] {
  const indent = '  '.repeat(depth);
  const how = item.repeated && item.origin === 'computed' ? 'explained above' : item.origin;
  const lines = [`${indent}${item.header} = ${shown(item, book)}  [${item.cell}, ${how}]`];
  if (!item.repeated) {
    const text = item.words ?? item.formula;
    if (text !== undefined) lines.push(`${indent}    ${text}`);
    for (const source of item.sources) lines.push(`${indent}    source: ${source}`);
  }
  return [...lines, ...item.parts.flatMap((part) => explanationLines(part, book, depth + 1))];
}

/** Prints what one belt's value is made of, down to what was entered. */
export async function run(typed: Given): Promise<number> {
  const [file = '', name = '', header = ''] = typed.words;
  const { book } = listBook(file, listOptions(typed));
  const column = book.findColumn(belts.name, header);
  if (column === undefined)
    throw new UsageError(
      `There is no column "${header}"; the columns are ${book
        .columns(belts.name)
        .map((item) => item.header)
        .join(', ')}.`,
    );
  const record = beltRecord(book, file, name);
  process.stdout.write(visibleLines(explanationLines(explained(book, { sheet: belts.name, record, column }), book)));
  return 0;
}
