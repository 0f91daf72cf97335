import { recordInRow } from '../../formula/address.ts';
import { type Content, isFormula } from '../../formula/values.ts';
import { adaptedFormula, type MovedColumn } from '../../workbook/adapted-book.ts';
import { bookColumns, declarationOf } from '../../workbook/declared.ts';
import { presentPosition } from '../../workbook/earlier-names.ts';
import type { CellPlace } from '../../workbook/place.ts';
import { recordKeys } from '../../workbook/record-names.ts';
import type { About } from '../about.ts';
import type { RawBook, RawSheet } from '../read/raw-book.ts';
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
    const columns = known === undefined ? undefined : places.get(known.name);
    if (columns?.workings.has(column + 1) === true) return columns.workings.get(column + 1);
    return columns?.position.get(column + 1) ?? column;
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

/** The records of a sheet's file by what they are known by; those that share it are not there. */
function recordsByName(raw: RawSheet, sheet: string, { position, userColumns }: ExportedColumns): Map<string, number> {
  const columns = bookColumns({ name: sheet, userColumns, rows: [] });
  const rows = Array.from({ length: Math.max(0, raw.lastRow - 1) }, () =>
    new Array<Content>(columns.length).fill(null),
  );
  for (const [row, cells] of raw.rows)
    for (const cell of cells) {
      const column = position.get(cell.column);
      const record = rows[recordInRow(row)];
      if (column !== undefined && record !== undefined) record[column] = cell.value;
    }
  const found = new Map<string, number>();
  const twice = new Set<string>();
  recordKeys({ name: sheet, userColumns, rows: rows.map((cells) => ({ cells })) }).forEach((key, record) => {
    if (found.has(key)) twice.add(key);
    found.set(key, record);
  });
  for (const key of [...twice, '']) found.delete(key);
  return found;
}

/**
 * Where a record that the About sheet names stands in the file now: rows may have been put in above it in another
 * program. One that is not found stays where it was.
 */
function movedRecords(
  book: RawBook,
  about: About,
  places: ReadonlyMap<string, ExportedColumns>,
): (place: CellPlace) => number {
  const names = new Map(about.names.map(({ place, name }) => [`${place.sheet}!${place.record}`, name]));
  const found = new Map<string, ReadonlyMap<string, number>>();
  for (const sheet of new Set(about.names.map(({ place }) => place.sheet))) {
    const written = about.sheets.find(({ name }) => name === sheet)?.written;
    const raw = book.sheets.find(({ name }) => name === written);
    const columns = places.get(sheet);
    if (raw !== undefined && columns !== undefined) found.set(sheet, recordsByName(raw, sheet, columns));
  }
  return ({ sheet, record }) => found.get(sheet)?.get(names.get(`${sheet}!${record}`) ?? '') ?? record;
}

/** What the About sheet says of cells, at the places where they stand in the book. */
export function aboutInPlace(book: RawBook, about: About, places: ReadonlyMap<string, ExportedColumns>): About {
  const moved = movedSinceWritten(about, places);
  const recordOf = movedRecords(book, about, places);
  const led = (place: CellPlace): CellPlace | undefined => {
    const column = moved(place.sheet, place.column);
    return column === undefined ? undefined : { ...place, record: recordOf(place), column };
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
    formats: at(about.formats),
    columns: about.columns.map((said) =>
      said.column.formula === undefined
        ? said
        : { ...said, column: { ...said.column, formula: adaptedFormula(said.column.formula, said.sheet, moved) } },
    ),
    formulas: at(about.formulas).map((item) =>
      isFormula(item.text) ? { ...item, text: adaptedFormula(item.text, item.place.sheet, moved) } : item,
    ),
  };
}
