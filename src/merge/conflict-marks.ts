import { declarationOf, headerPosition } from '../workbook/declared.ts';
import type { BookRow, BookState, SheetState } from '../workbook/state.ts';
import { shownContent, statesOf, subjectOf } from './item-words.ts';
import type { Three } from './merge-item.ts';
import type { MergedBook, OpenConflict } from './merged-book.ts';

/** Open conflicts, marked in the book itself: as remarks on cells, and as a sheet that lists them. */

const mark = 'Conflict: ';
const sheetName = 'Conflicts';
const headers = ['Sheet', 'Record', 'Column', 'In this book', 'What each file says'] as const;

const isConflictSheet = ({ userColumns, name }: SheetState): boolean =>
  name.startsWith(sheetName) &&
  userColumns.length === headers.length &&
  headers.every((header, place) => userColumns[place]?.header === header);

/** Whether a merge before this one left its conflicts in a book. */
export const hasConflictMarks = ({ sheets }: BookState): boolean => sheets.some(isConflictSheet);

/** A remark without what a merge wrote into it. */
const unmarked = (note: string): string =>
  note
    .split('\n')
    .filter((line) => !line.startsWith(mark))
    .join('\n');

function unmarkedRow(row: BookRow): BookRow {
  if (row.notes === undefined) return row;
  const notes = Object.entries(row.notes)
    .map(([column, note]) => [column, unmarked(note)] as const)
    .filter(([, note]) => note !== '');
  return notes.length === 0 ? { cells: row.cells } : { cells: row.cells, notes: Object.fromEntries(notes) };
}

/** A book without the marks of a merge before this one: they are no content of anybody's. */
export function withoutConflictMarks(state: BookState): BookState {
  const sheets = state.sheets.filter((sheet) => !isConflictSheet(sheet));
  const isMarked = ({ notes = {} }: BookRow): boolean => Object.values(notes).some((note) => unmarked(note) !== note);
  return {
    ...state,
    sheets: sheets.map((sheet) =>
      sheet.rows.some(isMarked) ? { ...sheet, rows: sheet.rows.map(unmarkedRow) } : sheet,
    ),
  };
}

/** The cell that stands for a conflict: of a record its name, of a column its first cell. */
function markedCell({
  item,
  record,
  column,
}: OpenConflict): { readonly record: number; readonly column: number } | undefined {
  const declaration = declarationOf(item.sheet);
  const name = declaration === undefined ? 0 : headerPosition(item.sheet, declaration.key);
  if (item.level === 'record') return { record, column: name };
  if (item.level === 'column') return { record: 0, column };
  return item.level === 'cell' ? { record, column } : undefined;
}

function withMarks(sheet: SheetState, marks: ReadonlyMap<number, ReadonlyMap<number, string>>): SheetState {
  return {
    ...sheet,
    rows: sheet.rows.map((row, record) => {
      const own = marks.get(record);
      if (own === undefined) return row;
      const notes: Record<number, string> = { ...row.notes };
      for (const [column, text] of own)
        notes[column] = notes[column] === undefined ? text : `${notes[column]}\n${text}`;
      return { ...row, notes };
    }),
  };
}

/** What the merged book holds of a conflict, in words. */
function keptWords({ item, record, column }: OpenConflict, state: BookState, mine: string): string {
  if (item.level === 'record' || item.level === 'column' || item.level === 'sheet')
    return item.here === 'gone' || item.there === 'gone' ? 'kept' : `as in ${mine}`;
  const content = state.sheets.find(({ name }) => name === item.sheet)?.rows[record]?.cells[column];
  return content === undefined ? `as in ${mine}` : shownContent(content, item.kind, state.units);
}

/** A merged book with every open conflict marked; `names` are those of the files. */
export function withConflictMarks({ state, open }: MergedBook, names: Three<string>): BookState {
  if (open.length === 0) return state;
  const marks = new Map<string, Map<number, Map<number, string>>>();
  for (const conflict of open) {
    const cell = markedCell(conflict);
    if (cell === undefined || cell.record < 0 || cell.column < 0) continue;
    const ofSheet = marks.get(conflict.item.sheet) ?? new Map<number, Map<number, string>>();
    marks.set(conflict.item.sheet, ofSheet);
    const ofRow = ofSheet.get(cell.record) ?? new Map<number, string>();
    ofSheet.set(cell.record, ofRow);
    const text = `${mark}${statesOf(conflict.item, names, state.units)}`.replaceAll('\n', ' ');
    ofRow.set(cell.column, ofRow.has(cell.column) ? `${ofRow.get(cell.column) ?? ''}\n${text}` : text);
  }
  const taken = new Set(state.sheets.map(({ name }) => name.toLowerCase()));
  let name = sheetName;
  for (let count = 2; taken.has(name.toLowerCase()); count += 1) name = `${sheetName} ${count}`;
  const list: SheetState = {
    name,
    userColumns: headers.map((header) => ({ header, kind: 'text' })),
    rows: open.map((conflict) => ({
      cells: [
        conflict.item.sheet,
        conflict.item.record,
        conflict.item.column === '' ? subjectOf(conflict.item) : conflict.item.column,
        keptWords(conflict, state, names.mine),
        statesOf(conflict.item, names, state.units),
      ],
    })),
  };
  return {
    ...state,
    sheets: [
      ...state.sheets.map((sheet) => {
        const own = marks.get(sheet.name);
        return own === undefined ? sheet : withMarks(sheet, own);
      }),
      list,
    ],
  };
}
