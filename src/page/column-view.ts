import { type ColumnLayout, layoutIn } from '../workbook/book-look.ts';
import {
  firstLayout,
  groupOf,
  readyView,
  shownColumns,
  shownHeaders,
  withHeader,
  withMoved,
} from '../workbook/column-layout.ts';
import { compiledSheets } from '../workbook/declared.ts';
import type { Workbook } from '../workbook/workbook.ts';
import type { Desk } from './desk.ts';

/** What the user does with the columns on show. All of it is kept with the book. */

export const layoutOf = ({ look }: Workbook, sheet: string): ColumnLayout =>
  layoutIn(look, sheet) ?? firstLayout(sheet);

const keyOf = (sheet: string): string | undefined => compiledSheets.get(sheet)?.declaration.key;

/** Positions of the columns on show, in their order. */
export const columnsOnShow = (book: Workbook, sheet: string): number[] =>
  shownColumns(sheet, layoutOf(book, sheet), book.columns(sheet), keyOf(sheet));

/** Headers of the columns on show, in their order. */
export const headersOnShow = (book: Workbook, sheet: string): string[] =>
  shownHeaders(sheet, layoutOf(book, sheet), book.columns(sheet), keyOf(sheet));

export function setLayout(book: Workbook, sheet: string, change: Partial<ColumnLayout>): void {
  const layout = { ...layoutOf(book, sheet), ...change };
  book.lookAs({ ...book.look, layouts: { ...book.look.layouts, [sheet]: layout } });
}

/** Whether a column may be hidden: the one that names the records always stays. */
export const hideable = (sheet: string, header: string): boolean => header !== keyOf(sheet);

export function hideColumns(book: Workbook, sheet: string, headers: readonly string[]): void {
  const away = new Set(headers.filter((header) => hideable(sheet, header)));
  setLayout(book, sheet, { headers: headersOnShow(book, sheet).filter((header) => !away.has(header)) });
}

/** Shows a column, and no other that was hidden with it. */
export function showColumn(book: Workbook, sheet: string, header: string): void {
  const shown = headersOnShow(book, sheet);
  if (shown.includes(header)) return;
  const layout = layoutOf(book, sheet);
  const group = groupOf(sheet, header);
  const folded = layout.folded.includes(group ?? '');
  const unfolded = { ...layout, folded: layout.folded.filter((name) => name !== group) };
  // Of a group that was folded all come back: folding away the rest of it is a press.
  const base = folded ? shownHeaders(sheet, unfolded, book.columns(sheet), keyOf(sheet)) : shown;
  setLayout(book, sheet, {
    folded: unfolded.folded,
    ...(base.includes(header) ? {} : { headers: withHeader(base, header, book.columns(sheet)) }),
  });
}

export function moveColumn(book: Workbook, sheet: string, header: string, steps: number): void {
  setLayout(book, sheet, { headers: withMoved(headersOnShow(book, sheet), header, steps) });
}

export function foldGroup(book: Workbook, sheet: string, group: string): void {
  const { folded } = layoutOf(book, sheet);
  setLayout(book, sheet, {
    folded: folded.includes(group) ? folded.filter((name) => name !== group) : [...folded, group],
  });
}

/** The user's own views of a sheet. */
export const ownViews = ({ look }: Workbook, sheet: string): string[] =>
  look.views.flatMap((view) => (view.sheet === sheet ? [view.name] : []));

/** Goes over to a view. Widths that the user has drawn, and the sorting, are of the sheet and stay. */
export function chooseView(book: Workbook, sheet: string, name: string): void {
  const own = book.look.views.find((view) => view.sheet === sheet && view.name === name)?.layout;
  const view = own ?? readyView(sheet, name);
  if (view === undefined) return;
  const { widths, comments, sort } = layoutOf(book, sheet);
  setLayout(book, sheet, { ...view, view: name, widths: { ...widths, ...view.widths }, comments, sort });
}

/** Keeps what is on show as a view of that name, in place of one that has it already. */
export function saveView(book: Workbook, sheet: string, name: string): void {
  const { sort: _, ...layout } = { ...layoutOf(book, sheet), view: name, headers: headersOnShow(book, sheet) };
  const others = book.look.views.filter((view) => view.sheet !== sheet || view.name !== name);
  book.lookAs({ ...book.look, views: [...others, { sheet, name, layout }] });
  setLayout(book, sheet, { view: name, headers: layout.headers });
}

export function removeView(book: Workbook, sheet: string, name: string): void {
  book.lookAs({ ...book.look, views: book.look.views.filter((view) => view.sheet !== sheet || view.name !== name) });
  setLayout(book, sheet, firstLayout(sheet));
}

/** Whether what is on show is no longer what its view says. */
export function viewChanged(book: Workbook, sheet: string): boolean {
  const { view, headers, folded, frozen, intermediate } = layoutOf(book, sheet);
  const said =
    book.look.views.find((own) => own.sheet === sheet && own.name === view)?.layout ?? readyView(sheet, view);
  if (said === undefined) return false;
  return (
    JSON.stringify([said.headers, said.folded, said.frozen, said.intermediate]) !==
    JSON.stringify([headers, folded, frozen, intermediate])
  );
}

/** The column that is selected, as actions name it. */
export const selectedHeader = ({ book, sheet, selection }: Desk): string | undefined =>
  book.columnAt({ sheet, column: selection.place.column })?.header;
