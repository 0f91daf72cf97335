import { withShownMark } from '../../units/shown-mark.ts';
import { counted } from '../../units/phrases.ts';
import { html, nothing, type TemplateResult } from 'lit-html';
import { costParts, type YearlyCost } from '../../order/search/skew-comparison.ts';
import { assumedText } from '../../records/assumed.ts';
import { wholeMoney } from '../planning/figures.ts';
import type { OrderSession } from './order-session.ts';
import { searching } from './order-words.ts';

/** Square against skew for the fleet, in cost a year. */

const names: Readonly<Record<keyof YearlyCost, string>> = {
  parts: 'Parts',
  belt: 'Belt taken by the joint',
  hours: 'Labour hours',
  lostProduction: 'Lost production',
  pulleys: 'Larger pulleys',
  total: 'Total per year',
};

const signed = (value: number): string =>
  `${Math.round(value) > 0 ? '+' : Math.round(value) < 0 ? '−' : ''}${wholeMoney(Math.abs(value))}`;

/** The heading of the differences, with what their sign says. */
const difference = 'Skew costs more (+) or less (−)';

export function compareTab(session: OrderSession): TemplateResult {
  const { comparison } = session;
  if (comparison === undefined) {
    return session.running.has('compare')
      ? searching('Comparing', session.running.get('compare'), () => session.stop('compare'))
      : html`<p class="empty">${session.problems.get('compare') ?? 'Cancelled.'} <button class="small"
        @click=${() => session.askComparison()}>Compare again</button></p>`;
  }
  const { rows, total, pulleyChangesAvoided, apart, skews } = comparison;
  const currency = assumedText(session.book, 'BookCurrency');
  return html`
    <div class="order-split">
      <div>
        <table class="table planning-table order-compare">
          <thead><tr><th>${rows.length} belts, cost per year (${currency})</th><th class="number">Square</th><th
            class="number">Skew</th><th class="number">${difference}</th></tr></thead>
          <tbody>${costParts.map(
            (part) => html`<tr class=${part === 'total' ? 'order-total' : ''}><th
            scope="row">${names[part]}</th><td class="number">${wholeMoney(total.square[part])}</td><td
              class="number">${wholeMoney(total.skew[part])}</td><td
                class="number strong">${signed(-total.saved[part])}</td></tr>`,
          )}</tbody>
        </table>
        <p class="soft">${counted(
          pulleyChangesAvoided,
          'belt',
        )} would need a larger pulley for a square joint but pass at their skew. Each belt keeps its plate series; a
          belt that is square now is compared at 45°. Joint life is assumed equal, so the effect of skew on scrapers
            and wear is not included.</p>
        <table class="table planning-table order-compare-belts">
          <thead><tr><th>Belt</th><th class="number">Angle</th><th class="number">Square</th><th
            class="number">Skew</th><th class="number">${difference}</th></tr></thead>
          <tbody>${rows
            .toSorted((one, other) => other.saved.total - one.saved.total)
            .map(
              ({ belt, square, skew, saved }) => html`
            <tr><th scope="row">${belt}</th><td class="number">${withShownMark(String(skews.get(belt) ?? ''))}°</td><td
              class="number">${wholeMoney(square.total)}</td><td class="number">${wholeMoney(skew.total)}</td><td
                class="number strong">${signed(-saved.total)}</td></tr>`,
            )}</tbody>
        </table>
      </div>
      <aside class="order-side">
        ${
          apart.length === 0
            ? nothing
            : html`<section><h3>Not compared</h3><ul class="planning-left">${apart
                .slice(0, 80)
                .map(
                  ({ belt, reason }) => html`<li><b>${belt}</b> ${reason}</li>`,
                )}${apart.length > 80 ? html`<li>and ${apart.length - 80} more</li>` : nothing}</ul></section>`
        }
      </aside>
    </div>
  `;
}
