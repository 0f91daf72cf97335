import type { BookLook } from '../../workbook/book-look.ts';
import { bookColumns } from '../../workbook/declared.ts';
import type { About } from '../about.ts';
import type { RawBook } from '../read/raw-book.ts';
import type { ExportedColumns } from './exported-columns.ts';
import { exportedLook, type LookedSheet } from './exported-looks.ts';
import { lookWith, type PlacedSheet } from './kept-layouts.ts';

/** How the book is looked at, its sheets that were added in another program included. */
export function bookLook(
  book: RawBook,
  about: About,
  places: ReadonlyMap<string, ExportedColumns>,
  added: readonly PlacedSheet[],
): BookLook | undefined {
  const known = about.sheets.flatMap(({ name, written }): LookedSheet[] => {
    const raw = book.sheets.find((sheet) => sheet.name === written);
    const columns = places.get(name);
    if (raw === undefined || columns === undefined) return [];
    const { position, userColumns } = columns;
    return [{ raw, sheet: name, position, columns: bookColumns({ name, userColumns, rows: [] }) }];
  });
  const before = exportedLook(about, known);
  return added.length === 0 ? before : lookWith(before, added);
}
