import { otherCurrency } from './row-currency.ts';
import type { BeltHeader } from '../../sheets/index.ts';
import { cellIssue } from './cell-issue.ts';
import { givesDay } from './day-formula.ts';
import { inputAt } from './inputs.ts';
import { type Content, isFault, isFormula } from '../formula/values.ts';
import { isWords, type QuantityKind } from '../units/quantities.ts';
import { readDate } from '../units/dates.ts';
import { isRefusal, type QuantityRefusal, readQuantity } from '../units/reading.ts';
import type { Column } from '../sheet/declaration.ts';
import { compiledSheets } from '../workbook/declared.ts';
import { withCellsOfColumns } from '../workbook/column-references.ts';
import { isOwnFormula } from '../workbook/formula-words.ts';
import { guardedOver } from '../workbook/typed-over.ts';
import { namesOf, presentFormula, presentWord, toldRenamed } from '../workbook/earlier-names.ts';
import type { CellPlace } from '../workbook/place.ts';
import type { CellFormat } from '../workbook/state.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { type Habit, type Habits, looseEntry } from './loose-entry.ts';

/** What a typed or pasted text becomes in a cell. */

interface Understood {
  readonly content: Content;
  /** Why the text was kept as it is, when the cell wants something else. */
  readonly refusal?: QuantityRefusal;
  /** How the cell shows it from now on, where the text said so. */
  readonly format?: CellFormat;
  /** What has to be settled before it can be read. */
  readonly asks?: Habit;
  /** What the cell holds by another name than was typed. */
  readonly told?: readonly string[];
}

/** The words a cell may hold: a list of its own, or another sheet's column; undefined when any will do. */
export const choicesFor = (book: Workbook, place: CellPlace): readonly string[] | undefined =>
  inputAt(book, place)?.choices?.filter((choice) => typeof choice === 'string');

