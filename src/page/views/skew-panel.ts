import { degreesText } from '../../units/shown-mark.ts';
import { inColumn } from '../cell-text.ts';
import { deferrals } from '../../workbook/safety.ts';
import { html, nothing, type TemplateResult } from 'lit-html';
import { guard } from 'lit-html/directives/guard.js';
import { live } from 'lit-html/directives/live.js';
import {
  cheapest,
  type LeastSkew,
  ownJoint,
  presentText,
  rangesText,
  whyNone,
  type SeriesSkews,
} from '../../advice/belt-skews.ts';
import {
  askedChecks,
  beltEvaluation,
  figureColumns,
  type FigureColumn,
  pulleyColumn,
} from '../../advice/skew-question.ts';
import { Belt, beltColumn, unnamedBelt } from '../../records/belt.ts';
import { amount, listed, withUnit } from '../../sheet/words.ts';
import { skew as skewParameter } from '../../functions/parameters.ts';
import { unitOf } from '../../units/quantities.ts';
import type { BeltHeader } from '../../../sheets/index.ts';
import { belts } from '../../../sheets/belts/index.ts';
import type { Desk, SkewLook } from '../desk.ts';
import { jointEdits, type LookedAt } from '../joint-edits.ts';
import { askToKeep } from '../keeping-variant.ts';
import { shownBelt } from '../shown-belt.ts';
import { sideWidth } from '../side-size.ts';
import type { SkewFeed, SkewProgress } from '../skew-feed.ts';
import { verdictLook } from '../verdict-look.ts';
import { skewPlot } from './skew-plot.ts';

/**
 * The skew advisor: what each plate series needs for the belt on show, what that costs, and which pulleys it then
 * passes.
 */

const short: Readonly<Record<FigureColumn, string>> = {
  Plates: 'Plates',
  'Strip per joint': 'Strip',
  'Joint takes': 'Takes',
  'Labour hours': 'Labour',
  Downtime: 'Downtime',
  'Joint cost': 'Cost',
};

function choose(desk: Desk, change: Partial<SkewLook>): void {
  desk.skewLook = { ...desk.skewLook, ...change };
  desk.changed();
}

/** A number as its column of Belts shows it. */
const number = ({ book }: Desk, header: BeltHeader, value: number): string => inColumn(book, belts.name, header, value);

const unit = ({ book }: Desk, header: BeltHeader): string => unitOf(beltColumn(header).kind, book.units);

/** A pulley's diameter with its unit, without idle zeros. */
const size = ({ book }: Desk, value: number): string => amount(value, beltColumn(pulleyColumn), book.units);

const signed = (desk: Desk, header: FigureColumn, value: number): string =>
  value < 0 ? number(desk, header, value) : `+${number(desk, header, value)}`;

function figureCells(desk: Desk, { figures, extra }: LeastSkew): TemplateResult[] {
  return figureColumns.map((header) => {
    const [value, more] = [figures[header], extra[header]];
    return html`<td class="skew-number">${value === undefined ? '?' : number(desk, header, value)}${
      more === undefined
        ? nothing
        : html`<small title="difference from the square joint of this series">${signed(desk, header, more)}</small>`
    }</td>`;
  });
}

function seriesRow(
  desk: Desk,
  { own, series }: LookedAt,
  { name, skews }: SkewProgress['series'][number],
  best: string | undefined,
): TemplateResult {
  const is = name === series;
  const tags = [...(name === own.series ? ['now'] : []), ...(name === best ? ['cheapest'] : [])];
  const least = skews?.least;
  return html`<tr class=${is ? 'skew-chosen' : ''}>
    <th scope="row"><button class="skew-series" aria-pressed=${is} tabindex=${is ? 0 : -1} ?data-enter=${is}
      title="Show ${name} in the plot"
        @click=${() => choose(desk, { series: name, skew: undefined })}>${name}</button>${
          tags.length === 0 ? nothing : html`<small>${tags.join(', ')}</small>`
        }</th>
    ${
      skews === undefined
        ? html`<td colspan=${figureColumns.length + 1} class="skew-none">…</td>`
        : least === undefined
          ? html`<td colspan=${figureColumns.length + 1} class="skew-none">none: ${whyNone(skews.hindrances)}</td>`
          : html`<td class="skew-number skew-least">${degreesText(least.skew)}<small
            class=${least.tight.length > 0 ? 'verdict-tight' : 'verdict-fits'} title=${
              least.tight.length > 0 ? `tight: ${listed(least.tight)}` : 'all checks pass'
            }>${least.tight.length > 0 ? '≈ tight' : '✓ fits'}</small></td>${figureCells(desk, least)}`
    }
  </tr>`;
}

