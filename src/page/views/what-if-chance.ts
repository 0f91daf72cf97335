import { groupedText } from '../../units/shown-mark.ts';
import { html, nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { belts } from '../../../sheets/belts/index.ts';
import type { BeltHeader } from '../../../sheets/index.ts';
import { beltColumn, unnamedBelt } from '../../records/belt.ts';
import { amount, listed } from '../../sheet/words.ts';
import { isWords } from '../../units/quantities.ts';
import { quantile } from '../../what-if/quantiles.ts';
import type { Share } from '../../what-if/simulated-part.ts';
import type { SimulatedBelt } from '../../what-if/simulation.ts';
import { chanceWords, fleetLines, shareWords, simulatedLines } from '../../what-if/simulation-words.ts';
import { type Chances, fleetColumns, fleetDraws, fleetRecords, type Found, type Whose } from '../chances.ts';
import type { Desk } from '../desk.ts';
import { draws } from '../what-if.ts';

/** How sure a belt and the fleet are, in the panel What if. */

const line = (text: string): TemplateResult => html`<p class="what-if-line">${text}</p>`;

function running(chances: Chances, whose: Whose): TemplateResult | undefined {
  const share = chances.share(whose);
  if (share === undefined) return undefined;
  return html`<p class="what-if-do"><progress max="1" value=${share}
    aria-label="Draws done"></progress> ${Math.floor(share * 100)} % drawn
    <button class="small" @click=${() => chances.stop(whose)}>Stop</button></p>`;
}

/** Tolerances and correlations of one's own; the rest is as proposed. */
function termsPart(chances: Chances): TemplateResult {
  return html`<details class="what-if-terms"><summary>Tolerances and correlations</summary>
    <label>One a line, as Power=10% or Power~Speed=0.6
      <textarea id="what-if-terms" rows="3" spellcheck="false" .value=${live(chances.terms)}
        @input=${(event: Event) => {
          chances.terms = (event.target as HTMLTextAreaElement).value;
        }}></textarea></label>
    <p class="caption">“even” or “lognormal” after a tolerance for another shape than normal. What is not named has
      its usual tolerance; 0% makes it exact.</p></details>`;
}

/** The belt on show: how often it passes. */
export function beltChance(desk: Desk, chances: Chances, record: number, header: BeltHeader): TemplateResult {
  const column = belts.columns.find((one) => one.header === header);
  const columns = column === undefined || isWords(column.kind) ? [] : [header];
  const found = chances.found.get('belt');
  const isShown = found?.state === desk.book.state && found.records[0] === record;
  return html`${termsPart(chances)}
    <p class="what-if-do"><button class="small"
    title="Draws the true inputs and named values by chance, within usual tolerances, and counts how often it passes"
    @click=${() => chances.start('belt', desk.book, [record], columns, draws)}>Draw ${draws} times</button></p>
    ${chances.problem === undefined ? nothing : html`<p class="what-if-line why" role="alert">${chances.problem}</p>`}
    ${running(chances, 'belt') ?? nothing}
    ${
      isShown
        ? html`<div role="status">${found.simulation.belts
            .flatMap((one) => simulatedLines(one, found.simulation.draws))
            .map((text) => line(text.trim()))}</div>`
        : nothing
    }`;
}

/** Shares of a spread that are worth a word, and how many are told. */
const [smallestShare, mostShares] = [0.02, 5];

function sharesLine(what: string, shares: readonly Share[]): TemplateResult | typeof nothing {
  const told = shareWords(shares, smallestShare).slice(0, mostShares);
  return told.length === 0 ? nothing : line(`${what} go with ${listed(told)}.`);
}

function totalsTable(desk: Desk, { simulation, columns }: Found): TemplateResult {
  const { units } = desk.book;
  const shown = (header: BeltHeader, drawn: Float64Array, share: number): string =>
    amount(quantile(drawn, share), beltColumn(header), units);
  return html`<table class="skew-table">
    <caption class="unseen">Sums over the fleet: in 90 of 100 draws between the first and the last</caption>
    <thead><tr><th scope="col">All belts</th><th scope="col">5 of 100 below</th><th scope="col">Middle</th><th
      scope="col">5 of 100 above</th></tr></thead>
    <tbody>${columns.map((header) => {
      const drawn = simulation.totals.get(header) ?? new Float64Array();
      return html`<tr><th scope="row">${header}</th>${[0.05, 0.5, 0.95].map(
        (share) => html`<td class="skew-number">${drawn.length === 0 ? '' : shown(header, drawn, share)}</td>`,
      )}</tr>`;
    })}</tbody>
  </table>`;
}

/** Belts that are listed; the command line has them all. */
const mostBelts = 15;

/** The check that fails most often of those that may. */
function weakest({ passes }: SimulatedBelt): string {
  const [first] = [...passes].filter(([header]) => header !== 'Verdict').toSorted((one, other) => one[1] - other[1]);
  return first?.[0] ?? '';
}

function beltsTable(desk: Desk, { simulation }: Found): TemplateResult {
  const { draws: made, belts: all } = simulation;
  const passes = (one: SimulatedBelt): number => one.passes.get('Verdict') ?? 0;
  const unsure = all
    .filter((one) => passes(one) > 0 && passes(one) < made)
    .toSorted((one, other) => passes(one) - passes(other));
  if (unsure.length === 0) return line('Every belt passes in all draws, or in none.');
  const go = (one: SimulatedBelt): void => {
    desk.goTo(one.belt.place('Verdict'));
    desk.grid?.focus();
  };
  return html`<table class="skew-table">
    <caption class="unseen">Belts that pass in some draws and not in others, the unsurest first</caption>
    <thead><tr><th scope="col">Belt</th><th scope="col">Passes in</th><th scope="col"
      class="what-if-words">Weakest</th></tr></thead>
    <tbody>${unsure.slice(0, mostBelts).map(
      (one) => html`<tr><th scope="row"><button class="link" title="Go to this belt"
        @click=${() => go(one)}>${one.belt.name || unnamedBelt}</button></th>
        <td class="skew-number">${chanceWords(passes(one), made)}</td><td>${weakest(one)}</td></tr>`,
    )}</tbody>
  </table>
  ${unsure.length > mostBelts ? html`<p class="caption">${unsure.length - mostBelts} more are surer.</p>` : nothing}`;
}

function fleetFound(desk: Desk, found: Found): TemplateResult {
  const { simulation, columns } = found;
  const [first = ''] = fleetLines(simulation, desk.book.units);
  return html`<div role="status" class="what-if-fleet">
    ${line(first)}
    ${sharesLine('Numbers of failing belts', simulation.failingShares)}
    ${totalsTable(desk, found)}
    ${columns.map((header) => sharesLine(`Sums of ${header}`, simulation.totalShares.get(header) ?? []))}
    ${beltsTable(desk, found)}
    <p class="caption">${groupedText(simulation.draws)} draws. Errors in the figures only: rules are taken to
      be right.</p></div>`;
}

/** The fleet: how many belts fail, what they cost, and which are least sure. */
export function fleetChance(desk: Desk, chances: Chances): TemplateResult {
  const records = fleetRecords(desk.book);
  const found = chances.found.get('fleet');
  return html`<p class="what-if-do"><label>Draws <select id="what-if-draws" @change=${(event: Event) => {
    const chosen = Number((event.target as HTMLSelectElement).value);
    chances.draws = fleetDraws.find((number) => number === chosen) ?? chances.draws;
  }}>${fleetDraws.map(
    (number) => html`<option value=${number} ?selected=${number === chances.draws}>${groupedText(number)}</option>`,
  )}</select></label>
    <button class="small" ?disabled=${records.length === 0} @click=${() =>
      chances.start('fleet', desk.book, records, fleetColumns, chances.draws)}>Draw the fleet</button></p>
    ${running(chances, 'fleet') ?? nothing}
    ${found?.state === desk.book.state ? fleetFound(desk, found) : nothing}`;
}
