import { html, nothing, type TemplateResult } from 'lit-html';
import { act } from '../actions/action.ts';
import { action, type ActionName } from '../actions/index.ts';
import type { Desk } from '../desk.ts';
import { withKey } from './top-bar.ts';

/** A panel's first line, with the button that puts it away: that of the action that shows and hides it. */
export const panelHead = (
  desk: Desk,
  id: ActionName,
  title: string,
  first: TemplateResult,
  more: TemplateResult | typeof nothing = nothing,
): TemplateResult => html`
  <header class="panel-head">
    ${first}${more}<span class="gap"></span>
    <button class="small quiet" title=${withKey(action(id), desk)} aria-label="Hide the panel ${title}"
      @click=${() => act(action(id), desk)}>✕</button>
  </header>
`;
