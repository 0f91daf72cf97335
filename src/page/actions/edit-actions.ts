import { compiledSheets } from '../../workbook/declared.ts';
import type { CellPlace } from '../../workbook/place.ts';
import type { Desk } from '../desk.ts';
import { changeable, growing, put, recordName } from '../editing.ts';
import { moved } from '../grid/clipboard.ts';
import { actionList } from './action.ts';

const records = ({ book, sheet, selection }: Desk): number[] =>
  selection.records.filter((record) => record < book.sheet(sheet).rows.length);

const selectedCells = (desk: Desk): CellPlace[] =>
  records(desk).flatMap((record) => desk.selection.columns.map((column) => ({ sheet: desk.sheet, record, column })));

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

const ownColumn = ({ book, sheet, selection }: Desk): boolean =>
  book.columnAt({ sheet, column: selection.place.column })?.own === true;

function headerTaken(desk: Desk, header: string): string | undefined {
  if (header.trim() === '') return 'A column needs a name.';
  if (/[{}.()[\]!]/.test(header)) return 'A column name cannot hold any of { } . ( ) [ ] !';
  return desk.book.findColumn(desk.sheet, header.trim()) === undefined
    ? undefined
    : `There is already a column ${header.trim()}.`;
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
  {
    id: 'fill-down',
    group: 'Edit',
    key: 'Ctrl+D',
    doc: 'copies the first selected row into the selected rows below it; formulas follow',
    onCells: true,
    name: 'Fill down',
    possible: (desk) => records(desk).length > 1,
    run(desk) {
      const [first = 0, ...others] = records(desk);
      const edits = others.flatMap((record) =>
        desk.selection.columns.map((column) => ({
          sheet: desk.sheet,
          record,
          column,
          content: moved(desk.book.content({ sheet: desk.sheet, record: first, column }), record - first, 0),
        })),
      );
      put(desk.book, edits.filter(changeable), 'fill down');
    },
  },
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
  {
    id: 'add-column',
    group: 'Edit',
    doc: 'adds a column of your own after the last one',
    onCells: true,
    name: 'Add a column of your own …',
    possible: ({ sheet }) => growing(sheet),
    run: (desk) =>
      desk.open({
        kind: 'ask',
        title: 'Add a column',
        label: 'Column name',
        initial: '',
        answer(header) {
          const taken = headerTaken(desk, header);
          if (taken !== undefined) return taken;
          desk.book.addColumn(desk.sheet, header.trim(), compiledSheets.has(desk.sheet) ? 'text' : 'number');
          desk.goTo({ sheet: desk.sheet, record: 0, column: desk.book.columns(desk.sheet).length - 1 });
          return undefined;
        },
      }),
  },
  {
    id: 'rename-column',
    group: 'Edit',
    doc: 'renames a column of your own',
    onCells: true,
    name: 'Rename this column …',
    possible: ownColumn,
    run(desk) {
      const { column } = desk.selection.place;
      const initial = desk.book.columnAt({ sheet: desk.sheet, column })?.header ?? '';
      desk.open({
        kind: 'ask',
        title: 'Rename the column',
        label: 'Column name',
        initial,
        answer(header) {
          const taken = header.trim() === initial ? undefined : headerTaken(desk, header);
          if (taken === undefined) desk.book.renameColumn(desk.sheet, column, header.trim());
          return taken;
        },
      });
    },
  },
  {
    id: 'remove-column',
    group: 'Edit',
    doc: 'removes a column of your own and its contents',
    onCells: true,
    name: 'Remove this column',
    possible: (desk) => ownColumn(desk) && desk.book.columns(desk.sheet).length > 1,
    run: (desk) => desk.book.removeColumn(desk.sheet, desk.selection.place.column),
  },
]);
