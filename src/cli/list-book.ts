import { belts } from '../../sheets/belts/index.ts';
import { basename } from 'node:path';
import { assumption, reviewDate, reviewedToday, withAssumption, withSuppliesOf } from '../workbook/lent-sheets.ts';
import { emptyBook } from '../workbook/declared.ts';
import { isDayFormula } from '../workbook/present-day.ts';
import { Workbook } from '../workbook/workbook.ts';
import { acceptImport } from '../xlsx/import/acceptance.ts';
import { type ImportChoices, type ImportReport, type ImportResult, UnusableList } from '../xlsx/import/import-model.ts';
import { withoutParts } from '../xlsx/import/kept-records.ts';
import { proposeImport } from '../xlsx/import/proposal.ts';
import { isoDate } from '../units/dates.ts';
import type { BookState } from '../workbook/state.ts';
import { applyVariant, variantNamed } from '../what-if/variants.ts';
import { makeTypedChanges } from '../what-if/typed-change.ts';
import { fileBytes, inputBook } from './input-file.ts';
import type { ListOptions } from './list-options.ts';
import { orUsageError } from './refused-change.ts';
import { UnreadableFile } from '../xlsx/read/read.ts';
import { timed } from './run-progress.ts';
import { SourcePlaces } from './source-places.ts';
import { FileError } from './usage-error.ts';

/** A list of belts from a file as a book, with what was understood of it. */
export interface ListBook {
  readonly book: Workbook;
  readonly report: ImportReport;
  readonly places: SourcePlaces;
  /** The day that joint ages are counted to, and who said so; undefined when the book's own is no date. */
  readonly reviewed: { readonly day: string | undefined; readonly why: string };
  /** What is supposed to be otherwise than in the list, a sentence each. */
  readonly supposed: readonly string[];
}

/** Who says to which day a book of ours counts. */
const bookDay = ({ state }: Workbook): string =>
  isDayFormula(assumption(state, reviewDate)) ? 'today' : "the book's review date";

/** A list as it was read, in place of what it lacks a book that is at hand. */
export function imported(
  file: string,
  choices: ImportChoices,
  base: BookState,
  baseName: string,
): ImportResult & { readonly places: SourcePlaces } {
  try {
    return timed(`reading ${file}`, fileBytes(file), () => {
      const raw = inputBook(file);
      const proposal = proposeImport(raw, choices);
      const result = acceptImport(raw, proposal, base, { title: basename(file).replace(/\.[^.]*$/, ''), baseName });
      return { ...result, places: new SourcePlaces(file, raw, result.report) };
    });
  } catch (error) {
    // Formulas that cells share are written out, and counted, only when they are asked for.
    if (error instanceof UnusableList || error instanceof UnreadableFile)
      throw new FileError(`${file} could not be used: ${error.message}`, { cause: error });
    throw error;
  }
}

/** A list that was read, with what another book lends, counted to the day that is asked for. */
export function listState(
  read: BookState,
  { ours }: Pick<ImportReport, 'ours'>,
  { other, date }: { readonly other: BookState | undefined; readonly date: number | undefined },
): BookState {
  const supplied = other === undefined ? read : withSuppliesOf(read, other);
  if (date === undefined && ours) return supplied;
  return date === undefined ? reviewedToday(supplied) : withAssumption(supplied, reviewDate, date);
}

/**
 * Reads the list, and the other book when one is named. A book of our own keeps its review date unless one is given.
 */
export function listBook(file: string, { choices, date, series, set, variants }: ListOptions): ListBook {
  const none = emptyBook(choices.units ?? 'metric');
  const other = series === undefined ? undefined : imported(series, {}, none, 'an empty book').state;
  const {
    state: read,
    report,
    places,
  } = imported(file, choices, other === undefined ? none : withoutParts(other), series ?? 'an empty book');
  if (!report.ours && !report.tables.some(({ target }) => target === belts.name))
    throw new FileError(
      `${file} could not be used: it lists no belts, only ${report.tables
        .filter(({ records, target }) => records > 0 && target !== 'free')
        .map(({ target }) => target)
        .join(', ')}. Give it as --series beside a list of belts.`,
    );
  const own = date === undefined && report.ours;
  const book = timed(
    `calculating ${file}`,
    fileBytes(file),
    () => new Workbook(listState(read, report, { other, date })),
  );
  const supposed = orUsageError(
    () => [
      ...variants.map((name) => {
        const variant = variantNamed(book, name);
        applyVariant(book, variant);
        return `variant ${variant.name}.`;
      }),
      ...makeTypedChanges(book, set),
    ],
    set.length === 0 ? '--variant' : variants.length === 0 ? '--set' : '--variant, --set',
  ).map((change) => `Supposed: ${change}`);
  const serial = book.named(reviewDate);
  return {
    book,
    report,
    places,
    reviewed: {
      day: typeof serial === 'number' ? isoDate(serial) : undefined,
      why: own ? bookDay(book) : date === undefined ? 'today' : 'as given',
    },
    supposed,
  };
}
