import type { Section } from '../reference/entry.ts';
import { actionName } from './actions/action.ts';
import { actions } from './actions/index.ts';
import type { Desk } from './desk.ts';

/** Keys of the grid and the panels, which no action of the page stands for. */
const gridKeys: readonly (readonly [string, string])[] = [
  ['F2 or Enter', 'edit the cell; Enter confirms and moves down, Esc cancels'],
  [
    '=',
    'begin a formula; Tab completes a name, arrows and clicks point at cells (Shift for a range), F4 turns dollars',
  ],
  ['Delete', 'clear the cells; in a computed column this restores the sheet’s formula'],
  ['Ctrl+C, Ctrl+X, Ctrl+V', 'copy, cut, paste; also to and from spreadsheet programs'],
  ['Arrows, Page Up, Page Down, Home, End', 'move; Ctrl jumps to the edge, Shift selects'],
  ['Ctrl+A', 'select all'],
  [
    'Alt+Shift+arrow down',
    'open the column’s menu: sort and filter; Tab goes on to the filters, arrow down from the search box to the values',
  ],
  ['Shift+F10', 'open the cell’s menu'],
  [
    'Arrows, *, Enter, Esc in Calculation',
    'move through the tree and open it; * opens a whole level; Enter goes to the cell, Esc returns to the grid',
  ],
  ['Up and down arrow in Skew', 'show the next plate series'],
  ['Arrows on the line beside the panels', 'resize the panels and the findings; Enter restores the default size'],
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