function inWords(text: string, choices: readonly string[] | undefined, declared: Column | undefined): string {
  const known = (word: string): string =>
    choices?.find((choice) => choice.toLowerCase() === word.toLowerCase()) ??
    (declared === undefined ? undefined : presentWord(declared, word)) ??
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

/** How the book says that numbers and dates are written; nothing where it says to ask. */
export function habitsOf(book: Workbook): Habits {
  const [decimal, dates] = [book.named('DecimalMark'), book.named('DateOrder')];
  return {
    decimal: decimal === 'point' || decimal === 'comma' ? decimal : undefined,
    dates: dates === 'day first' || dates === 'month first' ? dates : undefined,
  };
}

/** What would have to be settled for a text to be read; undefined where that would not help. */
function habitAsked(read: (habits: Habits) => object, { decimal, dates }: Habits): Habit | undefined {
  const works = (habits: Habits): boolean => !isRefusal(read({ decimal, dates, ...habits }));
  if (decimal === undefined && works({ decimal: 'point' }) && works({ decimal: 'comma' })) return 'decimal';
  return dates === undefined && works({ dates: 'day first' }) && works({ dates: 'month first' }) ? 'dates' : undefined;
}

function measured(text: string, kind: QuantityKind, book: Workbook, place: CellPlace, habits: Habits): Understood {
  if (kind === 'date') {
    const day = readDate(text, habits.dates);
    const asks = 'serial' in day ? undefined : habitAsked(({ dates }) => readDate(text, dates), habits);
    const timed = book.columnAt(place)?.declared?.timed === true;
    return 'serial' in day
      ? { content: day.serial }
      : {
          content: text,
          ...(asks === undefined ? {} : { asks }),
          refusal: {
            given: text,
            reason: day.reason,
            allowed: timed
              ? 'a date and time as year-month-day hour:minute, such as 2026-03-31 06:30'
              : 'a date as year-month-day, such as 2026-03-31',
          },
        };
  }
  const options = { system: book.units, hoursPerYear: hoursPerYear(book, place) };
  const read = ({ decimal }: Habits): ReturnType<typeof readQuantity> =>
    readQuantity(text, kind, { ...options, decimal });
  // What can be read one way only is read so, whatever the habit.
  const alone = read({});
  const reading = 'reason' in alone && habits.decimal !== undefined ? read(habits) : alone;
  if ('reason' in reading) {
    const asks = habitAsked(read, habits);
    return { content: text, refusal: reading, ...(asks === undefined ? {} : { asks }) };
  }
  const other =
    reading.unit?.measure === 'money'
      ? otherCurrency(book.state, place.sheet, place.record, reading.unit.symbol)
      : undefined;
  return other === undefined ? { content: reading.value } : { content: text, refusal: { given: text, ...other } };
}

/** What must be known of numbers in a formula by people who write them with a comma. */
const toldCommas = (formula: string, { decimal }: Habits): string[] => {
  const [found] = decimal === 'comma' ? (/(?<![\w.$])\d+,\d+/u.exec(formula.replaceAll(/"[^"]*"/gu, '')) ?? []) : [];
  return found === undefined
    ? []
    : [
        `In formulas a comma parts arguments, so ${found} is two of them: write ${found.replace(',', '.')} for one ` +
          `number.`,
      ];
};

/** A text that is not to be read, as a content; what would be a formula then is the text that a formula gives. */
const asWritten = (text: string): Content => (isFormula(text) ? `="${text.replaceAll('"', '""')}"` : text);

/**
 * A typed text as a content for its cell.
 *
 * A leading apostrophe keeps a text from being read. In a computed cell the sheet's own formula, or nothing, takes an
 * override back. A text that can't be read as what the column holds is kept, with the reason. `habits` says how
 * numbers and dates are written where that is known of the text; the book's own habits do otherwise.
 */
export function understood(book: Workbook, place: CellPlace, typed: string, habits = habitsOf(book)): Understood {
  const text = typed.trim();
  if (text === '') return { content: null };
  const formula: boolean = isFormula(text);
  if (formula) {
    if (isOwnFormula(text, place, book.state)) return { content: null };
    const present = presentFormula(withCellsOfColumns(text, place, book.state), place.sheet, namesOf(book.state));
    return {
      content: guardedOver(present.text, place, book.state),
      ...(isPlain(book, place) && givesDay(present.text, place, book) ? { format: { kind: 'date' } } : {}),
      told: [...toldRenamed('Names', present.renamed), ...toldCommas(text, habits)],
    };
  }
  if (text.startsWith("'")) return { content: asWritten(text.slice(1)) };
  const kind = book.kind(place);
  const column = book.columnAt(place);
  // Beside the last column a new one of the user's own is made.
  if (column === undefined || (column.own && isLoose(column.kind, kind))) return loose(book, place, text, habits);
  if (column.own) return ofOwn(book, place, text, habits);
  if (isWords(kind)) return { content: inWords(text, choicesFor(book, place), column.declared) };
  return measured(text, kind, book, place, habits);
}

/** Kinds of a cell's own that the next text typed there may change, as in any spreadsheet. */
const passing: ReadonlySet<QuantityKind> = new Set(['text', 'number', 'date', 'money']);

/** Whether nothing is known of what a column of the user's own holds, nor of the cell. */
const isLoose = (column: QuantityKind, cell: QuantityKind): boolean =>
  (column === 'text' || column === 'number') && passing.has(cell);

/** Whether a cell of the user's own shows what it holds as numbers are shown that nothing is known of. */
function isPlain(book: Workbook, place: CellPlace): boolean {
  const column = book.columnAt(place);
  const kind = column === undefined ? 'number' : book.kind(place);
  const unsaid = column === undefined || (column.own && isLoose(column.kind, kind));
  return unsaid && (kind === 'number' || kind === 'text') && cellFormat(book, place) === undefined;
}

const cellFormat = (book: Workbook, { sheet, record, column }: CellPlace): CellFormat | undefined =>
  book.sheet(sheet).rows[record]?.formats?.[column];

/** A text typed where nothing is known of what it measures. */
function loose(book: Workbook, place: CellPlace, text: string, habits: Habits): Understood {
  const column = book.columnAt(place);
  const before = cellFormat(book, place);
  const asPercent = (before ?? column?.look)?.percent === true;
  const { content, format, asks, currency } = looseEntry(text, habits, asPercent);
  const other = currency === undefined ? undefined : otherCurrency(book.state, place.sheet, place.record, currency);
  if (other !== undefined) return { content: text, refusal: { given: text, ...other } };
  // What was shown as a day or a price, and is now a number or a text, shows as its column does.
  const left = before !== undefined && (before.kind === 'date' || before.kind === 'money') && asks === undefined;
  const said = format?.percent === true && asPercent ? undefined : format;
  return {
    content,
    ...(said === undefined ? (left ? { format: { kind: column?.kind ?? 'number' } } : {}) : { format: said }),
    ...(asks === undefined ? {} : { asks }),
  };
}

/** A text typed into a column of the user's own that says what it holds. A free sheet has room for words beside it. */
function ofOwn(book: Workbook, place: CellPlace, text: string, habits: Habits): Understood {
  const kind = book.kind(place);
  if (isWords(kind)) return { content: text };
  const read = measured(text, kind, book, place, habits);
  return compiledSheets.has(place.sheet) || read.asks !== undefined ? read : { content: read.content };
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
  const column = book.columnAt(place);
  const free = column?.own === true && (isLoose(column.kind, kind) || !compiledSheets.has(place.sheet));
  if (typeof content === 'string' && !isFormula(content) && !free && !isWords(kind)) {
    const { refusal } = measured(content, kind, book, place, habitsOf(book));
    if (refusal !== undefined)
      return `"${refusal.given}" was not understood: ${refusal.reason}. Enter ${refusal.allowed}.`;
  }
  return isFault(book.value(place)) || free ? undefined : cellIssue(book, place);
}
