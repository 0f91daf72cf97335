import { degreesText } from '../../units/shown-mark.ts';
import { counted } from '../../units/phrases.ts';
import { deferrals } from '../../workbook/safety.ts';
import { html, nothing, svg, type TemplateResult } from 'lit-html';
import type { CurvePoint } from '../../order/search/fewest-series.ts';
import { listed } from '../../sheet/words.ts';
import type { FleetSeries, SeriesChange } from '../../order/fleet-series.ts';
import { assumedText } from '../../records/assumed.ts';
import { wholeMoney } from '../planning/figures.ts';
import type { OrderSession } from './order-session.ts';
import { searching } from './order-words.ts';

/** Which plate series could serve the fleet: the curve of cost against their number, and a proposal to apply. */

export interface SeriesView {
  /** The point of the curve that is looked at; the best when none was chosen. */
  chosen: number | undefined;
  readonly redraw: () => void;
}

type Point = CurvePoint & { readonly choice: NonNullable<CurvePoint['choice']> };

const size = { width: 520, height: 250, left: 76, right: 16, top: 22, bottom: 40 } as const;

function curvePicture(
  points: readonly Point[],
  count: number,
  chosen: number,
  choose: (series: number) => void,
  currency: string,
): TemplateResult {
  const costs = points.map(({ choice }) => choice.cost);
  const [least, greatest] = [Math.min(...costs), Math.max(...costs)];
  const room = greatest - least || greatest * 0.1 || 1;
  const [from, to] = [least - room * 0.15, greatest + room * 0.15];
  const x = (series: number): number => size.left + ((series - 0.5) / count) * (size.width - size.left - size.right);
  const y = (cost: number): number => size.top + ((to - cost) / (to - from)) * (size.height - size.top - size.bottom);
  const floor = size.height - size.bottom;
  const first = points[0]?.series ?? 1;
  const rules = [...new Set([least, (least + greatest) / 2, greatest])];
  return html`<svg class="order-curve" viewBox="0 0 ${size.width} ${size.height}" role="group"
    aria-label="Cost per year against the number of plate series">
    ${svg`
      <path class="plot-axis" d="M${size.left} ${size.top}V${floor}H${size.width - size.right}" />
      ${rules.map(
        (value) => svg`<line class="plot-rule" x1=${size.left} x2=${size.width - size.right} y1=${y(value)}
          y2=${y(value)} /><text class="plot-tick" x=${size.left - 8} y=${y(value) + 4}
            text-anchor="end">${wholeMoney(value)}</text>`,
      )}
      ${Array.from(
        { length: count },
        (_, place) => svg`<text class="plot-tick" x=${x(place + 1)} y=${floor + 16}
        text-anchor="middle">${place + 1}</text>`,
      )}
      <text class="plot-title" x=${size.left - 68} y="12">cost per year, ${currency}</text>
      <text class="plot-title" x=${(size.left + size.width - size.right) / 2} y=${size.height - 4}
        text-anchor="middle">maximum number of plate series in stock</text>
      ${
        first > 1
          ? svg`<text class="plot-tick" x=${x(1) - 8}
        y=${size.top + 14}>fewer than ${first} cannot cover the fleet</text>`
          : nothing
      }
      <polyline class="order-line" points=${points
        .map(({ series, choice }) => `${x(series)},${y(choice.cost)}`)
        .join(' ')} />
      ${points.map(
        ({
          series,
          choice,
        }) => svg`<circle class="order-point ${series === chosen ? 'order-point-chosen' : ''}" cx=${x(series)}
          cy=${y(choice.cost)} r=${series === chosen ? 7 : 5} tabindex="0" role="button"
            aria-pressed=${series === chosen} aria-label=${`${series} series: ${wholeMoney(choice.cost)} per year`}
        @click=${() => choose(series)} @keydown=${(event: KeyboardEvent) => {
          if (event.key !== 'Enter' && event.key !== ' ') return;
          event.preventDefault();
          choose(series);
        }}><title>${`${series} series: ${wholeMoney(choice.cost)} per year`}</title></circle>`,
      )}`}
  </svg>`;
}

const skewText = (skew: number | undefined): string =>
  skew === undefined ? 'no skew' : skew === 0 ? 'square' : degreesText(skew);

const changeTable = (changes: readonly SeriesChange[]): TemplateResult => html`
  <table class="table planning-table">
    <thead><tr><th>Belt</th><th>Now</th><th>New</th></tr></thead>
    <tbody>${changes.map(
      ({ belt, from, to }) => html`<tr><th
      scope="row">${belt}</th><td>${
        from.series === '' ? 'no series' : from.series
      }, ${skewText(from.skew)}</td><td><b>${to.series}</b>, ${skewText(to.skew)}</td></tr>`,
    )}</tbody>
  </table>`;

const skewChoice = (session: OrderSession, view: SeriesView): TemplateResult => html`
  <label class="order-skews">Skews <select aria-label="Skews allowed" @change=${(event: Event) => {
    view.chosen = undefined;
    session.allowSkews((event.target as HTMLSelectElement).value === 'any');
  }}>
    <option value="own" ?selected=${!session.anySkew}>each belt's own skew or more</option>
    <option value="any" ?selected=${session.anySkew}>any</option>
  </select> <span class="soft">all checks except age</span></label>`;

