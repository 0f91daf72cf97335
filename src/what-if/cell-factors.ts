import { belts } from '../../sheets/belts/index.ts';
import { plateSeries } from '../../sheets/series/plate-series.ts';
import { pulleys } from '../../sheets/series/pulleys.ts';
import { isFault } from '../formula/values.ts';
import type { Belt } from '../records/belt.ts';
import { listedPulleys } from '../records/belt-pulleys.ts';
import { isComputed, type SheetDeclaration } from '../sheet/declaration.ts';
import { columnNamed, declarationOf } from '../workbook/declared.ts';
import { columnDependents } from '../workbook/dependence.ts';
import type { CellPlace } from '../workbook/place.ts';
import type { Workbook } from '../workbook/workbook.ts';
import type { Factor } from './factor.ts';
import { placeName } from './typed-change.ts';

/** Figures of other sheets that a belt follows: those of its plate series, of the pulleys in its list. */

/** A cell of another sheet as something that can be changed; undefined where no column of Belts follows from it. */
export function cellFactor(book: Workbook, place: CellPlace): Factor | undefined {
  const column = declarationOf(place.sheet)?.columns[place.column];
  if (column === undefined || isComputed(column)) return undefined;
  const columns = new Set(
    columnDependents(place.sheet, place.column).flatMap((item) => (item.sheet === belts.name ? [item.column] : [])),
  );
  if (columns.size === 0) return undefined;
  return {
    name: placeName(book, place),
    kind: column.kind,
    of: 'cell',
    place: () => place,
    change: (value) => ({ cells: [{ place, value }] }),
    columns,
  };
}

/** The inputs of a record that hold something; its names are none. What has no name can't be named, so has none. */
function recordFactors(
  book: Workbook,
  { name: sheet, columns, key, partOf }: SheetDeclaration,
  record: number,
): Factor[] {
  const name = book.value({ sheet, record, column: columns.findIndex(({ header }) => header === key) });
  if (name === null || name === '' || isFault(name)) return [];
  return columns.flatMap(({ header }, column): Factor[] => {
    if (header === key || header === partOf?.header) return [];
    const place = { sheet, record, column };
    const content = book.content(place);
    if (content === null || content === '') return [];
    const factor = cellFactor(book, place);
    return factor === undefined ? [] : [factor];
  });
}

const isThere = (book: Workbook, sheet: string): boolean => book.state.sheets.some(({ name }) => name === sheet);

/** The figures of a belt's plate series. */
export function plateFactors(belt: Belt): Factor[] {
  const record = belt.seriesRecord;
  return record === undefined ? [] : recordFactors(belt.book, plateSeries, record);
}

/** The figures of all plate series that belts of the book have. */
export function seriesFactors(book: Workbook): Factor[] {
  if (!isThere(book, plateSeries.name)) return [];
  const column = columnNamed(book.sheet(belts.name), 'Plate series') ?? -1;
  const used = new Set(
    book.sheet(belts.name).rows.map((_, record) => {
      const name = book.value({ sheet: belts.name, record, column });
      return isFault(name) ? '' : String(name ?? '').toLowerCase();
    }),
  );
  return book.sheet(plateSeries.name).rows.flatMap((_, record) => {
    const name = book.read(plateSeries.name, record, plateSeries.key);
    return !isFault(name) && used.has(String(name ?? '').toLowerCase()) ? recordFactors(book, plateSeries, record) : [];
  });
}

/** The figures of the pulleys in a belt's list. */
export const pulleyFactors = (belt: Belt): Factor[] =>
  listedPulleys(belt).flatMap(({ record }) => recordFactors(belt.book, pulleys, record));
