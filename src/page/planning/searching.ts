import { html, type TemplateResult } from 'lit-html';

/** What a search is doing, and how far it is, with a way to end it. */
export const searching = (what: string, detail: string | undefined, stop: () => void): TemplateResult => html`
  <p class="planning-search" role="status">
    <span class="planning-pulse" aria-hidden="true"></span>
    <span>${what}${detail === undefined ? ' …' : `: ${detail}`}</span>
    <button class="small" @click=${stop}>Cancel</button>
  </p>`;
