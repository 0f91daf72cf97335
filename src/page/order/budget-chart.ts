import { html, svg, type TemplateResult } from 'lit-html';
import { isoDate, serialOf } from '../../units/dates.ts';
import { money, wholeMoney } from '../planning/figures.ts';

/** Money by month as a picture: a bar a month, with those that nothing falls into, so that lengths of time are true. */

const size = { width: 720, height: 220, left: 70, right: 12, top: 22, bottom: 34 } as const;

/** Bars beyond these are too thin to be told apart. */
const mostMonths = 120;

/** Pixels that the name of a month takes. */
const nameWidth = 56;

/** The first days of all months from one to another. */
function monthsBetween(from: number, to: number): number[] {
  const [year = 0, month = 1] = isoDate(from).split('-').map(Number);
  const months: number[] = [];
  for (let place = month - 1; place < mostMonths + month; place += 1) {
    const first = serialOf(year + Math.floor(place / 12), (place % 12) + 1, 1);
    if (first === undefined || first > to) break;
    months.push(first);
  }
  return months;
}

/** `amounts` by the first day of their month. */
export function budgetChart(amounts: ReadonlyMap<number, number>, what: string, currency: string): TemplateResult {
  const days = [...amounts.keys()];
  const months = monthsBetween(Math.min(...days), Math.max(...days));
  const most = Math.max(...amounts.values(), 1);
  const step = (size.width - size.left - size.right) / months.length;
  const floor = size.height - size.bottom;
  const y = (amount: number): number => floor - (amount / most) * (floor - size.top);
  const every = Math.max(1, Math.ceil(nameWidth / step));
  return html`<svg class="order-curve order-budget" viewBox="0 0 ${size.width} ${size.height}" role="img"
    aria-label="${what} by month, in ${currency}">
    ${svg`
      <path class="plot-axis" d="M${size.left} ${size.top}V${floor}H${size.width - size.right}" />
      ${[most / 2, most].map(
        (value) => svg`<line class="plot-rule" x1=${size.left} x2=${size.width - size.right} y1=${y(value)}
          y2=${y(value)} /><text class="plot-tick" x=${size.left - 6} y=${y(value) + 4}
            text-anchor="end">${wholeMoney(value)}</text>`,
      )}
      <text class="plot-title" x="2" y="12">${what}, ${currency}</text>
      ${months.map((month, place) => {
        const amount = amounts.get(month) ?? 0;
        const left = size.left + place * step;
        const name = isoDate(month).slice(0, 7);
        return svg`
          <rect class="order-budget-bar" x=${left + step * 0.12} width=${step * 0.76} y=${y(amount)}
            height=${Math.max(0, floor - y(amount))}><title>${name}: ${money(amount)}</title></rect>
          ${
            place % every === 0
              ? svg`<text class="plot-tick" x=${left + step / 2} y=${floor + 16} text-anchor="middle">${name}</text>`
              : ''
          }`;
      })}`}
  </svg>`;
}
