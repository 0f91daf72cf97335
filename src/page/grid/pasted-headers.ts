import { compiledSheets } from '../../workbook/declared.ts';
import type { Desk } from '../desk.ts';
import { growing, recordName } from '../editing.ts';

/** Rows pasted with their headers into a sheet that has headers of its own. */

const filled = (text: string | undefined): text is string => text !== undefined && text.trim() !== '';
const beginsAsNumber = (text: string): boolean => /^[-+−]?[.,]?\d/u.test(text.trim());

/** Columns in which words stand over numbers and nothing else. A slip in one cell is no header. */
const fewest = 2;

/** Whether a block begins with a row of headers, whatever they are called: words over columns of numbers. */
function beginsWithHeaders([first = [], ...others]: readonly (readonly string[])[]): boolean {
  const headed = first.filter((header, column) => {
    const below = others.flatMap((row) => (filled(row[column]) ? [row[column]] : []));
    return filled(header) && !beginsAsNumber(header) && below.length > 0 && below.every(beginsAsNumber);
  });
  return headed.length >= fewest && !first.some(beginsAsNumber);
}

/**
 * Hands rows with headers over to the import, which reads each column by its header, where no record would be lost by
 * that; elsewhere tells that the headers are now a record. Whether the rows were taken.
 */
export function takeHeaders(desk: Desk, sheet: string, rows: readonly (readonly string[])[]): boolean {
  const { book } = desk;
  if (!compiledSheets.has(sheet) || !growing(sheet) || !beginsWithHeaders(rows)) return false;
  const isEmpty = book.sheet(sheet).rows.every(({ cells }) => cells.every((cell) => cell === null));
  if (isEmpty && sheet === book.state.sheets[0]?.name) {
    desk.open({ kind: 'import', pasted: rows.map((row) => row.join('\t')).join('\n') });
    return true;
  }
  desk.say(
    `The first pasted row seems to hold headers, and is now a ${recordName(sheet)}: a paste goes by the order of the ` +
      'columns here. Undo it and paste the rows without headers, or read them by their headers with Import.',
    'problem',
  );
  return false;
}
