import { compiledSheets } from '../../workbook/declared.ts';
import { type OwnName, ownNameAt } from '../../workbook/own-names.ts';
import { newHeader, ownKind, withColumnRemoved } from '../../workbook/state-changes.ts';
import { changeAll } from '../book-changes.ts';
import type { Desk } from '../desk.ts';
import { growing } from '../editing.ts';
import { actionList } from './action.ts';
import { selectedCells } from './selected-cells.ts';

/** The user's own columns and named values: added, put in, changed, removed. */

const ownColumn = ({ book, sheet, selection }: Desk): boolean =>
  book.columnAt({ sheet, column: selection.place.column })?.own === true;

/** The columns of the user's own among those that are selected. */
const ownColumns = ({ book, sheet, selection }: Desk): number[] =>
  selection.columns.filter((column) => book.columnAt({ sheet, column })?.own === true);

const ownNameHere = ({ book, sheet, selection }: Desk): OwnName | undefined =>
  ownNameAt(book.state, sheet, selection.place.record);

export const columnActions = actionList([
  {
    id: 'add-column',
    group: 'Edit',
    key: 'Alt+Shift+A',
    doc: 'adds a column of your own, with its kind, unit, format, meaning, place and formula',
    onCells: true,
    onHeaders: true,
    name: 'Add a column of your own …',
    possible: ({ sheet }) => growing(sheet),
    run: (desk) => desk.open({ kind: 'own-column', position: undefined, at: desk.book.columns(desk.sheet).length }),
  },
  {
    id: 'insert-column',
    group: 'Edit',
    doc: 'puts a column of your own before this one; formulas go on naming the cells that they name',
    onCells: true,
    name: 'Insert a column of your own before this one',
    possible: (desk) => growing(desk.sheet) && ownColumn(desk),
    run(desk) {
      const { book, sheet } = desk;
      const { column } = desk.selection.place;
      if (compiledSheets.has(sheet)) {
        desk.open({ kind: 'own-column', position: undefined, at: column });
        return;
      }
      const { record } = desk.selection.place;
      const add = (): void => book.addColumn(sheet, newHeader(book.sheet(sheet)), ownKind(sheet), column);
      changeAll(desk, 'add column', add, () => desk.goTo({ sheet, record, column }));
    },
  },
  {
    id: 'change-column',
    group: 'Edit',
    key: 'Alt+Shift+M',
    doc: 'changes a column of your own: its name, kind, unit, format, meaning, place and formula',
    onCells: true,
    onHeaders: true,
    name: 'Change this column …',
    possible: ownColumn,
    run(desk) {
      const { column } = desk.selection.place;
      desk.open({ kind: 'own-column', position: column, at: column });
    },
  },
  {
    id: 'remove-column',
    group: 'Edit',
    doc: 'removes the selected columns of your own and their contents',
    onCells: true,
    name: (desk) => {
      const { length } = ownColumns(desk);
      return length > 1 ? `Remove ${length} columns` : 'Remove this column';
    },
    possible: (desk) => ownColumn(desk) && desk.book.columns(desk.sheet).length > ownColumns(desk).length,
    run(desk) {
      const { sheet, book } = desk;
      // The last first, so that taking one away leaves the places of the others.
      const removed = ownColumns(desk).sort((one, other) => other - one);
      changeAll(desk, 'remove column', () =>
        book.replace(
          removed.reduce((state, column) => withColumnRemoved(state, sheet, column), book.state),
          'remove column',
        ),
      );
    },
  },
  {
    id: 'format-cells',
    group: 'Edit',
    key: 'Alt+Shift+G',
    doc: 'says what the selected cells of your own hold and with how many decimals they show it',
    onCells: true,
    name: 'Format these cells …',
    possible: (desk) => ownColumn(desk) && selectedCells(desk).length > 0,
    run: (desk) => desk.open({ kind: 'format' }),
  },
  {
    id: 'own-name',
    group: 'Edit',
    key: 'Alt+Shift+S',
    doc: 'adds a named value of your own to Assumptions, with unit, meaning and source, or changes the selected one',
    onCells: true,
    name: (desk) => (ownNameHere(desk) === undefined ? 'Add a named value of your own …' : 'Change this named value …'),
    run: (desk) =>
      desk.open({
        kind: 'own-name',
        record: ownNameHere(desk) === undefined ? undefined : desk.selection.place.record,
      }),
  },
]);
