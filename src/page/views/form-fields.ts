import { html, type TemplateResult } from 'lit-html';
import { mostDigits } from '../../workbook/own-columns.ts';
import type { Desk } from '../desk.ts';
import { chosenKind, kindChoices } from '../kind-words.ts';
import type { CellFormat } from '../../workbook/state.ts';

/** Fields that dialogs about the user's own columns, cells and names share. */

export function kindField({ book }: Desk, present: CellFormat): TemplateResult {
  const chosen = chosenKind(present);
  const choices = kindChoices(book.units);
  // A list may have brought a kind that is not offered: it stays until another is chosen.
  const all = choices.some(({ value }) => value === chosen) ? choices : [...choices, { value: chosen, says: chosen }];
  return html`<label>Holds
    <select name="kind">${all.map(
      ({ value, says }) => html`<option value=${value} ?selected=${chosen === value}>${says}</option>`,
    )}</select></label>`;
}

export const digitsField = ({ digits }: { readonly digits?: number }): TemplateResult => html`<label>Decimals
  <select name="digits"><option value="" ?selected=${digits === undefined}>as entered</option>${Array.from(
    { length: mostDigits + 1 },
    (_, count) => html`<option value=${count} ?selected=${digits === count}>${count}</option>`,
  )}</select></label>`;

/** The text of a form's field, without blanks around it. */
export const fieldText = (form: HTMLFormElement, name: string): string => {
  const value = new FormData(form).get(name);
  return typeof value === 'string' ? value.trim() : '';
};

export const fieldDigits = (form: HTMLFormElement): { readonly digits?: number } => {
  const text = fieldText(form, 'digits');
  return text === '' ? {} : { digits: Number(text) };
};
