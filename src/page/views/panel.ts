import { html, nothing, type TemplateResult } from 'lit-html';
import { act } from '../actions/action.ts';
import { action } from '../actions/index.ts';
import type { Desk, Panel } from '../desk.ts';
import { withKey } from './top-bar.ts';

/** A panel's first line, with the button that puts it away. */
export const panelHead = (desk: Desk, panel: Panel, title: string, more: TemplateResult | typeof nothing = nothing): TemplateResult => html`
  <header class="panel-head">
    <h2>${title}</h2>${more}<span class="gap"></span>
    <button class="small quiet" title=${withKey(action(`panel-${panel}`), desk)} aria-label="Hide the panel ${title}" @click=${() => act(action(`panel-${panel}`), desk)}>✕</button>
  </header>
`;
