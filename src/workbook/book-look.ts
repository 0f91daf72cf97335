/**
 * How the columns of a sheet are shown: which, in what order, how wide. It goes by headers, so it holds over other
 * versions of the program; a header that there is no more is passed over. Nothing that is computed depends on it.
 */
export interface ColumnLayout {
  /** The view that was chosen last; '' where the sheet has none. */
  readonly view: string;
  /** What is shown, in this order; 'all' for every column but the intermediate ones. */
  readonly headers: readonly string[] | 'all';
  /** With 'all', whether the intermediate columns are shown too. */
  readonly intermediate: boolean;
  /** Groups of columns that are folded away. */
  readonly folded: readonly string[];
  /** Columns that the user has drawn to a width, in CSS pixels. */
  readonly widths: Readonly<Record<string, number>>;
  /** Columns that stay in view at the left. */
  readonly frozen: number;
  readonly sort?: { readonly header: string; readonly descending: boolean } | undefined;
}

/** A view that the user has put together and named. */
interface OwnView {
  readonly sheet: string;
  readonly name: string;
  readonly layout: ColumnLayout;
}

/** How a book is looked at. It is kept with the book and is no part of what can be undone. */
export interface BookLook {
  readonly layouts: Readonly<Record<string, ColumnLayout>>;
  readonly views: readonly OwnView[];
}

export const noLook: BookLook = { layouts: {}, views: [] };
