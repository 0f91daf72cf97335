import { deferrals } from '../../workbook/safety.ts';
import { html, nothing, type TemplateResult } from 'lit-html';
import { itemKey, type OrderLine } from '../../order/search/order-list.ts';
import type { Purchase, Supply } from '../../order/search/supply.ts';
import { chosenSupply, type SuppliedOrder } from '../../order/fleet-order.ts';
import { amountText, byLength, itemText } from '../../order/items.ts';
import { deliveriesOf } from '../../order/purchase-orders.ts';
import { surplusTexts } from '../../order/surplus-words.ts';
import { counted } from '../../units/phrases.ts';
import { offerOf } from '../../order/order-figures.ts';
import { unitOf } from '../../units/quantities.ts';
import { belts } from '../../../sheets/belts/index.ts';
import { money, plain } from '../planning/figures.ts';
import type { OrderSession } from './order-session.ts';

/** The order list: what to buy, from whom, and which belts each quantity is for. */

export interface ListView {
  /** Lines whose belts are shown. */
  readonly open: Set<string>;
  readonly redraw: () => void;
  readonly goTo: (sheet: string, record: number, column: string) => void;
}

function purchaseText(purchase: Purchase, session: OrderSession): TemplateResult {
  const { packs, pack, supplier, item } = purchase;
  const {
    order,
    book: { units },
  } = session;
  const offer = order === undefined ? undefined : offerOf(purchase, order.offered.offers);
  const what = byLength(item)
    ? `${packs} × ${amountText(pack, item, units)}`
    : pack === 1
      ? `${packs}`
      : `${packs} × ${plain(pack)}`;
  return html`<span class="order-buy"><b>${what}</b> <span
    class="soft">${supplier}${offer === undefined ? '' : `, ${offer.article}`}</span></span>`;
}

/** How much of a line each of several sites gets. */
function deliveredText(
  line: OrderLine,
  purchases: readonly Purchase[],
  { order, book: { units } }: OrderSession,
): TemplateResult | typeof nothing {
  if (order?.sites === undefined) return nothing;
  const amounts = new Map<string, number>();
  for (const { site, quantity } of purchases.flatMap((purchase) => deliveriesOf(order, purchase)))
    amounts.set(site, (amounts.get(site) ?? 0) + quantity);
  return amounts.size === 0
    ? nothing
    : html`<p>Delivered: ${[...amounts]
        .map(([site, quantity]) => `${site} ${amountText(quantity, line.item, units)}`)
        .join(', ')}</p>`;
}

function lineRow(
  line: OrderLine,
  purchases: readonly Purchase[] | undefined,
  session: OrderSession,
  view: ListView,
): TemplateResult {
  const { units } = session.book;
  const key = itemKey(line.item);
  const open = view.open.has(key);
  const own = purchases?.filter(({ item }) => itemKey(item) === key);
  const unit = unitOf(byLength(line.item) ? 'distance' : 'number', units);
  const toggle = (): void => {
    if (open) view.open.delete(key);
    else view.open.add(key);
    view.redraw();
  };
  return html`
    <tr class=${line.toOrder > 0 ? '' : 'order-covered'}>
      <th scope="row"><button class="order-item" aria-expanded=${open} title="Show the belts it is for"
        @click=${toggle}>${itemText(line.item, units)}</button></th>
      <td class="number">${plain(line.need)}</td>
      <td class="number">${line.allowance === 0 ? '' : plain(line.allowance)}</td>
      <td class="number">${line.shelfLevel === 0 ? '' : plain(line.shelfLevel)}</td>
      <td class="number">${line.shelf === 0 ? '' : plain(line.shelf)}</td>
      <td class="number">${line.onOrder === 0 ? '' : plain(line.onOrder)}</td>
      <td class="number">${line.toOrder === line.forShelf ? '' : plain(line.toOrder - line.forShelf)}</td>
      <td class="number">${line.forShelf === 0 ? '' : plain(line.forShelf)}</td>
      <td class="number strong" title=${plain(line.toOrder)}>${
        line.toOrder === 0 ? '' : plain(byLength(line.item) ? line.toOrder : Math.ceil(line.toOrder - 1e-9))
      }</td>
      <td class="soft">${unit}</td>
      <td>${
        line.toOrder === 0
          ? html`<span class="soft">covered</span>`
          : own === undefined
            ? html`<span
        class="soft">…</span>`
            : own.length === 0
              ? html`<span class="why">no offer</span>`
              : own.map((one) => purchaseText(one, session))
      }</td>
      <td class="number">${
        own === undefined || own.length === 0 ? '' : money(own.reduce((sum, { cost }) => sum + cost, 0))
      }</td>
    </tr>
    ${
      open
        ? html`<tr class="order-sources"><td colspan="12">${deliveredText(line, own ?? [], session)}
          <ul>${line.sources.map(
            ({ belt, area, month, quantity }) => html`
      <li><b>${belt}</b> ${plain(quantity)}${unit === '' ? '' : ` ${unit}`} <span
        class="soft">${[area, month].filter((part) => part !== '').join(', ')}</span></li>`,
          )}</ul></td></tr>`
        : nothing
    }
  `;
}

