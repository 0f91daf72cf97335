import { html, nothing, type TemplateResult } from 'lit-html';
import { guard } from 'lit-html/directives/guard.js';
import { budgetDays } from '../../purchase/budget-days.ts';
import { type OrderBudget, orderBudget, type Payer } from '../../purchase/budget-lines.ts';
import { monthOf, type OrderSchedule, orderSchedule } from '../../purchase/schedule-rows.ts';
import { isoDate } from '../../units/dates.ts';
import { money, percent } from '../planning/figures.ts';
import { budgetChart } from './budget-chart.ts';
import type { OrderSession } from './order-session.ts';

/** What an order costs in each month, by the day of order, delivery or payment, and who pays it. */

const groups = { area: 'area', centre: 'cost centre', site: 'site' } as const satisfies Readonly<
  Record<keyof Payer, string>
>;

export interface BudgetView {
  /** Header of the day that decides the month. */
  by: (typeof budgetDays)[number]['header'];
  group: keyof Payer;
  readonly redraw: () => void;
}

function choice<Value extends string>(
  label: string,
  options: readonly (readonly [Value, string])[],
  chosen: Value,
  choose: (value: Value) => void,
): TemplateResult {
  return html`<label>${label} <select aria-label=${label} @change=${(event: Event) => {
    const found = options.find(([value]) => value === (event.target as HTMLSelectElement).value);
    if (found !== undefined) choose(found[0]);
  }}>${options.map(
    ([value, text]) => html`<option value=${value} ?selected=${value === chosen}>${text}</option>`,
  )}</select></label>`;
}

/** Amounts by month and by name of the group. */
function amountsOf(schedule: OrderSchedule, budget: OrderBudget, view: BudgetView): Map<number, Map<string, number>> {
  const day = budgetDays.find(({ header }) => header === view.by);
  const months = new Map<number, Map<string, number>>();
  for (const { row, payer, budgeted } of budget.lines) {
    const month = monthOf(day?.dayOf(schedule, row) ?? schedule.day);
    const name = budget.payers[payer]?.[view.group] ?? '';
    const own = months.get(month) ?? new Map<string, number>();
    own.set(name, (own.get(name) ?? 0) + budgeted);
    months.set(month, own);
  }
  return new Map([...months].toSorted(([one], [other]) => one - other));
}

const totalOf = (amounts: Iterable<number>): number => [...amounts].reduce((sum, one) => sum + one, 0);

function budgetTable(
  months: ReadonlyMap<number, ReadonlyMap<string, number>>,
  names: readonly string[],
  group: keyof Payer,
): TemplateResult {
  const cell = (amount: number): TemplateResult => html`<td class="number">${amount === 0 ? '' : money(amount)}</td>`;
  return html`<table class="table planning-table">
    <thead><tr><th>Month</th>${names.map(
      (name) => html`<th class="number">${name === '' ? `no ${groups[group]}` : name}</th>`,
    )}<th class="number">Total</th></tr></thead>
    <tbody>${[...months].map(
      ([month, own]) =>
        html`<tr><th scope="row">${isoDate(month).slice(0, 7)}</th>${names.map((name) =>
          cell(own.get(name) ?? 0),
        )}<td class="number strong">${money(totalOf(own.values()))}</td></tr>`,
    )}</tbody>
    <tfoot><tr class="order-total"><th scope="row">Total</th>${names.map((name) =>
      cell(totalOf([...months.values()].map((own) => own.get(name) ?? 0))),
    )}<td class="number">${money(totalOf([...months.values()].flatMap((own) => [...own.values()])))}</td></tr></tfoot>
  </table>`;
}

/** The days of a line that must be ordered by a day that has passed. */
const lateLines = ({ rows }: OrderSchedule): number => rows.filter(({ days }) => days.late > 0).length;

function found(schedule: OrderSchedule, budget: OrderBudget, view: BudgetView): TemplateResult {
  const { currency } = schedule.figures.order.offered;
  const months = amountsOf(schedule, budget, view);
  const names = [...new Set(budget.payers.map((payer) => payer[view.group]))];
  const late = lateLines(schedule);
  return html`
    ${budgetChart(new Map([...months].map(([month, own]) => [month, totalOf(own.values())])), view.by, currency)}
    ${budgetTable(months, names, view.group)}
    <p class="caption">${currency}, with freight and charges. A line is ordered so that it comes ${schedule.margin} days
      before its first joint is due${
        schedule.escalation === 0
          ? nothing
          : `; prices are raised by ${percent(schedule.escalation)} a year up to the order day`
      }.</p>
    ${
      late === 0
        ? nothing
        : html`<p class="why">${late === 1 ? '1 line comes' : `${late} lines come`} after its joint is due, even if
            ordered today: see Days late in the exported sheet Schedule.</p>`
    }`;
}

export function budgetTab(session: OrderSession, view: BudgetView): TemplateResult {
  const { order, supplied, book } = session;
  if (order === undefined || supplied === undefined)
    return html`<p class="empty why">${session.problems.get('order') ?? ''}</p>`;
  return html`
    <div class="planning-terms">
      ${choice(
        'Month of',
        [
          ['Ordered', 'order'],
          ['Delivered', 'delivery'],
          ['Paid', 'payment'],
        ],
        view.by,
        (by) => {
          view.by = by;
          view.redraw();
        },
      )}
      ${choice('By', Object.entries(groups) as [keyof Payer, string][], view.group, (group) => {
        view.group = group;
        view.redraw();
      })}
    </div>
    ${guard([order, supplied, view.by, view.group], () => {
      const schedule = orderSchedule(book, order, supplied);
      return schedule.rows.length === 0
        ? html`<p class="empty">Nothing is bought.</p>`
        : found(schedule, orderBudget(book, schedule), view);
    })}
  `;
}
