import { counted } from '../../units/phrases.ts';
import { html, nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import type { Scope } from '../../records/chosen-belts.ts';
import { isoDate, readDate } from '../../units/dates.ts';
import { isRefusal } from '../../units/numbers.ts';
import type { Desk } from '../desk.ts';

/** For which joints is planned: of all belts, those due until a day, those of the selected belts. */

/** A day to begin with: the last of the year after that of the review date. */
function endOfNextYear({ book }: Desk): string {
  const day = book.named('ReviewDate');
  const year = typeof day === 'number' ? Number(isoDate(day).slice(0, 4)) : new Date().getFullYear();
  return `${year + 1}-12-31`;
}

export class ScopeChoice {
  readonly #selected: readonly number[];
  readonly #ask: (scope: Scope) => void;
  readonly #redraw: () => void;
  /** The last day that could be read, kept while another choice stands. */
  #day: string;

  /** `first` is the day that is offered first. */
  constructor(
    desk: Desk,
    selected: readonly number[],
    ask: (scope: Scope) => void,
    redraw: () => void,
    first = endOfNextYear(desk),
  ) {
    this.#selected = selected;
    this.#ask = ask;
    this.#redraw = redraw;
    this.#day = first;
  }

  /** Asks for the joints due until a day; a text that is none leaves the last one standing. */
  askDue(text: string = this.#day): void {
    const read = readDate(text);
    if (isRefusal(read)) this.#redraw();
    else {
      this.#day = text;
      this.#ask({ which: 'due', until: read.serial });
    }
  }

  #choose(which: string): void {
    if (which === 'all') this.#ask({ which: 'all' });
    else if (which === 'belts') this.#ask({ which: 'belts', records: this.#selected });
    else this.askDue();
  }

  controls(scope: Scope): TemplateResult {
    const count = this.#selected.length;
    return html`
      <label>For <select aria-label="Joints" .value=${live(scope.which)} @change=${(event: Event) =>
        this.#choose((event.target as HTMLSelectElement).value)}>
        <option value="all">all belts</option>
        <option value="due">joints due by</option>
        <option value="belts" ?disabled=${count === 0}>${
          count === 0 ? 'selected belts (none)' : counted(count, 'selected belt')
        }</option>
      </select></label>
      ${
        scope.which === 'due'
          ? html`<input type="date" aria-label="Due by" .value=${live(this.#day)} @change=${(event: Event) =>
              this.askDue((event.target as HTMLInputElement).value)} />`
          : nothing
      }`;
  }
}
