import { basename } from 'node:path';
import type { OrderSites } from '../order/fleet-order.ts';
import { type JoinedBooks, joinedBooks } from '../order/joined-books.ts';
import { cellName } from '../formula/address.ts';
import type { CellRemark } from '../records/sheet-rows.ts';
import { emptyBook } from '../workbook/declared.ts';
import { Workbook } from '../workbook/workbook.ts';
import { notUnderstoodLines } from './import-report.ts';
import { imported, type ListBook, listBook } from './list-book.ts';
import type { ListOptions } from './list-options.ts';
import { FileError, UsageError } from './usage-error.ts';

/** One book or several of them that an order is made for. */
export interface OrderBooks {
  readonly book: Workbook;
  /** Where a remark's cell stands in the user's own files. */
  readonly places: { readonly of: (remark: Pick<CellRemark, 'sheet' | 'record' | 'column' | 'cell'>) => string };
  /** Undefined for one book. */
  readonly sites: Omit<OrderSites, 'apart'> | undefined;
  /** What is to be known of the books, a line each. */
  readonly told: readonly string[];
}

/** Conflicts that are told; the rest are counted. */
const mostConflicts = 12;

function refuseConflicts({ conflicts }: JoinedBooks): void {
  if (conflicts.length === 0) return;
  const rest = conflicts.length - mostConflicts;
  throw new FileError(
    `The books could not be ordered for together, since they say different things of one series or strip: ${[
      ...conflicts.slice(0, mostConflicts),
      ...(rest > 0 ? [`${rest} more`] : []),
    ].join('; ')}. Correct them, or name the book whose figures count for all: --series BOOK.xlsx.`,
  );
}

function placesOf(joined: JoinedBooks, books: readonly ListBook[]): OrderBooks['places'] {
  return {
    of: (remark) => {
      const from = joined.placeOf(remark.sheet, remark.record);
      const own = from === undefined ? undefined : books[from.book];
      if (from === undefined || own === undefined) return `book cell ${remark.cell}`;
      const column = own.book.findColumn(remark.sheet, remark.column);
      const cell = column === undefined ? remark.cell : cellName(remark.sheet, from.record, column);
      return own.places.of({ ...remark, record: from.record, cell });
    },
  };
}

const understood = (file: string, { report, supposed }: ListBook): string[] => [
  ...supposed,
  ...notUnderstoodLines(file, report.notUnderstood).map((line) => line.trim()),
];

/** Reads the books of an order, and joins them where there are several. */
export function orderBooks(files: readonly string[], options: ListOptions): OrderBooks {
  const [first = '', ...others] = files;
  if (others.length === 0) {
    const one = listBook(first, options);
    return { book: one.book, places: one.places, sites: undefined, told: understood(first, one) };
  }
  if (options.set.length > 0 || options.variants.length > 0)
    throw new UsageError('--set and --variant change one book: give one book, or change the books before');
  const { series, ...own } = options;
  const books = files.map((file) => listBook(file, own));
  const lender =
    series === undefined
      ? undefined
      : { file: basename(series), state: imported(series, {}, emptyBook('metric'), 'an empty book').state };
  const [{ book = undefined } = {}, ...rest] = books;
  if (book === undefined) throw new UsageError('order needs a book');
  const joined = joinedBooks(
    [
      { file: basename(first), book },
      ...rest.map((one, place) => ({ file: basename(others[place] ?? ''), book: one.book })),
    ],
    lender,
  );
  refuseConflicts(joined);
  return {
    book: new Workbook(joined.state),
    places: placesOf(joined, books),
    sites: {
      names: joined.sites,
      siteOf: (sheet, record) => {
        const from = joined.placeOf(sheet, record);
        return from === undefined ? undefined : joined.sites[from.book];
      },
    },
    told: [
      ...books.flatMap((one, place) => understood(files[place] ?? '', one)),
      ...joined.told.map((text) => `${text}.`),
    ],
  };
}
