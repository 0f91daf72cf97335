import { columnLetters, sheetRow } from '../formula/address.ts';
import { type Content, isFormula } from '../formula/values.ts';
import type { CellPlace } from '../workbook/place.ts';
import { isDayFormula } from '../workbook/present-day.ts';
import type { BookRow, BookState } from '../workbook/state.ts';

/**
 * A stored book made such that it opens.
 *
 * What is stored is data, whatever comes of working it out. It is tried first where it can be stopped; what fails or
 * does not end there is sought among the users' formulas, and those that are the cause are opened as texts, so that
 * they can be corrected or taken out.
 */

/** Whether a book can be worked out: undefined when it can, else why not. */
export type Trial = (state: BookState, milliseconds: number) => Promise<string | undefined>;

/** A large honest book is worked out within this, on a slow computer too. */
const patience = 30_000;
/** For the search of the cause, in all. */
const searchPatience = 40_000;
/** A part of the formulas has this long, or four times what the book needs without any. */
const leastPatience = 2_000;

const isUsers = (content: Content): boolean => isFormula(content) && !isDayFormula(content);

/** Whether a book has formulas of users': one without need not be tried. */
export const hasFormulas = ({ sheets }: BookState): boolean =>
  sheets.some(({ rows }) => rows.some(({ cells }) => cells.some(isUsers)));

/** All formulas of users'. For tests: they are counted. */
export function formulaCells({ sheets }: BookState): CellPlace[] {
  return sheets.flatMap(({ name, rows }) =>
    rows.flatMap(({ cells }, record) =>
      cells.flatMap((content, column) => (isUsers(content) ? [{ sheet: name, record, column }] : [])),
    ),
  );
}

/** A text that is no formula and shows what it was. */
const stilled = (content: Content): Content => (isFormula(content) ? ` ${content}` : content);

const remark = 'this formula stopped the book from opening and is kept here as text: correct or delete it';

/** A book with some of its formulas as texts, marked with why. */
function withTexts(state: BookState, places: readonly CellPlace[]): BookState {
  return {
    ...state,
    sheets: state.sheets.map((sheet) => {
      const own = places.filter((place) => place.sheet === sheet.name);
      if (own.length === 0) return sheet;
      const rows = [...sheet.rows];
      for (const { record, column } of own) {
        const row: BookRow | undefined = rows[record];
        if (row === undefined) continue;
        rows[record] = {
          ...row,
          cells: row.cells.with(column, stilled(row.cells[column] ?? null)),
          notes: { ...row.notes, [column]: remark },
        };
      }
      return { ...sheet, rows };
    }),
  };
}

interface Openable {
  /** Undefined when the book can't be worked out even without its formulas. */
  readonly state: BookState | undefined;
  /** What was done to it, for the planner; undefined for a book that opens as it is. */
  readonly told: string | undefined;
}

const named = ({ sheet, record, column }: CellPlace): string => `${sheet} ${columnLetters(column)}${sheetRow(record)}`;

/**
 * The formulas without which a book can be worked out: the last of the shortest beginning that fails is one, as often
 * as there is one; undefined when the time for it ran out.
 */
async function causes(
  formulas: readonly CellPlace[],
  fails: (found: readonly CellPlace[]) => Promise<boolean>,
): Promise<CellPlace[] | undefined> {
  const end = performance.now() + searchPatience;
  const found: CellPlace[] = [];
  do {
    const rest = formulas.filter((place) => !found.includes(place));
    let [good, bad] = [0, rest.length];
    while (bad - good > 1) {
      if (performance.now() > end) return undefined;
      const middle = Math.floor((good + bad) / 2);
      if (await fails([...found, ...rest.slice(middle)])) bad = middle;
      else good = middle;
    }
    const cause = rest[bad - 1];
    if (cause === undefined || performance.now() > end) return undefined;
    found.push(cause);
  } while (await fails(found));
  return found;
}

/** The book as it can be opened; takes a little over a minute at the very most. */
export async function openable(state: BookState, trial: Trial): Promise<Openable> {
  const why = await trial(state, patience);
  if (why === undefined) return { state, told: undefined };
  const formulas = formulaCells(state);
  const before = performance.now();
  const still = withTexts(state, formulas);
  if ((await trial(still, patience)) !== undefined) return { state: undefined, told: why };
  const enough = Math.max(leastPatience, 4 * (performance.now() - before));
  const found = await causes(formulas, async (texts) => (await trial(withTexts(state, texts), enough)) !== undefined);
  if (found === undefined)
    return {
      state: still,
      told:
        `The book could not be calculated: ${why}. All its ${formulas.length} formulas are now text: correct the ` +
        `one at fault and enter the others again.`,
    };
  return {
    state: withTexts(state, found),
    told:
      `The book could not be calculated: ${why}. The cause is ${found.map(named).join(', ')}: its formula is now ` +
      `text. Correct or delete it.`,
  };
}
