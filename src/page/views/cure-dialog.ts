import { html, nothing, type TemplateResult } from 'lit-html';
import type { PreviewedCure } from '../cure-preview.ts';
import type { Desk, Dialog } from '../desk.ts';
import { attempt } from '../book-changes.ts';
import { askToKeep } from '../keeping-variant.ts';
import { dialog } from './dialog.ts';

/** The cures of one finding, each with what it would change and a button that does it. */

/** Figures that follow beyond these are counted. */
const mostFollowing = 12;

function apply(desk: Desk, { edits }: PreviewedCure): void {
  const [first] = edits;
  if (first === undefined) return;
  if (!attempt(desk, () => desk.book.edit(edits, 'cure'))) return;
  desk.close();
  desk.goTo(first);
  desk.say('The cure is entered. Undo takes it back.');
}

function previewed(desk: Desk, belt: string, cure: PreviewedCure): TemplateResult {
  const { text, entered, follows, edits } = cure;
  if (edits.length === 0)
    return html`<li><p>${text}</p><p class="soft">This is not a matter of one entry: do it by hand.</p></li>`;
  const words = entered.map(({ header, after }) => `${header} ${after}`).join(', ');
  const rows = [...entered, ...follows.slice(0, mostFollowing)];
  return html`<li>
    <p>${text}</p>
    <table class="cure-table">
      <thead><tr><th scope="col">Column</th><th scope="col">Now</th><th scope="col">Then</th></tr></thead>
      <tbody>${rows.map(
        ({ header, now, after }, index) => html`<tr class=${index < entered.length ? 'cure-entered' : ''}>
          <th scope="row">${header}${index < entered.length ? html` <span class="soft">entered</span>` : nothing}</th>
          <td>${now}</td><td>${after}</td></tr>`,
      )}</tbody>
    </table>
    ${
      follows.length > mostFollowing
        ? html`<p class="soft">${follows.length - mostFollowing} more figures change with them.</p>`
        : nothing
    }
    <button class="button primary" @click=${() => apply(desk, cure)}>Enter ${words}</button>
    <button class="button" title="Keeps it in the sheet Variants, to be compared; the belt stays"
      @click=${() =>
        askToKeep(desk, 'Keep the cure as a variant', `${belt}, ${words}`, edits)}>Keep as a variant …</button>
  </li>`;
}

export function cureDialog(desk: Desk, { finding, cures }: Extract<Dialog, { readonly kind: 'cure' }>): TemplateResult {
  return dialog(
    desk,
    `${finding.name}: cures for ${finding.check}`,
    'cure-dialog',
    html`<div class="dialog-body">
      <p>${finding.message}</p>
      <ol class="cure-list">${cures.map((cure) => previewed(desk, finding.name, cure))}</ol>
    </div>`,
  );
}
