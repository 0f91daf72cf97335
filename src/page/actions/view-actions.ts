import type { Desk, Theme, View } from '../desk.ts';
import { noFinding } from '../finding-text.ts';
import { type Action, actionList } from './action.ts';
import { columnViewActions } from './column-view-actions.ts';

const shown = (yes: boolean, name: string): string => `${yes ? 'Hide' : 'Show'} ${name}`;

const view = <Id extends View>(id: Id, name: string, key: string, doc: string): Action<`panel-${Id}`> => ({
  id: `panel-${id}`,
  group: 'View',
  key,
  doc,
  name: (desk) => shown(desk.view === id, name),
  run(desk) {
    desk.view = desk.view === id ? undefined : id;
    desk.changed();
  },
});

const theme = <Chosen extends Theme>(chosen: Chosen, name: string): Action<`theme-${Chosen}`> => ({
  id: `theme-${chosen}`,
  group: 'View',
  name,
  doc: 'the colours of the page',
  chosen: (desk) => desk.theme === chosen,
  run(desk) {
    desk.theme = chosen;
    desk.changed();
  },
});

function stepSheet(desk: Desk, step: number): void {
  const names = desk.book.state.sheets.map(({ name }) => name);
  const next = names[(names.indexOf(desk.sheet) + step + names.length) % names.length];
  if (next === undefined) return;
  desk.show(next);
  desk.grid?.focus();
}

/** Opens the line for finding, or goes back into it. */
function openFind(desk: Desk, field: string): void {
  desk.finding ??= noFinding;
  desk.changed();
  // The line stands in the page after its next drawing.
  requestAnimationFrame(() =>
    requestAnimationFrame(() => document.querySelector<HTMLInputElement>(`#${field}`)?.select()),
  );
}

export const viewActions = actionList([
  view('joint', 'joint drawing', 'Alt+Shift+J', 'the selected belt’s joint (splice), drawn to scale'),
  {
    ...view(
      'working',
      'calculation',
      'Alt+Shift+W',
      'how the selected cell’s value is calculated, down to the entered values, with sources',
    ),
    onCells: true,
  },
  view(
    'skew',
    'skew advisor',
    'Alt+Shift+K',
    'the minimum skew at which the selected belt’s joint passes, for every plate series',
  ),
  view(
    'pull',
    'belt tension',
    'Alt+Shift+P',
    'the selected belt’s tension by every method, the load cases, and its pulleys',
  ),
  view(
    'what-if',
    'what if',
    'Alt+Shift+V',
    'which value meets a goal for the selected belt, what a figure depends on, and variants of the book',
  ),
  {
    id: 'panel-findings',
    group: 'View',
    key: 'Alt+Shift+L',
    doc: 'lists the checks that fail, are tight or are not known',
    name: ({ findingsShown }) => shown(findingsShown, 'findings'),
    run(desk) {
      desk.findingsShown = !desk.findingsShown;
      desk.changed();
    },
  },
  ...columnViewActions,
  {
    id: 'clear-view',
    group: 'View',
    key: 'Alt+Shift+O',
    doc: 'clears sorting and filters: all rows, in the order of the book',
    onCells: true,
    name: 'Clear sort and filters',
    possible: ({ grid }) => grid?.viewed === true,
    run(desk) {
      desk.grid?.rowView?.clear();
      desk.changed();
    },
  },
  theme('auto', 'System colours'),
  theme('light', 'Light'),
  theme('dark', 'Dark'),
  {
    id: 'next-sheet',
    group: 'Go',
    key: 'Alt+PageDown',
    name: 'Next sheet',
    doc: 'goes to the sheet to the right',
    run: (desk) => stepSheet(desk, 1),
  },
  {
    id: 'previous-sheet',
    group: 'Go',
    key: 'Alt+PageUp',
    name: 'Previous sheet',
    doc: 'goes to the sheet to the left',
    run: (desk) => stepSheet(desk, -1),
  },
  {
    id: 'go-to',
    group: 'Go',
    key: 'Ctrl+G',
    name: 'Go to …',
    doc: 'moves to the cell name box: type a place such as J7 or Strips!B3, or the name of a belt, column or value',
    run: () => document.querySelector<HTMLInputElement>('#cell-name')?.select(),
  },
  {
    id: 'find',
    group: 'Go',
    key: 'Ctrl+F',
    name: 'Find …',
    doc: 'finds a text in cells and formulas, of this sheet or the whole book',
    run: (desk) => openFind(desk, 'find-text'),
  },
  {
    id: 'replace',
    group: 'Go',
    key: 'Ctrl+H',
    name: 'Find and replace …',
    doc: 'replaces a text in cells and formulas, in one step that can be undone',
    // Before anything is looked for there is nothing to replace.
    run: (desk) => openFind(desk, (desk.finding?.text ?? '') === '' ? 'find-text' : 'replace-text'),
  },
  {
    id: 'formula-bar',
    group: 'Go',
    key: 'Alt+Shift+E',
    name: 'Formula bar',
    doc: 'moves to the line that shows the whole formula',
    run: () => document.querySelector<HTMLTextAreaElement>('#formula')?.focus(),
  },
  {
    id: 'next-area',
    group: 'Go',
    key: 'F6',
    name: 'Next area',
    doc: 'moves between the top bar, the formula bar, the view, the grid, the panels and the sheet tabs',
    run() {
      const areas = [...document.querySelectorAll<HTMLElement>('[data-area]')].filter(
        (area) => area.offsetParent !== null || area.getClientRects().length > 0,
      );
      // The grid's cell loses the focus to nothing when it scrolls out of view; its keys stay the grid's.
      const lost = document.activeElement === null || document.activeElement === document.body;
      const at = areas.findIndex((area) =>
        lost ? area.dataset['area'] === 'grid' : area.contains(document.activeElement),
      );
      for (let step = 1; step <= areas.length; step += 1) {
        const area = areas[(at + step) % areas.length];
        if (area?.dataset['area'] === 'grid') {
          area.dispatchEvent(new CustomEvent('enter-grid', { bubbles: true }));
          return;
        }
        const target =
          area?.querySelector<HTMLElement>('[data-enter]') ??
          area?.querySelector<HTMLElement>(
            ':is(button:not(:disabled), input, textarea, select, [tabindex="0"]):not([tabindex="-1"])',
          );
        if (target !== null && target !== undefined) {
          target.focus();
          return;
        }
      }
    },
  },
]);
