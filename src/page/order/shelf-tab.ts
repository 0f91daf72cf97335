import { html, nothing, type TemplateResult } from 'lit-html';
import { abcFigures } from '../../order/abc-table.ts';
import { itemText } from '../../order/items.ts';
import type { FleetShelfLine } from '../../order/shelf-lines.ts';
import { deadValueText } from '../../order/shelf-words.ts';
import type { SimulatedShelf } from '../../order/search/shelf-simulation.ts';
import type { UnitSystem } from '../../units/quantities.ts';
import { percent, plain, wholeMoney } from '../planning/figures.ts';
import type { OrderSession } from './order-session.ts';
import { searching } from './order-words.ts';

/** The shelf: what lies there against the point to order at, and the service it gives when years are played through. */

/** Shelf (full) and orders (hatched) as a bar, the point to order at as a mark across it; said in words beside it. */
function bar({ onShelf, onOrder, reorderPoint, orderQuantity }: FleetShelfLine): TemplateResult {
  const most = Math.max(onShelf + onOrder, reorderPoint + orderQuantity, 1e-9);
  const at = (amount: number): string => `${((amount / most) * 100).toFixed(1)}%`;
  return html`<span class="order-bar" aria-hidden="true"><span class="order-bar-shelf"
    style="width:${at(onShelf)}"></span><span class="order-bar-coming" style="width:${at(onOrder)}"></span><span
      class="order-bar-point" style="left:${at(reorderPoint)}"></span></span>`;
}

function state(line: FleetShelfLine): TemplateResult {
  if (line.dead) return html`<span class="order-dead">not used by any belt; ${deadValueText(line)}</span>`;
  if (line.use === 'unused') return html`<span class="soft">not used</span>`;
  if (line.packsToday > 0) return html`<b class="order-short">below its reorder point</b>`;
  return html`<span class="soft">enough${Number.isFinite(line.cover) ? `, ${plain(line.cover)} years` : ''}</span>`;
}

const playedTitle = 'years simulated with a fixed seed; 99 % confidence interval';

const useText = ({ planned, unplanned, sources }: FleetShelfLine): string =>
  `${plain(planned)} planned, ${plain(unplanned)} unplanned, from ${sources.length} belts`;

/** What is known of a line beside itself. */
interface LineFigures {
  readonly played: SimulatedShelf | undefined;
  readonly class: string;
  readonly stockValue: number | undefined;
}

function row(line: FleetShelfLine, figures: LineFigures, units: UnitSystem): TemplateResult {
  const { played, stockValue } = figures;
  const { interval } = played ?? {};
  return html`<tr>
    <th scope="row">${itemText(line.item, units)} <span class="soft">${line.bin}</span></th>
    <td>${figures.class}</td>
    <td class="number" title=${useText(line)}>${line.use === 'unused' ? '' : plain(line.planned + line.unplanned)}</td>
    <td class="number">${line.use === 'unused' ? '' : plain(line.reorderPoint)}</td>
    <td class="number">${line.use === 'unused' ? '' : html`${plain(line.orderQuantity)}`}</td>
    <td class="number">${plain(line.onShelf)}${
      line.onOrder === 0
        ? ''
        : html` <span
      class="soft">+ ${plain(line.onOrder)}</span>`
    }</td>
    <td class="number">${stockValue === undefined ? '' : wholeMoney(stockValue)}</td>
    <td class="order-shelf-picture">${bar(line)}</td>
    <td class="order-state">${state(line)}</td>
    <td class="number">${percent(line.service)}</td>
    <td class="number" title=${played === undefined ? '' : `${played.years} years, ${played.orders} orders`}>${
      played?.service === undefined
        ? ''
        : html`${percent(played.service)} <span class="soft order-interval">${
            interval === undefined ? '' : `${percent(interval[0])} to ${percent(interval[1])}`
          }</span>`
    }</td>
  </tr>`;
}

export function shelfTab(session: OrderSession): TemplateResult {
  const {
    shelf,
    played,
    order,
    book: { units },
  } = session;
  if (shelf === undefined || order === undefined)
    return session.running.has('order')
      ? searching('Calculating the stock', session.running.get('order'), () => session.stop('order'))
      : html`<p class="empty why">${session.problems.get('order') ?? 'Cancelled before the stock was calculated.'}</p>`;
  if (shelf.lines.length === 0)
    return html`<p class="empty">The sheet Shelf is empty. Enter your stock, one bin per row, to see reorder points,
      shortages and dead stock here.</p>`;
  const { currency } = order.offered;
  const abc = abcFigures(shelf, order);
  const lines = shelf.lines
    .map((line, place) => ({
      line,
      figures: { played: played[place], class: '', stockValue: undefined, ...abc[place] },
    }))
    .toSorted((one, other) => Number(other.line.packsToday > 0) - Number(one.line.packsToday > 0));
  return html`
    <table class="table planning-table">
      <thead><tr>
        <th>Item</th><th title="A: the first 80 % of the value used in a year, B: up to 95 %, C: the rest">Class</th><th
          class="number">Use per year</th><th class="number"
          title="order when stock on shelf plus on order falls to this">Reorder point</th><th class="number"
            title="lowest cost per year, price breaks included">Order quantity</th><th
              class="number">On shelf</th><th class="number">Stock value (${currency})</th><th
                class="order-shelf-picture"><span class="unseen">Picture of the shelf</span></th><th><span
                class="unseen">State</span></th><th class="number"
                title="chance of no shortage in one lead time">Target service level</th><th class="number"
                  title=${playedTitle}>Simulated service level</th>
      </tr></thead>
      <tbody>${lines.map(({ line, figures }) => row(line, figures, units))}</tbody>
    </table>
    <p class="caption">Value of the stock with a price: ${currency} ${wholeMoney(
      abc.reduce((sum, { stockValue = 0 }) => sum + stockValue, 0),
    )}. <span class="order-shelf-picture">Bar: on shelf solid, on order hatched, reorder point marked.</span>
      Strip in ${units === 'us' ? 'ft' : 'm'}. The order list buys what the shelf lacks, in its column For shelf.</p>
    ${
      shelf.unlisted.length === 0
        ? nothing
        : html`<p class="soft">Joints also use these, and the sheet Shelf does not list them: ${shelf.unlisted
            .map((item) => itemText(item, units))
            .join(', ')}.</p>`
    }
    ${
      shelf.uncounted.length === 0
        ? nothing
        : html`<p class="soft">Not counted: ${shelf.uncounted
            .map(({ belt, reason }) => `${belt}, ${reason}`)
            .join('; ')}.</p>`
    }
  `;
}
