import { html, nothing, type TemplateResult } from 'lit-html';
import { act, actionName } from '../actions/action.ts';
import { action, type ActionName } from '../actions/index.ts';
import { belts } from '../../../sheets/belts/index.ts';
import { demoCounts } from '../../workbook/demo-records.ts';
import type { Desk } from '../desk.ts';
import { menu } from './menu.ts';
import { withKey } from './top-bar.ts';

/** The line over the demo until it is put away: that its figures are invented, and how to begin with one's own. */

const beginnings = ['import', 'new-book'] as const satisfies readonly ActionName[];
const tours = [['tour-planner', 'tour-engineer', 'tour-buyer']] as const satisfies readonly (readonly ActionName[])[];

const button = (desk: Desk, id: ActionName): TemplateResult => {
  const item = action(id);
  return html`<button class="button" title=${`${withKey(item, desk)}: ${item.doc}`}
    @click=${() => act(item, desk)}>${actionName(item, desk)}</button>`;
};

export function welcomeStrip(desk: Desk): TemplateResult | typeof nothing {
  // Once the belts are a site's own it is no demo, whoever's plates it uses.
  const ofDemo = (): boolean => demoCounts(desk.book.state).some(([sheet]) => sheet === belts.name);
  if (!desk.welcome || !desk.book.state.invented || !ofDemo()) return nothing;
  return html`
    <section class="welcome" data-area="welcome" aria-label="Welcome">
      <span><b>This is a demo.</b> Its belts, plates and prices are invented. Begin with your own:</span>
      ${beginnings.map((id) => button(desk, id))} ${menu(desk, 'Tours', tours, [], 'left')}
      <span class="gap"></span>
      <button class="small quiet" aria-label="Put this line away" title="Put this line away; the tours stay in Help"
        @click=${() => {
          desk.welcome = false;
          desk.changed();
        }}>✕</button>
    </section>`;
}
