import { html, nothing, type TemplateResult } from 'lit-html';
import type { Desk, Dialog } from '../desk.ts';
import { dialog } from './dialog.ts';

/** One question with a line for the answer. */

export function askDialog(desk: Desk, asked: Extract<Dialog, { readonly kind: 'ask' }>): TemplateResult {
  const { why } = asked;
  const answer = (event: SubmitEvent): void => {
    event.preventDefault();
    const text = (event.currentTarget as HTMLFormElement).querySelector('input')?.value ?? '';
    const refusal = asked.answer(text);
    if (refusal === undefined) {
      if (desk.dialog === asked) desk.close();
    } else {
      desk.open({ ...asked, why: refusal });
    }
  };
  return dialog(
    desk,
    asked.title,
    'ask-dialog',
    html`
    <form class="dialog-body" @submit=${answer}>
      <label>${asked.label}<input value=${asked.initial} autocomplete="off" aria-invalid=${why !== undefined}
        autofocus /></label>
      ${why === undefined ? nothing : html`<p class="why" role="alert">${why}</p>`}
      <div class="dialog-foot"><button type="button" class="button"
        @click=${() => desk.close()}>Cancel</button><button class="button primary">OK</button></div>
    </form>
  `,
  );
}
