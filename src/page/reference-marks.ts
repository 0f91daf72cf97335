import { html, render } from 'lit-html';
import { isFormula } from '../formula/values.ts';
import { type MarkedReference, markedReferences } from '../workbook/formula-references.ts';
import type { Desk } from './desk.ts';
import { referredClass } from './grid/passing-marks.ts';
import { contentField, type TypingField, typedPlace } from './typing-field.ts';

/**
 * A formula's references in colours while it is typed, in its text and as frames in the grid. Each colour has a line of
 * its own, so that nobody has to tell them apart by colour.
 *
 * A field for text shows one colour only: its own letters are made clear, and the same text lies over it in colours.
 */
export class ReferenceMarks {
  readonly #desk: Desk;
  readonly #over = document.createElement('div');
  #field: TypingField | undefined;

  constructor(desk: Desk) {
    this.#desk = desk;
    this.#over.className = 'formula-colours';
    this.#over.setAttribute('aria-hidden', 'true');
    this.#over.hidden = true;
    document.body.append(this.#over);
  }

  listen(): void {
    const follow = (event: Event): void => this.#follow(contentField(event.target));
    for (const kind of ['input', 'focusin', 'keyup', 'click']) document.addEventListener(kind, follow);
    document.addEventListener('focusout', () => this.#follow(undefined));
    document.addEventListener('scroll', () => this.#place(), { capture: true });
    window.addEventListener('resize', () => this.#place());
    // The field of a cell grows as it is typed into, a moment later.
    new ResizeObserver(() => this.#place()).observe(document.body);
  }

  #follow(field: TypingField | undefined): void {
    const place = field === undefined ? undefined : typedPlace(this.#desk, field);
    const referred =
      field === undefined || place === undefined || !isFormula(field.value)
        ? []
        : markedReferences(field.value, place, this.#desk.book.state);
    this.#put(referred.length === 0 ? undefined : field, referred);
    const same = JSON.stringify(referred) === JSON.stringify(this.#desk.referred);
    this.#desk.referred = referred;
    if (!same) this.#desk.grid?.pointed.redraw();
  }

  #put(field: TypingField | undefined, referred: readonly MarkedReference[]): void {
    if (this.#field !== field) this.#field?.classList.remove('typing-colours');
    this.#field = field;
    this.#over.hidden = field === undefined;
    if (field === undefined) return;
    field.classList.add('typing-colours');
    let done = 0;
    const pieces = referred.flatMap(({ start, end, number }) => {
      if (start < done) return [];
      const before = field.value.slice(done, start);
      done = end;
      return [before, html`<span class=${referredClass(number)}>${field.value.slice(start, end)}</span>`];
    });
    render(html`<span class="formula-text">${pieces}${field.value.slice(done)}</span>`, this.#over);
    requestAnimationFrame(() => this.#place());
    this.#place();
  }

  /** Lays the text over the field's, letter on letter. */
  #place(): void {
    const field = this.#field;
    if (field === undefined) return;
    if (!field.isConnected) {
      this.#follow(undefined);
      return;
    }
    const { left, top, width, height } = field.getBoundingClientRect();
    const look = getComputedStyle(field);
    const { style } = this.#over;
    style.left = `${left}px`;
    style.top = `${top}px`;
    style.width = `${width}px`;
    style.height = `${height}px`;
    for (const name of ['font', 'letterSpacing', 'lineHeight', 'padding', 'borderWidth', 'textAlign'] as const)
      style[name] = look[name];
    style.whiteSpace = field instanceof HTMLTextAreaElement ? 'pre-wrap' : 'pre';
    this.#over.scrollTop = field.scrollTop;
    this.#over.scrollLeft = field.scrollLeft;
  }
}
