import { html, nothing, type TemplateResult } from 'lit-html';
import { namedUnits, type OwnName, ownNameAt, usesOfName, withoutOwnName } from '../../workbook/own-names.ts';
import { counted } from '../../units/phrases.ts';
import { contentText } from '../cell-text.ts';
import type { Desk, Dialog } from '../desk.ts';
import { changeAll } from '../book-changes.ts';
import { putOwnName } from '../own-name.ts';
import { dialog } from './dialog.ts';
import { fieldText } from './form-fields.ts';

/** A named value of the user's own: what formulas call it, its value, unit, meaning and source. */

type Asked = Extract<Dialog, { readonly kind: 'own-name' }>;

const nothingYet: OwnName = { name: '', value: null, unit: '', meaning: '', source: '' };

export function ownNameDialog(desk: Desk, asked: Asked): TemplateResult {
  const { book } = desk;
  const { record, why } = asked;
  const found = record === undefined ? undefined : ownNameAt(book.state, desk.sheet, record);
  const present = found ?? nothingYet;
  const uses = found === undefined ? 0 : usesOfName(book.state, found.name);
  const kind =
    found === undefined || record === undefined ? 'number' : book.kind({ sheet: desk.sheet, record, column: 1 });
  const answer = (event: SubmitEvent): void => {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const [name, value, unit, meaning, source] = ['name', 'value', 'unit', 'meaning', 'source'].map((field) =>
      fieldText(form, field),
    );
    const typed = { name: name ?? '', unit: unit ?? '', meaning: meaning ?? '', source: source ?? '' };
    const refusal = putOwnName(desk, found === undefined ? undefined : record, typed, value ?? '');
    if (refusal === undefined) desk.close();
    else desk.open({ ...asked, why: refusal });
  };
  const remove = (): void => {
    if (record !== undefined)
      changeAll(desk, 'remove named value', () =>
        book.replace(withoutOwnName(book.state, record), 'remove named value'),
      );
    desk.close();
  };
  return dialog(
    desk,
    found === undefined ? 'A named value of your own' : `Named value ${found.name}`,
    'ask-dialog own-dialog',
    html`
    <form class="dialog-body" @submit=${answer}>
      <label>Name, as formulas call it<input name="name" value=${present.name} autocomplete="off" spellcheck="false"
        autofocus /></label>
      <div class="own-row"><label>Value<input name="value" value=${contentText(present.value, kind)}
          autocomplete="off" /></label>
        <label>Unit<input name="unit" list="named-units" value=${present.unit} autocomplete="off" />
          <datalist id="named-units">${namedUnits(book.units).map(
            ({ unit }) => html`<option value=${unit}></option>`,
          )}</datalist></label></div>
      <p class="soft">A unit of the list turns with the book's units; any other stays as it is.</p>
      <label>Meaning<input name="meaning" value=${present.meaning} autocomplete="off" /></label>
      <label>Source<input name="source" value=${present.source} autocomplete="off" /></label>
      ${
        uses === 0
          ? nothing
          : html`<p class="soft">${counted(uses, 'formula')} use it, and follow when it is renamed.</p>`
      }
      ${why === undefined ? nothing : html`<p class="why" role="alert">${why}</p>`}
      <div class="dialog-foot">${
        found === undefined
          ? nothing
          : html`<button type="button" class="button own-remove" @click=${remove}
              title=${uses === 0 ? '' : `${counted(uses, 'formula')} will say #NAME?`}>Remove named value</button>`
      }<button type="button" class="button" @click=${() => desk.close()}>Cancel</button><button
        class="button primary">OK</button></div>
    </form>
  `,
  );
}
