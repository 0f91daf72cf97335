import { licencePage } from './licence-page.ts';
import { html, nothing, type TemplateResult } from 'lit-html';
import { type Mark, markMeanings } from '../../sheet/source-marks.ts';
import { safetyPurpose, safetyReminders } from '../../workbook/safety.ts';
import type { Desk } from '../desk.ts';
import { firstSteps } from './first-steps.ts';
import { keySection } from '../key-section.ts';
import { markBadge } from '../source-marks.ts';
import { verdictMeanings } from '../../records/finding.ts';
import { verdictLook } from '../verdict-look.ts';
import { dialog } from './dialog.ts';
import { formulaHelp } from './formula-help.ts';

/** First steps, the reference, formulas, keys, marks, safety and licences, made of what declares them. */

type Page = 'start' | 'reference' | 'formulas' | 'keys' | 'marks' | 'safety' | 'licences';
const titles: Readonly<Record<Page, string>> = {
  start: 'First steps',
  reference: 'Reference',
  formulas: 'Formulas',
  keys: 'Keys',
  marks: 'Marks',
  safety: 'Safety',
  licences: 'Licences',
};
const state: { page: Page } = { page: 'reference' };

type ReferencePage = (desk: Desk) => TemplateResult;

/** The reference as it is loaded: it is asked for when it is first on show. */
const reference: { page?: ReferencePage; problem?: string; asked: boolean } = { asked: false };

function askReference(desk: Desk): void {
  if (reference.asked) return;
  reference.asked = true;
  import('./reference-page.ts').then(
    ({ referencePage }) => {
      reference.page = referencePage;
      desk.changed();
    },
    (error: unknown) => {
      reference.asked = false;
      reference.problem = error instanceof Error ? error.message : String(error);
      desk.changed();
    },
  );
}

function referenceTab(desk: Desk): TemplateResult {
  if (reference.page !== undefined) return reference.page(desk);
  if (reference.problem === undefined) askReference(desk);
  return reference.problem === undefined
    ? html`<p class="empty">Loading the reference …</p>`
    : html`<p class="why">The reference could not be loaded (${reference.problem}). Save your work, then load the page
        again.</p>`;
}

const keyTable = (desk: Desk): TemplateResult => {
  const { about, groups } = keySection(desk);
  return html`
    ${about.map((text) => html`<p class="soft">${text}</p>`)}
    <table class="table">
      <thead><tr><th>Key</th><th>Does</th></tr></thead>
      <tbody>${groups.flatMap(({ entries }) =>
        entries.map(({ name, says }) => html`<tr><td><kbd>${name}</kbd></td><td>${says}</td></tr>`),
      )}</tbody>
    </table>
  `;
};

const marks = html`
  <table class="table">
    <tbody>
      <tr><td><span class="sample">650.0</span></td><td>entered by you</td></tr>
      <tr><td><span class="sample sample-computed">919.2</span></td><td>calculated by the sheet; its header starts
        with =</td></tr>
      <tr><td><span class="sample sample-overridden">920.0</span></td><td>your override of the sheet's formula:
        italic, with a corner mark</td></tr>
      <tr><td><span class="sample sample-formula">=D2/2</span></td><td>your own formula in an input: with a corner
        mark; the cell shows its result</td></tr>
      <tr><td><span class="sample sample-marked">abt 18</span></td><td>text that could not be understood: wavy
        underline; the line above the grid says why</td></tr>
      <tr><td><span class="sample sample-fault">#N/A</span></td><td>an error; the line above the grid gives its cause
        and the allowed values</td></tr>
    </tbody>
  </table>
  <h3>Verdicts and findings</h3>
  <table class="table">
    <tbody>${Object.entries(verdictMeanings).map(
      ([word, meaning]) =>
        html`<tr><td class=${verdictLook(word)?.className ?? ''}>${verdictLook(word)?.mark} ${word}</td><td>${
          meaning
        }</td></tr>`,
    )}</tbody>
  </table>
  <h3>Beside values and sources in Calculation</h3>
  <table class="table">
    <tbody>${Object.entries(markMeanings).map(
      ([mark, meaning]) => html`<tr><td>${markBadge(mark as Mark)}</td><td>${meaning}</td></tr>`,
    )}</tbody>
  </table>
`;

const safety = html`
  <p><b>${safetyPurpose}</b></p>
  <ol class="safety">${safetyReminders.map(
    ({ text, rules }) => html`<li>${text} <span
    class="soft">${rules}</span></li>`,
  )}</ol>
`;

/** Opens Help at what must be kept to at the belt. */
export function openSafety(desk: Desk): void {
  state.page = 'safety';
  desk.open({ kind: 'help' });
}

/** Opens Help at the terms under which the page is used. */
export function openLicences(desk: Desk): void {
  state.page = 'licences';
  desk.open({ kind: 'help' });
}

export function helpDialog(desk: Desk): TemplateResult {
  const pages: Readonly<Record<Page, () => TemplateResult>> = {
    start: () => firstSteps(desk),
    reference: () => referenceTab(desk),
    formulas: () => formulaHelp,
    keys: () => keyTable(desk),
    marks: () => marks,
    safety: () => safety,
    licences: () => licencePage,
  };
  const go = (page: Page): void => {
    state.page = page;
    desk.changed();
  };
  return dialog(
    desk,
    'Help',
    'help-dialog',
    html`
    <div class="dialog-tabs" role="tablist">${(Object.keys(titles) as Page[]).map(
      (page) => html`
      <button role="tab" class="tab" aria-selected=${page === state.page}
        @click=${() => go(page)}>${titles[page]}</button>`,
    )}</div>
    <div class="dialog-body" role="tabpanel" aria-label=${titles[state.page]}
      tabindex="0">${pages[state.page]() ?? nothing}</div>
  `,
  );
}
