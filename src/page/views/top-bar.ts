import { html, nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { type Action, act, actionName, isPossible } from '../actions/action.ts';
import { action, type ActionName } from '../actions/index.ts';
import type { Desk } from '../desk.ts';
import { demoCounts } from '../../workbook/demo-records.ts';
import { evaluationTerms } from '../grid/grid-licence.ts';
import { openLicences } from './help-dialog.ts';
import { menu } from './menu.ts';

/** The bar above: the book's name, the menus, the actions that are used most. */

export const withKey = (item: Action, desk: Desk): string =>
  `${actionName(item, desk)}${item.key === undefined ? '' : ` (${item.key})`}`;

const button = (desk: Desk, id: ActionName, label: string, className = ''): TemplateResult => {
  const item = action(id);
  return html`<button class=${`button ${className}`} title=${withKey(item, desk)} aria-label=${actionName(item, desk)}
    ?disabled=${!isPossible(item, desk)} @click=${() => act(item, desk)}>${label}</button>`;
};

const bookMenu: readonly (readonly ActionName[])[] = [
  ['import', 'export', 'open-file', 'save-file', 'save-file-as', 'blank-list', 'round-sheet'],
  ['books', 'versions', 'rename-book', 'new-book', 'demo-metric', 'demo-us', 'own-figures'],
  ['job-card', 'order-list', 'outage-plan', 'pictures', 'print', 'print-panel'],
  ['add-sheet', 'rename-sheet', 'copy-sheet', 'move-sheet-left', 'move-sheet-right', 'remove-sheet'],
  ['units-metric', 'units-us', 'typing-habits'],
];
const editMenu: readonly (readonly ActionName[])[] = [
  ['undo', 'redo'],
  ['fill-down', 'fill-right', 'today', 'own-formula'],
  ['row-above', 'row-below', 'remove-rows'],
  ['add-column', 'insert-column', 'change-column', 'remove-column', 'format-cells', 'own-name'],
];
const viewMenu: readonly (readonly ActionName[])[] = [
  ['panel-joint', 'panel-working', 'panel-skew', 'panel-pull', 'panel-what-if', 'panel-findings'],
  ['view-Planner', 'view-Buyer', 'view-Engineer', 'view-All columns'],
  ['columns', 'clear-view'],
  ['theme-auto', 'theme-light', 'theme-dark'],
  ['go-to', 'find', 'replace', 'formula-bar', 'next-sheet', 'previous-sheet', 'next-area'],
];

/** What of the book is the demo's. */
function inventedDoc({ book }: Desk): string {
  const counts = demoCounts(book.state);
  return counts.length === 0
    ? 'No row of the demo is left. Say that the figures are yours: Book, These figures are my own.'
    : `Invented, from the demo: ${counts.map(([sheet, count]) => `${sheet} ${count}`).join(', ')}. Their names are ` +
        `underlined with dots until you replace them with your own and your suppliers' figures.`;
}

export function topBar(desk: Desk): TemplateResult {
  const { title, invented, units } = desk.book.state;
  return html`
    <header class="top" data-area="top">
      <h1 class="brand">Skewbook</h1>
      <button class="title" title="Rename book"
        @click=${() => act(action('rename-book'), desk)}>${title === '' ? 'Untitled book' : title}</button>
      ${
        invented
          ? html`<span class="invented"
        title=${inventedDoc(desk)}>invented figures</span>`
          : nothing
      }
      ${
        evaluationTerms === undefined
          ? nothing
          : html`<button class="evaluation" title=${evaluationTerms.join(' ')}
        @click=${() => openLicences(desk)}>Evaluation<span class="wide"> licence of the grid</span></button>`
      }
      <span class="gap"></span>
      ${button(desk, 'import', 'Import')} ${button(desk, 'export', 'Export')}
      ${button(desk, 'undo', '↶ Undo')} ${button(desk, 'redo', '↷ Redo')}
      <label class="units"><span class="unseen">Units</span>
        <select aria-label="Units of the book" .value=${live(units)} @change=${(event: Event) =>
          act(action((event.target as HTMLSelectElement).value === 'us' ? 'units-us' : 'units-metric'), desk)}>
          <option value="metric">Metric</option>
          <option value="us">US customary</option>
        </select>
      </label>
      ${menu(desk, 'Book', bookMenu)} ${menu(desk, 'Edit', editMenu)} ${menu(desk, 'View', viewMenu)}
      ${button(desk, 'help', 'Help')}
    </header>
  `;
}
