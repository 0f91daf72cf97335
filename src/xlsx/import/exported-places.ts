import { isFormula } from '../../formula/values.ts';
import { adaptedFormula, type MovedColumn } from '../../workbook/adapted-book.ts';
import { declarationOf } from '../../workbook/declared.ts';
import { presentPosition } from '../../workbook/earlier-names.ts';
import type { CellPlace } from '../../workbook/place.ts';
import type { About } from '../about.ts';
import type { RawBook } from '../read/raw-book.ts';
import { type ExportedColumns, exportedColumns } from './exported-columns.ts';

/** Where the cells of an export stand in the book: its columns may be others than this version's, or have moved. */

/** The columns of each of the book's sheets that the file has, by the sheet's name. */
export function exportedPlaces(book: RawBook, about: About): ReadonlyMap<string, ExportedColumns> {
  return new Map(
    about.sheets.flatMap((sheet) => {
      const raw = book.sheets.find(({ name }) => name === sheet.written);
      return raw === undefined ? [] : [[sheet.name, exportedColumns(raw, sheet, about)] as const];
    }),
  );
}

const sameName = (one: string, other: string): boolean => one.toLowerCase() === other.toLowerCase();

/** By the file's sheets and columns, as its formulas write them. */
export const movedInFile =
  ({ sheets }: About, places: ReadonlyMap<string, ExportedColumns>): MovedColumn =>
  (sheet, column) => {
    const known = sheets.find(({ written }) => sameName(written, sheet));
    return (known === undefined ? undefined : places.get(known.name)?.position.get(column + 1)) ?? column;
  };

/** By the book's sheets and columns as they were when the file was written, as its About sheet writes them. */
const movedSinceWritten =
  ({ sheets }: About, places: ReadonlyMap<string, ExportedColumns>): MovedColumn =>
  (sheet, column) => {
    const known = sheets.find(({ name }) => sameName(name, sheet));
    if (known === undefined) return column;
    const { name, headers } = known;
    if (headers === undefined || headers.length === 0) return places.get(name)?.position.get(column + 1) ?? column;
    const header = headers[column];
    return header === undefined
      ? column - headers.length + (declarationOf(name)?.columns.length ?? 0)
      : presentPosition(name, header);
  };

/** What the About sheet says of cells, at the places where they stand in the book. */
export function aboutInPlace(about: About, places: ReadonlyMap<string, ExportedColumns>): About {
  const moved = movedSinceWritten(about, places);
  const led = (place: CellPlace): CellPlace | undefined => {
    const column = moved(place.sheet, place.column);
    return column === undefined ? undefined : { ...place, column };
  };
  const at = <Item extends { readonly place: CellPlace }>(items: readonly Item[]): Item[] =>
    items.flatMap((item) => {
      const place = led(item.place);
      return place === undefined ? [] : [{ ...item, place }];
    });
  return {
    ...about,
    overrides: about.overrides.flatMap((place) => led(place) ?? []),
    remarks: at(about.remarks),
    formulas: at(about.formulas).map((item) =>
      isFormula(item.text) ? { ...item, text: adaptedFormula(item.text, item.place.sheet, moved) } : item,
    ),
  };
}
