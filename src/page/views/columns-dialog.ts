import { html, nothing, type TemplateResult } from 'lit-html';
import { beltGroups } from '../../../sheets/belts/groups.ts';
import { groupOf } from '../../workbook/column-layout.ts';
import type { BookColumn } from '../../workbook/declared.ts';
import { shownHeader } from '../../sheet/header.ts';
import { foldGroup, headersOnShow, hideable, hideColumns, layoutOf, moveColumn, showColumn } from '../column-view.ts';
import type { Desk, Dialog } from '../desk.ts';
import { dialog } from './dialog.ts';

/** All columns of the sheet: found by a word, shown, hidden, moved, gone to. */

type Asked = Extract<Dialog, { readonly kind: 'columns' }>;

const matches = ({ header, doc }: BookColumn, group: string, search: string): boolean =>
  search
    .toLowerCase()
    .split(/\s+/)
    .every((word) => `${header} ${doc} ${group}`.toLowerCase().includes(word));

/** Columns on show in their order, then the others as the sheet has them. */
function listed({ book, sheet }: Desk, search: string): readonly BookColumn[] {
  const columns = book.columns(sheet);
  const shown = headersOnShow(book, sheet);
  const byHeader = new Map(columns.map((column) => [column.header, column]));
  const hidden = columns.filter(({ header }) => !shown.includes(header));
  const all = [...shown.flatMap((header) => byHeader.get(header) ?? []), ...hidden];
  const found = all.filter((column) => matches(column, groupOf(sheet, column.header) ?? '', search));
  // A word of the name is more likely meant than the same word in an explanation.
  const named = ({ header }: BookColumn): boolean => header.toLowerCase().includes(search.toLowerCase());
  return search === '' ? found : [...found.filter(named), ...found.filter((column) => !named(column))];
}

function goTo(desk: Desk, header: string): void {
  const { sheet, selection } = desk;
  const column = desk.book.findColumn(sheet, header);
  desk.close();
  if (column === undefined) return;
  desk.goTo({ sheet, record: selection.place.record, column });
  desk.grid?.focus();
}

function row(desk: Desk, column: BookColumn, shown: readonly string[]): TemplateResult {
  const { book, sheet } = desk;
  const { header } = column;
  const name = shownHeader(column, book.units);
  const doc = `${column.computed ? 'calculated: ' : ''}${column.doc}`;
  const at = shown.indexOf(header);
  const toggle = (): void => (at < 0 ? showColumn(book, sheet, header) : hideColumns(book, sheet, [header]));
  const move = (step: 1 | -1, label: string, mark: string): TemplateResult => html`<button class="small quiet"
    aria-label="Move ${name} ${label}" title="Move ${label}" ?disabled=${at < 0 || shown[at + step] === undefined}
    @click=${() => moveColumn(book, sheet, header, step)}>${mark}</button>`;
  return html`<li class=${at < 0 ? 'column-hidden' : ''}>
    <label><input type="checkbox" .checked=${at >= 0} ?disabled=${!hideable(sheet, header)} @change=${toggle} />
      <b>${name}</b></label>
    <span class="column-doc" title=${doc}>${doc}</span>
    ${move(-1, 'left', '←')}${move(1, 'right', '→')}
    <button class="small" aria-label="Go to ${name}" @click=${() => goTo(desk, header)}>Go to</button>
  </li>`;
}

const groups = (desk: Desk): TemplateResult | typeof nothing => {
  const { book, sheet } = desk;
  if (groupOf(sheet, beltGroups[0]?.headers[0] ?? '') === undefined) return nothing;
  const { folded } = layoutOf(book, sheet);
  return html`<fieldset class="column-groups"><legend>Groups on show</legend>${beltGroups.map(
    ({ name, doc }) => html`<label title=${doc}><input type="checkbox" .checked=${!folded.includes(name)}
      @change=${() => foldGroup(book, sheet, name)} />${name}</label>`,
  )}</fieldset>`;
};

export function columnsDialog(desk: Desk, { search }: Asked): TemplateResult {
  const { book, sheet } = desk;
  const found = listed(desk, search.trim());
  const shown = headersOnShow(book, sheet);
  const [first] = found;
  return dialog(
    desk,
    `Columns of ${sheet}`,
    'columns-dialog',
    html`
    <form class="dialog-body columns-body" @submit=${(event: SubmitEvent) => {
      event.preventDefault();
      if (first !== undefined) goTo(desk, first.header);
    }}>
      <label class="columns-search">Search <input type="search" autofocus autocomplete="off" .value=${search}
        placeholder="a word of the name, the meaning or the group; Enter goes to the first"
        @input=${(event: Event) => desk.open({ kind: 'columns', search: (event.target as HTMLInputElement).value })}
        /></label>
      ${groups(desk)}
      <p class="soft" role="status">${shown.length} of ${book.columns(sheet).length} columns on show${
        search.trim() === '' ? '' : `, ${found.length} found`
      }</p>
      <ul class="column-list" aria-label="Columns">${found.map((column) => row(desk, column, shown))}</ul>
      ${found.length === 0 ? html`<p>No column of ${sheet} is about "${search.trim()}".</p>` : nothing}
    </form>
  `,
  );
}
