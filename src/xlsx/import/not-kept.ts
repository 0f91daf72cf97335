import type { RawBook, RawSheet } from '../read/raw-book.ts';
import { plainSheetLook, unkeptKinds, type Unkept } from '../read/raw-look.ts';
import { rangeName } from '../read/sheet-look-reader.ts';

/** What a file holds that the book does not, a line for each kind, with how many there are and where. */

/** Cells whose comments found no place in the book. */
export const lostCommentsAt = (places: readonly string[]): Unkept[] =>
  places.map((place) => ({ kind: 'comments', place }));

/** Places that a line names. */
const namedPlaces = 5;

const mergedCells = ({ merges }: RawSheet): Unkept[] =>
  merges.map((range) => ({ kind: 'merged cells', place: rangeName(range) }));

/** `lost` gives by sheet what found no place in the book beside what no book keeps, such as comments. */
export function notKeptLines(
  { sheets }: RawBook,
  lost: ReadonlyMap<string, readonly Unkept[]>,
  left: (sheet: RawSheet, thing: Unkept) => boolean = () => true,
): string[] {
  const found = sheets.flatMap((sheet) =>
    [...(sheet.look ?? plainSheetLook).unkept, ...mergedCells(sheet), ...(lost.get(sheet.name) ?? [])].flatMap(
      (thing) =>
        left(sheet, thing)
          ? [{ kind: thing.kind, place: `${sheet.name}${thing.place === '' ? '' : `!${thing.place}`}` }]
          : [],
    ),
  );
  return unkeptKinds.flatMap((kind) => {
    const places = found.flatMap((thing) => (thing.kind === kind ? [thing.place] : []));
    if (places.length === 0) return [];
    const named = [...new Set(places)];
    const more = named.length - namedPlaces;
    return [
      `${kind}: ${places.length} (${named.slice(0, namedPlaces).join(', ')}${more > 0 ? `, and ${more} more` : ''})`,
    ];
  });
}
