import { html, nothing, render, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { chosenSupply } from '../../order/fleet-order.ts';
import { readDate } from '../../units/dates.ts';
import { isRefusal } from '../../units/numbers.ts';
import type { Desk } from '../desk.ts';
import { compareTab } from './compare-tab.ts';
import { type CuttingView, cuttingTab } from './cutting-tab.ts';
import { listTab, type ListView } from './list-tab.ts';
import { OrderSession } from './order-session.ts';
import { money, searching } from './order-words.ts';
import { type SeriesView, seriesTab } from './series-tab.ts';
import { shelfTab } from './shelf-tab.ts';
import '../styles/order.css';

/** The buyer's view over the page: order list, shelf, cutting plan, fewest series, square or skew. */

const tabs = { list: 'Order list', shelf: 'Shelf', cutting: 'Cutting plan', series: 'Fewest series', compare: 'Square or skew' } as const;
type Tab = keyof typeof tabs;
const tabNames = Object.keys(tabs) as Tab[];

/** Opens it for the book, or for the selected records of Belts; the focus goes back to the grid when it is closed. */
export function showOrder(desk: Desk, selected: readonly number[]): void {
  const element = document.createElement('dialog');
  element.className = 'dialog order-dialog';
  element.setAttribute('aria-label', 'Order list');
  let tab: Tab = 'list';
  let waiting = false;
  const redraw = (): void => {
    if (waiting) return;
    waiting = true;
    requestAnimationFrame(() => {
      waiting = false;
      draw();
    });
  };
  const session = new OrderSession(desk, selected, redraw);
  const list: ListView = {
    open: new Set(), redraw,
    goTo(sheet, record, column) {
      element.close();
      desk.goTo({ sheet, record, column: Math.max(0, desk.book.column(sheet, column)) });
    },
  };
  const cutting: CuttingView = { whole: new Set(), redraw };
  const series: SeriesView = { chosen: undefined, redraw };

  const go = (next: Tab): void => {
    tab = next;
    if (tab === 'series') session.askSeries();
    if (tab === 'compare') session.askComparison();
    draw();
  };
  const onTabKey = (event: KeyboardEvent): void => {
    const step = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : 0;
    if (step === 0) return;
    event.preventDefault();
    const next = tabNames[(tabNames.indexOf(tab) + step + tabNames.length) % tabNames.length];
    if (next === undefined) return;
    go(next);
    element.querySelector<HTMLElement>(`#order-tab-${next}`)?.focus();
  };
  const askDue = (text: string): void => {
    session.dueDay = text;
    const read = readDate(text);
    if (isRefusal(read)) redraw();
    else session.ask({ ...session.terms, scope: { which: 'due', until: read.serial } });
  };
  const ask = (which: string): void => {
    if (which === 'all') session.ask({ ...session.terms, scope: { which: 'all' } });
    else if (which === 'belts') session.ask({ ...session.terms, scope: { which: 'belts', records: selected } });
    else askDue(session.dueDay === '' ? endOfNextYear(desk) : session.dueDay);
  };

  function controls(): TemplateResult {
    const { scope, failing, from } = session.terms;
    return html`
      <div class="order-terms" role="group" aria-label="What the order is for">
        <label>For <select aria-label="For which joints" .value=${live(scope.which)} @change=${(event: Event) => ask((event.target as HTMLSelectElement).value)}>
          <option value="all">all belts</option>
          <option value="due">joints due until</option>
          <option value="belts" ?disabled=${selected.length === 0}>${selected.length === 0 ? 'selected belts (none)' : `${selected.length} selected ${selected.length === 1 ? 'belt' : 'belts'}`}</option>
        </select></label>
        ${scope.which === 'due' ? html`<input type="date" aria-label="Due until" .value=${live(session.dueDay)} @change=${(event: Event) => askDue((event.target as HTMLInputElement).value)} />` : nothing}
        <label><input type="checkbox" .checked=${live(failing)} @change=${(event: Event) => session.ask({ ...session.terms, failing: (event.target as HTMLInputElement).checked })} /> joints that fail too</label>
        <label>From <select aria-label="From whom" .value=${live(from)} @change=${(event: Event) => session.ask({ ...session.terms, from: (event.target as HTMLSelectElement).value === 'single' ? 'single' : 'split' })}>
          <option value="split">whoever is cheapest</option>
          <option value="single">one supplier alone</option>
        </select></label>
        ${from === 'single' && session.supplied !== undefined && session.supplied.single.supply === undefined ? html`<span class="why">no supplier sells all of it: shared out</span>` : nothing}
      </div>`;
  }

  function summary(): TemplateResult {
    const { order, supplied } = session;
    if (order === undefined) return html`<p class="order-sum"></p>`;
    const joints = order.joints.belts.reduce((sum, one) => sum + one.joints, 0);
    const supply = supplied === undefined ? undefined : chosenSupply(supplied);
    return html`<p class="order-sum">
      <span><b>${joints}</b> ${joints === 1 ? 'joint' : 'joints'} of <b>${order.joints.belts.length}</b> ${order.joints.belts.length === 1 ? 'belt' : 'belts'}</span>
      ${order.joints.leftOut.length === 0 ? nothing : html`<span><b>${order.joints.leftOut.length}</b> left out</span>`}
      <span class="order-sum-total">${supply === undefined ? '…' : html`<b>${money(supply.total)}</b> <span class="soft">with freight</span>`}</span>
    </p>`;
  }

  const contents: Readonly<Record<Tab, () => TemplateResult>> = {
    list: () => listTab(session, list), shelf: () => shelfTab(session), cutting: () => cuttingTab(session, cutting), series: () => seriesTab(session, series), compare: () => compareTab(session),
  };

  function draw(): void {
    const running = session.running.get('order');
    render(html`
      <header class="dialog-head"><h2>Order list</h2><button class="small quiet" aria-label="Close" @click=${() => element.close()}>✕</button></header>
      <div class="order-head">${controls()} ${summary()}
        <button class="button" ?disabled=${session.supplied === undefined || session.running.has('file')} title="A workbook with live formulas: quantities from the belts, packs, prices, totals" @click=${() => session.export()}>${session.running.has('file') ? 'Writing …' : 'Export .xlsx'}</button>
      </div>
      <div class="dialog-tabs" role="tablist" @keydown=${onTabKey}>${tabNames.map((name) => html`
        <button role="tab" id="order-tab-${name}" class="tab" tabindex=${name === tab ? 0 : -1} aria-selected=${name === tab} ?autofocus=${name === 'list'} @click=${() => go(name)}>${tabs[name]}</button>`)}
        <span class="order-said" role="status">${session.problems.get('file') ?? session.said}</span>
      </div>
      <div class="dialog-body order-body" role="tabpanel" aria-labelledby="order-tab-${tab}" tabindex="0">
        ${running !== undefined && (tab === 'list' && session.supplied === undefined) ? searching('Looking for the cheapest suppliers', running, () => session.stop('order')) : nothing}
        ${tab === 'list' && running === undefined && session.supplied === undefined && session.order !== undefined ? html`<p class="why">${session.problems.get('order') ?? 'Cancelled before suppliers were found.'} <button class="small" @click=${() => session.ask()}>Search again</button></p>` : nothing}
        ${contents[tab]()}
      </div>
    `, element);
  }
  element.addEventListener('close', () => {
    session.end();
    element.remove();
    desk.grid?.focus();
  });
  document.body.append(element);
  session.ask();
  draw();
  element.showModal();
}

/** A day to begin with: the last of the year after that of the review date. */
function endOfNextYear(desk: Desk): string {
  const day = desk.book.named('ReviewDate');
  const year = typeof day === 'number' ? new Date(Date.UTC(1899, 11, 30) + day * 86_400_000).getUTCFullYear() : new Date().getFullYear();
  return `${year + 1}-12-31`;
}
