import { shownMark } from '../units/shown-mark.ts';
import { belts } from '../../sheets/belts/index.ts';
import { isFault, type Value } from '../formula/values.ts';
import { cellIssue } from '../records/cell-issue.ts';
import { habitsOf, understood } from '../records/typed-entry.ts';
import { amount, listed } from '../sheet/words.ts';
import { nearest } from '../units/nearest.ts';
import type { DecimalMark } from '../units/numbers.ts';
import { declarationOf, namedSheetOf } from '../workbook/declared.ts';
import { BookNames } from '../workbook/names.ts';
import type { CellPlace } from '../workbook/place.ts';
import type { CellEdit } from '../workbook/state-changes.ts';
import type { Workbook } from '../workbook/workbook.ts';

/** Changes of a book as they are typed: "TightMargin=10%", "Q3:Skew=45", "Plate series!Lapwing:Tension rating=40". */

/** What was typed does not name a cell, or its value can't stand there; the message says what to type instead. */
export class ChangeRefused extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'ChangeRefused';
  }
}

/**
 * How a number that is typed as a question reads: a point alone is a decimal point, as in formulas, and a comma alone
 * a decimal comma where numbers are shown with one. In a list "1.234" may be a thousand.
 */
export function typedMark(typed: string): DecimalMark | undefined {
  const [point, comma] = [typed.includes('.'), typed.includes(',')];
  if (point === comma) return undefined;
  return point ? 'point' : shownMark() === 'comma' ? 'comma' : undefined;
}

/** Stands for every record of a sheet. */
const everyRecord = '*';

const same = (one: string, other: string): boolean => one.trim().toLowerCase() === other.trim().toLowerCase();

const suggestion = (typed: string, known: readonly string[]): string => {
  const near = nearest(typed, known);
  return near.length === 0 ? '' : ` Did you mean ${listed(near, 'or')}?`;
};

/** A part by the whole that it belongs to and its own name, as a pulley "Q3/Head"; '' for what is no part. */
function partName(book: Workbook, sheet: string, record: number): string {
  const { partOf, key = '' } = declarationOf(sheet) ?? {};
  if (partOf === undefined) return '';
  const [whole, own] = [partOf.header, key].map((header) => {
    const value = book.value({ sheet, record, column: book.findColumn(sheet, header) ?? -1 });
    return isFault(value) ? '' : String(value ?? '').trim();
  });
  return `${whole ?? ''}/${own ?? ''}`;
}

/** The cells that a name before the equals sign stands for; undefined when a record or a column is not known. */
function placesAt(book: Workbook, sheet: string, record: string, header: string): CellPlace[] | undefined {
  const column = book.findColumn(sheet, header);
  const key = declarationOf(sheet)?.key;
  const at = key === undefined ? undefined : book.findColumn(sheet, key);
  if (column === undefined || at === undefined) return undefined;
  const places = book.sheet(sheet).rows.flatMap((_, index) => {
    const name = book.value({ sheet, record: index, column: at });
    const meant =
      record === everyRecord ||
      (!isFault(name) && same(String(name ?? ''), record)) ||
      same(partName(book, sheet, index), record);
    return meant ? [{ sheet, record: index, column }] : [];
  });
  return places.length === 0 ? undefined : places;
}

/**
 * The cells that a name stands for: a named value's, or those of a record and a column. A record's name may hold a
 * colon, a header has none, so the last one parts them.
 *
 * Throws ChangeRefused for a name that the book does not have.
 */
export function namedPlaces(book: Workbook, typed: string): readonly CellPlace[] {
  const names = new BookNames(book.state).places;
  const value = names.find(({ name }) => same(name, typed));
  if (value !== undefined) return [value];
  const colon = typed.lastIndexOf(':');
  if (colon < 0)
    throw new ChangeRefused(
      `There is no named value "${typed}".${suggestion(
        typed,
        names.map(({ name }) => name),
      )} A cell of a belt is written BELT:COLUMN.`,
    );
  const [whose, header] = [typed.slice(0, colon).trim(), typed.slice(colon + 1).trim()];
  const mark = whose.indexOf('!');
  const other = book.state.sheets.find(({ name }) => mark > 0 && same(name, whose.slice(0, mark)));
  const sheet = other?.name ?? belts.name;
  const record = other === undefined ? whose : whose.slice(mark + 1).trim();
  const found = placesAt(book, sheet, record, header);
  if (found !== undefined) return found;
  const { record: word = 'record', key = '' } = declarationOf(sheet) ?? {};
  if (book.findColumn(sheet, header) === undefined)
    throw new ChangeRefused(
      `The sheet ${sheet} has no column "${header}".${suggestion(
        header,
        book.columns(sheet).map((column) => column.header),
      )}`,
    );
  const at = book.findColumn(sheet, key);
  const known = book
    .sheet(sheet)
    .rows.map((_, index) => (at === undefined ? '' : String(book.value({ sheet, record: index, column: at }) ?? '')));
  throw new ChangeRefused(`There is no ${word} "${record}".${suggestion(record, known)}`);
}

