import { html, nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import type { Desk, SoughtText } from '../desk.ts';
import { endSearch, foundNow, replaceAll, replaceOne, stepFound } from '../finding-text.ts';

/** Find and replace: a line above the grid that stays while one works in the cells. */

function counted(finding: SoughtText, places: number, complete: boolean): string {
  if (finding.text === '') return '';
  if (places === 0) return complete ? 'nothing found' : 'searching …';
  return `${finding.at === undefined ? '–' : finding.at + 1} of ${places}${complete ? '' : ' so far'}`;
}

export function findBar(desk: Desk): TemplateResult | typeof nothing {
  const { finding } = desk;
  if (finding === undefined) {
    endSearch();
    return nothing;
  }
  const { places, complete } = foundNow(desk, finding);
  const change = (part: Partial<SoughtText>): void => {
    desk.finding = { ...finding, ...part };
    desk.changed();
  };
  const value = (event: Event): string => (event.target as HTMLInputElement).value;
  const onKey = (event: KeyboardEvent): void => {
    if (event.key === 'Escape') {
      desk.finding = undefined;
      desk.changed();
      desk.grid?.focus();
    } else if (event.key === 'Enter' && event.target instanceof HTMLInputElement)
      stepFound(desk, event.shiftKey ? -1 : 1);
    else return;
    event.preventDefault();
    event.stopPropagation();
  };
  return html`
    <search class="find-bar" data-area="find" aria-label="Find and replace" @keydown=${onKey}>
      <label>Find <input id="find-text" type="text" autocomplete="off" spellcheck="false" .value=${live(finding.text)}
        @input=${(event: Event) => change({ text: value(event), at: undefined })} /></label>
      <label>Replace with <input id="replace-text" type="text" autocomplete="off" spellcheck="false"
        .value=${live(finding.replacement)} @input=${(event: Event) => change({ replacement: value(event) })} /></label>
      <select aria-label="Where to look" @change=${(event: Event) =>
        change({ wholeBook: (event.target as HTMLSelectElement).value === 'book', at: undefined })}>
        <option value="sheet" ?selected=${!finding.wholeBook}>in this sheet</option>
        <option value="book" ?selected=${finding.wholeBook}>in the whole book</option>
      </select>
      <label class="find-case"><input type="checkbox" .checked=${live(finding.matchCase)} @change=${(event: Event) =>
        change({ matchCase: (event.target as HTMLInputElement).checked, at: undefined })} /> Match case</label>
      <output class="find-count" aria-live="polite">${counted(finding, places.length, complete)}</output>
      <button class="small" ?disabled=${places.length === 0} @click=${() => stepFound(desk, -1)}>Previous</button>
      <button class="small" ?disabled=${places.length === 0} @click=${() => stepFound(desk, 1)}>Next</button>
      <button class="small" ?disabled=${places.length === 0} @click=${() => replaceOne(desk)}>Replace</button>
      <button class="small" ?disabled=${places.length === 0 || !complete}
        @click=${() => replaceAll(desk)}>Replace all</button>
      <button class="small quiet" aria-label="Close find and replace" @click=${() => {
        desk.finding = undefined;
        desk.changed();
        desk.grid?.focus();
      }}>✕</button>
    </search>
  `;
}
