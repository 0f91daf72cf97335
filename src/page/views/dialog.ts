import { html, type TemplateResult } from 'lit-html';
import { keyed } from 'lit-html/directives/keyed.js';
import { ref } from 'lit-html/directives/ref.js';
import type { Desk } from '../desk.ts';

/** A modal dialog over the page: the browser keeps the focus in it, Escape closes it. */
export function dialog(desk: Desk, title: string, className: string, content: TemplateResult): TemplateResult {
  const opened = (element: Element | undefined): void => {
    if (!(element instanceof HTMLDialogElement)) return;
    // The element is handed over before it stands in the page.
    queueMicrotask(() => {
      if (element.isConnected && !element.open) element.showModal();
    });
  };
  const element = html`
    <dialog class="dialog ${className}" aria-label=${title} ${ref(opened)} @cancel=${(event: Event) => {
      event.preventDefault();
      desk.close();
    }}>
      <div class="dialog-head"><h2>${title}</h2><button class="small quiet" aria-label="Close"
        @click=${() => desk.close()}>✕</button></div>
      ${content}
    </dialog>
  `;
  // One dialog that gives way to another is another element, or the focus would not go into it.
  return html`${keyed(className, element)}`;
}
