import { html, nothing, type TemplateResult } from 'lit-html';
import { guard } from 'lit-html/directives/guard.js';
import { columnDependents, nameDependents } from '../../workbook/dependence.ts';
import { namedSheetOf, compiledSheets } from '../../workbook/declared.ts';
import type { CellPlace } from '../../workbook/place.ts';
import type { Workbook } from '../../workbook/workbook.ts';
import type { Desk } from '../desk.ts';
import type { Mark } from '../../sheet/source-marks.ts';
import { follow, grounds, hold, release, rootOf, workingPlace, workingVersion } from '../working.ts';
import { recordTitle, workingTree } from './working-tree.ts';

/** What the selected cell's value is made of, down to what was entered, and what moves with it. */

interface Followers {
  readonly title: string;
  readonly cells: readonly { readonly header: string; readonly place: CellPlace | undefined }[];
}

/**
 * Columns that are worked out from a cell: of its own sheet, so of its own record, by their cells; of other sheets by
 * their names.
 */
function followers(book: Workbook, { sheet, record, column }: CellPlace): Followers[] {
  const name = namedSheetOf(sheet) === undefined ? undefined : String(book.content({ sheet, record, column: 0 }));
  const found = name === undefined ? columnDependents(sheet, column) : nameDependents(name);
  const groups = new Map<string, { header: string; place: CellPlace | undefined }[]>();
  for (const { sheet: other, column: position } of found) {
    const declared = compiledSheets.get(other)?.columns[position];
    if (declared === undefined || declared.background === true) continue;
    const own = other === sheet;
    const title = own ? 'Used by' : `Used by, in ${other}`;
    groups.set(title, [
      ...(groups.get(title) ?? []),
      { header: declared.header, place: own ? { sheet: other, record, column: position } : undefined },
    ]);
  }
  return [...groups].map(([title, cells]) => ({ title, cells }));
}

function followersList(desk: Desk, root: CellPlace): TemplateResult | typeof nothing {
  const groups = followers(desk.book, root);
  if (groups.length === 0) return nothing;
  return html`${groups.map(
    ({ title, cells }) => html`
    <h4 class="working-head">${title}</h4>
    <p class="working-followers">${cells.map(
      ({ header, place }, index) =>
        html`${index === 0 ? '' : ', '}${
          place === undefined
            ? header
            : html`<button class="link" title="Go to this cell" @click=${() =>
                follow(desk, root, place)}>${header}</button>`
        }`,
    )}</p>`,
  )}`;
}

const countWords: Partial<Readonly<Record<Mark, string>>> = {
  supplier: 'from the supplier',
  assumption: 'assumed',
  standard: 'from a standard',
  'over the formula': 'entered over a formula',
  'your formula': 'by your formula',
};

/** Names of unsure figures that are told at most; the tree has them all. */
const mostNamed = 8;

function groundsLine(desk: Desk, root: CellPlace, tree: ReturnType<typeof rootOf>): TemplateResult | typeof nothing {
  if (!tree.expandable) return nothing;
  const { counts, unsure } = grounds(desk.book, tree.item);
  return html`
    <p class="working-grounds">Based on ${counts.map(
      ([mark, count], index) => html`${index === 0 ? '' : ', '}<b>${count}</b> ${countWords[mark] ?? mark}`,
    )}${counts.length === 0 ? 'no entered value' : ''}.</p>
    ${
      unsure.length === 0
        ? nothing
        : html`<p class="working-unsure">Unverified: ${unsure
            .slice(0, mostNamed)
            .map(
              ({ name, mark, place }, index) =>
                html`${index === 0 ? '' : ', '}${
                  place === undefined
                    ? name
                    : html`<button class="link" title="Go to this cell" @click=${() =>
                        follow(desk, root, place)}>${name}</button>`
                } (${mark})`,
            )}${unsure.length > mostNamed ? ` and ${unsure.length - mostNamed} more` : ''}.</p>`
    }`;
}

/** Where a sheet of named values says what a value means. */
const meaningColumn = 3;

function content(desk: Desk, place: CellPlace, held: boolean): TemplateResult {
  const { book } = desk;
  const tree = rootOf(book, place);
  const doc =
    tree.item.origin === 'named value'
      ? String(book.content({ ...place, column: meaningColumn }) ?? '')
      : (book.columnAt(place)?.doc ?? '');
  const why =
    tree.item.origin === 'empty'
      ? 'Nothing is entered in this cell.'
      : tree.item.origin === 'entered'
        ? 'Entered: it is not calculated.'
        : tree.item.origin === 'named value'
          ? 'A named value: formulas use it by its name.'
          : undefined;
  return html`
    <div class="working-top">
      <h3>${tree.item.header} <span>${recordTitle(book, tree.item)}</span></h3>
      <button class="small" aria-pressed=${held}
        title="Keep this cell shown while you select and change others; changed values show their former value"
          @click=${() => (held ? release(desk) : hold(desk, place))}>${held ? 'Pinned' : 'Pin'}</button>
    </div>
    ${
      held
        ? html`<p class="working-held"><span>Pinned.</span><button class="link"
      @click=${() => release(desk)}>Follow the selection</button><button class="link"
        @click=${() => follow(desk, place, place)}>Back to ${tree.item.cell}</button></p>`
        : nothing
    }
    ${doc === '' ? nothing : html`<p class="working-doc">${doc}</p>`}
    ${groundsLine(desk, place, tree)}
    ${workingTree(desk, tree)}
    ${why === undefined ? nothing : html`<p class="working-doc">${why}</p>`}
    ${followersList(desk, place)}
  `;
}

export function workingView(desk: Desk): unknown {
  const shown = workingPlace(desk);
  if (shown === undefined)
    return html`<p class="empty" data-enter
      tabindex="0">Select a cell to see how its value is calculated: the formula, each part with its unit, and the
        sources, down to the entered values.</p>`;
  const {
    place: { sheet, record, column },
    held,
  } = shown;
  return guard([desk.book.state, sheet, record, column, held, workingVersion()], () =>
    content(desk, shown.place, held),
  );
}
