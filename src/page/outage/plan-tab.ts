import { counted } from '../../units/phrases.ts';
import { html, nothing, type TemplateResult } from 'lit-html';
import { assumed } from '../../records/assumed.ts';
import { listed } from '../../sheet/words.ts';
import type { FleetOutage, OutageBelt } from '../../outage/fleet-outage.ts';
import { bookedText } from '../../outage/outage-files.ts';
import { type Moment, momentOf, momentText } from '../../outage/moments.ts';
import type { OutagePlan, PlannedJob } from '../../outage/search/request.ts';
import { type PlanCell, planColumns, planRows, planSummary } from '../../outage/plan-table.ts';
import { isoDate } from '../../units/dates.ts';
import { safetyPurpose } from '../../workbook/safety.ts';
import { plain } from '../planning/figures.ts';
import { emptyPlan } from './empty-plan.ts';
import type { OutageSession } from './outage-session.ts';
import { type OutageView } from './outage-view.ts';

/** The plan as a table, with what it comes to, what does not fit and how far it is proven. */

/** Jobs that do not fit, told above the table. */
const firstLines = 3;

/** The summary's first sentences say what the plan is, the others how good it is. */
const sentencesOfPlan = 2;

/** Cells of the plan's rows by the headers of its columns. */
function cellsOf({ request, belts }: FleetOutage, plan: OutagePlan): ReadonlyMap<string, PlanCell>[] {
  const due = new Map(
    belts.flatMap(({ job, due: day }) => (day === undefined ? [] : [[job.key, Math.floor(day)] as const])),
  );
  const columns = planColumns(request);
  return planRows(request, { ...plan, unplanned: [] }, due).map(
    (row) => new Map(columns.map(({ header }, place) => [header, row[place] ?? null])),
  );
}

/** Broken between day and hour only, where there is little room. */
const timeText = (moment: Moment): TemplateResult =>
  html`${momentText(moment)
    .split(' ')
    .map((part) => html`<span class="outage-time">${part}</span> `)}`;

function dueText(day: PlanCell, end: Moment, today: number): TemplateResult | string {
  if (typeof day !== 'number') return '';
  const late = day < today ? 'overdue' : end > momentOf(day + 1) ? 'late' : '';
  return html`<span class="outage-time">${isoDate(day)}</span>${
    late === ''
      ? nothing
      : html` <span
    class="why">${late}</span>`
  }`;
}

/**
 * The plan's own remark is left out: it tells of an area that stops as one, which the table says in place of the
 * loss.
 */
function remarkOf(cells: ReadonlyMap<string, PlanCell>, belt: OutageBelt | undefined): string {
  const after = String(cells.get('After') ?? '');
  return [
    ...(after === '' ? [] : [`after ${after}`]),
    ...(belt !== undefined && 'hours' in belt.job.work ? ['hours as entered'] : []),
    ...(belt === undefined || belt.unknown.length === 0 ? [] : [`checks not known: ${listed([...belt.unknown])}`]),
  ].join('; ');
}

function planTable(session: OutageSession, fleet: FleetOutage, plan: OutagePlan): TemplateResult {
  const { request } = fleet;
  const today = Math.floor(assumed(session.desk.book, 'ReviewDate'));
  const lossHeader = planColumns(request).find(({ header }) => header.startsWith('Lost'))?.header ?? '';
  const rows = cellsOf(fleet, plan);
  const people = ({ crews }: PlannedJob): number =>
    crews.reduce((sum, name) => sum + (request.crews.find((crew) => crew.name === name)?.people ?? 0), 0);
  return html`
    <table class="table planning-table outage-table">
      <thead><tr>
        <th class="number" title="as in the picture">No.</th><th>Belt</th><th
          class="number">Joints</th><th>Area</th><th>Window</th><th>Start</th><th>End</th><th class="number"
            title="rounded up to the time grid">Planned downtime, h</th><th>Crews</th><th
              class="number">${lossHeader}</th><th>Due</th><th>Remark</th>
      </tr></thead>
      <tbody>${plan.planned.map((job, place) => {
        const cells = rows[place] ?? new Map<string, PlanCell>();
        const belt = fleet.belts.find((one) => one.job.key === job.key);
        const lost = cells.get(lossHeader);
        const heads = people(job);
        return html`<tr>
          <td class="number soft">${cells.get('No.')}</td><th scope="row">${job.belt}</th><td
            class="number">${belt?.joints ?? ''}</td><td>${job.area}</td><td>${job.window}</td>
          <td>${timeText(job.start)}</td><td>${timeText(job.end)}</td><td class="number">${plain(job.hours)}</td>
          <td>${job.crews.join(', ')} <span
            class="soft outage-people">${counted(heads, 'person', 'people')}</span></td>
          <td class="number">${
            typeof lost === 'number'
              ? plain(lost)
              : html`<span class="soft"
            title=${cells.get('Remark') ?? ''}>with its area</span>`
          }</td>
          <td>${dueText(cells.get('Due') ?? null, job.end, today)}</td><td class="soft">${remarkOf(cells, belt)}</td>
        </tr>`;
      })}</tbody>
    </table>`;
}