function onTableKey(event: KeyboardEvent): void {
  const step = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
  if (step === 0) return;
  const list = [...(event.currentTarget as HTMLElement).querySelectorAll<HTMLElement>('.skew-series')];
  const next = list[list.indexOf(document.activeElement as HTMLElement) + step];
  event.preventDefault();
  next?.focus();
  next?.click();
}

function table(desk: Desk, progress: SkewProgress, shown: LookedAt): TemplateResult {
  const known = progress.series.flatMap(({ skews }) => (skews === undefined ? [] : [skews]));
  const best = known.filter(({ least }) => least !== undefined).length > 1 ? cheapest(known) : undefined;
  const rank = ({ name, skews }: SkewProgress['series'][number]): number =>
    name === shown.own.series ? 0 : skews?.least !== undefined ? 1 : 2;
  const rows = progress.series.toSorted((one, other) => rank(one) - rank(other));
  return html`<div class="skew-scroll"><table class="skew-table" aria-busy=${!progress.complete} @keydown=${onTableKey}>
    <caption class="unseen">Plate series: the minimum skew at which all checks pass, and its cost</caption>
    <thead><tr><th scope="col">Series</th><th scope="col">Minimum skew</th>${figureColumns.map(
      (header) =>
        html`<th scope="col" title=${beltColumn(header).doc}>${short[header]}${
          unit(desk, header) === '' ? nothing : html`<small>${unit(desk, header)}</small>`
        }</th>`,
    )}</tr></thead>
    <tbody>${rows.map((row) => seriesRow(desk, shown, row, best))}</tbody>
  </table></div>`;
}

/** Writes a skew, and the series where it is another, as one step to undo. */
function set(desk: Desk, record: number, shown: LookedAt): void {
  const { own, series, skew } = shown;
  desk.book.edit(jointEdits(desk.book, record, shown), series === own.series ? 'set skew' : 'set skew and series');
  desk.say(
    `${beltName(desk, record)}: ${withUnit(String(skew), '°')}${series === own.series ? '' : `, ${series}`} is ` +
      `entered. Undo reverses it.`,
  );
}

function keep(desk: Desk, record: number, shown: LookedAt): void {
  const name = `${beltName(desk, record)}, ${shown.series} at ${degreesText(shown.skew)}`;
  askToKeep(desk, 'Keep the joint as a variant', name, jointEdits(desk.book, record, shown));
}

const beltName = ({ book }: Desk, record: number): string => new Belt(book, record).name || unnamedBelt;

/** How the joint stands at the skew that is looked at. */
function standing(
  desk: Desk,
  record: number,
  { series, skew }: LookedAt,
): { readonly text: TemplateResult; readonly pulley: number | undefined } {
  const { verdicts, figures } = beltEvaluation(desk.book, record)(skew, series);
  const at = (verdict: string): string[] => askedChecks.filter((check) => verdicts[check] === verdict);
  const worst = (['fails', 'not known', 'tight'] as const).find((verdict) => at(verdict).length > 0) ?? 'fits';
  const look = verdictLook(worst);
  const pulley = figures[pulleyColumn];
  return {
    pulley,
    text: html`<span class=${look?.className ?? ''}>${look?.mark} ${worst}${
      worst === 'fits' ? '' : `: ${listed(at(worst))}`
    }</span>${pulley === undefined ? nothing : html`<span class="soft">minimum pulley ${size(desk, pulley)}</span>`}`,
  };
}

function choice(desk: Desk, record: number, shown: LookedAt, said: TemplateResult): TemplateResult {
  const { own, series, skew } = shown;
  const same = own.skew === skew && own.series === series;
  const onInput = (event: Event): void => {
    const typed = (event.target as HTMLInputElement).valueAsNumber;
    if (typed >= skewParameter.min && typed <= skewParameter.max) choose(desk, { skew: Math.round(typed * 10) / 10 });
  };
  return html`<div class="skew-choice">
    <label>${series} at <input type="number" class="skew-field" aria-label="Skew to try, degrees"
      min=${skewParameter.min} max=${skewParameter.max} step="0.1" .value=${live(String(skew))} @change=${onInput}
        />°</label>
    <button class="button primary" ?disabled=${same} title=${
      same ? 'The belt already has this joint' : 'Enters it in the belt’s row; Undo reverses it'
    } @click=${() => set(desk, record, shown)}>${
      own.series === series ? 'Set this skew' : 'Set this skew and series'
    }</button>
    <button class="button" ?disabled=${same} title="Keeps it in the sheet Variants, to be compared; the belt stays"
      @click=${() => keep(desk, record, shown)}>Keep as a variant …</button>
    <span class="skew-standing" role="status">${said}</span>
    <small class="soft">${deferrals.skew}</small>
  </div>`;
}

