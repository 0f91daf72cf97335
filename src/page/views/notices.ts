import { html, type TemplateResult } from 'lit-html';
import { repeat } from 'lit-html/directives/repeat.js';
import type { Desk } from '../desk.ts';

/** Short messages over the page's lower edge; a note goes by itself, a problem stays until it is read. */
export const notices = (desk: Desk): TemplateResult => html`
  <div class="notices" role="status" aria-live="polite">
    ${repeat(
      desk.notices,
      ({ id }) => id,
      ({ id, tone, text }) => html`
      <div class="notice notice-${tone}"><span>${text}</span><button class="small" aria-label="Dismiss this message"
        @click=${() => desk.dismiss(id)}>✕</button></div>`,
    )}
  </div>
`;
