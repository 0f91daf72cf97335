import { html, nothing, render, type TemplateResult } from 'lit-html';
import type { EngineeringFunction } from '../formula/define.ts';
import { parameterAt } from '../formula/parameter.ts';
import { functions } from '../functions/index.ts';

/**
 * Help while a formula is typed, in the formula bar and in cells: names that complete what is typed, and the arguments
 * of the call that the caret stands in.
 */
const mostNames = 8;

type Field = HTMLTextAreaElement | HTMLInputElement;

const byName = new Map(functions.map((definition) => [definition.name, definition]));

/** The word before the caret that could become a function's name; undefined inside quotes. */
function begunName(before: string): string | undefined {
  if ((before.match(/"/g)?.length ?? 0) % 2 === 1) return undefined;
  return /(?:^|[=(,;+\-*/^&<>:{ ])([A-Za-z]{2,})$/.exec(before)?.[1];
}

/**
 * The innermost open call before the caret, and which of its arguments the caret is in. For tests: half a formula is
 * read.
 */
export function openCall(before: string): { readonly name: string; readonly argument: number } | undefined {
  const open: { name: string; argument: number }[] = [];
  const pieces =
    before.match(/"(?:[^"]|"")*"?|'(?:[^']|'')*'?|[A-Za-z_][\w.]*\s*\(|[(),;]|[^"'A-Za-z_(),;]+|[A-Za-z_][\w.]*/g) ??
    [];
  for (const piece of pieces) {
    const last = open.at(-1);
    if (piece.endsWith('(') && !piece.startsWith('"'))
      open.push({ name: piece.slice(0, -1).trim().toUpperCase(), argument: 0 });
    else if (piece === ')') open.pop();
    else if ((piece === ',' || piece === ';') && last !== undefined) last.argument += 1;
  }
  return open.at(-1);
}

interface Hint {
  readonly names: readonly EngineeringFunction[];
  readonly begun: string;
  readonly call: { readonly definition: EngineeringFunction; readonly argument: number } | undefined;
}

/** For tests: hints are compared. */
export function hintFor(text: string, caret: number): Hint | undefined {
  if (!text.startsWith('=')) return undefined;
  const before = text.slice(0, caret);
  const begun = begunName(before) ?? '';
  const names =
    begun === ''
      ? []
      : functions
          .filter(({ name }) => name.startsWith(begun.toUpperCase()) && name !== begun.toUpperCase())
          .slice(0, mostNames);
  const open = openCall(before);
  const definition = open === undefined ? undefined : byName.get(open.name);
  if (names.length === 0 && definition === undefined) return undefined;
  return {
    names,
    begun,
    call: definition === undefined || open === undefined ? undefined : { definition, argument: open.argument },
  };
}

function signature({ name, parameters }: EngineeringFunction, argument: number): TemplateResult {
  const [named, current] = parameterAt(parameters, argument) ?? [];
  return html`
    <div class="hint-call"><code>${name}(${Object.entries(parameters).map(
      ([key, { rest }], index) =>
        html`${index > 0 ? ', ' : ''}${key === named ? html`<b>${key}</b>` : key}${rest === true ? ', …' : ''}`,
    )})</code></div>
    ${current === undefined ? nothing : html`<div class="hint-doc">${current.doc}</div>`}
  `;
}

export class FormulaHint {
  readonly #element = document.createElement('div');
  #field: Field | undefined;
  #hint: Hint | undefined;
  #chosen = 0;

  constructor() {
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
        if (this.#hint === undefined || this.#hint.names.length === 0) follow(event);
      }
    });
    document.addEventListener('focusout', () => this.#hide());
    window.addEventListener('keydown', (event) => this.#onKey(event), { capture: true });
  }

  #follow(target: EventTarget | null): void {
    if (
      !(target instanceof HTMLTextAreaElement || target instanceof HTMLInputElement) ||
      (target.id !== 'formula' && !target.classList.contains('handsontableInput'))
    ) {
      this.#hide();
      return;
    }
    this.#field = target;
    this.#hint = hintFor(target.value, target.selectionStart ?? target.value.length);
    this.#chosen = 0;
    this.#draw();
  }

  #onKey(event: KeyboardEvent): void {
    if (this.#hint === undefined) return;
    const { names } = this.#hint;
    if (event.key === 'Escape' || event.key === 'Enter') {
      this.#hide();
      return;
    }
    if (names.length === 0 || event.ctrlKey || event.altKey || event.metaKey) return;
    if (event.key === 'Tab' && !event.shiftKey) this.#complete(names[this.#chosen]);
    else if (event.key === 'ArrowDown') this.#move(1);
    else if (event.key === 'ArrowUp') this.#move(-1);
    else return;
    event.preventDefault();
    event.stopImmediatePropagation();
  }

  #move(step: number): void {
    const { length } = this.#hint?.names ?? [];
    this.#chosen = (this.#chosen + step + length) % length;
    this.#draw();
  }

  #complete(definition: EngineeringFunction | undefined): void {
    const field = this.#field;
    const hint = this.#hint;
    if (field === undefined || hint === undefined || definition === undefined) return;
    const caret = field.selectionStart ?? field.value.length;
    field.setRangeText(`${definition.name}(`, caret - hint.begun.length, caret, 'end');
    field.dispatchEvent(new Event('input', { bubbles: true }));
  }

  #hide(): void {
    this.#hint = undefined;
    this.#element.hidden = true;
  }

  #draw(): void {
    const hint = this.#hint;
    const field = this.#field;
    if (hint === undefined || field === undefined) {
      this.#hide();
      return;
    }
    render(
      html`
        ${hint.names.map(
          (definition, index) =>
            html`<button tabindex="-1" class="hint-name ${index === this.#chosen ? 'hint-chosen' : ''}" @mousedown=${(
              event: Event,
            ) => {
              event.preventDefault();
              this.#complete(definition);
            }}><code>${definition.name}</code><span>${definition.summary}</span></button>`,
        )}
        ${hint.names.length > 0 ? html`<div class="hint-doc">Tab completes</div>` : nothing}
        ${
          hint.names.length === 0 && hint.call !== undefined
            ? signature(hint.call.definition, hint.call.argument)
            : nothing
        }
      `,
      this.#element,
    );
    this.#element.hidden = false;
    const place = field.getBoundingClientRect();
    const { offsetHeight, offsetWidth } = this.#element;
    const below = place.bottom + 4 + offsetHeight < window.innerHeight;
    this.#element.style.left = `${Math.max(4, Math.min(place.left, window.innerWidth - offsetWidth - 8))}px`;
    this.#element.style.top = `${below ? place.bottom + 4 : place.top - offsetHeight - 4}px`;
  }
}
