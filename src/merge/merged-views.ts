import type { BookLook, ColumnLayout, OwnView } from '../workbook/book-look.ts';
import { layoutIn } from '../workbook/book-look.ts';
import { type Book, books } from './matched-sheets.ts';
import { type Change, type Choose, type MergeItem, type Side, sideOf, type Three } from './merge-item.ts';

/**
 * Named views of the users, which are items like any other; and how each sheet is looked at, which is each reader's
 * own: this book keeps its own way, and takes the other's where it left its own as it was.
 *
 * A list says nothing of them.
 */

export type Looks = Three<BookLook | undefined>;

const nowhere = { base: -1, mine: -1, theirs: -1 };

/** A layout as text, the same for two that show the same. */
function layoutText(layout: ColumnLayout | undefined): string {
  if (layout === undefined) return '';
  const { view, headers, intermediate, folded, widths, frozen, away, frozenRows, hidden, sort } = layout;
  const drawn = Object.entries(widths).toSorted(([one], [other]) => (one < other ? -1 : 1));
  return JSON.stringify([
    view,
    headers,
    intermediate,
    folded,
    drawn,
    frozen,
    away ?? [],
    frozenRows ?? 1,
    hidden === true,
    sort === undefined ? [] : [sort.header, sort.descending],
  ]);
}

/** Looks with that of a book which says nothing as the others have it. */
function completed({ base, mine, theirs }: Looks): Looks {
  const before = base ?? mine ?? theirs;
  return { base: before, mine: mine ?? before, theirs: theirs ?? before };
}

const key = ({ sheet, name }: Pick<OwnView, 'sheet' | 'name'>): string =>
  `${sheet.toLowerCase()}\n${name.toLowerCase()}`;

const viewIn = (look: BookLook | undefined, wanted: string): OwnView | undefined =>
  look?.views.find((view) => key(view) === wanted);

/** Views of all books by what they are called, those of this book first. */
const viewKeys = (looks: Looks): string[] => [
  ...new Set((['mine', 'theirs', 'base'] as const).flatMap((book) => (looks[book]?.views ?? []).map(key))),
];

function changeOf(before: string, now: string): Change | undefined {
  if (before === now) return undefined;
  return before === '' ? 'new' : now === '' ? 'gone' : 'changed';
}

/** The views that one or both books changed since the earlier one. */
export function viewItems(given: Looks): MergeItem[] {
  const looks = completed(given);
  return viewKeys(looks).flatMap((wanted): MergeItem[] => {
    const text = (book: Book): string => layoutText(viewIn(looks[book], wanted)?.layout);
    const [here, there] = [changeOf(text('base'), text('mine')), changeOf(text('base'), text('theirs'))];
    const view = books.toReversed().flatMap((book) => viewIn(looks[book], wanted) ?? [])[0];
    if (view === undefined || (here === undefined && there === undefined)) return [];
    return [
      {
        level: 'view',
        sheet: view.sheet,
        record: '',
        column: view.name,
        ...(here === undefined ? {} : { here }),
        ...(there === undefined ? {} : { there }),
        conflict: here !== undefined && there !== undefined && text('mine') !== text('theirs'),
        kind: 'text',
        rows: nowhere,
        columns: nowhere,
      },
    ];
  });
}

/** Whose way of looking at a sheet counts: the other's where only that changed it. */
function layoutSide({ base, mine, theirs }: Looks, sheet: string): Side {
  const text = (look: BookLook | undefined): string =>
    layoutText(look === undefined ? undefined : layoutIn(look, sheet));
  return text(mine) === text(base) && text(theirs) !== text(base) ? 'theirs' : 'mine';
}

/** How the merged book is looked at; undefined where there is nothing to say of it. */
export function mergedLook(given: Looks, items: readonly MergeItem[], choose: Choose): BookLook | undefined {
  const looks = completed(given);
  const { mine, theirs } = looks;
  if (mine === undefined || theirs === undefined) return mine ?? theirs;
  const changed = new Map(
    items.filter(({ level }) => level === 'view').map((item) => [key({ sheet: item.sheet, name: item.column }), item]),
  );
  const layouts = [...new Set([...Object.keys(mine.layouts), ...Object.keys(theirs.layouts)])].flatMap(
    (sheet): [string, ColumnLayout][] => {
      const layout = layoutIn(looks[layoutSide(looks, sheet)] ?? mine, sheet);
      return layout === undefined ? [] : [[sheet, layout]];
    },
  );
  const views = viewKeys(looks).flatMap((wanted): OwnView[] => {
    const item = changed.get(wanted);
    const view = viewIn(looks[item === undefined ? 'mine' : sideOf(item, choose(item))], wanted);
    return view === undefined ? [] : [view];
  });
  return layouts.length + views.length === 0 ? undefined : { layouts: Object.fromEntries(layouts), views };
}
