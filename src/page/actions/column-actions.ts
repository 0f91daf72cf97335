import { ownKind } from '../../workbook/state-changes.ts';
import type { Desk } from '../desk.ts';
import { growing } from '../editing.ts';
import { actionList } from './action.ts';

/** The user's own columns: added, put in, renamed, removed. */

const ownColumn = ({ book, sheet, selection }: Desk): boolean =>
  book.columnAt({ sheet, column: selection.place.column })?.own === true;

function headerTaken(desk: Desk, header: string): string | undefined {
  if (header.trim() === '') return 'A column needs a name.';
  if (/[{}.()[\]!]/.test(header)) return 'A column name cannot hold any of { } . ( ) [ ] !';
  return desk.book.findColumn(desk.sheet, header.trim()) === undefined
    ? undefined
    : `There is already a column ${header.trim()}.`;
}

export const columnActions = actionList([
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
          desk.book.addColumn(desk.sheet, header.trim(), ownKind(desk.sheet));
          desk.goTo({ sheet: desk.sheet, record: 0, column: desk.book.columns(desk.sheet).length - 1 });
          return undefined;
        },
      }),
  },
  {
    id: 'insert-column',
    group: 'Edit',
    doc: 'puts a column of your own before this one; formulas go on naming the cells that they name',
    onCells: true,
    name: 'Insert a column of your own before this one …',
    possible: (desk) => growing(desk.sheet) && ownColumn(desk),
    run(desk) {
      const { column } = desk.selection.place;
      desk.open({
        kind: 'ask',
        title: 'Insert a column',
        label: 'Column name',
        initial: '',
        answer(header) {
          const taken = headerTaken(desk, header);
          if (taken !== undefined) return taken;
          desk.book.addColumn(desk.sheet, header.trim(), ownKind(desk.sheet), column);
          desk.goTo({ sheet: desk.sheet, record: 0, column });
          return undefined;
        },
      });
    },
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
