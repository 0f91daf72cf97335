import { cellName } from '../formula/address.ts';
import type { MergeBook } from '../merge/merge-plan.ts';
import { hasConflictMarks, withoutConflictMarks } from '../merge/conflict-marks.ts';
import type { MergeItem } from '../merge/merge-item.ts';
import { counted } from '../units/phrases.ts';
import { declarationOf, emptyBook } from '../workbook/declared.ts';
import { coveredColumns } from '../xlsx/import/covered-columns.ts';
import type { ImportChoices, ImportReport } from '../xlsx/import/import-model.ts';
import { notUnderstoodLines } from './import-report.ts';
import { imported } from './list-book.ts';
import type { SourcePlaces } from './source-places.ts';

/** A file to be compared or merged: a book of ours, or a list in the columns that it has. */
export interface ReadBook {
  readonly file: string;
  readonly book: MergeBook;
  readonly report: ImportReport;
  readonly places: SourcePlaces;
  /** A merge before this one left its conflicts in it. */
  readonly marked: boolean;
}

/** Reads a file. `choices` say how a list is read; a book of ours is read as it is. */
export function readBook(file: string, choices: ImportChoices): ReadBook {
  const { state, report, places } = imported(file, choices, emptyBook('metric'), 'an empty book');
  const covers = coveredColumns(report);
  return {
    file,
    book: { state: withoutConflictMarks(state), ...(covers === undefined ? {} : { covers }) },
    report,
    places,
    marked: hasConflictMarks(state),
  };
}

/** What the reader must know of a file before its differences. */
export function readBookLines({ file, report, marked }: ReadBook): string[] {
  return [
    ...(report.ours
      ? []
      : [
          `${file} is a list, not a whole book: it counts only in the columns that it has, ` +
            `${counted(report.tables.filter(({ target }) => target !== 'ignore').length, 'sheet')} of it were read. ` +
            `What they were taken for: calc ${file}.`,
        ]),
    ...(marked ? [`The conflicts that an earlier merge marked in ${file} were left out.`] : []),
    ...notUnderstoodLines(file, report.notUnderstood).map((line) => line.trim()),
  ];
}

/** Where an item stands in a file, "mine.xlsx, Belts!D7"; '' where the file has nothing of it. */
export function placeIn({ places, book }: ReadBook, item: MergeItem, side: 'base' | 'mine' | 'theirs'): string {
  const record = item.rows[side];
  const columns = declarationOf(item.sheet);
  if (record < 0 || (item.level !== 'cell' && item.level !== 'record')) return '';
  const column = item.level === 'cell' ? item.column : (columns?.key ?? '');
  if (column === '' || !book.state.sheets.some(({ name }) => name === item.sheet)) return '';
  const at = Math.max(0, item.level === 'cell' ? item.columns[side] : 0);
  return places.of({ sheet: item.sheet, record, column, cell: cellName(item.sheet, record, at) });
}
