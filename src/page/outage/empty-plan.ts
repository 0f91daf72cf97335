import { counted } from '../../units/phrases.ts';
import { html, nothing, type TemplateResult } from 'lit-html';
import type { CellRemark } from '../../records/sheet-rows.ts';
import { isoDate } from '../../units/dates.ts';
import { crews as crewSheet } from '../../../sheets/work/crews.ts';
import { windows as windowSheet } from '../../../sheets/work/windows.ts';
import type { Kind, OutageSession } from './outage-session.ts';
import type { OutageView } from './outage-view.ts';

/** Why there is nothing to plan, and what to do about it. */

const sheets = {
  crews: { name: crewSheet.name, one: crewSheet.record, missing: 'No crews yet. Enter one per row.' },
  windows: { name: windowSheet.name, one: windowSheet.record, missing: 'No shutdown windows yet. Enter one per row.' },
} as const satisfies Record<Kind, object>;

const remarkList = (remarks: readonly CellRemark[], { goTo }: OutageView): TemplateResult =>
  html`<ul class="planning-left">${remarks.map(
    ({ cell, message, sheet, record, column }) => html`<li><button
    class="link" @click=${() => goTo(sheet, record, column)}>${cell}</button> ${message}</li>`,
  )}</ul>`;

function lacking(kind: Kind, session: OutageSession, view: OutageView): TemplateResult | undefined {
  const { offered } = session;
  const { name, one, missing } = sheets[kind];
  if (offered === undefined) return undefined;
  if (offered[kind].length === 0) {
    const rows = offered.rows[kind];
    return html`
      <p>${rows === 0 ? missing : `The sheet ${name} has ${counted(rows, 'row')}, but no valid ${one}:`}</p>
      ${
        rows === 0
          ? nothing
          : remarkList(
              offered.remarks.filter(({ sheet }) => sheet === name),
              view,
            )
      }
      <p><button class="button" @click=${() => view.goTo(name)}>Go to the sheet ${name}</button></p>`;
  }
  return offered[kind].some((each) => session.ticked(kind, each.name))
    ? undefined
    : html`<p>No ${one} is ticked: tick at least one above.</p>`;
}

function noJob({ terms: { scope }, fleet }: OutageSession, view: OutageView): TemplateResult {
  const out = fleet?.leftOut.length ?? 0;
  const what =
    scope.which === 'due'
      ? `No joint due by ${isoDate(scope.until)} can be planned. Choose a later date, or all belts.`
      : scope.which === 'belts'
        ? 'No joint of the selected belts can be planned.'
        : 'No belt has a joint that can be planned.';
  return html`<p>${what}</p>${
    out === 0
      ? nothing
      : html`<p>${counted(out, 'belt is', 'belts are')} left out. <button class="link"
        @click=${() => view.showLeft()}>See why</button></p>`
  }`;
}

/** Undefined when there is something to plan, or it is not known yet. */
export function emptyPlan(session: OutageSession, view: OutageView): TemplateResult | undefined {
  const reasons = [lacking('crews', session, view), lacking('windows', session, view)].filter(
    (one) => one !== undefined,
  );
  if (reasons.length === 0 && session.fleet?.request.jobs.length === 0) reasons.push(noJob(session, view));
  return reasons.length === 0 ? undefined : html`<div class="outage-empty">${reasons}</div>`;
}
