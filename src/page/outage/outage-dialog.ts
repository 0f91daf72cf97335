import { html, nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { momentText } from '../../outage/moments.ts';
import { type Aim, aims, type OutagePlan, type Stage } from '../../outage/search/request.ts';
import type { Desk } from '../desk.ts';
import { notLoaded } from '../not-loaded.ts';
import { plain } from '../planning/figures.ts';
import { PlanningDialog, searching } from '../planning/planning-dialog.ts';
import { ScopeChoice } from '../planning/scope-choice.ts';
import { choiceStrip } from './choice-strip.ts';
import { leftTab } from './left-tab.ts';
import { OutageSession } from './outage-session.ts';
import type { OutageView } from './outage-view.ts';
import { pictureTab } from './picture-tab.ts';
import { planTab } from './plan-tab.ts';
import '../styles/outage.css';

/** The planner's view over the page: which belts are down when, and which crews work on them. */

const tabs = { plan: 'Plan', picture: 'Picture', left: 'Not planned' } as const;
type Tab = keyof typeof tabs;

/** Minutes that starts and lengths of jobs are whole numbers of. */
const steps = [15, 30, 60] as const;

const checked = (event: Event): boolean => (event.target as HTMLInputElement).checked;
const chosen = (event: Event): string => (event.target as HTMLSelectElement).value;

function controls(session: OutageSession, scopes: ScopeChoice): TemplateResult {
  const { scope, failing, aim, step, dueLimits } = session.terms;
  return html`
    <div class="planning-terms" role="group" aria-label="Scope of the plan">
      ${scopes.controls(scope)}
      <label>Aim <select aria-label="Aim" .value=${live(aim)} @change=${(event: Event) =>
        session.ask({
          aim: aims.find((one) => one === chosen(event)) ?? aim,
        })}>${aims.map((one) => html`<option value=${one}>${one}</option>`)}</select></label>
      <label>Time grid <select aria-label="Time grid, minutes" .value=${live(String(step))} @change=${(event: Event) =>
        session.ask({
          step: Number(chosen(event)),
        })}>${steps.map((one) => html`<option value=${one}>${one} min</option>`)}</select></label>
      <label title="A joint that is not overdue must be made by the end of its due date"><input type="checkbox"
        .checked=${live(dueLimits)} @change=${(event: Event) =>
          session.ask({ dueLimits: checked(event) })} /> due dates are deadlines</label>
      <label title="Also plan belts whose joint fails a check"><input type="checkbox"
        .checked=${live(failing === true)} @change=${(event: Event) =>
          session.ask({ failing: checked(event) })} /> include failing joints</label>
    </div>`;
}

/** How far it is proven, in the aim that was chosen. */
function proofText(aim: Aim, { proven, stages }: OutagePlan): string {
  if (proven) return 'proven best';
  const decisive: readonly Stage['name'][] =
    aim === 'earliest finish' ? ['jobs planned', 'hours to the last end'] : ['jobs planned', 'lost production'];
  const reached = decisive.every((name) => stages.some((stage) => stage.name === name && stage.proven));
  return reached ? `${aim}, proven` : 'not proven best';
}

function summary({ fleet, plan, running }: OutageSession): TemplateResult {
  if (fleet === undefined) return html`<p class="planning-sum"></p>`;
  const { request, leftOut } = fleet;
  const unplanned = plan?.unplanned.length ?? 0;
  const state =
    plan === undefined || plan.planned.length === 0
      ? ''
      : running.has('plan')
        ? 'so far'
        : proofText(request.aim, plan);
  return html`<p class="planning-sum">
    <span>${
      plan === undefined
        ? html`<b>${request.jobs.length}</b> ${request.jobs.length === 1 ? 'belt' : 'belts'}`
        : html`<b>${plan.planned.length}</b> of <b>${request.jobs.length}</b> ${
            request.jobs.length === 1 ? 'belt' : 'belts'
          } planned`
    }</span>
    ${
      unplanned === 0
        ? nothing
        : html`<span
      class="why"><b>${unplanned}</b> ${unplanned === 1 ? 'does' : 'do'} not fit</span>`
    }
    ${leftOut.length === 0 ? nothing : html`<span><b>${leftOut.length}</b> left out</span>`}
    ${
      plan?.finish === undefined
        ? nothing
        : html`
      <span>last end <b class="outage-time">${momentText(plan.finish)}</b></span>
      <span class="planning-sum-total"><b>${plain(plan.lost)}</b> ${request.lossUnit} <span
        class="soft">lost</span></span>`
    }
    <span class="soft">${state}</span>
  </p>`;
}

function showPlannedCards({ desk, plannedRecords }: OutageSession): void {
  import('../card-dialog.ts').then(
    ({ showCards }) => showCards(desk, { word: 'planned', records: plannedRecords }),
    (error: unknown) => desk.say(notLoaded('The job cards', error), 'problem'),
  );
}

function files(session: OutageSession, view: OutageView): TemplateResult {
  const { noFile } = session;
  const button = (label: string, doc: string, run: () => void): TemplateResult =>
    html`<button class="button" ?disabled=${
      noFile !== undefined || (label === 'Workbook .xlsx' && session.running.has('file'))
    } title=${noFile ?? doc} @click=${run}>${
      label === 'Workbook .xlsx' && session.running.has('file') ? 'Writing …' : label
    }</button>`;
  return html`<span class="outage-files" role="group" aria-label="Files and cards">
    ${button('Calendar .ics', 'One event per belt, in plant time; importing a later file updates it', () =>
      session.saveCalendar(),
    )}
    ${button('Workbook .xlsx', 'The plan, the list of each crew and the jobs not planned, with live formulas', () =>
      session.saveWorkbook(),
    )}
    ${button('Picture .svg', 'The picture as shown in the tab Picture', () => session.savePicture(view.lanes))}
    ${button('Job cards …', 'The cards of the belts that are planned, by their starts', () =>
      showPlannedCards(session),
    )}
  </span>`;
}

/** How far the search is. Jobs are to be many and all else little, so that only the word for the bound is the same. */
function searchLine(session: OutageSession): TemplateResult | typeof nothing {
  const running = session.running.get('plan');
  if (running === undefined) return nothing;
  const { stage, best, bound } = running.progress ?? {};
  const parts = [
    ...(stage === undefined ? [] : [stage]),
    ...(best === undefined ? [] : [`best ${plain(best)}`]),
    ...(bound === undefined ? [] : [`bound ${plain(bound)}`]),
    `${session.elapsed.toFixed(0)} of ${plain(session.seconds)} s`,
  ];
  return searching(
    session.fleet === undefined ? 'Reading the book' : 'Looking for the best plan',
    session.fleet === undefined ? undefined : parts.join(' · '),
    () => session.cancel(),
  );
}

/** Opens it for the joints due until the end of next year; the focus goes back to the grid when it is closed. */
export function showOutage(desk: Desk, selected: readonly number[]): void {
  const session: OutageSession = new OutageSession(desk, () => dialog.redraw());
  const redraw = (): void => dialog.redraw();
  const view: OutageView = {
    lanes: 'crew',
    redraw,
    goTo: (sheet, record, column) => dialog.leaveFor(sheet, record, column),
    showLeft: () => dialog.go('left'),
  };
  const scopes = new ScopeChoice(desk, selected, (scope) => session.ask({ scope }), redraw);
  const contents: Readonly<Record<Tab, () => TemplateResult>> = {
    plan: () => planTab(session, view),
    picture: () => pictureTab(session, view),
    left: () => leftTab(session, view),
  };
  const label = (tab: Tab): string => {
    const count = (session.plan?.unplanned.length ?? 0) + (session.fleet?.leftOut.length ?? 0);
    return tab === 'left' && count > 0 ? `${tabs.left} (${count})` : tabs[tab];
  };
  const dialog = new PlanningDialog<Tab>(
    desk,
    {
      title: 'Outage plan',
      name: 'outage',
      tabs: Object.keys(tabs) as Tab[],
      tabLabel: label,
      head: () =>
        html`<div class="planning-head">${controls(session, scopes)}</div>${choiceStrip(session)}<div
          class="planning-head outage-result">${summary(session)} ${files(session, view)}</div>`,
      said: () => session.running.problems.get('file') ?? session.said,
      body: (tab) => html`${searchLine(session)}${contents[tab]()}`,
      onClose: () => {
        clearInterval(clock);
        session.end();
      },
    },
    'plan',
  );
  // The search tells nothing while it betters its first plan: the seconds go on all the same.
  const clock = setInterval(() => {
    if (session.running.has('plan')) redraw();
  }, 1000);
  scopes.askDue();
  dialog.show();
}
