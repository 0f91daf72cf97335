import { html, nothing, type TemplateResult } from 'lit-html';
import { belts } from '../../../sheets/belts/index.ts';
import { alikeCells, cellsInWords } from '../../xlsx/import/alike-cells.ts';
import type { ImportReport, NotUnderstood } from '../../xlsx/import/import-model.ts';
import { type LackingInput, lackingWords } from '../../xlsx/import/usual-values.ts';
import type { Importing } from '../importing.ts';

/** What could not be understood, what was assumed, what most belts lack, what is worth a look. */

const mostShown = 200;

const more = (count: number): TemplateResult | typeof nothing =>
  count > mostShown ? html`<p class="soft">and ${count - mostShown} more</p>` : nothing;

/** Where the user says what a text of the list means, for all cells that hold it. */
function meaning(importing: Importing, { column, given }: NotUnderstood): TemplateResult | typeof nothing {
  const declared = belts.columns.find(({ header }) => header === column);
  if (declared === undefined || given.trim() === '') return nothing;
  const { choices } = declared;
  const words = choices === undefined || 'sheet' in choices ? undefined : choices;
  const set = (event: Event): void => {
    const to = (event.target as HTMLInputElement | HTMLSelectElement).value.trim();
    if (to === '') return;
    const others = (importing.choices.values ?? []).filter((value) => value.column !== column || value.from !== given);
    importing.choose({ ...importing.choices, values: [...others, { column, from: given, to }] });
  };
  const label = `What ${given} means in ${column}`;
  return words === undefined || declared.several === true
    ? html`<input aria-label=${label} size="10" placeholder="means …" @change=${set} />`
    : html`<select aria-label=${label} @change=${set}><option value="">means …</option>${words.map(
        (word) => html`<option>${word}</option>`,
      )}</select>`;
}

function lackingList(importing: Importing, lacking: readonly LackingInput[]): TemplateResult | typeof nothing {
  if (lacking.length === 0) return nothing;
  const fill = (column: string, value: string): void => {
    const others = (importing.choices.fill ?? []).filter((item) => item.column !== column);
    importing.choose({ ...importing.choices, fill: [...others, { column, value }] });
  };
  return html`<section><h3>Most verdicts need what the list does not give</h3>
    <ul>${lacking.map(
      (item) =>
        html`<li>${lackingWords(item)} ${
          item.value === undefined
            ? nothing
            : html`<button class="small" @click=${() => fill(item.column, item.value ?? '')}>Fill ${item.column}
              with ${item.value}</button>`
        }</li>`,
    )}</ul></section>`;
}

export function importReport(
  importing: Importing,
  { notUnderstood, remarks, assumed, notKept, lacking }: ImportReport,
): TemplateResult {
  const [wrong, odd] = [alikeCells(notUnderstood), alikeCells(remarks)];
  return html`
    <section>
      <h3>Cells that could not be understood: ${notUnderstood.length}</h3>
      ${
        notUnderstood.length === 0
          ? nothing
          : html`
        <p class="soft">They keep their text, are marked in the grid, and count as not known until you correct them.</p>
        <table class="table">
          <thead><tr><th>Cell</th><th>Column</th><th>Text</th><th>Why</th><th>Allowed</th><th><span
            class="unseen">Meaning</span></th></tr></thead>
          <tbody>${wrong.slice(0, mostShown).map(
            ({ first, cells }) =>
              html`<tr><td>${first.sheet}
                  ${cellsInWords(cells)}</td><td>${first.column}</td><td><code>${first.given}</code></td><td>${
                    first.why
                  }</td><td>${first.allowed}</td><td>${meaning(importing, first)}</td></tr>`,
          )}</tbody>
        </table>${more(wrong.length)}`
      }
    </section>
    ${lackingList(importing, lacking)}
    ${
      assumed.length === 0
        ? nothing
        : html`<section><h3>Assumptions made</h3><ul>${assumed.map((text) => html`<li>${text}</li>`)}</ul></section>`
    }
    ${
      notKept.length === 0
        ? nothing
        : html`<section><h3>Not kept of the file</h3><ul>${notKept.map(
            (text) => html`<li>${text}</li>`,
          )}</ul></section>`
    }
    ${
      odd.length === 0
        ? nothing
        : html`<details><summary><b>Cells to check: ${remarks.length}</b></summary>
      <table class="table"><tbody>${odd
        .slice(0, mostShown)
        .map(
          ({ first: { sheet, column, given, what }, cells }) =>
            html`<tr><td>${sheet} ${cellsInWords(cells)}</td><td>${column}</td><td><code>${given}</code></td><td>${
              what
            }</td></tr>`,
        )}</tbody></table>${more(odd.length)}
    </details>`
    }
  `;
}
