import { headerRefusal, ownColumnAt, withOwnColumn } from '../workbook/own-columns.ts';
import { withCellsOfColumns } from '../workbook/column-references.ts';
import type { BookState, UserColumn } from '../workbook/state.ts';
import { declaredWidth, withColumnAdded } from '../workbook/state-changes.ts';
import { typedFault } from '../workbook/typed-formula.ts';
import { habitsOf, understood } from '../records/typed-entry.ts';
import { withMoved } from '../workbook/column-layout.ts';
import { unitOf } from '../units/quantities.ts';
import { headersOnShow, setLayout } from './column-view.ts';
import type { Desk } from './desk.ts';
import { changeAll } from './book-changes.ts';
import { put } from './editing.ts';
import { knownNames } from './offerable.ts';

/** A column of the user's own, as its dialog has it, put into the book. */

interface AskedColumn {
  /** Where it stands; undefined for a new one. */
  readonly position: number | undefined;
  /** Where a new one is put in. */
  readonly at: number;
  readonly column: UserColumn;
  /** The column on show that it is to stand behind; undefined to leave it where it is. */
  readonly after: string | undefined;
}

/** Why a column will not do; undefined when it will. */
function refusal(desk: Desk, { position, column }: AskedColumn): string | undefined {
  const { state } = desk.book;
  const { header, formula, unit, kind } = column;
  const taken = headerRefusal(state, desk.sheet, header, position);
  if (taken !== undefined) return taken;
  if (unit !== undefined && unitOf(kind, state.units) !== '')
    return `The unit of this kind is ${unitOf(kind, state.units)}, and turns with the book: leave the unit empty.`;
  if (formula === undefined) return undefined;
  const at = position ?? desk.book.columns(desk.sheet).length;
  const fault = typedFault(formula, { sheet: desk.sheet, record: 0, column: at }, state, knownNames(desk));
  if (fault === undefined) return undefined;
  return `${fault.says}${fault.fix === undefined ? '' : ` Did you mean ${fault.fix} ?`}`;
}

function changed(state: BookState, sheet: string, { position, at, column: asked }: AskedColumn): BookState {
  const { formula: typed, ...column } = asked;
  const place = position ?? at;
  const room = position === undefined ? withColumnAdded(state, sheet, column, at) : state;
  const formula =
    typed === undefined ? undefined : withCellsOfColumns(typed, { sheet, record: 0, column: place }, room);
  return withOwnColumn(room, sheet, place, { ...column, ...(formula === undefined ? {} : { formula }) });
}

/** Texts of a column that are measures, now that it says what it holds. */
function readAnew(desk: Desk, sheet: string, position: number): void {
  const { book } = desk;
  const edits = book.sheet(sheet).rows.flatMap(({ cells }, record) => {
    const text = cells[position];
    const place = { sheet, record, column: position };
    if (typeof text !== 'string' || text.startsWith('=')) return [];
    const { content, refusal: unread } = understood(book, place, text, habitsOf(book));
    return unread !== undefined || content === text ? [] : [{ ...place, content }];
  });
  if (edits.length > 0) put(desk, edits, 'read texts');
}

/** Puts the column into the book; why not, when it will not do. */
export function putOwnColumn(desk: Desk, asked: AskedColumn): string | undefined {
  const { book, sheet } = desk;
  const why = refusal(desk, asked);
  if (why !== undefined) return why;
  const { position, at, column, after } = asked;
  const place = position ?? at;
  const before = position === undefined ? undefined : ownColumnAt(book.state, sheet, position);
  const label = position === undefined ? 'add column' : 'change column';
  const put = (): void => book.replace(changed(book.state, sheet, asked), label);
  changeAll(desk, label, put, () => {
    if (before === undefined || before.kind !== column.kind) readAnew(desk, sheet, place);
    if (after !== undefined && place >= declaredWidth(sheet)) {
      const shown = headersOnShow(book, sheet);
      const listed = shown.includes(column.header) ? shown : [...shown, column.header];
      const to = listed.filter((header) => header !== column.header).indexOf(after) + 1;
      setLayout(book, sheet, { headers: withMoved(listed, column.header, to - listed.indexOf(column.header)) });
    }
    desk.goTo({ sheet, record: desk.selection.place.record, column: place });
  });
  return undefined;
}
