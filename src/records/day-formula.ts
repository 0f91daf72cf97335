import { recordInRow } from '../formula/address.ts';
import { referencesIn } from '../formula/reference-text.ts';
import { type Node, parsed } from '../formula/syntax.ts';
import { FormulaSyntaxError } from '../formula/tokens.ts';
import type { CellPlace } from '../workbook/place.ts';
import type { Workbook } from '../workbook/workbook.ts';

/** Whether a formula that is typed where nothing says what it gives will give a day. */

/** Functions whose answer is a day, whatever they are given. */
const daysOnly = new Set(['TODAY', 'DATE', 'DATEVALUE', 'EDATE', 'EOMONTH', 'WORKDAY', 'WORKDAY.INTL']);
/** Functions that answer with one of what they are given, from the argument counted. */
const oneOf: Readonly<Record<string, number>> = { MIN: 0, MAX: 0, IF: 1, IFERROR: 0 };

function namesDay(text: string, { sheet }: CellPlace, book: Workbook): boolean {
  const [found] = referencesIn(text);
  const { row, column } = found?.reference.from ?? {};
  const named = found?.reference.sheet ?? sheet;
  const known = book.state.sheets.find(({ name }) => name.toLowerCase() === named.toLowerCase());
  if (known === undefined || row === undefined || column === undefined) return false;
  const place = { sheet: known.name, record: recordInRow(row + 1), column };
  return place.record >= 0 && book.columnAt(place) !== undefined && book.kind(place) === 'date';
}

function isDay(node: Node | undefined, place: CellPlace, book: Workbook): boolean {
  const day = (part: Node | undefined): boolean => isDay(part, place, book);
  switch (node?.type) {
    case 'reference':
      return namesDay(node.text, place, book);
    case 'group':
      return day(node.value);
    case 'call': {
      const first = oneOf[node.name];
      return daysOnly.has(node.name) || (first !== undefined && node.args.slice(first).some(day));
    }
    // Days from one day to another are a number.
    case 'binary':
      return (node.operator === '+' || node.operator === '-') && day(node.left) && !day(node.right);
    default:
      return false;
  }
}

/**
 * Whether a formula gives a day: one that it names or works out, alone or with days added or taken away, as any
 * spreadsheet program shows it. A day that stands behind the plus, or that another function passes on, is not seen.
 */
export function givesDay(formula: string, place: CellPlace, book: Workbook): boolean {
  try {
    return isDay(parsed(formula), place, book);
  } catch (error) {
    if (error instanceof FormulaSyntaxError) return false;
    throw error;
  }
}
