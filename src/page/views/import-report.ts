import { html, nothing, type TemplateResult } from 'lit-html';
import type { ImportReport } from '../../xlsx/import/import-model.ts';

/** What could not be understood, what was assumed, what is worth a look. */

const mostShown = 200;

const more = (count: number): TemplateResult | typeof nothing =>
  count > mostShown ? html`<p class="soft">and ${count - mostShown} more</p>` : nothing;

export function importReport({ notUnderstood, remarks, assumed }: ImportReport): TemplateResult {
  return html`
    <section>
      <h3>Cells that could not be understood: ${notUnderstood.length}</h3>
      ${
        notUnderstood.length === 0
          ? nothing
          : html`
        <p class="soft">They keep their text, are marked in the grid, and count as not known until you correct them.</p>
        <table class="table">
          <thead><tr><th>Cell</th><th>Column</th><th>Text</th><th>Why</th><th>Allowed</th></tr></thead>
          <tbody>${notUnderstood.slice(0, mostShown).map(
            ({ sheet, cell, column, given, why, allowed }) =>
              html`<tr><td>${sheet}
                  ${cell}</td><td>${column}</td><td><code>${given}</code></td><td>${why}</td><td>${allowed}</td></tr>`,
          )}</tbody>
        </table>${more(notUnderstood.length)}`
      }
    </section>
    ${
      assumed.length === 0
        ? nothing
        : html`<section><h3>Assumptions made</h3><ul>${assumed.map((text) => html`<li>${text}</li>`)}</ul></section>`
    }
    ${
      remarks.length === 0
        ? nothing
        : html`<details><summary><b>Cells to check: ${remarks.length}</b></summary>
      <table class="table"><tbody>${remarks
        .slice(0, mostShown)
        .map(
          ({ sheet, cell, column, given, what }) =>
            html`<tr><td>${sheet} ${cell}</td><td>${column}</td><td><code>${given}</code></td><td>${what}</td></tr>`,
        )}</tbody></table>${more(remarks.length)}
    </details>`
    }
  `;
}
