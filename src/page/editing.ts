import { belts } from '../../sheets/belts/index.ts';
import { RefusedChange } from '../workbook/refused-change.ts';
import { namedSheetOf, compiledSheets } from '../workbook/declared.ts';
import { unitColumn, valueColumn } from '../sheet/named-values.ts';
import { namesSheet, ownNameAt, unitRefusal } from '../workbook/own-names.ts';
import type { BookState, CellFormat } from '../workbook/state.ts';
import { type CellEdit, withContents, withRoom } from '../workbook/state-changes.ts';
import { columnDependents, kinSheets } from '../workbook/dependence.ts';
import type { CellPlace } from '../workbook/place.ts';
import type { Workbook } from '../workbook/workbook.ts';
import { mostPlaces } from '../xlsx/import/near-cells.ts';
import { grouped } from '../xlsx/read/read-limits.ts';
import { mostCellCharacters } from '../xlsx/write/file-text.ts';
import { attempt, changeAll } from './book-changes.ts';
import { mostRecords } from './book-size.ts';
import type { Desk } from './desk.ts';
import type { Habits } from '../records/loose-entry.ts';
import { habitsOf, understood } from '../records/typed-entry.ts';
import { entryText } from './cell-text.ts';
import { keptRates } from './kept-rates.ts';

/** Changes that come from typing, pasting and filling, as edits of the book. */

export interface TextEdit extends CellPlace {
  readonly text: string;
  /** How its text writes numbers and dates; undefined for the book's own habits. */
  readonly habits?: Habits;
  /** How the cell shows it from now on, where it brings that along; undefined for what its text says. */
  readonly format?: CellFormat | undefined;
}

const sourceColumn = 4;
const beltsSheet = belts.name;

/**
 * Whether a cell is the user's to change. Of named values only those of Assumptions are, with where they come from; of
 * the user's own all but the name, which formulas follow when it is changed in its dialog.
 */
export function changeable({ sheet, record, column }: CellPlace, state: BookState): boolean {
  const named = namedSheetOf(sheet);
  if (named === undefined) return true;
  if (!named.editable) return false;
  return (
    column === valueColumn || column === sourceColumn || (column > 0 && ownNameAt(state, sheet, record) !== undefined)
  );
}

/** Why a text will not do in a cell of a named value of the user's; undefined when it will. */
const refusedUnit = ({ sheet, column, text }: TextEdit, { units }: Workbook): string | undefined =>
  sheet === namesSheet && column === unitColumn ? unitRefusal(text, units) : undefined;

/** Whether rows may be added to a sheet and removed from it. */
export const growing = (sheet: string): boolean => namedSheetOf(sheet) === undefined;

/** What a row of the sheet is called. */
export const recordName = (sheet: string): string => compiledSheets.get(sheet)?.declaration.record ?? 'row';

/** What stands in the empty row below the last record. */
export const newRecord = (sheet: string): string => `new ${recordName(sheet)} …`;

/** Rows times columns that a sheet of the user's may grow to here. Ours: twice what a file may bring. */
const mostGrown = 2 * mostPlaces;

/** Refuses contents so far down or right that the page could not work the sheet out or show it. */
function refuseGrowth(book: Workbook, edits: readonly CellEdit[], label: string): void {
  const ends = new Map<string, { rows: number; columns: number }>();
  for (const { sheet, record, column } of edits) {
    const end = ends.get(sheet) ?? { rows: 0, columns: book.columns(sheet).length };
    ends.set(sheet, { rows: Math.max(end.rows, record + 1), columns: Math.max(end.columns, column + 1) });
  }
  for (const [sheet, { rows, columns }] of ends) {
    const declared = compiledSheets.get(sheet)?.columns.length ?? 0;
    const count = Math.max(rows, book.sheet(sheet).rows.length);
    const why =
      declared > 0 && rows > mostRecords
        ? `the sheet ${sheet} would have ${grouped(rows)} rows; the maximum is ${grouped(mostRecords)}`
        : count * (columns - declared) > mostGrown
          ? `the sheet ${sheet} would have ${grouped(count)} rows of ${grouped(columns - declared)} own columns; the ` +
            `maximum is ${grouped(mostGrown)} such cells`
          : undefined;
    if (why !== undefined) throw new RefusedChange(label, undefined, why);
  }
}

/** Refuses texts that no cell of a file could hold. */
function refuseLongTexts(edits: readonly CellEdit[], label: string): void {
  for (const { content, ...place } of edits)
    if (typeof content === 'string' && content.length > mostCellCharacters)
      throw new RefusedChange(
        label,
        edits.length === 1 ? [place] : undefined,
        `a text has ${grouped(content.length)} characters; the maximum for a cell is ${grouped(mostCellCharacters)}`,
      );
}

