import { html, nothing, type TemplateResult } from 'lit-html';
import { repeat } from 'lit-html/directives/repeat.js';
import type { Desk } from '../desk.ts';
import { sideWidth } from '../side-size.ts';

/** They keep clear of the panels, where the focus may be. */
const room = (desk: Desk): string => {
  const beside = desk.view === undefined && !desk.findingsShown ? 0 : sideWidth(desk);
  return `max-width:max(260px, min(620px, calc(100vw - ${24 + beside}px)))`;
};

/** The file that is being written; only its name is said to who listens, not every share of it. */
const underWay = ({ exporting }: Desk): TemplateResult | typeof nothing =>
  exporting === undefined
    ? nothing
    : html`
      <div class="notice notice-note"><span>Writing ${exporting.name} …
        <span aria-hidden="true">${Math.round(exporting.share * 100)} %</span></span><button class="small"
        aria-label="Stop writing ${exporting.name}" @click=${() => exporting.stop()}>Stop</button></div>`;

/** A change that is being worked out: until it is done the page shows the book as it was. */
const beingChanged = ({ changing }: Desk): TemplateResult | typeof nothing =>
  changing === undefined
    ? nothing
    : html`
      <div class="notice notice-note"><span>Working out "${changing.what}" … Until that is done the book is
          shown as it was.</span><button class="small" aria-label="Stop ${changing.what}"
        @click=${() => changing.stop()}>Stop</button></div>`;

/** Short messages over the page's lower edge; a note goes by itself, a problem stays until it is read. */
export const notices = (desk: Desk): TemplateResult => html`
  <div class="notices" role="status" aria-live="polite" style=${room(desk)}>
    ${beingChanged(desk)}${underWay(desk)}
    ${repeat(
      desk.notices,
      ({ id }) => id,
      ({ id, tone, text }) => html`
      <div class="notice notice-${tone}"><span>${text}</span><button class="small" aria-label="Dismiss this message"
        @click=${() => desk.dismiss(id)}>✕</button></div>`,
    )}
  </div>
`;
