import type { Section } from '../reference/entry.ts';
import { actionName } from './actions/action.ts';
import { actions } from './actions/index.ts';
import type { Desk } from './desk.ts';

/** Keys of the grid and the panels, which no action of the page stands for. */
const gridKeys: readonly (readonly [key: string, does: string])[] = [
  ['F2 or Enter', 'edit the cell; Enter moves on, Esc leaves it as it was'],
  ['=', 'begin a formula; Tab completes a function’s name'],
  ['Delete', 'empty the cells; in a computed column the sheet’s formula comes back'],
  ['Ctrl+C, Ctrl+X, Ctrl+V', 'copy, cut, paste; also from and to spreadsheet programs'],
  ['Arrows, Page Up, Page Down, Home, End', 'move; with Ctrl to the edge, with Shift select'],
  ['Ctrl+A', 'select all'],
  ['Alt+Shift+arrow down', 'the column’s menu: sort and filter'],
  ['Shift+F10', 'the menu of the cell'],
  [
    'Arrows, *, Enter, Esc in Working',
    'walk the tree and open it, * all of one level; Enter goes to the cell, Esc back to the grid',
  ],
  ['Up and down arrow in Skew', 'the next plate series'],
  [
    'Arrows on the line beside the panels',
    'make them wider or narrower, the findings higher or lower; Enter for the usual size',
  ],
  ['Esc', 'close a dialog, a menu or an editor'],
];

/** Every key of the page, in the words of what it does now. */
export const keySection = (desk: Desk): Section => ({
  about: ['On a Mac the command key does for Ctrl.'],
  entry: 'key',
  layout: 'table',
  groups: [
    {
      title: '',
      entries: [
        ...actions.flatMap((item) =>
          item.key === undefined ? [] : [{ name: item.key, says: `${actionName(item, desk)}: ${item.doc}`, facts: [] }],
        ),
        ...gridKeys.map(([name, says]) => ({ name, says, facts: [] })),
      ],
    },
  ],
});
