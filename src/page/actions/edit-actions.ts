import { ruledContent } from '../../workbook/column-formulas.ts';
import type { CellPlace } from '../../workbook/place.ts';
import type { BookState } from '../../workbook/state.ts';
import { type CellEdit, withRecordsMoved } from '../../workbook/state-changes.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import type { Desk } from '../desk.ts';
import { changeAll } from '../book-changes.ts';
import { changeCells, growing, put, recordName } from '../editing.ts';
import { actionList } from './action.ts';
import { columnActions } from './column-actions.ts';
import { fillActions } from './fill-actions.ts';
import { records, selectedCells } from './selected-cells.ts';

const several = (count: number, one: string): string => (count === 1 ? one : `${count} rows`);

function addRows(desk: Desk, at: number, count: number): void {
  const { sheet, book } = desk;
  const { column } = desk.selection.place;
  const rows = Array.from({ length: count }, () => []);
  changeAll(
    desk,
    'add rows',
    () => book.addRecords(sheet, at, rows),
    () => desk.goTo({ sheet, record: at, column }),
  );
}

/** Runs of neighbouring records, the last first, so that taking one away leaves the places of the others. */
function runs(list: readonly number[]): { readonly at: number; readonly count: number }[] {
  const found: { at: number; count: number }[] = [];
  for (const record of [...list].sort((one, other) => other - one)) {
    const last = found.at(-1);
    if (last !== undefined && last.at === record + 1) {
      last.at = record;
      last.count += 1;
    } else found.push({ at: record, count: 1 });
  }
  return found;
}

/** Takes a step back or again, and goes to what it touched. */
function takeStep(desk: Desk, what: string, to: Workbook['toUndo'], step: () => unknown): void {
  if (to === undefined) return;
  if ('sheets' in to) changeAll(desk, what, step, undefined, to);
  else
    changeCells(desk, to, what, step, () => {
      const [first] = to;
      if (first !== undefined) desk.goTo(first);
    });
}

/** Selected cells that hold another content than the formula of the sheet or of their own column, put back to it. */
const restored = (desk: Desk): CellEdit[] => selectedCells(desk).flatMap((place) => restoredCell(desk, place) ?? []);

function restoredCell({ book }: Desk, place: CellPlace): CellEdit | undefined {
  if (book.overridden(place)) return { ...place, content: null };
  const content = ruledContent(book.columnAt(place), place.record);
  return content === undefined || content === book.content(place) ? undefined : { ...place, content };
}

/** Whether any selected cell is to be restored; of a whole sheet's no list is made for it. */
const restorable = (desk: Desk): boolean =>
  records(desk).some((record) =>
    desk.selection.columns.some((column) => restoredCell(desk, { sheet: desk.sheet, record, column }) !== undefined),
  );

export const editActions = actionList([
  {
    id: 'undo',
    group: 'Edit',
    key: 'Ctrl+Z',
    doc: 'reverses the last change, whatever it was',
    name: ({ book }) => `Undo${book.undoable === undefined ? '' : ` ${book.undoable}`}`,
    possible: ({ book }) => book.undoable !== undefined,
    run: (desk) => takeStep(desk, `undo ${desk.book.undoable ?? ''}`, desk.book.toUndo, () => desk.book.undo()),
  },
  {
    id: 'redo',
    group: 'Edit',
    key: 'Ctrl+Y',
    doc: 'repeats the change that was undone',
    name: ({ book }) => `Redo${book.redoable === undefined ? '' : ` ${book.redoable}`}`,
    possible: ({ book }) => book.redoable !== undefined,
    run: (desk) => takeStep(desk, `redo ${desk.book.redoable ?? ''}`, desk.book.toRedo, () => desk.book.redo()),
  },
  ...fillActions,
  {
    id: 'own-formula',
    group: 'Edit',
    key: 'Alt+Shift+F',
    doc: "removes your override, so that the sheet's or the column's formula calculates the cells again",
    onCells: true,
    name: 'Restore formula',
    possible: restorable,
    run(desk) {
      put(desk, restored(desk), 'restore formula');
    },
  },
  {
    id: 'row-above',
    group: 'Edit',
    key: 'Alt+Shift+I',
    doc: 'inserts an empty row above the selected one',
    onCells: true,
    name: (desk) => `Insert ${several(desk.selection.records.length, recordName(desk.sheet))} above`,
    possible: ({ sheet }) => growing(sheet),
    run: (desk) =>
      addRows(
        desk,
        Math.min(desk.selection.place.record, desk.book.sheet(desk.sheet).rows.length),
        desk.selection.records.length,
      ),
  },
  {
    id: 'row-below',
    group: 'Edit',
    key: 'Alt+Shift+B',
    doc: 'inserts an empty row below the selected one',
    onCells: true,
    name: (desk) => `Insert ${several(desk.selection.records.length, recordName(desk.sheet))} below`,
    possible: ({ sheet }) => growing(sheet),
    run: (desk) =>
      addRows(
        desk,
        Math.min(
          desk.selection.records.reduce((last, record) => Math.max(last, record), 0) + 1,
          desk.book.sheet(desk.sheet).rows.length,
        ),
        desk.selection.records.length,
      ),
  },
  {
    id: 'remove-rows',
    group: 'Edit',
    key: 'Alt+Shift+D',
    doc: 'removes the selected rows and their contents',
    onCells: true,
    name: (desk) => `Remove ${several(records(desk).length, recordName(desk.sheet))}`,
    possible: (desk) => growing(desk.sheet) && records(desk).length > 0,
    run(desk) {
      const { sheet, book } = desk;
      const { record, column } = desk.selection.place;
      // One step to undo, however many others lie between the rows: in a sorted or filtered sheet they seem neighbours.
      const without = (state: BookState): BookState =>
        runs(records(desk)).reduce((left, { at, count }) => withRecordsMoved(left, sheet, at, count, []), state);
      changeAll(
        desk,
        'remove rows',
        () => book.replace(without(book.state), 'remove rows'),
        () => desk.goTo({ sheet, record: Math.min(record, Math.max(0, book.sheet(sheet).rows.length - 1)), column }),
      );
    },
  },
  ...columnActions,
]);
