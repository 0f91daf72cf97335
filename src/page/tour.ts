import { html, nothing, render } from 'lit-html';
import type { Desk } from './desk.ts';
import { type Tour, type TourName, tours } from './tour-steps.ts';
import './styles/tour.css';

/** A tour under way: a card beside the part of the page that its step speaks of, which stays usable. */

const gap = 10;

/** Where the card stands: below the part, above it, or over its lower end where it leaves no room. */
function placeBeside(card: HTMLElement, part: DOMRect | undefined): void {
  const { width, height } = card.getBoundingClientRect();
  const [right, bottom] = [window.innerWidth - width - gap, window.innerHeight - height - gap];
  const within = (wanted: number, most: number): number => Math.max(gap, Math.min(wanted, most));
  if (part === undefined) {
    card.style.left = `${right / 2}px`;
    card.style.top = `${bottom / 2}px`;
    return;
  }
  const below = part.bottom + gap;
  const above = part.top - height - gap;
  const top = below <= bottom ? below : above >= gap ? above : part.bottom - height - 2 * gap;
  card.style.left = `${within(part.left + gap, right)}px`;
  card.style.top = `${within(top, bottom)}px`;
}

class TourUnderWay {
  readonly #desk: Desk;
  readonly #tour: Tour;
  readonly #card = document.createElement('section');
  readonly #frame = document.createElement('div');
  #step = 0;
  readonly #follow = (): void => this.#place();

  constructor(desk: Desk, tour: Tour) {
    this.#desk = desk;
    this.#tour = tour;
    this.#frame.className = 'tour-frame';
    this.#frame.setAttribute('aria-hidden', 'true');
    this.#card.className = 'tour';
    this.#card.setAttribute('role', 'dialog');
    this.#card.setAttribute('aria-label', `Tour: ${tour.name}`);
    this.#card.addEventListener('keydown', (event) => {
      if (event.key === 'Escape') this.end();
      else if (event.key === 'ArrowRight') this.#go(1);
      else if (event.key === 'ArrowLeft') this.#go(-1);
      else return;
      event.preventDefault();
      event.stopPropagation();
    });
    window.addEventListener('resize', this.#follow);
  }

  begin(): void {
    document.body.append(this.#frame, this.#card);
    this.#show();
  }

  end(): void {
    window.removeEventListener('resize', this.#follow);
    this.#frame.remove();
    this.#card.remove();
    underWay = undefined;
    this.#desk.grid?.focus();
  }

  #go(by: 1 | -1): void {
    const next = this.#step + by;
    if (next < 0) return;
    if (next >= this.#tour.steps.length) this.end();
    else {
      this.#step = next;
      this.#show();
    }
  }

  #show(): void {
    this.#tour.steps[this.#step]?.show?.(this.#desk);
    this.#draw();
    this.#card.querySelector<HTMLElement>('.primary')?.focus();
    // The page is drawn with the next frame; what it brings on show stands after that.
    requestAnimationFrame(() =>
      requestAnimationFrame(() => {
        this.#place();
        this.#card.querySelector<HTMLElement>('.primary')?.focus();
      }),
    );
  }

  #place(): void {
    const part = document.querySelector(this.#tour.steps[this.#step]?.part ?? '')?.getBoundingClientRect();
    this.#frame.hidden = part === undefined;
    if (part !== undefined)
      Object.assign(this.#frame.style, {
        left: `${part.left}px`,
        top: `${part.top}px`,
        width: `${part.width}px`,
        height: `${part.height}px`,
      });
    placeBeside(this.#card, part);
  }

  #draw(): void {
    const { name, steps } = this.#tour;
    const isLast = this.#step === steps.length - 1;
    render(
      html`
      <div class="tour-head"><b>${name}</b><span class="soft">${this.#step + 1} of ${steps.length}</span>
        <button class="small quiet" aria-label="End the tour" @click=${() => this.end()}>✕</button></div>
      <p aria-live="polite">${steps[this.#step]?.says}</p>
      <div class="tour-buttons">
        ${this.#step === 0 ? nothing : html`<button class="button" @click=${() => this.#go(-1)}>Back</button>`}
        <button class="button primary" @click=${() => this.#go(1)}>${isLast ? 'Done' : 'Next'}</button>
      </div>`,
      this.#card,
    );
  }
}

let underWay: TourUnderWay | undefined;

/** Begins a tour in place of one that is under way. */
export function startTour(desk: Desk, name: TourName): void {
  underWay?.end();
  underWay = new TourUnderWay(desk, tours[name]);
  underWay.begin();
}