/** The answer for the belt's own series in one sentence. */
function answer(progress: SkewProgress, { own }: LookedAt): string {
  if (own.series === '') return 'No plate series is entered for this belt.';
  const mine = progress.series.find(({ name }) => name.toLowerCase() === own.series.toLowerCase());
  if (mine === undefined) return `The sheet Plate series has no ${own.series}.`;
  const { skews } = mine;
  if (skews === undefined) return 'Calculating …';
  if (skews.least === undefined) return `With ${own.series} no skew passes: ${whyNone(skews.hindrances)}.`;
  const { skew } = skews.least;
  if (skew === 0) return `With ${own.series} the square joint passes all checks.`;
  const why = skews.hindrances.map(({ check }) => check);
  return (
    `With ${own.series} the minimum skew that passes all checks is ` +
    `${degreesText(skew)}${why.length === 0 ? '' : `; the square joint fails ${listed(why)}`}.`
  );
}

const skewsOf = (progress: SkewProgress, series: string): SeriesSkews | undefined =>
  progress.series.find(({ name }) => name === series)?.skews;

/** The plot of every series that was looked at, or why there is none. */
function plotOf(desk: Desk, progress: SkewProgress, shown: LookedAt, pulley: number | undefined): TemplateResult {
  const skews = skewsOf(progress, shown.series);
  const plot = skewPlot({
    width: sideWidth(desk) - 24,
    height: window.innerHeight <= 820 ? 224 : 264,
    greatestSkew: skewParameter.max,
    unit: unit(desk, pulleyColumn),
    skew: shown.skew,
    pulley,
    passes: skews?.passes ?? [],
    lines: progress.series.flatMap((item) =>
      item.skews === undefined
        ? []
        : [
            {
              series: item.name,
              curve: item.skews.curve,
              chosen: item.name === shown.series,
              passes: item.skews.least !== undefined,
            },
          ],
    ),
    marks: skews?.pulleys ?? [],
    size: (value) => size(desk, value),
    choose: (wanted) => choose(desk, { skew: wanted }),
  });
  if (plot !== nothing) return html`${plot}`;
  return html`<p class="empty">${
    progress.complete
      ? 'No minimum pulley to draw: enter it in the sheet Plate series, and the skew in the belt’s row.'
      : 'Calculating …'
  }</p>`;
}

/** What is looked at: what the user chose, else the belt's own series at its minimum skew. */
function shownOf(desk: Desk, record: number, progress: SkewProgress): LookedAt | undefined {
  const own = ownJoint(desk.book, record);
  const names = progress.series.map(({ name }) => name);
  const series = names.find((name) => name === (desk.skewLook.series ?? own.series)) ?? names[0];
  if (series === undefined) return undefined;
  return { own, series, skew: desk.skewLook.skew ?? skewsOf(progress, series)?.least?.skew ?? own.skew ?? 45 };
}

function content(desk: Desk, record: number, progress: SkewProgress): TemplateResult {
  const shown = shownOf(desk, record, progress);
  if (shown === undefined)
    return html`<p class="empty" data-enter
      tabindex="0">The sheet Plate series is empty. Enter your supplier’s series there to see the skew that each
        needs.</p>`;
  const { own, series } = shown;
  const skews = skewsOf(progress, series);
  const { text, pulley } = standing(desk, record, shown);
  return html`
    <h3 class="joint-name">${beltName(desk, record)} <span>now ${
      own.skew === undefined ? 'without a skew' : own.skew === 0 ? 'square' : degreesText(own.skew)
    }${own.series === '' ? '' : `, ${own.series}`}</span></h3>
    <p class="skew-answer">${answer(progress, shown)}</p>
    <p class="skew-ranges">${presentText(desk.book, record) ?? ''}</p>
    <div class="plot-place">${plotOf(desk, progress, shown, pulley)}</div>
    <p class="caption">Thick: ${series}. Thin: series that pass at some skew. Dotted: series that pass at no skew. Bar
      on the axis: skews at which ${series} passes all checks.</p>
    ${choice(desk, record, shown, text)}
    ${skews === undefined ? nothing : html`<p class="skew-ranges">${series} passes ${rangesText(skews.passes)}.</p>`}
    ${table(desk, progress, shown)}
    <p class="caption">Small figures: difference from the square joint of the same series. Skew is to the nearest 0.1°.
      The age check is skipped: a new joint has no age.</p>
  `;
}

export function skewView(desk: Desk, skews: SkewFeed): unknown {
  const record = shownBelt(desk);
  if (record === undefined)
    return html`<p class="empty" data-enter
      tabindex="0">Select a belt to see the minimum skew at which its joint (splice) passes, for every plate series,
        and its cost.</p>`;
  if (desk.skewLook.record !== record) desk.skewLook = { record };
  const progress = skews.of(record);
  return guard([progress, desk.book.state, desk.skewLook, sideWidth(desk)], () => content(desk, record, progress));
}
