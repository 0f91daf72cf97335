import { html, nothing, render, type TemplateResult } from 'lit-html';
import type { CellPlace } from '../../workbook/place.ts';
import type { Desk } from '../desk.ts';
import '../styles/planning.css';

/** A dialog as large as the page, for planning over the whole book: terms and a summary above, tabs below. */

/** Characters of what was done that have room beside the tabs; more stands below them. */
const mostBeside = 80;

interface PlanningParts<Tab extends string> {
  readonly title: string;
  /** Begins the names of its tabs' elements and is its class: "order" for .order-dialog. */
  readonly name: string;
  readonly tabs: readonly Tab[];
  readonly tabLabel: (tab: Tab) => string;
  readonly head: () => TemplateResult;
  /** What became of the last thing that was done. */
  readonly said: () => string;
  readonly body: (tab: Tab) => TemplateResult;
  readonly onTab?: (tab: Tab) => void;
  readonly onClose: () => void;
}

export class PlanningDialog<Tab extends string> {
  readonly element = document.createElement('dialog');
  readonly #desk: Desk;
  readonly #parts: PlanningParts<Tab>;
  #tab: Tab;
  #waiting = false;

  constructor(desk: Desk, parts: PlanningParts<Tab>, first: Tab) {
    this.#desk = desk;
    this.#parts = parts;
    this.#tab = first;
    this.element.className = `dialog planning-dialog ${parts.name}-dialog`;
    this.element.setAttribute('aria-label', parts.title);
    this.element.addEventListener('close', () => {
      parts.onClose();
      this.element.remove();
      desk.grid?.focus();
    });
  }

  /** Puts it over the page; the focus goes back to the grid when it is closed. */
  show(): void {
    document.body.append(this.element);
    this.draw();
    this.element.showModal();
  }

  /** Draws it anew with the next frame, however often it is asked to until then. */
  readonly redraw = (): void => {
    if (this.#waiting) return;
    this.#waiting = true;
    requestAnimationFrame(() => {
      this.#waiting = false;
      if (this.element.isConnected) this.draw();
    });
  };

  go(tab: Tab): void {
    this.#tab = tab;
    this.#parts.onTab?.(tab);
    this.draw();
    // What the tab before was scrolled to means nothing here.
    this.element.querySelector('.planning-body')?.scrollTo(0, 0);
  }

  /** Closes it and goes to a cell; to the first row when no record is named. */
  leaveFor(sheet: string, record = 0, column?: string): void {
    this.element.close();
    const place: CellPlace = {
      sheet,
      record,
      column: column === undefined ? 0 : (this.#desk.book.findColumn(sheet, column) ?? 0),
    };
    this.#desk.goTo(place);
  }

  #onTabKey(event: KeyboardEvent): void {
    const { tabs, name } = this.#parts;
    const step = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : 0;
    if (step === 0) return;
    event.preventDefault();
    const next = tabs[(tabs.indexOf(this.#tab) + step + tabs.length) % tabs.length];
    if (next === undefined) return;
    this.go(next);
    this.element.querySelector<HTMLElement>(`#${name}-tab-${next}`)?.focus();
  }

  draw(): void {
    const { title, name, tabs, tabLabel, head, said, body } = this.#parts;
    const tab = this.#tab;
    const told = said();
    const long = told.length > mostBeside;
    render(
      html`
      <div class="dialog-head"><h2>${title}</h2><button class="small quiet" aria-label="Close"
        @click=${() => this.element.close()}>✕</button></div>
      ${head()}
      <div class="dialog-tabs"><div role="tablist" aria-label=${title} @keydown=${(event: KeyboardEvent) =>
        this.#onTabKey(event)}>${tabs.map(
        (one) => html`
        <button role="tab" id="${name}-tab-${one}" class="tab" tabindex=${one === tab ? 0 : -1}
          aria-selected=${one === tab} ?autofocus=${one === tabs[0]}
            @click=${() => this.go(one)}>${tabLabel(one)}</button>`,
      )}</div>
        <span class="planning-said ${long ? 'planning-said-long' : ''}" role="status"
          tabindex=${long ? 0 : nothing}>${told}</span>
      </div>
      <div class="dialog-body planning-body" role="tabpanel" aria-labelledby="${name}-tab-${tab}"
        tabindex="0">${body(tab)}</div>
    `,
      this.element,
    );
  }
}

/** What a search is doing, and how far it is, with a way to end it. */
export const searching = (what: string, detail: string | undefined, stop: () => void): TemplateResult => html`
  <p class="planning-search" role="status">
    <span class="planning-pulse" aria-hidden="true"></span>
    <span>${what}${detail === undefined ? ' …' : `: ${detail}`}</span>
    <button class="small" @click=${stop}>Cancel</button>
  </p>`;
