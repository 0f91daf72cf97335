import { html, nothing, type TemplateResult } from 'lit-html';
import { guard } from 'lit-html/directives/guard.js';
import { type OfferMatrix, offerMatrix } from '../../purchase/offer-matrix.ts';
import { counted } from '../../units/phrases.ts';
import { isoDate } from '../../units/dates.ts';
import { money, percent } from '../planning/figures.ts';
import type { OrderSession } from './order-session.ts';

/** Offers side by side: what all of an item would cost from each supplier, and why it is bought where it is. */

type Cell = OfferMatrix['rows'][number]['cells'][number];

/** A price against the last one: "+4.2 % since 2026-05-01". */
function changeText({ rise, last }: NonNullable<NonNullable<Cell>['change']>): string {
  const since = last.day === undefined ? 'against the price before' : `since ${isoDate(last.day)}`;
  return `${rise >= 0 ? '+' : '−'}${percent(Math.abs(rise))} ${since}`;
}

/** Why it is not bought, or bought though other goods are cheaper; nothing where its goods are the cheapest. */
function reasonText({ cheapest, bought, why }: NonNullable<Cell>): string {
  if (cheapest && bought > 0) return '';
  const said = why.replace(/^(not bought|bought): /, '');
  return ` ${said.charAt(0).toUpperCase()}${said.slice(1)}.`;
}

function cellOf(cell: Cell): TemplateResult {
  if (cell === undefined) return html`<td class="soft order-offer">no offer</td>`;
  const { cost, cheapest, bought, article, leadDays, change } = cell;
  const marks = [...(cheapest ? ['cheapest'] : []), ...(bought > 0 ? [`${counted(bought, 'pack')} bought`] : [])];
  return html`<td class=${bought > 0 ? 'order-offer order-offer-bought' : 'order-offer'}>
    <span class="order-offer-cost">${money(cost)}</span>
    ${marks.length === 0 ? nothing : html`<span><b>${marks.join(', ')}</b></span>`}
    ${change === undefined ? nothing : html`<span>${changeText(change)}</span>`}
    <span class="soft">${article}, ${counted(leadDays, 'day')}.${reasonText(cell)}</span></td>`;
}

const matrixOf = ({ suppliers, rows }: OfferMatrix, currency: string): TemplateResult => html`
  <table class="table planning-table order-matrix">
    <thead><tr><th>Item</th>${suppliers.map((name) => html`<th>${name} (${currency})</th>`)}</tr></thead>
    <tbody>${rows.map(
      ({ item, cells }) => html`<tr><th scope="row">${item}</th>${cells.map((cell) => cellOf(cell))}</tr>`,
    )}</tbody>
  </table>
  <p class="caption">Cost of the goods if all of an item were bought there, with the days from order to delivery. The
    order is the cheapest as a whole: freight, charges, discounts and minimum orders may buy an item elsewhere than
      where
    its goods are cheapest. Offers that are left out stand in Remarks on cells.</p>`;

export function offersTab(session: OrderSession): TemplateResult {
  const { order, supplied, book } = session;
  if (order === undefined || supplied === undefined)
    return html`<p class="empty why">${session.problems.get('order') ?? ''}</p>`;
  return html`${guard([order, supplied], () => {
    const matrix = offerMatrix(book, order, supplied);
    return matrix.rows.length === 0
      ? html`<p class="empty">Nothing is to be ordered that anybody offers.</p>`
      : matrixOf(matrix, order.offered.currency);
  })}`;
}
