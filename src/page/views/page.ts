import { html, nothing, type TemplateResult } from 'lit-html';
import type { Desk } from '../desk.ts';
import { formulaBar } from './formula-bar.ts';
import { notices } from './notices.ts';
import { sheetTabs } from './sheet-tabs.ts';
import { topBar } from './top-bar.ts';

/** The whole page around the grids' own element. */
export function page(desk: Desk, grids: HTMLElement): TemplateResult {
  const aside = desk.panels.joint || desk.panels.findings;
  return html`
    ${topBar(desk)} ${formulaBar(desk)}
    <main class="work">
      ${grids}
      ${aside ? html`<aside class="panels"></aside>` : nothing}
    </main>
    ${sheetTabs(desk)} ${notices(desk)}
  `;
}
