import { html, nothing, type TemplateResult } from 'lit-html';
import { ref } from 'lit-html/directives/ref.js';
import { act, actionName, isPossible } from '../actions/action.ts';
import { action, type ActionName } from '../actions/index.ts';
import type { Desk } from '../desk.ts';

/** A menu of actions that opens below its button. */

/** Puts the focus on the next or previous item that can be chosen. */
function move(host: HTMLElement, step: 1 | -1): void {
  const list = [...host.querySelectorAll<HTMLElement>('[role^=menuitem]:not(:disabled)')];
  const at = list.indexOf(document.activeElement as HTMLElement);
  const next = at < 0 && step < 0 ? list.length - 1 : at + step;
  list[(next + list.length) % list.length]?.focus();
}

function openMenu(desk: Desk, name: string | undefined): void {
  desk.menu = name;
  desk.changed();
}

function onKey(desk: Desk, event: KeyboardEvent, name: string): void {
  const button = (event.currentTarget as HTMLElement).querySelector<HTMLElement>('.menu-button');
  if (event.key === 'Escape' && desk.menu === name) {
    openMenu(desk, undefined);
    button?.focus();
  } else if (event.key === 'Tab') openMenu(desk, undefined);
  else if (event.key === 'ArrowDown' || event.key === 'ArrowUp') {
    event.preventDefault();
    const host = event.currentTarget as HTMLElement;
    const step = event.key === 'ArrowDown' ? 1 : -1;
    if (desk.menu === name) move(host, step);
    else {
      openMenu(desk, name);
      // The items stand in the page after its next drawing; by then the menu may have been closed again.
      requestAnimationFrame(() =>
        requestAnimationFrame(() => {
          if (desk.menu === name) move(host, step);
        }),
      );
    }
  }
}

/** A list that is longer than what the window has below its button scrolls. */
function fitInWindow(element: Element | undefined): void {
  if (!(element instanceof HTMLElement) || element.hidden) return;
  // Where it stands is known once it is drawn.
  requestAnimationFrame(() => {
    element.style.maxHeight = `${Math.max(120, window.innerHeight - element.getBoundingClientRect().top - 8)}px`;
  });
}

/** An item that is no action of the page: one of the book's own. */
export interface MenuEntry {
  readonly name: string;
  readonly doc: string;
  readonly role: 'menuitemradio' | 'menuitemcheckbox';
  readonly chosen: boolean;
  readonly run: () => void;
}

export function menu(
  desk: Desk,
  name: string,
  groups: readonly (readonly ActionName[])[],
  further: readonly (readonly MenuEntry[])[] = [],
  side: 'left' | 'right' = 'right',
): TemplateResult {
  const open = desk.menu === name;
  const leave = (event: FocusEvent): void => {
    const host = event.currentTarget as HTMLElement;
    if (open && !(event.relatedTarget instanceof Node && host.contains(event.relatedTarget))) openMenu(desk, undefined);
  };
  const choose = (id: ActionName): void => {
    openMenu(desk, undefined);
    desk.grid?.focus();
    act(action(id), desk);
  };
  const item = (id: ActionName): TemplateResult => {
    const entry = action(id);
    const chosen = entry.chosen?.(desk);
    return html`<button
      role=${chosen === undefined ? 'menuitem' : 'menuitemradio'} aria-checked=${chosen ?? nothing} tabindex="-1"
        title=${entry.doc}
      ?disabled=${!isPossible(entry, desk) && chosen !== true} @click=${() => choose(id)}
    ><span class="tick"
      aria-hidden="true">${chosen === true ? '✓' : ''}</span><span>${actionName(entry, desk)}</span><kbd>${
        entry.key ?? ''
      }</kbd></button>`;
  };
  const own = (entry: MenuEntry): TemplateResult => html`<button role=${entry.role} aria-checked=${entry.chosen}
    tabindex="-1" title=${entry.doc} @click=${() => {
      openMenu(desk, undefined);
      desk.grid?.focus();
      entry.run();
    }}><span class="tick"
      aria-hidden="true">${entry.chosen ? '✓' : ''}</span><span>${entry.name}</span><kbd></kbd></button>`;
  // What is possible is asked when the menu is open, and not at every drawing: of a whole sheet it takes its time.
  const lists = (): readonly (readonly TemplateResult[])[] => [
    ...groups.map((group) => group.map(item)),
    ...further.filter((group) => group.length > 0).map((group) => group.map(own)),
  ];
  return html`
    <div class="menu" @keydown=${(event: KeyboardEvent) => onKey(desk, event, name)} @focusout=${leave}>
      <button class="button menu-button" aria-haspopup="menu" aria-expanded=${open}
        @click=${() => openMenu(desk, open ? undefined : name)}>${name} <span class="arrow">▾</span></button>
      <div class="menu-list menu-${side}" role="menu" aria-label=${name} ?hidden=${!open}
        ${ref((element) => fitInWindow(element))}>
        ${open ? lists().map((list) => html`<div class="menu-group" role="group">${list}</div>`) : nothing}
      </div>
    </div>
  `;
}
