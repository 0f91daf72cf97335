import { html, nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { searching } from '../planning/planning-dialog.ts';
import type { OrderSession } from './order-session.ts';

/** The sites that buy together: books are added by their files, and suppliers deliver to each site or to the first. */

/** Conflicts that are shown; the rest are counted. */
const mostConflicts = 6;

/** Lets the user choose files; the browser shows its own dialog for it. */
export function chooseFiles(accept: string, take: (files: readonly File[]) => void): void {
  const input = document.createElement('input');
  input.type = 'file';
  input.multiple = true;
  input.accept = accept;
  input.addEventListener('change', () => take([...(input.files ?? [])]));
  input.click();
}

function conflicts(session: OrderSession): TemplateResult | typeof nothing {
  const { conflicts: all } = session.sites;
  return all.length === 0
    ? nothing
    : html`<div class="why order-conflicts" role="alert"><p>The books say different things of one series or strip, so
        no order is made for them together. Correct them, or
        <button class="small" @click=${() => session.useOwnFigures()}>Use this book's figures for all</button></p>
        <ul>${all.slice(0, mostConflicts).map((text) => html`<li>${text}</li>`)}${
          all.length > mostConflicts ? html`<li>and ${all.length - mostConflicts} more</li>` : nothing
        }</ul></div>`;
}

/** What stands below the terms of the order: nothing more than a button until a site is added. */
export function sitesStrip(session: OrderSession): TemplateResult {
  const { sites, running, problems } = session;
  const joining = running.get('join');
  return html`
    <div class="planning-terms order-sites" role="group" aria-label="Sites">
      ${sites.files.map(
        ({ name }, place) => html`<span class="order-site">${sites.names[place + 1] ?? name}
          <button class="small quiet" aria-label="Remove ${name}" title="Remove ${name}"
            @click=${() => session.useSites(sites.files.filter((_, other) => other !== place))}>✕</button></span>`,
      )}
      <button class="button" title="Choose the books of further sites: all buy together, for less"
        @click=${() => chooseFiles('.xlsx,.ods,.csv', (files) => void session.addSites(files))}>Add sites …</button>
      ${
        sites.files.length === 0
          ? nothing
          : html`<label><input type="checkbox" .checked=${live(sites.apart)} @change=${(event: Event) =>
              session.deliverApart((event.target as HTMLInputElement).checked)} /> deliver to each site</label>`
      }
    </div>
    ${joining === undefined ? nothing : searching('Reading the books', undefined, () => session.useSites([]))}
    ${problems.get('join') === undefined ? nothing : html`<p class="why" role="alert">${problems.get('join')}</p>`}
    ${conflicts(session)}
  `;
}
