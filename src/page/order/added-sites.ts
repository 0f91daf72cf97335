import type { OrderSites } from '../../order/fleet-order.ts';
import type { HashedInput } from '../../purchase/audit.ts';
import { Workbook } from '../../workbook/workbook.ts';
import type { SiteBooks, SiteFile } from './site-books.ts';

/** The sites that buy together with the open book: their files, and all of them as one book once they are joined. */
export class AddedSites {
  files: readonly SiteFile[] = [];
  /** Suppliers deliver to each site apart. */
  apart = true;
  /** What the open book says of a series or strip counts for all. */
  ownFigures = false;
  /** What the books say differently; while there is any, they are not joined. */
  conflicts: readonly string[] = [];
  #joined: { readonly book: Workbook; readonly books: SiteBooks } | undefined;

  get book(): Workbook | undefined {
    return this.#joined?.book;
  }

  get told(): readonly string[] {
    return this.#joined?.books.told ?? [];
  }

  get inputs(): readonly HashedInput[] {
    return this.#joined?.books.inputs ?? [];
  }

  /** Names of the sites, once they are joined. */
  get names(): readonly string[] {
    return this.#joined?.books.sites ?? [];
  }

  /** The sites as an order takes them; undefined for the open book alone. */
  get terms(): OrderSites | undefined {
    const books = this.#joined?.books;
    if (books === undefined) return undefined;
    return {
      names: books.sites,
      siteOf: (sheet, record) => books.sites[books.rows[sheet]?.[record]?.book ?? -1],
      apart: this.apart,
    };
  }

  /** Where a row stands outside the open book; undefined for one of it, which keeps its place. */
  elsewhere(sheet: string, record: number): string | undefined {
    const row = this.#joined?.books.rows[sheet]?.[record];
    return row === undefined || row.book === 0
      ? undefined
      : `${this.files[row.book - 1]?.name ?? ''}, ${sheet}, record ${row.record + 1}`;
  }

  take(books: SiteBooks): void {
    this.leave();
    this.conflicts = books.conflicts;
    if (books.conflicts.length === 0) this.#joined = { book: new Workbook(books.state), books };
  }

  /** Back to the open book alone, until they are joined anew. */
  leave(): void {
    this.#joined?.book.destroy();
    this.#joined = undefined;
    this.conflicts = [];
  }
}

/** Files that were chosen, with what is in them. */
export const readFiles = (files: readonly File[]): Promise<SiteFile[]> =>
  Promise.all(files.map(async (file) => ({ name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) })));
