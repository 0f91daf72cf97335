import { isoDate } from '../../units/dates.ts';
import { html, nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { chosenSupply } from '../../order/fleet-order.ts';
import type { Desk } from '../desk.ts';
import { PlanningDialog } from '../planning/planning-dialog.ts';
import { ScopeChoice } from '../planning/scope-choice.ts';
import { money } from '../planning/figures.ts';
import { type BudgetView, budgetTab } from './budget-tab.ts';
import { compareTab } from './compare-tab.ts';
import { type CuttingView, cuttingTab } from './cutting-tab.ts';
import { listTab, type ListView } from './list-tab.ts';
import { offersTab } from './offers-tab.ts';
import { OrderSession } from './order-session.ts';
import { searching } from './order-words.ts';
import { chooseFiles, sitesStrip } from './sites-strip.ts';
import { type SeriesView, seriesTab } from './series-tab.ts';
import { shelfTab } from './shelf-tab.ts';
import '../styles/order.css';

/** The buyer's view over the page: order list, offers, budget, shelf, cutting plan, fewest series, square or skew. */

const tabs = {
  list: 'Order list',
  offers: 'Offers',
  budget: 'Budget',
  shelf: 'Shelf',
  cutting: 'Cutting plan',
  series: 'Fewest series',
  compare: 'Square or skew',
} as const;
type Tab = keyof typeof tabs;

function controls(session: OrderSession, scopes: ScopeChoice): TemplateResult {
  const { scope, failing, from } = session.terms;
  return html`
    <div class="planning-terms" role="group" aria-label="Scope of the order">
      ${scopes.controls(scope)}
      <label><input type="checkbox" .checked=${live(failing)} @change=${(event: Event) =>
        session.ask({
          ...session.terms,
          failing: (event.target as HTMLInputElement).checked,
        })} /> include failing joints</label>
      <label>Suppliers <select aria-label="Suppliers" .value=${live(from)} @change=${(event: Event) =>
        session.ask({
          ...session.terms,
          from: (event.target as HTMLSelectElement).value === 'single' ? 'single' : 'split',
        })}>
        <option value="split">cheapest mix</option>
        <option value="single">single supplier</option>
      </select></label>
      ${
        from === 'single' && session.supplied !== undefined && session.supplied.single.supply === undefined
          ? html`<span class="why">no single supplier sells everything: split between suppliers</span>`
          : nothing
      }
    </div>`;
}

function summary({ order, supplied }: OrderSession): TemplateResult {
  if (order === undefined) return html`<p class="planning-sum"></p>`;
  const { belts, leftOut } = order.joints;
  const joints = belts.reduce((sum, one) => sum + one.joints, 0);
  const number = new Set(belts.map(({ record }) => record)).size;
  const supply = supplied === undefined ? undefined : chosenSupply(supplied);
  return html`<p class="planning-sum">
    <span><b>${joints}</b> ${joints === 1 ? 'joint' : 'joints'} of <b>${number}</b> ${
      number === 1 ? 'belt' : 'belts'
    }</span>
    ${leftOut.length === 0 ? nothing : html`<span><b>${leftOut.length}</b> left out</span>`}
    <span class="planning-sum-total">${
      supply === undefined
        ? '…'
        : html`<b>${order.offered.currency} ${money(supply.total)}</b> <span
      class="soft">with freight${supplied?.first === true ? ', first answer' : ''}</span>`
    }</span>
  </p>`;
}

const exportButton = (session: OrderSession): TemplateResult => html`
  <button class="button" ?disabled=${
    session.supplied === undefined || session.running.has('file')
  } title="A workbook with live formulas: quantities from the belts, packs, prices, totals"
    @click=${() => session.export()}>${session.running.has('file') ? 'Writing …' : 'Export .xlsx'}</button>`;

const ordersButton = (session: OrderSession): TemplateResult => html`
  <button class="button" ?disabled=${
    session.supplied === undefined ||
    session.supplied.first === true ||
    session.running.has('papers') ||
    session.supplied.split.orders.length === 0
  } title="An order per supplier that can be sent: .xlsx, PDF and .csv, in one .zip"
    @click=${() => session.writeOrders()}>${session.running.has('papers') ? 'Writing …' : 'Orders .zip'}</button>`;

const requestsButton = (session: OrderSession): TemplateResult => html`
  <button class="button" ?disabled=${
    session.order === undefined || session.order.lines.length === 0 || session.running.has('requests')
  } title="A request for quotation per supplier, to be filled in and sent back, in one .zip"
    @click=${() => session.writeRequests()}>${
      session.running.has('requests') ? 'Writing …' : 'Requests .zip'
    }</button>`;

/** Files are chosen, or dropped on it. */
const takeButton = (session: OrderSession): TemplateResult => html`
  <button class="button" ?disabled=${session.running.has(
    'take',
  )} title="Choose or drop files: an answered request changes Offers, an order that you sent is entered in Orders"
    @click=${() =>
      chooseFiles(
        '.xlsx,.ods',
        (files) => void session.takeFiles(files),
      )} @dragover=${(event: DragEvent) => event.preventDefault()}
    @drop=${(event: DragEvent) => {
      event.preventDefault();
      event.stopPropagation();
      void session.takeFiles([...(event.dataTransfer?.files ?? [])]);
    }}>${session.running.has('take') ? 'Reading …' : 'Take in files …'}</button>`;

/** Whether suppliers are being looked for, or why there are none; nothing once there are. */
function supplierSearch(session: OrderSession): TemplateResult | typeof nothing {
  const { supplied } = session;
  if (supplied !== undefined && supplied.first !== true) return nothing;
  const running = session.running.get('order');
  if (running !== undefined)
    return searching('Looking for the cheapest suppliers', running, () => session.stop('order'));
  return session.order === undefined
    ? nothing
    : html`<p class="why">${
        session.problems.get('order') ??
        (supplied === undefined
          ? 'Cancelled before suppliers were found.'
          : 'Cancelled: each item is from its own cheapest offer.')
      } <button class="small" @click=${() => session.ask()}>Search again</button></p>`;
}

/** Opens it for the book, or for the selected records of Belts; the focus goes back to the grid when it is closed. */
export function showOrder(desk: Desk, selected: readonly number[]): void {
  const session: OrderSession = new OrderSession(desk, () => dialog.redraw());
  const redraw = (): void => dialog.redraw();
  const list: ListView = {
    open: new Set(),
    redraw,
    goTo: (sheet, record, column) => dialog.leaveFor(sheet, record, column),
  };
  const cutting: CuttingView = { whole: new Set(), redraw };
  const budget: BudgetView = { by: 'Ordered', group: 'area', redraw };
  const series: SeriesView = { chosen: undefined, redraw };
  const { scope: usual } = session.terms;
  const scopes = new ScopeChoice(
    desk,
    selected,
    (scope) => session.ask({ ...session.terms, scope }),
    redraw,
    usual.which === 'due' ? isoDate(usual.until) : undefined,
  );
  const contents: Readonly<Record<Tab, () => TemplateResult>> = {
    list: () => html`${supplierSearch(session)} ${listTab(session, list)}`,
    offers: () => html`${supplierSearch(session)} ${offersTab(session)}`,
    budget: () => html`${supplierSearch(session)} ${budgetTab(session, budget)}`,
    shelf: () => shelfTab(session),
    cutting: () => cuttingTab(session, cutting),
    series: () => seriesTab(session, series),
    compare: () => compareTab(session),
  };
  const dialog = new PlanningDialog<Tab>(
    desk,
    {
      title: 'Order list',
      name: 'order',
      tabs: Object.keys(tabs) as Tab[],
      tabLabel: (tab) => tabs[tab],
      head: () => html`
        <div class="planning-head order-head">
          ${controls(session, scopes)} ${sitesStrip(session)}
          <div class="order-head-end">${summary(session)} ${requestsButton(session)} ${ordersButton(session)}
            ${takeButton(session)} ${exportButton(session)}</div></div>`,
      body: (tab) => contents[tab](),
      said: () =>
        session.problems.get('papers') ??
        session.problems.get('requests') ??
        session.problems.get('take') ??
        session.problems.get('file') ??
        session.said,
      onTab: (tab) => {
        if (tab === 'series') session.askSeries();
        if (tab === 'compare') session.askComparison();
      },
      onClose: () => session.end(),
    },
    'list',
  );
  session.ask();
  dialog.show();
}
