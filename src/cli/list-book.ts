import { basename } from 'node:path';
import { assumption, reviewDate, withAssumption, withSuppliesOf } from '../workbook/lent-sheets.ts';
import { emptyBook } from '../workbook/declared.ts';
import { Workbook } from '../workbook/workbook.ts';
import { acceptImport } from '../xlsx/import/acceptance.ts';
import { type ImportChoices, type ImportReport, type ImportResult, UnusableList } from '../xlsx/import/import-model.ts';
import { withoutParts } from '../xlsx/import/kept-records.ts';
import { proposeImport } from '../xlsx/import/proposal.ts';
import { isoDate, serialOf } from '../units/dates.ts';
import type { BookState } from '../workbook/state.ts';
import { UnreadableFile } from '../xlsx/read/read.ts';
import { inputBook } from './input-file.ts';
import type { ListOptions } from './list-options.ts';
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
}

/** A list as it was read, in place of what it lacks a book that is at hand. */
export function imported(
  file: string,
  choices: ImportChoices,
  base: BookState,
  baseName: string,
): ImportResult & { readonly places: SourcePlaces } {
  try {
    return timed(`reading ${file}`, () => {
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

function today(): number {
  const now = new Date();
  return serialOf(now.getFullYear(), now.getMonth() + 1, now.getDate()) ?? 0;
}

/**
 * Reads the list, and the other book when one is named. A book of our own keeps its review date unless one is given.
 */
export function listBook(file: string, { choices, date, series }: ListOptions): ListBook {
  const none = emptyBook(choices.units ?? 'metric');
  const other = series === undefined ? undefined : imported(series, {}, none, 'an empty book').state;
  const {
    state: read,
    report,
    places,
  } = imported(file, choices, other === undefined ? none : withoutParts(other), series ?? 'an empty book');
  const supplied = other === undefined ? read : withSuppliesOf(read, other);
  const own = date === undefined && report.ours;
  const state = own ? supplied : withAssumption(supplied, reviewDate, date ?? today());
  const book = timed(`calculating ${file}`, () => new Workbook(state));
  const serial = assumption(book.state, reviewDate);
  return {
    book,
    report,
    places,
    reviewed: {
      day: typeof serial === 'number' ? isoDate(serial) : undefined,
      why: own ? "the book's review date" : date === undefined ? 'today' : 'as given',
    },
  };
}
