import { beltGroups } from '../../sheets/belts/groups.ts';
import { belts } from '../../sheets/belts/index.ts';
import { beltViews } from '../../sheets/belt-views.ts';
import type { BookLook, ColumnLayout } from './book-look.ts';
import { type BookColumn, compiledSheets } from './declared.ts';

const plain: ColumnLayout = { view: '', headers: 'all', intermediate: false, folded: [], widths: {}, frozen: 1 };

/** A ready-made view as a layout; undefined when the sheet has none of that name. */
export function readyView(sheet: string, name: string): ColumnLayout | undefined {
  const view = sheet === belts.name ? beltViews.find((one) => one.name === name) : undefined;
  return view === undefined ? undefined : { ...plain, view: view.name, headers: view.headers };
}

const keyFirst = (sheet: string): boolean => {
  const declaration = compiledSheets.get(sheet)?.declaration;
  return declaration !== undefined && declaration.columns[0]?.header === declaration.key;
};

const firstLayouts = new Map<string, ColumnLayout>();

/** How a sheet is shown until the user has a say: always the same object, so that one sees whether anything changed. */
export function firstLayout(sheet: string): ColumnLayout {
  const made = firstLayouts.get(sheet) ??
    readyView(sheet, beltViews[0].name) ?? { ...plain, frozen: keyFirst(sheet) ? 1 : 0 };
  firstLayouts.set(sheet, made);
  return made;
}

const foldedHeaders = (sheet: string, folded: readonly string[]): ReadonlySet<string> =>
  new Set(
    sheet === belts.name
      ? beltGroups.filter(({ name }) => folded.includes(name)).flatMap(({ headers }) => headers)
      : [],
  );

/** The group of a column; undefined for a sheet without groups, and for a column of the user's own. */
export const groupOf = (sheet: string, header: string): string | undefined =>
  sheet === belts.name
    ? beltGroups.find(({ headers }) => headers.some((own: string) => own === header))?.name
    : undefined;

/**
 * Whether a layout shows what a view of the program's does: then the user's own columns, which that can't know, follow.
 */
function isReady(sheet: string, { view, headers }: ColumnLayout): boolean {
  const ready = readyView(sheet, view)?.headers;
  return ready !== undefined && ready !== 'all' && headers !== 'all' && ready.join('\n') === headers.join('\n');
}

/** Columns on show, by their positions, in the order in which they are shown. The name of a record always is. */
export function shownColumns(sheet: string, layout: ColumnLayout, columns: readonly BookColumn[], key = ''): number[] {
  const { headers, intermediate, folded } = layout;
  const away = foldedHeaders(sheet, folded);
  const hidden = new Set(layout.away);
  const isHidden = (position: number): boolean => hidden.has(columns[position]?.header ?? '');
  const positions = new Map(columns.map(({ header }, position) => [header, position]));
  const listed =
    headers === 'all'
      ? columns.flatMap(({ declared }, position) =>
          (declared?.background === true && !intermediate) || isHidden(position) ? [] : [position],
        )
      : headers.flatMap((header) => positions.get(header) ?? []);
  const own = isReady(sheet, layout)
    ? columns.flatMap((column, position) => (column.own && !isHidden(position) ? [position] : []))
    : [];
  const first = positions.get(key);
  const all = [...new Set([...listed, ...own])].filter((position) => !away.has(columns[position]?.header ?? ''));
  return first === undefined || all.includes(first) ? all : [first, ...all];
}

/** The headers on show, spelled out, so that one can be put in, taken out or moved. */
export const shownHeaders = (
  sheet: string,
  layout: ColumnLayout,
  columns: readonly BookColumn[],
  key?: string,
): string[] => shownColumns(sheet, layout, columns, key).flatMap((position) => columns[position]?.header ?? []);

/**
 * Shown headers with one more: after the nearest column on show that stands before it in the sheet, so that it is found
 * where one looks for it.
 */
export function withHeader(shown: readonly string[], header: string, columns: readonly BookColumn[]): string[] {
  if (shown.includes(header)) return [...shown];
  const before = columns.slice(
    0,
    columns.findIndex((column) => column.header === header),
  );
  const at = before.toReversed().find((column) => shown.includes(column.header));
  return shown.toSpliced(at === undefined ? shown.length : shown.indexOf(at.header) + 1, 0, header);
}

/** Shown headers with one moved by steps to the right or, below 0, to the left, but not past the ends. */
export function withMoved(shown: readonly string[], header: string, steps: number): string[] {
  const from = shown.indexOf(header);
  if (from < 0) return [...shown];
  const to = Math.max(0, Math.min(shown.length - 1, from + steps));
  return shown.toSpliced(from, 1).toSpliced(to, 0, header);
}

function mappedHeaders(layout: ColumnLayout, present: (header: string) => string): ColumnLayout {
  const { headers, widths, comments, sort, away } = layout;
  return {
    ...layout,
    ...(away === undefined ? {} : { away: away.map(present) }),
    headers: headers === 'all' ? headers : headers.map(present),
    widths: Object.fromEntries(Object.entries(widths).map(([header, width]) => [present(header), width])),
    ...(comments === undefined
      ? {}
      : { comments: Object.fromEntries(Object.entries(comments).map(([header, text]) => [present(header), text])) }),
    ...(sort === undefined ? {} : { sort: { ...sort, header: present(sort.header) } }),
  };
}

/** A look in which columns have other headers than before. */
export const withRenamedHeaders = (look: BookLook, present: (sheet: string, header: string) => string): BookLook => ({
  layouts: Object.fromEntries(
    Object.entries(look.layouts).map(([sheet, layout]) => [
      sheet,
      mappedHeaders(layout, (header) => present(sheet, header)),
    ]),
  ),
  views: look.views.map((view) => ({
    ...view,
    layout: mappedHeaders(view.layout, (header) => present(view.sheet, header)),
  })),
});

/**
 * Columns of a sheet that are hidden in files: as the user's own file hid them, while no view of the user's shows them.
 */
export function hiddenInFiles(sheet: string, layout: ColumnLayout): ReadonlySet<string> {
  const { headers, away = [] } = layout;
  const shown = new Set(headers === 'all' || isReady(sheet, layout) ? [] : headers);
  return new Set(away.filter((header) => !shown.has(header)));
}
