import { compiledSheets } from '../../workbook/declared.ts';
import {
  canMoveSheet,
  copyName,
  sheetNameRefusal,
  withSheetCopied,
  withSheetMoved,
  withSheetRenamed,
} from '../../workbook/free-sheets.ts';
import type { Desk } from '../desk.ts';
import { changeAll } from '../book-changes.ts';
import { type Action, actionList } from './action.ts';

/** Sheets of the user's own: added, renamed, copied, moved, removed. */

/** The name of a new free sheet that no other sheet has. */
function freeName(desk: Desk): string {
  const names = new Set(desk.book.state.sheets.map(({ name }) => name.toLowerCase()));
  for (let number = 1; ; number += 1) if (!names.has(`sheet ${number}`)) return `Sheet ${number}`;
}

const isOwn = ({ sheet }: Desk): boolean => !compiledSheets.has(sheet);

/** The book's change first: its views would find no sheet of the new name. */
function renameSheet(desk: Desk, after: string): void {
  const { book, sheet } = desk;
  const { record, column } = desk.selection.place;
  const rename = (): void => book.replace(withSheetRenamed(book.state, sheet, after), 'rename sheet');
  changeAll(desk, 'rename sheet', rename, () => desk.goTo({ sheet: after, record, column }));
}

const move = <Way extends 'left' | 'right'>(way: Way): Action<`move-sheet-${Way}`> => {
  const step = way === 'left' ? -1 : 1;
  return {
    id: `move-sheet-${way}`,
    group: 'Book',
    name: `Move this sheet ${way}`,
    doc: `moves a sheet of your own to the ${way}; your sheets stand behind those of the book`,
    possible: ({ book, sheet }) => canMoveSheet(book.state, sheet, step),
    run(desk) {
      const { book, sheet } = desk;
      changeAll(desk, 'move sheet', () => book.replace(withSheetMoved(book.state, sheet, step), 'move sheet'));
    },
  };
};

export const sheetActions = actionList([
  {
    id: 'add-sheet',
    group: 'Book',
    name: 'Add a blank sheet',
    doc: 'adds a sheet for your own figures; its cells can refer to any other sheet',
    run(desk) {
      const name = freeName(desk);
      const add = (): void => desk.book.addSheet(name);
      changeAll(desk, 'add sheet', add, () => desk.goTo({ sheet: name, record: 0, column: 0 }));
    },
  },
  {
    id: 'rename-sheet',
    group: 'Book',
    key: 'Alt+Shift+R',
    name: 'Rename this sheet …',
    doc: 'renames a sheet of your own; formulas follow',
    possible: isOwn,
    run(desk) {
      const { sheet } = desk;
      desk.open({
        kind: 'ask',
        title: 'Rename the sheet',
        label: 'Name',
        initial: sheet,
        answer(text) {
          const refusal = sheetNameRefusal(desk.book.state, text, sheet);
          if (refusal === undefined && text.trim() !== sheet) renameSheet(desk, text.trim());
          return refusal;
        },
      });
    },
  },
  {
    id: 'copy-sheet',
    group: 'Book',
    name: 'Copy this sheet',
    doc: 'puts a copy of a sheet of your own behind it; its formulas look at its own cells',
    possible: isOwn,
    run(desk) {
      const { book, sheet } = desk;
      const name = copyName(book.state, sheet);
      const copy = (): void => book.replace(withSheetCopied(book.state, sheet, name), 'copy sheet');
      changeAll(desk, 'copy sheet', copy, () => desk.goTo({ sheet: name, record: 0, column: 0 }));
    },
  },
  move('left'),
  move('right'),
  {
    id: 'remove-sheet',
    group: 'Book',
    name: ({ sheet }) => (compiledSheets.has(sheet) ? 'Remove this sheet' : `Remove the sheet ${sheet}`),
    doc: 'removes a sheet of your own',
    possible: isOwn,
    run(desk) {
      const { sheet, book } = desk;
      desk.show(book.state.sheets[0]?.name ?? '');
      changeAll(desk, 'remove sheet', () => book.removeSheet(sheet));
    },
  },
]);
