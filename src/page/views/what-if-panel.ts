import { html, nothing, type TemplateResult } from 'lit-html';
import { guard } from 'lit-html/directives/guard.js';
import { live } from 'lit-html/directives/live.js';
import { belts } from '../../../sheets/belts/index.ts';
import { Belt, beltColumn, unnamedBelt } from '../../records/belt.ts';
import { amount, rounded } from '../../sheet/words.ts';
import { isWords } from '../../units/quantities.ts';
import type { Effect } from '../../what-if/effects.ts';
import { factorWords, rangeWords } from '../../what-if/factor.ts';
import { factorsFor } from '../../what-if/known-factors.ts';
import { nearestSolution } from '../../what-if/nearest-solution.ts';
import type { Solved } from '../../what-if/solved-belt.ts';
import { presentLine, solvedLines } from '../../what-if/solved-words.ts';
import type { CellPlace } from '../../workbook/place.ts';
import type { Desk } from '../desk.ts';
import { freeName, keepVariant } from '../keeping-variant.ts';
import { shownBelt } from '../shown-belt.ts';
import {
  askBy,
  askGoal,
  askRange,
  chancesOf,
  findTurns,
  proposedGoal,
  rankInputs,
  solutionEdits,
  solve,
  stillHolds,
  wantedColumn,
  whatIfAsked,
} from '../what-if.ts';
import { beltChance, fleetChance } from './what-if-chance.ts';
import { variantsPart } from './what-if-variants.ts';

/** What if: which value meets a goal, what a figure depends on, how sure it is, and the variants of the book. */

const line = (text: string): TemplateResult => html`<p class="what-if-line">${text}</p>`;

function solvedPart(desk: Desk, solved: Solved): TemplateResult {
  const { factor, belt } = solved;
  const edits = solutionEdits(solved);
  const value = nearestSolution(solved);
  const words = value === undefined ? '' : factorWords(factor, belt, value, typeof value === 'number' ? 4 : undefined);
  return html`<li>${solvedLines(solved).map(line)}${
    edits === undefined
      ? nothing
      : html`<p class="what-if-do">
        <button class="small" title="Enters it in its cell; Undo reverses it" @click=${() =>
          desk.book.edit(edits, `enter ${factor.name} ${words}`)}>Enter ${words}</button>
        <button class="small quiet" title="Keeps the change in the sheet Variants, to be compared; nothing else changes"
          @click=${() =>
            keepVariant(
              desk,
              freeName(desk.book, `${belt.name}, ${factor.name} ${words}`),
              edits,
            )}>Keep as a variant</button></p>`
  }</li>`;
}

function answerPart(desk: Desk, record: number): TemplateResult | typeof nothing {
  const { answer } = whatIfAsked;
  if (answer.of === 'refusal') return html`<p class="what-if-line why" role="alert">${answer.why}</p>`;
  if (answer.of === 'nothing' || answer.record !== record) return nothing;
  const holds = stillHolds(answer.state, desk.book.state);
  const [first] = answer.solved;
  return html`<div class="what-if-answer" role="status">
    ${holds ? nothing : line('The book has changed since: solve again.')}
    ${
      first === undefined
        ? line('No input and no named value alone meets this goal.')
        : html`${line(presentLine(first))}<ul>${
            holds ? answer.solved.map((one) => solvedPart(desk, one)) : nothing
          }</ul>`
    }</div>`;
}

/** Where the input that is named is tried; blank: what its cell allows or what is usual, in usual steps. */
function rangeFields(): TemplateResult {
  const field = (end: 'from' | 'to' | 'step', label: string): TemplateResult => html`<label>${label}
    <input type="text" class="what-if-range" placeholder="as usual" .value=${live(whatIfAsked.range[end] ?? '')}
      @input=${(event: Event) => askRange(end, (event.target as HTMLInputElement).value)}></label>`;
  return html`${field('from', 'From')}${field('to', 'To')}${field('step', 'Steps of')}`;
}

function solvePart(desk: Desk, record: number): TemplateResult {
  const { goal, by } = whatIfAsked;
  const submit = (event: Event): void => {
    event.preventDefault();
    solve(desk, record);
  };
  return html`<form class="what-if-ask" @submit=${submit}>
    <label>Goal <input type="text" id="what-if-goal" .value=${live(goal)} placeholder=${proposedGoal(desk, record)}
      title="A column with <=, >=, < , > or = and a value; or a check or Verdict alone, which shall pass"
      @input=${(event: Event) => askGoal((event.target as HTMLInputElement).value)}></label>
    <label>By changing <select id="what-if-by" .value=${live(by)} @change=${(event: Event) =>
      askBy(desk, (event.target as HTMLSelectElement).value)}>
      <option value="">any one input</option>
      ${factorsFor(new Belt(desk.book, record)).map(
        ({ name }) => html`<option value=${name}
        ?selected=${name === by}>${name}</option>`,
      )}
    </select></label>
    ${by === '' ? nothing : rangeFields()}
    <button class="small" type="submit">Solve</button>
  </form>
  ${answerPart(desk, record)}`;
}

/** Effects that are listed; the command line has them all. */
const mostListed = 12;