/** What an order comes to in its supplier's currency; nothing where that is the book's own. */
function inCurrency(
  { currency, invoiced: { goods, discount, surcharge, freight } }: Supply['orders'][number],
  own: string,
): TemplateResult | typeof nothing {
  return currency === own
    ? nothing
    : html` <span class="soft">${currency} ${money(goods - discount + surcharge + freight)}</span>`;
}

function ordersSection({ single, first }: SuppliedOrder, supply: Supply, own: string): TemplateResult {
  return html`
    <section>
      <h3>Orders</h3>
      <table class="table">
        <thead><tr><th>Supplier</th><th class="number">Goods (${own})</th><th class="number"
          title="freight and surcharge less discount">Charges (${own})</th></tr></thead>
        <tbody>${supply.orders.map(
          (one) => html`<tr><td>${one.supplier}${inCurrency(one, own)}${
            one.deliveries > 1 ? html` <span class="soft">delivers to ${one.deliveries} sites</span>` : nothing
          }</td><td
            class="number">${money(one.goods)}</td><td
              class="number">${money(one.charges)}</td></tr>`,
        )}</tbody>
      </table>
      <p class="soft">${
        first === true
          ? 'First answer: each item from its cheapest offer. No cheaper order has been found yet.'
          : supply.proven
            ? 'Cheapest (proven): no other choice of suppliers costs less.'
            : `Not proven cheapest: lower bound ${money(supply.bound)}.`
      }
        ${
          first === true
            ? nothing
            : single.supply === undefined
              ? 'No single supplier sells everything.'
              : `Single supplier, ${single.supply.orders[0]?.supplier ?? 'one'}: ${money(single.supply.total)}.`
        }</p>
    </section>`;
}

const budgetSection = ({ budget }: SuppliedOrder): TemplateResult => html`
  <section>
    <h3>Cost by month of the joints</h3>
    <table class="table">
      <thead><tr><th>Month</th><th>Area</th><th class="number">Cost</th></tr></thead>
      <tbody>${budget.rows.map(
        ({ month, area, cost }, place, all) =>
          html`<tr><td>${
            all[place - 1]?.month === month ? '' : month
          }</td><td>${area === '' ? 'no area' : area}</td><td class="number">${money(cost)}</td></tr>`,
      )}</tbody>
    </table>
  </section>`;

/** A titled list; nothing without lines. */
const lines = (title: string, items: readonly TemplateResult[]): TemplateResult | typeof nothing =>
  items.length === 0
    ? nothing
    : html`
    <section>
      <h3>${title}</h3>
      <ul class="planning-left">${items}</ul>
    </section>`;

