import { html, nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { shownContent } from '../../merge/item-words.ts';
import type { MergeItem } from '../../merge/merge-item.ts';
import { counted } from '../../units/phrases.ts';
import type { Comparing, DifferenceGroup } from '../comparing.ts';
import type { Desk } from '../desk.ts';
import type { Importing } from '../importing.ts';

/** What differs between the open book and a file, to be taken or left: each, a column, or all. */

/** Rows of a group that are shown; those beyond are taken or left with it. */
const mostShown = 200;

const changes = { new: 'new in the file', gone: 'not in the file', changed: 'other in the file' } as const;

function itemRow(desk: Desk, comparing: Comparing, item: MergeItem): TemplateResult {
  const { cells, kind, there = 'changed' } = item;
  const { units } = comparing.plan;
  const subject = item.record === '' ? item.column || item.sheet || 'order' : item.record;
  return html`
    <tr>
      <td><input type="checkbox" aria-label="Take ${subject}${item.level === 'cell' ? `, ${item.column}` : ''}"
        .checked=${live(comparing.takes(item))} @change=${(event: Event) => {
          comparing.take([item], (event.target as HTMLInputElement).checked);
          desk.changed();
        }} /></td>
      <td>${subject}</td>
      <td>${cells === undefined ? '' : shownContent(cells.mine.content, kind, units)}</td>
      <td>${cells === undefined ? changes[there] : shownContent(cells.theirs.content, kind, units)}</td>
    </tr>
  `;
}

function groupTable(desk: Desk, comparing: Comparing, { name, items }: DifferenceGroup): TemplateResult {
  return html`
    <section class="import-table">
      <h3><label><input type="checkbox" aria-label="Take all of ${name}" .checked=${live(comparing.takesAll(items))}
        @change=${(event: Event) => {
          comparing.take(items, (event.target as HTMLInputElement).checked);
          desk.changed();
        }} /> ${name}</label><span class="soft">${counted(items.length, 'difference')}</span></h3>
      <table class="table">
        <thead><tr><th>Take</th><th>Of</th><th>In this book</th><th>In the file</th></tr></thead>
        <tbody>${items.slice(0, mostShown).map((item) => itemRow(desk, comparing, item))}</tbody>
      </table>
      ${items.length > mostShown ? html`<p class="soft">and ${items.length - mostShown} more</p>` : nothing}
    </section>
  `;
}

export function comparison(desk: Desk, importing: Importing, comparing: Comparing): TemplateResult {
  const { items, told } = comparing.plan;
  const all = (taken: boolean) => (): void => {
    comparing.take(items, taken);
    desk.changed();
  };
  return html`
    <div class="dialog-body">
      <p class="import-summary" role="status">${
        items.length === 0
          ? html`Nothing differs between this book and <b>${importing.file}</b>.`
          : html`<b>${importing.file}</b>: ${counted(items.length, 'difference')}, ${comparing.taken} taken.`
      }</p>
      <p>It is not known what both come from, so a difference may be a change of yours or one of the file's. What the
        file lacks stays unless you take that too. A list counts only in the columns that it has.</p>
      ${told.length === 0 ? nothing : html`<ul>${told.map((text) => html`<li>${text}</li>`)}</ul>`}
      ${comparing.groups.map((group) => groupTable(desk, comparing, group))}
    </div>
    <div class="dialog-foot">
      <button class="button" @click=${() => importing.look()}>Back</button>
      <button class="button" ?disabled=${items.length === 0} @click=${all(true)}>Take all</button>
      <button class="button" ?disabled=${items.length === 0} @click=${all(false)}>Take none</button>
      <span class="gap"></span>
      <button class="button" @click=${() => desk.close()}>Cancel</button>
      <button class="button" ?disabled=${comparing.taken === 0}
        title="Keeps what is taken in the sheet Variants, to be compared; the book's cells stay"
        @click=${() => importing.keepCompared()}>Keep as a variant</button>
      <button class="button primary" autofocus ?disabled=${comparing.taken === 0}
        @click=${() => importing.acceptCompared()}>Take into this book</button>
    </div>
  `;
}
