import { html, nothing, render, type TemplateResult } from 'lit-html';
import { turnedReference } from '../formula/turned-reference.ts';
import { isFormula } from '../formula/values.ts';
import type { Offer, OfferedFunction, Offers } from '../workbook/formula-offers.ts';
import { offersFor } from '../workbook/formula-offers.ts';
import { type TypedFault, typedFault } from '../workbook/typed-formula.ts';
import type { Desk } from './desk.ts';
import { knownNames, offerableIn, parameterOf } from './offerable.ts';
import { contentField, replaceText, type TypingField, typedPlace } from './typing-field.ts';

/**
 * Help while a formula is typed, in the formula bar and in cells: names that complete what is typed, the arguments of
 * the call that the caret stands in, and what is wrong with a formula before it is entered.
 */

function signature({ definition, argument }: { definition: OfferedFunction; argument: number }): TemplateResult {
  const { name, parameters, rest, does } = definition;
  const current = parameterOf(definition, argument);
  const doc = current === undefined ? '' : (parameters[current]?.doc ?? '');
  return html`
    <div class="hint-call"><code>${name}(${parameters.map(
      (parameter, index) =>
        html`${index > 0 ? ', ' : ''}${index === current ? html`<b>${parameter.name}</b>` : parameter.name}`,
    )}${rest ? ', …' : ''})</code></div>
    <div class="hint-doc">${doc === '' ? does : doc}</div>
  `;
}

export class FormulaHint {
  readonly #desk: Desk;
  readonly #element = document.createElement('div');
  #field: TypingField | undefined;
  #offers: Offers | undefined;
  #chosen = 0;
  #fault: TypedFault | undefined;
  /** The formula that was found fault with: entered a second time it is taken as it is. */
  #told: string | undefined;

