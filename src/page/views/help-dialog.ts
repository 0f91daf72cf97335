import { licencePage } from './licence-page.ts';
import { html, nothing, type TemplateResult } from 'lit-html';
import type { EngineeringFunction } from '../../formula/define.ts';
import { argumentKinds, boundsInWords, type Parameter, timesInWords } from '../../formula/parameter.ts';
import { subjects } from '../../functions/index.ts';
import { safetyPurpose, safetyReminders } from '../../workbook/safety.ts';
import { actionName } from '../actions/action.ts';
import { actions } from '../actions/index.ts';
import type { Desk } from '../desk.ts';
import { type Mark, markMeanings, markBadge } from '../source-marks.ts';
import { dialog } from './dialog.ts';

/** Functions, keys, safety and licences, made of what declares them. */

type Page = 'functions' | 'keys' | 'marks' | 'safety' | 'licences';
const titles: Readonly<Record<Page, string>> = {
  functions: 'Functions',
  keys: 'Keys',
  marks: 'Marks',
  safety: 'Safety',
  licences: 'Licences',
};
const state: { page: Page; sought: string } = { page: 'functions', sought: '' };

function parameter(name: string, given: Parameter): TemplateResult {
  const bounds = boundsInWords(given);
  const times = timesInWords(given);
  return html`<tr><td><code>${name}</code></td><td>${given.doc}</td><td>${argumentKinds[given.kind].says}${
    bounds === '' ? '' : `, ${bounds}`
  }${times === '' ? '' : `; ${times}`}</td></tr>`;
}

const exampleValue = (value: EngineeringFunction['example'][1]): string =>
  Array.isArray(value) ? value.map((row: readonly number[]) => row.join(', ')).join('; ') : String(value);

const described = (item: EngineeringFunction): TemplateResult => html`
  <details class="function">
    <summary><code>${item.signature}</code><span>${item.summary}</span></summary>
    <table class="table">${Object.entries(item.parameters).map(([name, given]) => parameter(name, given))}</table>
    <p>Returns ${item.result.doc}${item.spills ? ', filling the cells below and beside' : ''}.</p>
    <p>Example: <code>${item.example[0]}</code> gives <code>${exampleValue(item.example[1])}</code></p>
    <p class="soft">Source: ${item.source}.</p>
  </details>
`;

function functionList(desk: Desk): TemplateResult {
  const sought = state.sought.toLowerCase();
  const found = subjects
    .map(({ subject, functions }) => ({
      subject,
      functions: functions.filter(
        ({ name, summary }) => name.toLowerCase().includes(sought) || summary.toLowerCase().includes(sought),
      ),
    }))
    .filter(({ functions }) => functions.length > 0);
  return html`
    <label class="search">Find a function<input type="search" autofocus .value=${state.sought} @input=${(
      event: Event,
    ) => {
      state.sought = (event.target as HTMLInputElement).value;
      desk.changed();
    }} /></label>
    <p class="soft">These and the usual spreadsheet functions work in any cell: start with =. Use one length unit
      within a call; the result is in the same unit.</p>
    ${
      found.length === 0
        ? html`<p class="empty">No matching function.</p>`
        : found.map(({ subject, functions }) => html`<h3>${subject}</h3>${functions.map(described)}`)
    }
  `;
}

const gridKeys: readonly (readonly [string, string])[] = [
  ['F2 or Enter', 'edit the cell; Enter confirms and moves down, Esc cancels'],
  ['=', 'begin a formula; Tab completes a function’s name'],
  ['Delete', 'clear the cells; in a computed column this restores the sheet’s formula'],
  ['Ctrl+C, Ctrl+X, Ctrl+V', 'copy, cut, paste; also to and from spreadsheet programs'],
  ['Arrows, Page Up, Page Down, Home, End', 'move; Ctrl jumps to the edge, Shift selects'],
  ['Ctrl+A', 'select all'],
  ['Alt+Shift+arrow down', 'open the column’s menu: sort and filter'],
  ['Shift+F10', 'open the cell’s menu'],
  [
    'Arrows, *, Enter, Esc in Calculation',
    'move through the tree and open it; * opens a whole level; Enter goes to the cell, Esc returns to the grid',
  ],
  ['Up and down arrow in Skew', 'show the next plate series'],
  ['Arrows on the line beside the panels', 'resize the panels and the findings; Enter restores the default size'],
  ['Esc', 'close a dialog, a menu or an editor'],
];

const keyTable = (desk: Desk): TemplateResult => html`
  <table class="table">
    <thead><tr><th>Key</th><th>Does</th></tr></thead>
    <tbody>
      ${actions
        .filter(({ key }) => key !== undefined)
        .map((item) => html`<tr><td><kbd>${item.key}</kbd></td><td>${actionName(item, desk)}: ${item.doc}</td></tr>`)}
      ${gridKeys.map(([key, does]) => html`<tr><td><kbd>${key}</kbd></td><td>${does}</td></tr>`)}
    </tbody>
  </table>
`;

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
    functions: () => functionList(desk),
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
