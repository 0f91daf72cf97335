import { beltViews } from '../../../sheets/belt-views.ts';
import { belts } from '../../../sheets/belts/index.ts';
import { columnsOnShow, chooseView, headersOnShow, hideable, hideColumns, layoutOf } from '../column-view.ts';
import { moveColumn, ownViews, removeView, saveView, selectedHeader, setLayout } from '../column-view.ts';
import type { Desk } from '../desk.ts';
import { type Action, actionList } from './action.ts';

/** Views of a sheet's columns: chosen, kept, and put together column by column. */

const allColumns = 'All columns';

type ViewName = (typeof beltViews)[number]['name'];

const ready = <Name extends ViewName>(name: Name, key: string): Action<`view-${Name}`> => ({
  id: `view-${name}`,
  group: 'View',
  key,
  name: name === allColumns ? 'All columns' : `${name} view`,
  doc: `columns of Belts for: ${beltViews.find((view) => view.name === name)?.doc ?? ''}`,
  chosen: ({ book, sheet }) => sheet === belts.name && layoutOf(book, sheet).view === name,
  possible: ({ sheet }) => sheet === belts.name,
  run: ({ book, sheet }) => chooseView(book, sheet, name),
});

const selectedHeaders = ({ book, sheet, selection }: Desk): string[] =>
  selection.columns.flatMap((column) => book.columnAt({ sheet, column })?.header ?? []);

/** Columns that are selected, as far as they may be hidden. */
const hidden = (desk: Desk): string[] => {
  const shown = new Set(headersOnShow(desk.book, desk.sheet));
  return selectedHeaders(desk).filter((header) => shown.has(header) && hideable(desk.sheet, header));
};

function move(desk: Desk, step: 1 | -1): void {
  const header = selectedHeader(desk);
  if (header !== undefined) moveColumn(desk.book, desk.sheet, header, step);
}

const place = ({ book, sheet, selection }: Desk): number => columnsOnShow(book, sheet).indexOf(selection.place.column);

function askName(desk: Desk): void {
  const { book, sheet } = desk;
  const { view } = layoutOf(book, sheet);
  desk.open({
    kind: 'ask',
    title: 'Save these columns as a view',
    label: 'Name of the view',
    initial: ownViews(book, sheet).includes(view) ? view : '',
    answer(text) {
      const name = text.trim();
      if (name === '') return 'A view needs a name.';
      if (beltViews.some((one) => one.name.toLowerCase() === name.toLowerCase()))
        return `${name} is one of the ready-made views. Choose another name.`;
      saveView(book, sheet, name);
      return undefined;
    },
  });
}

export const columnViewActions = actionList([
  ready('Planner', 'Alt+Shift+1'),
  ready('Buyer', 'Alt+Shift+2'),
  ready('Engineer', 'Alt+Shift+3'),
  ready('All columns', 'Alt+Shift+4'),
  {
    id: 'columns',
    group: 'View',
    key: 'Alt+Shift+N',
    name: 'Columns …',
    doc: 'lists all columns of the sheet, to find, show, hide, move and go to',
    run: (desk) => desk.open({ kind: 'columns', search: '' }),
  },
  {
    id: 'save-view',
    group: 'View',
    name: 'Save as a view …',
    doc: 'keeps the columns on show, their order, widths and freeze under a name, with the book',
    run: askName,
  },
  {
    id: 'remove-view',
    group: 'View',
    name: ({ book, sheet }) => `Remove the view ${layoutOf(book, sheet).view}`,
    doc: 'removes a view of your own; its columns stay in the book',
    possible: ({ book, sheet }) => ownViews(book, sheet).includes(layoutOf(book, sheet).view),
    run: ({ book, sheet }) => removeView(book, sheet, layoutOf(book, sheet).view),
  },
  {
    id: 'background',
    group: 'View',
    doc: 'all columns, with the intermediate ones that only other columns use',
    name: ({ book, sheet }) => `${layoutOf(book, sheet).intermediate ? 'Hide' : 'Show'} intermediate columns`,
    run({ book, sheet }) {
      const { intermediate } = layoutOf(book, sheet);
      setLayout(book, sheet, {
        intermediate: !intermediate,
        headers: 'all',
        view: sheet === belts.name ? allColumns : '',
      });
    },
  },
  {
    id: 'hide-column',
    group: 'View',
    onHeaders: true,
    onCells: true,
    name: (desk) => (hidden(desk).length > 1 ? `Hide ${hidden(desk).length} columns` : 'Hide this column'),
    doc: 'takes the selected columns out of sight; their contents stay, and Columns … shows them again',
    possible: (desk) => hidden(desk).length > 0 && hidden(desk).length < columnsOnShow(desk.book, desk.sheet).length,
    run: (desk) => hideColumns(desk.book, desk.sheet, hidden(desk)),
  },
  {
    id: 'move-left',
    group: 'View',
    onHeaders: true,
    key: 'Alt+Shift+ArrowLeft',
    name: 'Move this column left',
    doc: 'shows the selected column before the one to its left; formulas and files keep the order of the sheet',
    possible: (desk) => place(desk) > 0,
    run: (desk) => move(desk, -1),
  },
  {
    id: 'move-right',
    group: 'View',
    onHeaders: true,
    key: 'Alt+Shift+ArrowRight',
    name: 'Move this column right',
    doc: 'shows the selected column after the one to its right; formulas and files keep the order of the sheet',
    possible: (desk) => place(desk) >= 0 && place(desk) < columnsOnShow(desk.book, desk.sheet).length - 1,
    run: (desk) => move(desk, 1),
  },
  {
    id: 'freeze',
    group: 'View',
    onHeaders: true,
    name: (desk) =>
      place(desk) + 1 === layoutOf(desk.book, desk.sheet).frozen ? 'Unfreeze columns' : 'Freeze up to this column',
    doc: 'keeps the columns from the left up to the selected one in view while the others scroll',
    possible: (desk) => place(desk) >= 0,
    run(desk) {
      const upTo = place(desk) + 1;
      const { frozen } = layoutOf(desk.book, desk.sheet);
      setLayout(desk.book, desk.sheet, { frozen: upTo === frozen ? 0 : upTo });
    },
  },
]);
