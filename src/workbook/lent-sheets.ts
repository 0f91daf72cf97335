import type { AssumptionName, SheetName } from '../../sheets/index.ts';
import type { Content } from '../formula/values.ts';
import { valueColumn } from '../sheet/named-values.ts';
import { convertedBook } from './conversion.ts';
import { dayFormula } from './present-day.ts';
import type { BookState, SheetState } from './state.ts';
import { withContents } from './state-changes.ts';

/** Sheets that several books may share: one plant has one list of suppliers' series and one set of assumptions. */
const shared: ReadonlySet<string> = new Set<SheetName>([
  'Plate series',
  'Strips',
  'Suppliers',
  'Offers',
  'Shelf',
  'Orders',
  'Price history',
  'Steps',
  'Assumptions',
  'Tables',
]);
/** Sheets that another book lends where a book has none of its own. */
const lent: ReadonlySet<string> = new Set<SheetName>(['Crews', 'Windows', 'Areas', 'Sites']);

/** The assumption that says when a book was looked at; it is the book's own. */
export const reviewDate = 'ReviewDate' satisfies AssumptionName;

const recordOf = (sheet: SheetState | undefined, name: string): number =>
  sheet?.rows.findIndex(({ cells }) => cells[0] === name) ?? -1;

/** A state with a named value of the Assumptions changed; as it was when it has none of that name. */
export function withAssumption(state: BookState, name: AssumptionName, content: Content): BookState {
  const record = recordOf(
    state.sheets.find((sheet) => sheet.name === 'Assumptions'),
    name,
  );
  return record < 0 ? state : withContents(state, [{ sheet: 'Assumptions', record, column: valueColumn, content }]);
}

/** A book whose joint ages count to today, whenever it is open, as those of every list that is read do. */
export const reviewedToday = (state: BookState): BookState => withAssumption(state, reviewDate, dayFormula);

/** What a named value of the Assumptions holds. */
export function assumption(state: Pick<BookState, 'sheets'>, name: AssumptionName): Content {
  const sheet = state.sheets.find((item) => item.name === 'Assumptions');
  return sheet?.rows[recordOf(sheet, name)]?.cells[valueColumn] ?? null;
}

/**
 * A book with plate series, strips, suppliers, offers, shelf, orders, steps, assumptions and tables of another, in its
 * own units, in place of what it has of them; crews, windows, areas and sites too, where it has none.
 *
 * It keeps its own review date. Formulas in these sheets that refer to other sheets of the other book will not find
 * them.
 */
export function withSuppliesOf(state: BookState, other: BookState): BookState {
  const converted = convertedBook(other, state.units).state;
  const sheets = state.sheets.map((sheet) =>
    shared.has(sheet.name) || (lent.has(sheet.name) && sheet.rows.length === 0)
      ? (converted.sheets.find(({ name }) => name === sheet.name) ?? sheet)
      : sheet,
  );
  return withAssumption({ ...state, invented: other.invented, sheets }, reviewDate, assumption(state, reviewDate));
}
