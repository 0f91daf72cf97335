import { html, nothing, type TemplateResult } from 'lit-html';
import { belts } from '../../../sheets/belts/index.ts';
import type { OutagePlan } from '../../outage/search/request.ts';
import type { OutageSession } from './outage-session.ts';
import type { OutageView } from './outage-view.ts';

/** What is not planned, and why: jobs that do not fit, belts left out before, cells that could not be used. */

type Fleet = NonNullable<OutageSession['fleet']>;

function unplannedSection(
  unplanned: OutagePlan['unplanned'],
  { belts: fleet }: Fleet,
  { goTo }: OutageView,
): TemplateResult {
  const recordOf = (key: string): number => fleet.find(({ job }) => job.key === key)?.record ?? 0;
  return html`
    <section><h3>Does not fit (${unplanned.length})</h3>
      <table class="table planning-table"><thead><tr><th>Belt</th><th>Area</th><th>Why</th></tr></thead>
        <tbody>${unplanned.map(
          ({ key, belt, area, reason }) => html`<tr><th scope="row"><button class="link" title="Go to the belt"
            @click=${() =>
              goTo(belts.name, recordOf(key), belts.key)}>${belt}</button></th><td>${area}</td><td>${reason}</td></tr>`,
        )}</tbody>
      </table></section>`;
}

const leftOutSection = ({ leftOut }: Fleet, { goTo }: OutageView): TemplateResult => html`
  <section><h3>Left out before planning (${leftOut.length})</h3>
    <table class="table planning-table"><thead><tr><th>Belt</th><th>Why</th></tr></thead>
      <tbody>${leftOut.map(
        ({ belt, reason, record, column, cell }) => html`<tr><th scope="row"><button class="link" title="Go to ${cell}"
          @click=${() => goTo(belts.name, record, column)}>${belt}</button></th><td>${reason}</td></tr>`,
      )}</tbody>
    </table></section>`;

const remarksSection = ({ remarks }: Fleet, { goTo }: OutageView): TemplateResult => html`
  <section><h3>Invalid cells (${remarks.length})</h3>
    <ul class="planning-left">${remarks.map(
      ({ cell, message, sheet, record, column }) => html`<li><button class="link"
        @click=${() => goTo(sheet, record, column)}>${cell}</button> ${message}</li>`,
    )}</ul></section>`;

export function leftTab({ fleet, plan, running }: OutageSession, view: OutageView): TemplateResult {
  if (fleet === undefined)
    return html`<p class="outage-empty">${running.has('plan') ? 'Checking the belts …' : 'No plan yet.'}</p>`;
  const { leftOut, remarks, notes } = fleet;
  const unplanned = plan?.unplanned ?? [];
  if (unplanned.length + leftOut.length + remarks.length + notes.length === 0)
    return html`<p class="outage-empty">${
      plan === undefined ? 'Nothing yet.' : 'All requested joints are planned, and all cells are valid.'
    }</p>`;
  return html`<div class="outage-left">
    ${unplanned.length === 0 ? nothing : unplannedSection(unplanned, fleet, view)}
    ${leftOut.length === 0 ? nothing : leftOutSection(fleet, view)}
    ${remarks.length === 0 ? nothing : remarksSection(fleet, view)}
    ${
      notes.length === 0
        ? nothing
        : html`<section><h3>Notes</h3><ul
      class="planning-left">${notes.map((note) => html`<li>${note}</li>`)}</ul></section>`
    }
  </div>`;
}