/** A value in words, as finely as its column shows it. */
function valueWords(book: Workbook, place: CellPlace, value: Value): string {
  if (value === null || value === '') return 'empty';
  if (typeof value !== 'number') return String(value);
  const { declared } = book.columnAt(place) ?? {};
  return amount(value, { ...declared, kind: book.kind(place), digits: 12 }, book.units);
}

/** How people call a cell: a named value by its name, any other by its record and column. */
function placeWords(book: Workbook, place: CellPlace): string {
  const name = new BookNames(book.state).at(place);
  if (name !== undefined) return name;
  const { sheet, record } = place;
  const key = declarationOf(sheet)?.key;
  const at = key === undefined ? undefined : book.findColumn(sheet, key);
  const called = at === undefined ? '' : String(book.value({ sheet, record, column: at }) ?? '');
  const whose = called === '' ? `record ${record + 1}` : called;
  return `${book.columnAt(place)?.header ?? ''} of ${sheet === belts.name ? whose : `${whose} (${sheet})`}`;
}

/**
 * A cell's name as it is typed, which `namedPlaces` reads back: "TightMargin", "Q3:Skew", "Strips!Mica:Price",
 * "Pulleys!Q3/Head:Diameter".
 */
export function placeName(book: Workbook, place: CellPlace): string {
  const name = namedSheetOf(place.sheet) === undefined ? undefined : new BookNames(book.state).at(place);
  if (name !== undefined) return name;
  const { sheet, record } = place;
  const at = book.findColumn(sheet, declarationOf(sheet)?.key ?? '');
  const part = partName(book, sheet, record);
  const whose = part !== '' ? part : at === undefined ? '' : String(book.value({ sheet, record, column: at }) ?? '');
  return `${sheet === belts.name ? '' : `${sheet}!`}${whose}:${book.columnAt(place)?.header ?? ''}`;
}

/** What a cell's name and a value become: edits of the book, one for each record that is meant. */
export function typedChange(book: Workbook, typed: string): CellEdit[] {
  const at = typed.indexOf('=');
  if (at <= 0)
    throw new ChangeRefused(
      `"${typed}" says no change. Write NAME=VALUE for a named value, or BELT:COLUMN=VALUE for a cell of a belt.`,
    );
  const value = typed.slice(at + 1).trim();
  return namedPlaces(book, typed.slice(0, at).trim()).map((place) => {
    const habits = habitsOf(book);
    const decimal = typedMark(value) ?? habits.decimal;
    const { content, refusal } = understood(book, place, value, { ...habits, decimal });
    if (refusal !== undefined)
      throw new ChangeRefused(
        `${placeWords(book, place)}: "${refusal.given}" was not understood: ${refusal.reason}. ` +
          `Enter ${refusal.allowed}.`,
      );
    return { ...place, content };
  });
}

/**
 * Makes typed changes in a book, all as one step, and says each: "Skew of Q3: 30° instead of 45°".
 *
 * Throws ChangeRefused, with the book as it was, for a change that can't be read or a value that is not allowed there.
 * A value that is worked out over a computed column is kept, as it is in a cell.
 */
export function makeTypedChanges(book: Workbook, typed: readonly string[]): string[] {
  const edits = typed.flatMap((one) => typedChange(book, one));
  if (edits.length === 0) return [];
  const before = edits.map((place) => valueWords(book, place, book.value(place)));
  const computed = edits.map((place) => book.columnAt(place)?.computed === true);
  book.edit(edits, 'what if');
  const wrong = edits.map((place) => cellIssue(book, place)).find((issue) => issue !== undefined);
  if (wrong !== undefined) {
    book.undo();
    throw new ChangeRefused(wrong);
  }
  return edits.map(
    (place, index) =>
      `${placeWords(book, place)}: ${valueWords(book, place, book.value(place))} instead of ${before[index] ?? ''}` +
      `${computed[index] === true && place.content !== null ? ', set by hand over what is calculated' : ''}.`,
  );
}
