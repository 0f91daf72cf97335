import { counted } from '../../units/phrases.ts';
import { html, nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import type { Scope } from '../../records/chosen-belts.ts';
import { isoDate, readDate } from '../../units/dates.ts';
import { isRefusal } from '../../units/numbers.ts';
import type { Desk } from '../desk.ts';
import { filteredBelts } from '../shown-belt.ts';

/** For which joints is planned: of all belts, those due until a day, those of belts that are selected or shown. */

/** Belts that a choice names beside all of them. */
export interface NamedBelts {
  /** "selected": "3 selected belts". */
  readonly word: string;
  readonly records: readonly number[];
}

/** A day to begin with: the last of the year after that of the review date. */
function endOfNextYear({ book }: Desk): string {
  const day = book.named('ReviewDate');
  const year = typeof day === 'number' ? Number(isoDate(day).slice(0, 4)) : new Date().getFullYear();
  return `${year + 1}-12-31`;
}

export class ScopeChoice {
  readonly #named: readonly NamedBelts[];
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
    more: readonly NamedBelts[] = [],
  ) {
    this.#named = [
      { word: 'selected', records: selected },
      { word: 'filtered', records: filteredBelts(desk) },
      ...more,
    ];
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
    const belts = this.#named.find(({ word }) => word === which);
    if (which === 'all') this.#ask({ which: 'all' });
    else if (belts !== undefined) this.#ask({ which: 'belts', records: belts.records });
    else this.askDue();
  }

  #chosen(scope: Scope): string {
    if (scope.which !== 'belts') return scope.which;
    return this.#named.find(({ records }) => records === scope.records)?.word ?? '';
  }

  controls(scope: Scope): TemplateResult {
    const chosen = this.#chosen(scope);
    // What is chosen is said twice: at the first drawing the list has no items yet whose value it could take.
    return html`
      <label>For <select aria-label="Joints" .value=${live(chosen)} @change=${(event: Event) =>
        this.#choose((event.target as HTMLSelectElement).value)}>
        <option value="all" ?selected=${chosen === 'all'}>all belts</option>
        <option value="due" ?selected=${chosen === 'due'}>joints due by</option>
        ${this.#named.map(
          ({ word, records }) =>
            html`<option value=${word} ?selected=${word === chosen} ?disabled=${records.length === 0}>${
              records.length === 0 ? `${word} belts (none)` : counted(records.length, `${word} belt`)
            }</option>`,
        )}
      </select></label>
      ${
        scope.which === 'due'
          ? html`<input type="date" aria-label="Due by" .value=${live(this.#day)} @change=${(event: Event) =>
              this.askDue((event.target as HTMLInputElement).value)} />`
          : nothing
      }`;
  }
}