  constructor(desk: Desk) {
    this.#desk = desk;
    this.#element.className = 'hint';
    this.#element.hidden = true;
    this.#element.setAttribute('role', 'status');
    document.body.append(this.#element);
  }

  listen(): void {
    const follow = (event: Event): void => this.#follow(event.target);
    document.addEventListener('input', follow);
    document.addEventListener('click', follow);
    document.addEventListener('keyup', (event) => {
      if (event.key.startsWith('Arrow') || event.key === 'Home' || event.key === 'End') {
        if ((this.#offers?.list.length ?? 0) === 0 && this.#fault === undefined) follow(event);
      }
    });
    document.addEventListener('focusout', () => this.#hide());
    window.addEventListener('keydown', (event) => this.#onKey(event), { capture: true });
  }

  #follow(target: EventTarget | null): void {
    const field = contentField(target);
    if (field === undefined) {
      if (!(target instanceof Node && this.#element.contains(target))) this.#hide();
      return;
    }
    this.#field = field;
    this.#fault = undefined;
    this.#offers = isFormula(field.value)
      ? offersFor(field.value, field.selectionStart ?? field.value.length, offerableIn(this.#desk))
      : undefined;
    this.#chosen = 0;
    this.#draw();
  }

  #onKey(event: KeyboardEvent): void {
    const field = contentField(event.target);
    if (field === undefined || typedPlace(this.#desk, field) === undefined) return;
    if (this.#handled(event, field)) {
      event.preventDefault();
      event.stopImmediatePropagation();
    } else if (event.key === 'Escape' || event.key === 'Enter') this.#hide();
  }

  /** Whether a key meant something here that nobody else is to hear of. */
  #handled(event: KeyboardEvent, field: TypingField): boolean {
    const { key } = event;
    const plain = !event.ctrlKey && !event.altKey && !event.metaKey;
    if (key === 'Enter' && event.altKey && field.id === 'formula') {
      replaceText(field, '\n', field.selectionStart ?? 0, field.selectionEnd ?? 0);
      return true;
    }
    if (!isFormula(field.value)) return false;
    if (key === 'F4') return this.#turn(field);
    const { list = [] } = this.#offers ?? {};
    if (plain && list.length > 0) {
      if (key === 'Tab' && !event.shiftKey) return this.#complete(list[this.#chosen]);
      if (key === 'ArrowDown') return this.#move(1);
      if (key === 'ArrowUp') return this.#move(-1);
    }
    if (plain && key === 'Tab' && this.#fault?.fix !== undefined) return this.#take(this.#fault.fix);
    return (key === 'Enter' || key === 'Tab') && !event.altKey && this.#findsFault(field);
  }

  #turn(field: TypingField): boolean {
    const turned = turnedReference(field.value, field.selectionStart ?? 0);
    if (turned === undefined) return true;
    field.value = turned.text;
    field.setSelectionRange(turned.end, turned.end);
    field.dispatchEvent(new Event('input', { bubbles: true }));
    return true;
  }

  #findsFault(field: TypingField): boolean {
    const place = typedPlace(this.#desk, field);
    if (place === undefined || this.#told === field.value) return false;
    this.#field = field;
    this.#fault = typedFault(field.value, place, this.#desk.book.state, knownNames(this.#desk));
    if (this.#fault === undefined) return false;
    this.#told = field.value;
    this.#offers = undefined;
    this.#draw();
    return true;
  }

  /** Puts the formula as it was probably meant into the field, still to be entered. */
  #take(fix: string): boolean {
    const field = this.#field;
    if (field !== undefined) replaceText(field, fix, 0, field.value.length);
    return true;
  }

  #move(step: number): boolean {
    const { length } = this.#offers?.list ?? [];
    this.#chosen = (this.#chosen + step + length) % length;
    this.#draw();
    return true;
  }

  #complete(offer: Offer | undefined): boolean {
    const [field, offers] = [this.#field, this.#offers];
    if (field === undefined || offers === undefined || offer === undefined) return false;
    const caret = field.selectionStart ?? field.value.length;
    replaceText(field, offer.text, caret - offers.begun, caret);
    return true;
  }

  #hide(): void {
    this.#offers = undefined;
    this.#fault = undefined;
    this.#element.hidden = true;
  }

  #faulty({ says, fix }: TypedFault): TemplateResult {
    return html`
      <div class="hint-fault" role="alert">${says}</div>
      ${
        fix === undefined
          ? html`<div class="hint-doc">Enter keeps it as it is, Escape leaves the cell as it was.</div>`
          : html`<button tabindex="-1" class="hint-fix" @mousedown=${(event: Event) => {
              event.preventDefault();
              this.#take(fix);
            }}>Change to <code>${fix}</code></button>
            <div class="hint-doc">Tab changes it, Enter keeps it as it is.</div>`
      }
    `;
  }

  #draw(): void {
    const { list = [], call } = this.#offers ?? {};
    const field = this.#field;
    if (field === undefined || (this.#offers === undefined && this.#fault === undefined)) {
      this.#hide();
      return;
    }
    render(
      html`
        ${this.#fault === undefined ? nothing : this.#faulty(this.#fault)}
        ${list.map(
          (offer, index) =>
            html`<button tabindex="-1" class="hint-name ${index === this.#chosen ? 'hint-chosen' : ''}" @mousedown=${(
              event: Event,
            ) => {
              event.preventDefault();
              this.#complete(offer);
            }}><code>${offer.text.replace(/[(!]$/, '')}</code><span>${offer.does}</span></button>`,
        )}
        ${list.length > 0 ? html`<div class="hint-doc">Tab completes</div>` : nothing}
        ${list.length === 0 && call !== undefined ? signature(call) : nothing}
      `,
      this.#element,
    );
    this.#element.hidden = false;
    this.#place(field);
  }

  #place(field: TypingField): void {
    const place = field.getBoundingClientRect();
    const { offsetHeight, offsetWidth } = this.#element;
    const below = place.bottom + 4 + offsetHeight < window.innerHeight;
    this.#element.style.left = `${Math.max(4, Math.min(place.left, window.innerWidth - offsetWidth - 8))}px`;
    this.#element.style.top = `${below ? place.bottom + 4 : place.top - offsetHeight - 4}px`;
  }
}
