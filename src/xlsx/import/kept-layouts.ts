import { belts } from '../../../sheets/belts/index.ts';
import { type BookLook, type ColumnLayout, noLook } from '../../workbook/book-look.ts';
import { firstLayout } from '../../workbook/column-layout.ts';
import type { BeltHeader } from '../../../sheets/index.ts';
import type { RawSheet } from '../read/raw-book.ts';
import { SheetLooks } from './sheet-looks.ts';

/** A sheet of a file, and where its columns stand in the book: what of its look concerns whole columns. */
export interface PlacedSheet {
  readonly raw: RawSheet;
  /** Name of the sheet in the book. */
  readonly sheet: string;
  readonly turned: boolean;
  /** Columns of the file, counted from 1, by their headers in the book; in the order of the file. */
  readonly columns: readonly { readonly column: number; readonly header: string; readonly comment?: string }[];
}

/** What the view is called that shows belts as the user's list does. For tests: it is looked for. */
export const listViewName = 'As in your list';

/** The user's columns first, then what the book is asked for. */
const answers: readonly BeltHeader[] = ['Verdict', 'Findings'];

function layoutOf({ raw, sheet, turned, columns }: PlacedSheet, before: ColumnLayout): ColumnLayout {
  const looks = new SheetLooks(raw, turned);
  const widths = Object.fromEntries(
    columns.flatMap(({ column, header }) => {
      const width = looks.widthOf(column);
      return width === undefined ? [] : [[header, width] as const];
    }),
  );
  const away = columns.flatMap(({ column, header }) => (looks.isHidden(column) ? [header] : []));
  const comments = columns.flatMap(({ header, comment }) =>
    comment === undefined ? [] : [[header, comment] as const],
  );
  const free = sheet !== belts.name && before === firstLayout(sheet) && before.headers === 'all';
  const { frozen } = looks;
  return {
    ...before,
    widths: { ...before.widths, ...widths },
    ...(comments.length === 0 ? {} : { comments: { ...before.comments, ...Object.fromEntries(comments) } }),
    ...(away.length === 0 ? {} : { away: [...new Set([...(before.away ?? []), ...away])] }),
    ...(free && frozen.columns > 0 ? { frozen: frozen.columns } : {}),
    ...(free && frozen.rows > 1 ? { frozenRows: frozen.rows } : {}),
    ...(raw.hidden && free ? { hidden: true as const } : {}),
  };
}

/** The view of the first list of belts, in the order of its columns. */
function listView({ raw, columns, turned }: PlacedSheet): ColumnLayout {
  const looks = new SheetLooks(raw, turned);
  const { frozen } = looks;
  const headers = columns.flatMap(({ column, header }) => (looks.isHidden(column) ? [] : [header]));
  return {
    ...firstLayout(belts.name),
    view: listViewName,
    headers: [...headers, ...answers.filter((answer) => !headers.includes(answer))],
    frozen: Math.max(1, frozen.columns),
  };
}

/** How a book is looked at once sheets of a file are in it; the book's own views and layouts stay. */
export function lookWith(before: BookLook = noLook, placed: readonly PlacedSheet[]): BookLook | undefined {
  const layouts = new Map(Object.entries(before.layouts));
  for (const one of placed) {
    const known = layouts.get(one.sheet) ?? firstLayout(one.sheet);
    const next = layoutOf(one, known);
    if (JSON.stringify(next) !== JSON.stringify(known)) layouts.set(one.sheet, next);
  }
  const list = placed.find(({ sheet }) => sheet === belts.name);
  const views =
    list === undefined
      ? before.views
      : [
          ...before.views.filter(({ sheet, name }) => sheet !== belts.name || name !== listViewName),
          { sheet: belts.name, name: listViewName, layout: listView(list) },
        ];
  return placed.length === 0 ? undefined : { layouts: Object.fromEntries(layouts), views };
}
