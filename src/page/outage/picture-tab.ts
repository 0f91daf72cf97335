import { html, type TemplateResult } from 'lit-html';
import { guard } from 'lit-html/directives/guard.js';
import { unsafeHTML } from 'lit-html/directives/unsafe-html.js';
import { outagePicture } from '../../outage/outage-files.ts';
import { safetyPurpose } from '../../workbook/safety.ts';
import { emptyPlan } from './empty-plan.ts';
import type { OutageSession } from './outage-session.ts';
import type { OutageView } from './outage-view.ts';

/** The plan as a picture over time, a line a crew or an area. */

/** Pixels beside the picture, and its minimum width. */
const beside = 80;
const leastWidth = 900;

export function pictureTab(session: OutageSession, view: OutageView): TemplateResult {
  const {
    fleet,
    plan,
    desk: {
      book: { state },
    },
  } = session;
  const empty = emptyPlan(session, view);
  if (empty !== undefined) return empty;
  if (fleet === undefined || plan === undefined || plan.planned.length === 0)
    return html`<p class="outage-empty">${session.running.has('plan') ? 'No plan yet.' : 'Nothing is planned.'}</p>`;
  const width = Math.max(leastWidth, window.innerWidth - beside);
  return html`
    <p class="planning-terms"><label>One row per <select aria-label="One row per" @change=${(event: Event) => {
      view.lanes = (event.target as HTMLSelectElement).value === 'area' ? 'area' : 'crew';
      view.redraw();
    }}><option value="crew" ?selected=${view.lanes === 'crew'}>crew</option><option value="area"
      ?selected=${view.lanes === 'area'}>area</option></select></label></p>
    <div class="outage-picture" tabindex="0" role="group" aria-label="Picture of the plan, scrolls sideways">${guard(
      [plan, view.lanes, width],
      () => unsafeHTML(outagePicture(state, fleet, plan, { lanes: view.lanes, width })),
    )}</div>
    <p class="soft">Times are in plant time. Time between windows is not drawn. Point at a bar to see its times and
      crews. ${safetyPurpose}${state.invented ? ' Belts, crews and ' + 'windows here are ' + 'invented.' : ''}</p>
  `;
}