/** Cells that are changed with what follows from them alone: more take as long as all of the book. */
const mostAlone = 2_000;

/** Whether all belts may follow from a cell. */
const reachesBelts = ({ sheet, column }: CellPlace): boolean =>
  !kinSheets(beltsSheet).includes(sheet) &&
  (namedSheetOf(sheet) !== undefined ||
    columnDependents(sheet, column).some((next) => next.sheet === beltsSheet && next.reach === 'all'));

/** Does what changes cells, undefined for all of the book, and then `done`. */
export function changeCells(
  desk: Desk,
  cells: readonly CellPlace[] | undefined,
  what: string,
  change: () => unknown,
  done: () => void = () => undefined,
): void {
  const far = cells === undefined || cells.length > mostAlone || cells.some(reachesBelts);
  if (far) changeAll(desk, what, change, done);
  else if (attempt(desk, change)) done();
}

/** Applies contents, with rows and columns added for those beyond the last ones: one step to undo, then `done`. */
export function put(desk: Desk, edits: readonly CellEdit[], label: string, done: () => void = () => undefined): void {
  const { book } = desk;
  const inside = ({ sheet, record, column }: CellPlace): boolean =>
    record < book.sheet(sheet).rows.length && column < book.columns(sheet).length;
  // An emptied cell asks for no room.
  const real = edits.filter((edit) => edit.content !== null || inside(edit));
  const areInside = real.every(inside);
  const change = (): void => {
    refuseLongTexts(real, label);
    if (areInside) book.edit(real, label);
    else {
      refuseGrowth(book, real, label);
      book.replace(withContents(withRoom(book.state, real), real), label);
    }
  };
  changeCells(desk, areInside ? real : undefined, label, change, done);
}

/** Texts typed or pasted into cells. What can't be read is kept as text, and the first such cell is reported. */
export function enter(
  desk: Desk,
  edits: readonly TextEdit[],
  label = 'typing',
  done: () => void = () => undefined,
): void {
  const { book } = desk;
  const unread = edits.map((edit) => refusedUnit(edit, book));
  const why = unread.find((one) => one !== undefined);
  if (why !== undefined) desk.say(why, 'problem');
  const read = edits
    .filter((edit, at) => unread[at] === undefined && changeable(edit, book.state))
    // What an editor has opened on and hands back is no text anew: it may show fewer digits than the cell holds.
    .filter(({ text, ...place }) => typeof book.content(place) !== 'number' || text !== entryText(book, place))
    .map(({ text, habits, format, ...place }) => {
      const entry = understood(book, place, text, habits ?? habitsOf(book));
      return { place, text, ...entry, ...(format === undefined ? {} : { format }) };
    });
  const changed = read.filter(({ place, content, format }) => book.content(place) !== content || format !== undefined);
  const contents = changed.map(({ place, content, format }) => ({ ...place, content, format }));
  put(desk, contents, label, () => {
    tellRead(desk, changed);
    const rates = keptRates(book, contents);
    if (rates !== undefined) desk.say(rates, 'problem');
    done();
  });
}

type ReadText = ReturnType<typeof understood> & { readonly place: CellPlace; readonly text: string };

/** Tells what is to be known of texts that were entered. */
function tellRead(desk: Desk, changed: readonly ReadText[]): void {
  const { book } = desk;
  const told = changed.flatMap((one) => one.told ?? []);
  if (told.length > 0) desk.say([...new Set(told)].join(' '));
  const asking = changed.filter(({ asks }) => asks !== undefined);
  const asks = asking[0]?.asks;
  if (asks !== undefined) {
    // What waits for another habit is asked about when it is read again.
    const meant = asking.map(({ place, text }) => ({ ...place, text }));
    desk.open({ kind: 'habit', asks, meant });
    return;
  }
  const refused = changed.filter(({ refusal }) => refusal !== undefined);
  const [first] = refused;
  if (first?.refusal === undefined) return;
  const header = book.columnAt(first.place)?.header ?? '';
  const others = refused.length === 1 ? '' : ` ${refused.length - 1} more of the pasted cells are marked.`;
  desk.say(
    `${header}: "${first.refusal.given}" was kept as text, because ${first.refusal.reason}. Allowed: ` +
      `${first.refusal.allowed}.${others}`,
    'problem',
  );
}

/** Goes on behind the last column: a free sheet gets one more, any other stays at its last cell. */
export function goBeyond(desk: Desk, place: CellPlace): void {
  const next = { ...place, column: place.column + 1 };
  const isFree = !compiledSheets.has(place.sheet);
  const grown = isFree && attempt(desk, () => desk.book.replace(withRoom(desk.book.state, [next]), 'enlarge sheet'));
  desk.goTo(grown ? next : place);
}