function side(session: OrderSession, view: ListView): TemplateResult {
  const { order, supplied, desk, sites } = session;
  /** A link to a cell of the open book; of another one, where it stands. */
  const linked = (sheet: string, record: number, column: string, text: string): TemplateResult => {
    const elsewhere = sites.elsewhere(sheet, record);
    return elsewhere === undefined
      ? html`<button class="link" title="Go to the cell"
          @click=${() => view.goTo(sheet, record, column)}>${text}</button>`
      : html`<b title=${elsewhere}>${text}</b>`;
  };
  const leftOut = order?.joints.leftOut ?? [];
  const unknown = order?.joints.belts.filter((belt) => belt.unknown.length > 0) ?? [];
  return html`
    <aside class="order-side">
      ${
        supplied === undefined || order?.lines.length === 0
          ? nothing
          : html`${ordersSection(
              supplied,
              chosenSupply(supplied),
              order?.offered.currency ?? '',
            )} ${budgetSection(supplied)}`
      }
      ${lines(
        'Sites',
        sites.told.map((text) => html`<li>${text}</li>`),
      )}
      ${lines(
        'Surplus',
        order === undefined || supplied === undefined
          ? []
          : surplusTexts(order, chosenSupply(supplied), session.book.units).map((text) => html`<li>${text}.</li>`),
      )}
      ${lines(
        'Not ordered',
        leftOut.map(
          ({ belt, reason, record, column }) => html`<li>${linked(belts.name, record, column, belt)} ${reason}</li>`,
        ),
      )}
      ${lines(
        'Ordered with checks not known',
        unknown.map(({ belt, unknown: checks }) => html`<li>${belt}: ${checks.join(', ')}</li>`),
      )}
      ${lines(
        'Remarks on cells',
        (order?.remarks ?? []).map(
          ({ cell, message, sheet, record, column }) =>
            html`<li>${linked(sheet, record, column, sites.elsewhere(sheet, record) ?? cell)} ${message}</li>`,
        ),
      )}
      <p class="soft">${deferrals.order}</p>
      ${desk.book.state.invented ? html`<p class="soft">Suppliers, prices and stock here are invented.</p>` : nothing}
    </aside>
  `;
}

export function listTab(session: OrderSession, view: ListView): TemplateResult {
  const { order, supplied } = session;
  if (order === undefined) return html`<p class="empty why">${session.problems.get('order') ?? ''}</p>`;
  if (order.lines.length === 0)
    return html`<div class="order-split"><p class="empty">Nothing to order: ${
      order.joints.belts.length > 0
        ? 'the joints need no parts'
        : order.joints.leftOut.length > 0
          ? `${counted(order.joints.leftOut.length, 'belt')} left out, for the reasons under Not ordered. Choose a ` +
            `later day or all belts above, or put right what is missing`
          : 'no belt is selected'
    }.</p>${side(session, view)}</div>`;
  const supply = supplied === undefined ? undefined : chosenSupply(supplied);
  return html`
    <div class="order-split">
      <table class="table planning-table">
        <thead><tr>
          <th>Item</th><th class="number" title="added up from the belts">Need</th><th class="number"
            title="added for waste and damage">Allowance</th><th class="number"
            title="what the shelf is to hold beside the planned joints">Shelf level</th><th
            class="number">On shelf</th><th class="number">On order</th><th class="number"
            title="for planned joints, and so that the pieces can be cut from whole rolls">For joints</th><th
            class="number" title="what then lacks of the shelf level">For shelf</th><th class="number">To order</th><th
              ><span class="unseen">Unit</span></th><th>Buy</th><th class="number">Cost (${order.offered.currency})</th>
        </tr></thead>
        <tbody>${order.lines.map((line) => lineRow(line, supply?.purchases, session, view))}</tbody>
        ${
          supply === undefined
            ? nothing
            : html`<tfoot>
          <tr><td colspan="11">Goods</td><td class="number">${money(supply.goods)}</td></tr>
          <tr><td colspan="11" title="freight and surcharges less discounts">Freight and charges</td><td
            class="number">${money(supply.charges)}</td></tr>
          <tr class="order-total"><td colspan="11">Total${
            supply.unsupplied.length === 0 ? '' : `, without ${counted(supply.unsupplied.length, 'item')} nobody offers`
          }</td><td class="number">${money(supply.total)}</td></tr>
        </tfoot>`
        }
      </table>
      ${side(session, view)}
    </div>
  `;
}
