import { html, nothing, type TemplateResult } from 'lit-html';
import { guard } from 'lit-html/directives/guard.js';
import type { Verdict } from '../../functions/checks.ts';
import type { Finding } from '../../records/finding.ts';
import type { Desk, FindingsChoice } from '../desk.ts';
import { verdictLook, verdictOrder } from '../verdict-look.ts';
import { panelHead } from './panel.ts';

/** What fails, is tight or is not known, with a jump to the cell to look at first. */

/** Items drawn at once; a list of thousands grows when its end is asked for. */
const atOnce = 150;

function choose(desk: Desk, change: Partial<FindingsChoice>): void {
  desk.findingsChoice = { ...desk.findingsChoice, ...change };
  desk.changed();
}

function jump(desk: Desk, { sheet, record, column }: Finding): void {
  desk.goTo({ sheet, record, column: desk.book.findColumn(sheet, column) ?? 0 });
  desk.grid?.focus();
}

function onKey(event: KeyboardEvent): void {
  const step = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
  if (step === 0) return;
  const list = [...(event.currentTarget as HTMLElement).querySelectorAll<HTMLElement>('button.finding')];
  const next = list[list.indexOf(document.activeElement as HTMLElement) + step];
  if (next === undefined) return;
  event.preventDefault();
  next.focus();
}

function verdictButton(desk: Desk, verdict: Verdict, count: number): TemplateResult {
  const look = verdictLook(verdict);
  const pressed = desk.findingsChoice.verdict === verdict;
  return html`<button class="count-button ${look?.className ?? ''}" aria-pressed=${pressed} title=${
    verdict === 'fits'
      ? 'belts without a ' + 'finding'
      : pressed
        ? 'show all ' + 'findings'
        : `show only findings with the verdict ${verdict}`
  }
    ?disabled=${verdict === 'fits'} @click=${() =>
      choose(desk, {
        verdict: pressed ? undefined : verdict,
        grown: 0,
      })}><b>${count}</b> ${look?.mark} ${verdict}</button>`;
}

const item = (desk: Desk, finding: Finding): TemplateResult => {
  const look = verdictLook(finding.verdict);
  return html`<li><button class="finding" title="Go to ${finding.cell}" @click=${() => jump(desk, finding)}>
    <span class="finding-head"><span
      class=${look?.className ?? ''}>${look?.mark} ${finding.verdict}</span><b>${finding.name}</b><span
        class="finding-check">${finding.check}</span><span class="finding-cell">${finding.cell}</span></span>
    <span class="finding-message">${finding.message}</span>
    ${finding.cures.map((cure) => html`<span class="finding-cure">${cure}</span>`)}
  </button></li>`;
};

let named: { readonly of: readonly Finding[]; readonly checks: readonly string[] } | undefined;

/** The checks that a list of findings names; lists of tens of thousands are not gone through at each drawing. */
function checksOf(all: readonly Finding[]): readonly string[] {
  if (named?.of !== all) named = { of: all, checks: [...new Set(all.map(({ check }) => check))] };
  return named.checks;
}

function list(desk: Desk, found: readonly Finding[]): TemplateResult {
  if (found.length === 0) {
    const none = desk.findings.list.length === 0 && desk.findings.complete;
    const belts = Object.values(desk.findings.counts).reduce((sum, count) => sum + count, 0);
    if (belts === 0 && none)
      return html`<p class="empty">No belts yet: type one into the first row of the sheet Belts, or import a list of
        yours.</p>`;
    return html`<p class="empty">${
      !desk.findings.complete
        ? 'Checking the records …'
        : none
          ? 'No findings: all joints pass and all inputs are valid.'
          : 'No findings of this kind.'
    }</p>`;
  }
  const { grown } = desk.findingsChoice;
  const shown = found.slice(0, (1 + grown) * atOnce);
  return html`
    <ul class="finding-list" @keydown=${onKey}>${shown.map((finding) => item(desk, finding))}</ul>
    ${
      found.length > shown.length
        ? html`<button class="button more"
            @click=${() => choose(desk, { grown: grown + 1 })}>Show more of the ${found.length} findings</button>`
        : nothing
    }
  `;
}

/** The panel, as high as is said, else as high as there is room. */
export function findingsPanel(desk: Desk, height: number | undefined): TemplateResult {
  const {
    findings: { list: all, counts, complete },
    findingsChoice: choice,
  } = desk;
  const checks = checksOf(all);
  const found = (): Finding[] =>
    all.filter(
      ({ verdict, check }) =>
        (choice.verdict === undefined || verdict === choice.verdict) && (choice.check === '' || check === choice.check),
    );
  return html`
    <section class="panel findings-panel" id="findings" style=${
      height === undefined ? nothing : `flex:none;` + `height:${height}px`
    } data-area="findings" aria-label="Findings">
      ${panelHead(
        desk,
        'panel-findings',
        'Findings',
        html`<h2>Findings</h2>`,
        html`
        <select class="check-choice" aria-label="Check" @change=${(event: Event) =>
          choose(desk, { check: (event.target as HTMLSelectElement).value, grown: 0 })}>
          <option value="" ?selected=${choice.check === ''}>all checks</option>
          ${checks.map((check) => html`<option ?selected=${choice.check === check}>${check}</option>`)}
        </select>`,
      )}
      <div class="verdict-counts" role="group" aria-label="Belts by verdict">${verdictOrder.map((verdict) =>
        verdictButton(desk, verdict, counts[verdict]),
      )}</div>
      <div class="panel-body">${guard([all, complete, choice], () => list(desk, found()))}</div>
    </section>
  `;
}