function effectRow(
  desk: Desk,
  belt: Belt,
  one: Effect,
  largest: number,
  header: ReturnType<typeof wantedColumn>,
): TemplateResult {
  const { factor, swing, tried, growth } = one;
  const place = factor.place(belt);
  const go = (): void => {
    desk.goTo(place);
    desk.grid?.focus();
  };
  const [first] = tried;
  const last = tried.at(-1);
  const range =
    typeof first?.at !== 'number' || typeof last?.at !== 'number'
      ? tried.length === 0
        ? 'exact'
        : `${tried.length} choices`
      : rangeWords(factor, belt, first.at, last.at);
  return html`<tr>
    <th scope="row"><button class="link" title="Go to this cell"
      @click=${go}>${factor.name}</button><small>${range}</small></th>
    <td class="what-if-bar"><span style="width:${largest > 0 ? (100 * swing) / largest : 0}%"></span></td>
    <td class="skew-number">${amount(swing, beltColumn(header), belt.units)}</td>
    <td class="skew-number">${growth?.elasticity === undefined ? '' : `${rounded(growth.elasticity, 2)} %`}</td>
  </tr>`;
}

/** What turns a verdict; of a column of other words nothing does. */
function turnsPart(desk: Desk, record: number, header: ReturnType<typeof wantedColumn>): TemplateResult {
  if (header !== 'Verdict' && !header.endsWith(' check'))
    return html`<p class="caption">Select a calculated number or a check in Belts to see what it depends on.</p>`;
  const { turned } = whatIfAsked;
  if (
    turned === undefined ||
    !stillHolds(turned.state, desk.book.state) ||
    turned.record !== record ||
    turned.header !== header
  )
    return html`<p class="what-if-do"><button class="small" @click=${() =>
      findTurns(desk, record, header)}>Find what turns ${header}</button></p>`;
  const belt = new Belt(desk.book, record);
  const now = String(belt.value(header));
  if (turned.list.length === 0) return html`<p class="caption">No input turns ${header} from ${now} by itself.</p>`;
  const go = (place: CellPlace): void => {
    desk.goTo(place);
    desk.grid?.focus();
  };
  return html`<table class="skew-table what-if-turns">
    <caption class="unseen">What turns ${header}, the nearest first</caption>
    <thead><tr><th scope="col">${header}: ${now}</th><th scope="col">Turns at</th><th scope="col">Then</th><th
      scope="col">Tolerances away</th></tr></thead>
    <tbody>${turned.list.slice(0, mostListed).map(
      ({ factor, present, at, verdict, tolerances }) => html`<tr>
        <th scope="row"><button class="link" title="Go to this cell"
          @click=${() => go(factor.place(belt))}>${factor.name}</button><small>now ${factorWords(
            factor,
            belt,
            present,
          )}</small></th>
        <td class="skew-number">${factorWords(factor, belt, at, 3)}</td>
        <td class="skew-number">${String(verdict)}</td>
        <td class="skew-number">${rounded(tolerances, 1)}</td></tr>`,
    )}</tbody>
  </table>`;
}

function effectsPart(desk: Desk, record: number): TemplateResult {
  const header = wantedColumn(desk);
  if (isWords(beltColumn(header).kind)) return turnsPart(desk, record, header);
  const { ranked } = whatIfAsked;
  if (
    ranked === undefined ||
    !stillHolds(ranked.state, desk.book.state) ||
    ranked.record !== record ||
    ranked.header !== header
  )
    return html`<p class="what-if-do"><button class="small" @click=${() =>
      rankInputs(desk, record, header)}>Rank the inputs of ${header}</button></p>`;
  const belt = new Belt(desk.book, record);
  const found = ranked.list;
  const more = found.length - mostListed;
  const largest = Math.max(0, ...found.slice(0, mostListed).map(({ swing }) => swing));
  if (found.length === 0) return html`<p class="caption">No input changes ${header} by itself.</p>`;
  return html`<table class="skew-table what-if-effects">
    <caption class="unseen">What ${header} depends on, the largest effect first</caption>
    <thead><tr><th scope="col">${header}</th><th scope="col"><span class="unseen">Effect</span></th><th
      scope="col">Varies by</th><th scope="col">1 % more</th></tr></thead>
    <tbody>${found.slice(0, mostListed).map((one) => effectRow(desk, belt, one, largest, header))}</tbody>
  </table>
  <p class="caption">Each is changed alone, within a usual tolerance: wider for a source “from memory” than for a
    standard.${more > 0 ? ` ${more} more have smaller effects.` : ''}</p>`;
}

function content(desk: Desk, record: number): TemplateResult {
  return html`
    <h3 class="joint-name">${new Belt(desk.book, record).name || unnamedBelt} <span>what if …</span></h3>
    <h4 class="working-head">Which value meets a goal</h4>
    ${solvePart(desk, record)}
    <h4 class="working-head">What it depends on</h4>
    ${effectsPart(desk, record)}
    <h4 class="working-head">How sure it is</h4>
    ${beltChance(desk, chancesOf(desk), record, wantedColumn(desk))}
    <h4 class="working-head">How sure the fleet is</h4>
    ${fleetChance(desk, chancesOf(desk))}
    <h4 class="working-head">Variants</h4>
    ${variantsPart(desk)}
  `;
}

export function whatIfView(desk: Desk): unknown {
  const record = shownBelt(desk);
  if (record === undefined)
    return html`<p class="empty" data-enter
      tabindex="0">Select a belt to ask which value meets a goal, what a figure depends on, and to compare
        variants.</p>`;
  const column = desk.sheet === belts.name ? desk.selection.place.column : -1;
  return guard([desk.book.state, record, column, desk.selection.records.length, whatIfAsked.version], () =>
    content(desk, record),
  );
}
