import { otherCurrency } from '../records/row-currency.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import { cellIssue } from '../records/cell-issue.ts';
import { inputAt } from '../records/inputs.ts';
import { type Content, isFault, isFormula } from '../formula/values.ts';
import { isWords, type QuantityKind } from '../units/quantities.ts';
import { readDate } from '../units/dates.ts';
import { type QuantityRefusal, readQuantity } from '../units/reading.ts';
import type { Column } from '../sheet/declaration.ts';
import { withCellsOfColumns } from '../workbook/column-references.ts';
import { namesOf, presentFormula, toldRenamed } from '../workbook/earlier-names.ts';
import type { CellPlace } from '../workbook/place.ts';
import type { Workbook } from '../workbook/workbook.ts';

/** What a typed or pasted text becomes in a cell. */

interface Understood {
  readonly content: Content;
  /** Why the text was kept as it is, when the cell wants something else. */
  readonly refusal?: QuantityRefusal;
  /** What the cell holds by another name than was typed. */
  readonly told?: readonly string[];
}

/** The words a cell may hold: a list of its own, or another sheet's column; undefined when any will do. */
export const choicesFor = (book: Workbook, place: CellPlace): readonly string[] | undefined =>
  inputAt(book, place)?.choices?.filter((choice) => typeof choice === 'string');

function inWords(text: string, choices: readonly string[] | undefined, declared: Column | undefined): string {
  const known = (word: string): string =>
    choices?.find((choice) => choice.toLowerCase() === word.toLowerCase()) ??
    declared?.formerWords?.[word.toLowerCase()] ??
    word;
  return declared?.several === true
    ? text
        .split(/[,;]/)
        .map((word) => known(word.trim()))
        .join(', ')
    : known(text);
}

function hoursPerYear(book: Workbook, { sheet, record }: CellPlace): number | undefined {
  const column = book.findColumn(sheet, 'Hours per year' satisfies BeltHeader);
  const value = column === undefined ? null : book.value({ sheet, record, column });
  return typeof value === 'number' ? value : undefined;
}

function measured(text: string, kind: QuantityKind, book: Workbook, place: CellPlace): Understood {
  if (kind === 'date') {
    const day = readDate(text);
    const timed = book.columnAt(place)?.declared?.timed === true;
    return 'serial' in day
      ? { content: day.serial }
      : {
          content: text,
          refusal: {
            given: text,
            reason: day.reason,
            allowed: timed
              ? 'a date and time as year-month-day hour:minute, such as 2026-03-31 06:30'
              : 'a date as year-month-day, such as 2026-03-31',
          },
        };
  }
  const reading = readQuantity(text, kind, { system: book.units, hoursPerYear: hoursPerYear(book, place) });
  if ('reason' in reading) return { content: text, refusal: reading };
  const other =
    reading.unit?.measure === 'money'
      ? otherCurrency(book.state, place.sheet, place.record, reading.unit.symbol)
      : undefined;
  return other === undefined ? { content: reading.value } : { content: text, refusal: { given: text, ...other } };
}

/**
 * A typed text as a content for its cell.
 *
 * A leading apostrophe keeps a text from being read. In a computed cell the sheet's own formula, or nothing, takes an
 * override back. A text that can't be read as what the column holds is kept, with the reason.
 */
export function understood(book: Workbook, place: CellPlace, typed: string): Understood {
  const text = typed.trim();
  if (text === '') return { content: null };
  const formula: boolean = isFormula(text);
  if (formula) {
    const column = book.columnAt(place);
    const own = column?.computed === true && !book.overridden(place) && text === book.formula(place);
    if (own) return { content: null };
    const present = presentFormula(withCellsOfColumns(text, place, book.state), place.sheet, namesOf(book.state));
    return { content: present.text, told: toldRenamed('Names', present.renamed) };
  }
  if (text.startsWith("'")) return { content: text.slice(1) };
  const kind = book.kind(place);
  const column = book.columnAt(place);
  // Beside the last column a new one of the user's own is made.
  if (column === undefined || column.own) return { content: loose(text) };
  if (isWords(kind)) return { content: inWords(text, choicesFor(book, place), column.declared) };
  return measured(text, kind, book, place);
}

/** In the user's own columns a plain number is a number, and a text anything else. */
function loose(text: string): Content {
  if (/^[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?$/i.test(text)) return Number(text);
  if (/^(?:true|false)$/i.test(text)) return text.toLowerCase() === 'true';
  return text;
}

/**
 * What is wrong with what stands in a cell; undefined when there is nothing to say, or when an error says it itself.
 */
export function complaint(book: Workbook, place: CellPlace): string | undefined {
  if (book.content(place) === null && book.value(place) === null) return undefined;
  const note = book.note(place);
  if (note !== undefined) return note;
  const content = book.content(place);
  const kind = book.kind(place);
  const own = book.columnAt(place)?.own === true;
  if (typeof content === 'string' && !isFormula(content) && !own && !isWords(kind)) {
    const { refusal } = measured(content, kind, book, place);
    if (refusal !== undefined)
      return `"${refusal.given}" was not understood: ${refusal.reason}. Enter ${refusal.allowed}.`;
  }
  return isFault(book.value(place)) ? undefined : cellIssue(book, place);
}
