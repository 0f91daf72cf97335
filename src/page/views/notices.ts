import { html, type TemplateResult } from 'lit-html';
import { repeat } from 'lit-html/directives/repeat.js';
import type { Desk } from '../desk.ts';
import { sideWidth } from '../side-size.ts';

/** They keep clear of the panels, where the focus may be. */
const room = (desk: Desk): string => {
  const beside = desk.view === undefined && !desk.findingsShown ? 0 : sideWidth(desk);
  return `max-width:max(260px, min(620px, calc(100vw - ${24 + beside}px)))`;
};

/** Short messages over the page's lower edge; a note goes by itself, a problem stays until it is read. */
export const notices = (desk: Desk): TemplateResult => html`
  <div class="notices" role="status" aria-live="polite" style=${room(desk)}>
    ${repeat(
      desk.notices,
      ({ id }) => id,
      ({ id, tone, text }) => html`
      <div class="notice notice-${tone}"><span>${text}</span><button class="small" aria-label="Dismiss this message"
        @click=${() => desk.dismiss(id)}>✕</button></div>`,
    )}
  </div>
`;