export const seriesTab = (session: OrderSession, view: SeriesView): TemplateResult =>
  html`${skewChoice(session, view)}${found(session, view)}`;

/** From the cheapest number of series to the fewest possible, and the belts that neither covers. */
function span({ best, curve, unserved }: FleetSeries): TemplateResult {
  const fewest = curve.find(({ choice }) => choice !== undefined)?.series;
  return html`<span>Cheapest: ${best?.series.length ?? '?'} series. Fewest possible: ${fewest ?? '?'}.${
    unserved.length === 0 ? '' : ` Leaves out ${counted(unserved.length, 'belt')} that no series can cover.`
  }</span>`;
}

/** What a choice keeps and costs, and what the fleet costs now. */
function facts(choice: Point['choice'], answer: FleetSeries, currency: string): TemplateResult {
  const { now, present } = answer;
  const { cost, jointCost, keepingCost, proven, bound } = choice;
  return html`
    <p class="order-facts"><span><b>${choice.series.length} series</b>: ${listed(
      [...choice.series],
      'and',
      20,
    )}</span></p>
    <p class="order-facts">${span(answer)}</p>
    <p class="order-facts">
      <span><b>${currency} ${wholeMoney(cost)}</b> per year: joints ${wholeMoney(jointCost)}, stock
        ${wholeMoney(keepingCost)}</span>
      <span>${proven ? 'cheapest (proven)' : `lower bound ${wholeMoney(bound)}`}</span>
      ${
        now === undefined
          ? html`<span>now ${present.length} series; some belts' present joints fail</span>`
          : html`<span>now ${present.length} series at ${currency} ${wholeMoney(now)} per year</span>`
      }
    </p>`;
}

function proposal(session: OrderSession, changes: readonly SeriesChange[], count: number): TemplateResult {
  const applied = session.said !== '' && session.desk.book.undoable?.startsWith('cover the fleet') === true;
  return html`
    <section>
      <h3>Changes</h3>
      <p>${
        changes.length === 0
          ? 'No change needed.'
          : `${counted(changes.length, 'belt')}. Nothing changes until you apply it; one Undo reverses it.`
      }</p>
      <p class="order-apply">
        <button class="button primary" ?disabled=${changes.length === 0 || session.sites.names.length > 0}
          @click=${() => session.apply(changes, count)}>Apply to the book</button>
        ${session.sites.names.length > 0 ? 'Remove the added sites to apply changes to this book.' : nothing}
        ${applied ? html`<button class="button" @click=${() => session.undo()}>Undo</button>` : nothing}
      </p>
      <p class="soft">${deferrals.series}</p>
      ${changes.length === 0 ? nothing : changeTable(changes)}
    </section>`;
}

function found(session: OrderSession, view: SeriesView): TemplateResult {
  const running = session.running.get('series');
  if (session.series === undefined) {
    if (running !== undefined)
      return searching('Checking every belt, plate series and skew', running, () => session.stop('series'));
    return html`<p class="empty">${
      session.problems.get('series') ?? 'The search was cancelled.'
    } <button class="small" @click=${() => session.askSeries()}>Search again</button></p>`;
  }
  const { answer } = session.series;
  const points = answer.curve.flatMap((point): Point[] =>
    point.choice === undefined ? [] : [{ ...point, choice: point.choice }],
  );
  const best = points.find(({ choice }) => choice.cost === answer.best?.cost);
  const chosen = points.find(({ series }) => series === view.chosen) ?? best;
  if (chosen === undefined)
    return html`<p class="empty">No set of series covers all belts that can be covered.</p>${told(session)}`;
  const { series, choice } = chosen;
  const currency = assumedText(session.book, 'BookCurrency');
  return html`
    <div class="order-series">
      <div>
        ${curvePicture(
          points,
          answer.curve.length,
          series,
          (wanted) => {
            view.chosen = wanted;
            view.redraw();
          },
          currency,
        )}
        ${facts(choice, answer, currency)}
      </div>
      ${proposal(session, session.changesOf(series), choice.series.length)}
      <div class="order-told">${told(session)}</div>
    </div>
  `;
}

function told({ series }: OrderSession): TemplateResult | typeof nothing {
  if (series === undefined) return nothing;
  const { forced, unserved, reasons } = series.answer;
  return html`
    ${
      forced.length === 0
        ? nothing
        : html`<h3>Belts that force a series</h3><ul class="planning-left">${forced.map(
            (one) => html`<li><b>${one.series}</b>: ${listed([...one.belts], 'and', 12)}</li>`,
          )}</ul>`
    }
    ${
      unserved.length === 0
        ? nothing
        : html`<h3>Belts that no series can cover</h3><ul class="planning-left">${unserved
            .slice(0, 60)
            .map(
              (belt) => html`<li><b>${belt}</b> ${reasons.get(belt) ?? ''}</li>`,
            )}${unserved.length > 60 ? html`<li>and ${unserved.length - 60} more</li>` : nothing}</ul>`
    }
  `;
}