function notFitting({ unplanned }: OutagePlan, fleet: FleetOutage, view: OutageView): TemplateResult | typeof nothing {
  const out = fleet.leftOut.length;
  if (unplanned.length + out + fleet.remarks.length === 0) return nothing;
  const rest = [
    ...(unplanned.length > firstLines ? [`${unplanned.length - firstLines} more do not fit`] : []),
    ...(out === 0 ? [] : [counted(out, 'belt left out before planning', 'belts left out before planning')]),
    ...(fleet.remarks.length === 0 ? [] : [counted(fleet.remarks.length, 'invalid cell', 'invalid cells')]),
  ];
  return html`<div class="outage-note ${unplanned.length > 0 ? 'outage-short' : ''}">
    ${
      unplanned.length === 0
        ? nothing
        : html`<p class="why"><b>${counted(unplanned.length, 'belt does not fit:', 'belts do not fit:')}</b></p>
      <ul class="planning-left">${unplanned.slice(0, firstLines).map(
        ({ belt, reason }) => html`<li><b>${belt}</b>
        ${reason}</li>`,
      )}</ul>`
    }
    ${
      rest.length === 0
        ? nothing
        : html`<p>${listed(rest)}: <button class="link"
      @click=${() => view.showLeft()}>see which and why</button></p>`
    }
  </div>`;
}

/** What became of the search, where it did not end by itself with a plan. */
function ended(session: OutageSession): TemplateResult | typeof nothing {
  const problem = session.running.problems.get('plan');
  const again = html`<button class="small" @click=${() => session.ask()}>Plan again</button>`;
  if (problem !== undefined) return html`<p class="why">The plan could not be made: ${problem} ${again}</p>`;
  if (session.faults.length > 0) {
    return html`<p class="why">The plan could not be made:</p><ul class="planning-left">${session.faults.map(
      ({ what, reason }) => html`<li><b>${what}</b> ${reason}</li>`,
    )}</ul>`;
  }
  if (!session.cancelled) return nothing;
  return session.plan === undefined
    ? html`<p class="why">Cancelled before a plan was found. ${again}</p>`
    : html`<p class="why">Cancelled: this is the best plan found so far. It is not proven optimal: a better one may
      exist. ${again}</p>`;
}

export function planTab(session: OutageSession, view: OutageView): TemplateResult {
  const { fleet, plan } = session;
  const empty = emptyPlan(session, view);
  if (empty !== undefined) return empty;
  if (fleet === undefined || plan === undefined) return html`${ended(session)}`;
  const sentences = planSummary(fleet.request, plan);
  const searching = session.running.has('plan');
  return html`
    ${ended(session)}
    ${notFitting(plan, fleet, view)}
    ${
      plan.planned.length === 0
        ? html`<p class="outage-empty">Nothing fits: these crews cannot make any joint in these windows. ${
            plan.unplanned.length > firstLines
              ? html`<button class="link" @click=${() => view.showLeft()}>See why, belt by belt</button>`
              : nothing
          }</p>`
        : html`
      <p>${sentences.slice(0, sentencesOfPlan).join(' ')}</p>
      ${planTable(session, fleet, plan)}
      <ul class="outage-told">
        <li>${bookedText(fleet)}</li>
        ${
          searching
            ? nothing
            : html`<li>Quality of the plan, by priority: ${sentences.slice(sentencesOfPlan).join(' ')} ${
                plan.proven || session.cancelled
                  ? nothing
                  : html`<button class="small" @click=${() => session.searchLonger()}>Search longer</button>`
              }</li>`
        }
        ${fleet.notes.map((note) => html`<li>${note}</li>`)}
        <li><b>${safetyPurpose}</b> Nor does this plan: isolate and release belts by the site's own rules.</li>
        ${
          session.desk.book.state.invented ? html`<li>Belts, crews, windows and rates here are invented.</li>` : nothing
        }
      </ul>`
    }
  `;
}
