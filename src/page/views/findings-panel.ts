import { html, nothing, type TemplateResult } from 'lit-html';
import { guard } from 'lit-html/directives/guard.js';
import { repeat } from 'lit-html/directives/repeat.js';
import type { Verdict } from '../../functions/checks.ts';
import { belts } from '../../../sheets/belts/index.ts';
import { checks } from '../../checks/checks.ts';
import type { Finding } from '../../records/finding.ts';
import { act, isPossible } from '../actions/action.ts';
import { action, type ActionName } from '../actions/index.ts';
import { previewedCures } from '../cure-preview.ts';
import type { Desk, FindingsChoice } from '../desk.ts';
import { overviewOf } from '../belt-overview.ts';
import type { ListedFinding, Scope } from '../finding-groups.ts';
import { scopeNow } from '../findings-list.ts';
import { beltsFiltered, shownBelt } from '../shown-belt.ts';
import { verdictLook, verdictOrder } from '../verdict-look.ts';
import { panelHead } from './panel.ts';

/** What fails, is tight or is not known, with a jump to the cell to look at first. */

/** Items drawn at once; a list of thousands grows when its end is asked for. */
const atOnce = 150;
/** Belts of one finding that are named. */
const mostNamed = 12;

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

/** The other belts of which the same is to be said, each with its way there. */
function others(desk: Desk, all: readonly Finding[]): TemplateResult | typeof nothing {
  if (all.length < 2) return nothing;
  const [, ...rest] = all;
  return html`<span class="soft">and of</span>${rest.slice(0, mostNamed).map(
    (finding) => html`<button class="small" title="Go to ${finding.cell}"
        @click=${() => jump(desk, finding)}>${finding.name === '' ? finding.cell : finding.name}</button>`,
  )}${rest.length > mostNamed ? html`<span class="soft">and ${rest.length - mostNamed} more</span>` : nothing}`;
}

/** Opens the cures of a finding with what each would change. */
function openCures(desk: Desk, finding: Finding): void {
  desk.open({ kind: 'cure', finding, cures: previewedCures(desk.book, finding) });
}

/** Whether a finding is one of a check that compared something, so that trying a cure says what it does. */
const isCurable = ({ sheet, verdict, check, cures }: Finding): boolean =>
  sheet === belts.name &&
  (verdict === 'fails' || verdict === 'tight') &&
  cures.length > 0 &&
  checks.some(({ word }) => word === check);

const item = (desk: Desk, { finding, all }: ListedFinding): TemplateResult => {
  const look = verdictLook(finding.verdict);
  const curable = isCurable(finding);
  return html`<li class="finding-line"><button class="finding" title="Go to ${finding.cell}"
    @click=${() => jump(desk, finding)}>
    <span class="finding-head"><span
      class=${look?.className ?? ''}>${look?.mark} ${finding.verdict}</span><b>${finding.name}${
        all.length > 1 ? ` and ${all.length - 1} more` : ''
      }</b><span class="finding-check">${finding.check}</span><span class="finding-cell">${finding.cell}</span></span>
    <span class="finding-message">${finding.message}</span>
    ${finding.cures.map((cure) => html`<span class="finding-cure">${cure}</span>`)}
  </button>${
    curable || all.length > 1
      ? html`<div class="finding-more">${
          curable
            ? html`<button class="small" aria-label="Try a cure … for ${finding.check} of ${finding.name}"
                title="Shows what each cure would change, before anything is changed"
                @click=${() => openCures(desk, finding)}>Try a cure …</button>`
            : nothing
        }${others(desk, all)}</div>`
      : nothing
  }</li>`;
};

function list(desk: Desk, scope: Scope): TemplateResult {
  const { groups, complete, version } = desk.findings;
  const { grown } = desk.findingsChoice;
  const { listed, count } = groups.list(desk.findingsChoice, scope, shownBelt(desk), (1 + grown) * atOnce, version);
  if (count === 0) {
    const none = groups.count === 0 && complete;
    if (scope.of === 0 && none)
      return html`<p class="empty">No belts yet: type one into the first row of the sheet Belts, or import a list of
        yours.</p>`;
    return html`<p class="empty">${
      !complete
        ? 'Checking the records …'
        : none
          ? 'No findings: all joints pass and all inputs are valid.'
          : 'No findings of this kind.'
    }</p>`;
  }
  return html`
    <ul class="finding-list" @keydown=${onKey}>${repeat(
      listed,
      ({ key }) => key,
      // Another belt's findings come first with each entry: the others keep their lines, and those what stands in them.
      (one) => guard([one.finding, one.all.length, ...one.all.slice(1, 1 + mostNamed)], () => item(desk, one)),
    )}</ul>
    ${
      count > listed.length
        ? html`<button class="button more"
            @click=${() => choose(desk, { grown: grown + 1 })}>Show more of the ${count} findings</button>`
        : nothing
    }
  `;
}

/** What is in question, and a way out of it, when that is not every belt. */
function scopeLine(desk: Desk, scope: Scope): TemplateResult | typeof nothing {
  const { area, follows } = desk.findingsChoice;
  const isFiltered = beltsFiltered(desk);
  if (area === '' && !isFiltered) return nothing;
  return html`<span role="status">${scope.records.size} of ${scope.of} belts</span>${
    isFiltered
      ? html`<label><input type="checkbox" .checked=${follows}
          @change=${() => choose(desk, { follows: !follows, grown: 0 })} />only belts that the filter leaves</label>`
      : nothing
  }`;
}

const chooser = (
  label: string,
  all: string,
  options: readonly string[],
  chosen: string,
  choice: (value: string) => void,
): TemplateResult => html`<select class="check-choice" aria-label=${label} @change=${(event: Event) =>
  choice((event.target as HTMLSelectElement).value)}>
    <option value="" ?selected=${chosen === ''}>${all}</option>
    ${options.map((option) => html`<option ?selected=${chosen === option}>${option}</option>`)}
  </select>`;

const fileButton = (desk: Desk, id: ActionName, label: string): TemplateResult => html`<button class="small quiet"
  title=${action(id).doc} ?disabled=${!isPossible(action(id), desk)}
  @click=${() => act(action(id), desk)}>${label}</button>`;

/** The panel, as high as is said, else as high as there is room. */
export function findingsPanel(desk: Desk, height: number | undefined): TemplateResult {
  const {
    findings: { groups, version, complete },
    findingsChoice: choice,
  } = desk;
  const scope = scopeNow(desk);
  const { counts } = scope;
  return html`
    <section class="panel findings-panel" id="findings" style=${
      height === undefined ? nothing : `flex:none;` + `height:${height}px`
    } data-area="findings" aria-label="Findings">
      ${panelHead(
        desk,
        'panel-findings',
        'Findings',
        html`<h2>Findings</h2>`,
        html`${fileButton(desk, 'print-findings', 'Print')}${fileButton(desk, 'export-findings', '.xlsx')}`,
      )}
      <div class="verdict-counts" role="group" aria-label="Belts by verdict">${verdictOrder.map((verdict) =>
        verdictButton(desk, verdict, counts[verdict]),
      )}</div>
      <div class="finding-scope">
        ${chooser('Check', 'all checks', groups.checks, choice.check, (check) => choose(desk, { check, grown: 0 }))}
        ${chooser('Area', 'all areas', overviewOf(desk.book).areas(), choice.area, (area) =>
          choose(desk, { area, grown: 0 }),
        )}
        ${scopeLine(desk, scope)}
      </div>
      <div class="panel-body">${guard([version, complete, choice, shownBelt(desk), scope], () =>
        list(desk, scope),
      )}</div>
    </section>
  `;
}
