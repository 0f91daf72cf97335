import { html, nothing, type TemplateResult } from 'lit-html';
import { beltGroups } from '../../../sheets/belts/groups.ts';
import { belts } from '../../../sheets/belts/index.ts';
import { act } from '../actions/action.ts';
import { action, type ActionName } from '../actions/index.ts';
import { chooseView, columnsOnShow, foldGroup, layoutOf, ownViews, viewChanged } from '../column-view.ts';
import type { Desk } from '../desk.ts';
import { menu, type MenuEntry } from './menu.ts';
import { withKey } from './top-bar.ts';

/** The line above the sheet: which view of the columns is on show, and how rows are sorted and filtered. */

const viewActionNames: readonly (readonly ActionName[])[] = [
  ['view-Planner', 'view-Buyer', 'view-Engineer', 'view-All columns'],
  ['columns', 'save-view', 'remove-view', 'background'],
  ['hide-column', 'move-left', 'move-right', 'freeze'],
];

/** The user's own views and the groups of columns, which come with the book and its sheets. */
function viewEntries(desk: Desk): readonly (readonly MenuEntry[])[] {
  const { book, sheet } = desk;
  const { view, folded } = layoutOf(book, sheet);
  return [
    ownViews(book, sheet).map((name) => ({
      name,
      doc: 'a view of your own',
      role: 'menuitemradio',
      chosen: view === name,
      run: () => chooseView(book, sheet, name),
    })),
    sheet !== belts.name
      ? []
      : beltGroups.map(({ name, doc }) => ({
          name: `Group ${name}`,
          doc,
          role: 'menuitemcheckbox',
          chosen: !folded.includes(name),
          run: () => foldGroup(book, sheet, name),
        })),
  ];
}

function sortChip(desk: Desk): TemplateResult | typeof nothing {
  const { sort } = layoutOf(desk.book, desk.sheet);
  if (sort === undefined) return nothing;
  return html`<button class="chip" title="Back to the order of the book" @click=${() => desk.grid?.rowView?.clearSort()}
    >Sorted by ${sort.header}, ${sort.descending ? 'largest first' : 'smallest first'}
    <span aria-hidden="true">✕</span><span class="unseen">clear</span></button>`;
}

const filterChips = (desk: Desk): readonly TemplateResult[] =>
  (desk.grid?.sheet === desk.sheet ? (desk.grid.rowView?.filters() ?? []) : []).map(
    ({ column, says }) => html`<button class="chip chip-filter" title="Clear this filter"
      @click=${() => desk.grid?.rowView?.clearFilter(column)}>${
        desk.book.columnAt({ sheet: desk.sheet, column })?.header
      }: ${says} <span aria-hidden="true">✕</span><span class="unseen">clear filter</span></button>`,
  );

export function viewStrip(desk: Desk): TemplateResult {
  const { book, sheet } = desk;
  const { view } = layoutOf(book, sheet);
  const all = book.columns(sheet).length;
  const shown = columnsOnShow(book, sheet).length;
  const columns = action('columns');
  return html`
    <div class="view-strip" data-area="view" role="region" aria-label="View of the sheet">
      ${menu(desk, `View: ${view === '' ? 'columns' : view}`, viewActionNames, viewEntries(desk), 'left')}
      ${viewChanged(book, sheet) ? html`<span class="soft">changed</span>` : nothing}
      <button class="button" title=${withKey(columns, desk)} @click=${() => act(columns, desk)}
      >${shown === all ? `${all} columns` : `${shown} of ${all} columns`} …</button>
      ${sortChip(desk)} ${filterChips(desk)}
    </div>
  `;
}
