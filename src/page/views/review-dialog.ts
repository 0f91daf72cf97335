import { html, type TemplateResult } from 'lit-html';
import { cellArea } from '../../formula/references.ts';
import type { Desk, Dialog } from '../desk.ts';
import { dialog } from './dialog.ts';

/** What turning the units could not do by itself. */
export function reviewDialog(
  desk: Desk,
  { review, units }: Extract<Dialog, { readonly kind: 'review' }>,
): TemplateResult {
  const jump = (place: string): void => {
    const area = cellArea(place);
    desk.close();
    if (area !== undefined) desk.goTo({ sheet: area.sheet ?? desk.sheet, record: area.top - 1, column: area.left });
  };
  return dialog(
    desk,
    `The book is now in ${units} units: check ${review.length === 1 ? 'one cell' : `${review.length} cells`}`,
    'review-dialog',
    html`
    <div class="dialog-body">
      <p>Measures were converted; the sheets' own formulas need no change. Check the cells below: they could not be
        converted. Undo reverses the whole conversion.</p>
      <table class="table">
        <thead><tr><th>Cell</th><th>Column</th><th>Content</th><th>Why</th></tr></thead>
        <tbody>${review.map(
          ({ place, column, content, why }) => html`<tr><td><button class="link"
          @click=${() => jump(place)}>${place}</button></td><td>${column}</td><td><code>${content}</code></td><td
            >${why}</td></tr>`,
        )}</tbody>
      </table>
    </div>
    <div class="dialog-foot"><button class="button primary" autofocus @click=${() => desk.close()}>Close</button></div>
  `,
  );
}
