import { counted } from '../../units/phrases.ts';
import { html, nothing, type TemplateResult } from 'lit-html';
import { guard } from 'lit-html/directives/guard.js';
import { unsafeHTML } from 'lit-html/directives/unsafe-html.js';
import { rollPicture } from '../../order/search/roll-picture.ts';
import { amount } from '../../sheet/words.ts';
import type { ItemPlan } from '../../order/fleet-cutting.ts';
import { itemText } from '../../order/items.ts';
import type { UnitSystem } from '../../units/quantities.ts';
import { money } from '../planning/figures.ts';
import type { OrderSession } from './order-session.ts';
import { searching } from './order-words.ts';

/** How the rolls are cut: a summary and a card a roll for each strip and belt. */

/** Cards beyond these are shown when they are asked for. */
const mostCards = 24;

export interface CuttingView {
  /** Items whose cards are all shown. */
  readonly whole: Set<string>;
  readonly redraw: () => void;
}

const lengthText = (length: number, units: UnitSystem): string =>
  amount(length, { kind: 'distance', digits: 2 }, units);

const facts = ({ plan, rollsBought, cost }: ItemPlan, currency: string, units: UnitSystem): TemplateResult => html`
  <p class="order-facts">
    <span><b>${plan.pieces}</b> pieces from <b>${plan.rolls.length}</b> ${
      plan.rolls.length === 1 ? 'roll' : 'rolls'
    }</span>
    <span>${
      rollsBought === 0
        ? 'nothing to buy'
        : html`the order buys ${counted(rollsBought, 'roll')} for <b>${currency} ${money(cost)}</b>`
    }</span>
    <span>kept ${lengthText(plan.keptLength, units)}, waste ${lengthText(plan.waste, units)}</span>
    <span>${plan.offcutsProven ? 'no plan keeps more (proven)' : 'a longer search may keep more'}</span>
  </p>`;

function section(one: ItemPlan, currency: string, units: UnitSystem, view: CuttingView): TemplateResult {
  const { item, plan } = one;
  const name = itemText(item, units);
  const rolls = view.whole.has(name) ? plan.rolls : plan.rolls.slice(0, mostCards);
  const longest = Math.max(...plan.rolls.map(({ length }) => length));
  const uncut = plan.uncut.reduce((sum, { quantity }) => sum + quantity, 0);
  return html`
    <section class="order-cuts">
      <h3>${name}</h3>
      ${facts(one, currency, units)}
      ${
        uncut === 0
          ? nothing
          : html`<p class="why">${counted(uncut, 'piece is', 'pieces are')} not cut: ${[
              ...new Set(plan.uncut.map(({ belt }) => belt)),
            ]
              .slice(0, 8)
              .join(', ')}. No roll is left or long enough: enter rolls in the sheet Shelf, or an offer.</p>`
      }
      <div class="order-rolls">${guard([plan, rolls.length, units], () =>
        rolls.map(
          (roll) =>
            html`<figure class="order-roll">${unsafeHTML(
              rollPicture(roll, { length: (length) => lengthText(length, units) }, longest),
            )}</figure>`,
        ),
      )}</div>
      ${
        rolls.length === plan.rolls.length
          ? nothing
          : html`<button class="small" @click=${() => {
              view.whole.add(name);
              view.redraw();
            }}>Show all ${plan.rolls.length} rolls</button>`
      }
    </section>
  `;
}

export function cuttingTab(session: OrderSession, view: CuttingView): TemplateResult {
  const {
    plans,
    plansWanted,
    book: { units },
  } = session;
  const running = session.running.get('order');
  return html`
    ${
      running === undefined
        ? nothing
        : searching(`${plans.length} of ${plansWanted} plans ready`, running, () => session.stop('order'))
    }
    ${
      running === undefined && plans.length < plansWanted
        ? html`<p class="why">${
            session.problems.get('order') ??
            `Cancelled: ${plansWanted - plans.length} of ${plansWanted} plans were not made.`
          } <button class="small" @click=${() => session.ask()}>Search again</button></p>`
        : nothing
    }
    ${
      plans.length === 0 && running === undefined && plansWanted === 0
        ? html`<p
      class="empty">No strip or belt to cut.</p>`
        : nothing
    }
    ${plans.map((plan) => section(plan, session.order?.offered.currency ?? '', units, view))}
  `;
}
