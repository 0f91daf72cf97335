import type { CellPlace } from '../../workbook/place.ts';
import type { Desk } from '../desk.ts';
import { growing, put, recordName } from '../editing.ts';
import { actionList } from './action.ts';
import { columnActions } from './column-actions.ts';
import { fillActions } from './fill-actions.ts';
import { records, selectedCells } from './selected-cells.ts';

const several = (count: number, one: string): string => (count === 1 ? one : `${count} rows`);

function addRows(desk: Desk, at: number, count: number): void {
  desk.book.addRecords(
    desk.sheet,
    at,
    Array.from({ length: count }, () => []),
  );
  desk.goTo({ sheet: desk.sheet, record: at, column: desk.selection.place.column });
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

const goToChanged = (desk: Desk, cells: readonly CellPlace[]): void => {
  const [first] = cells;
  if (first !== undefined) desk.goTo(first);
};

export const editActions = actionList([
  {
    id: 'undo',
    group: 'Edit',
    key: 'Ctrl+Z',
    doc: 'reverses the last change, whatever it was',
    name: ({ book }) => `Undo${book.undoable === undefined ? '' : ` ${book.undoable}`}`,
    possible: ({ book }) => book.undoable !== undefined,
    run: (desk) => goToChanged(desk, desk.book.undo()),
  },
  {
    id: 'redo',
    group: 'Edit',
    key: 'Ctrl+Y',
    doc: 'repeats the change that was undone',
    name: ({ book }) => `Redo${book.redoable === undefined ? '' : ` ${book.redoable}`}`,
    possible: ({ book }) => book.redoable !== undefined,
    run: (desk) => goToChanged(desk, desk.book.redo()),
  },
  ...fillActions,
  {
    id: 'own-formula',
    group: 'Edit',
    key: 'Alt+Shift+F',
    doc: 'removes your override, so that the sheet calculates the cells again',
    onCells: true,
    name: 'Restore formula',
    possible: (desk) => selectedCells(desk).some((place) => desk.book.overridden(place)),
    run(desk) {
      const overridden = selectedCells(desk).filter((place) => desk.book.overridden(place));
      put(
        desk.book,
        overridden.map((place) => ({ ...place, content: null })),
        'restore formula',
      );
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
        Math.min(Math.max(...desk.selection.records) + 1, desk.book.sheet(desk.sheet).rows.length),
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
      for (const { at, count } of runs(records(desk))) book.removeRecords(sheet, at, count);
      const last = Math.max(0, book.sheet(sheet).rows.length - 1);
      desk.goTo({ sheet, record: Math.min(desk.selection.place.record, last), column: desk.selection.place.column });
    },
  },
  ...columnActions,
]);
